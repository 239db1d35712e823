"""The scale of jars weighed: dots where they belong, short ones apart."""

from PySide6.QtGui import QColor, QImage
from pytestqt.qtbot import QtBot

from honeyledger.assets import resource
from honeyledger.desktop import look
from honeyledger.desktop.stations.bottling.net_view import NetStrip, tr
from honeyledger.domain.net_contents import checked
from honeyledger.exchange.net_contents import usual_net_rule

FOLDER = resource("net_contents")


def _drawn(qtbot: QtBot, *weights: int) -> QImage:
    strip = NetStrip()
    qtbot.addWidget(strip)
    strip.resize(464, strip.height())
    strip.show_check(checked(usual_net_rule(FOLDER, ""), 500, weights), weights, "what they say")
    assert strip.accessibleName() == "what they say"
    return strip.grab().toImage()


def _columns(image: QImage, colour: QColor) -> list[int]:
    """The columns between the axis and the words above in which a colour is seen."""
    return [
        x
        for x in range(image.width())
        if any(image.pixelColor(x, y) == colour for y in range(40, 64))
    ]


def test_each_jar_is_a_dot_on_the_scale(qtbot: QtBot) -> None:
    dot = look.colour(look.theme().series[0].colour)
    assert _columns(_drawn(qtbot), dot) == []
    low = _columns(_drawn(qtbot, 495_000), dot)
    high = _columns(_drawn(qtbot, 505_000), dot)
    assert low
    assert max(low) < 232 < min(high), "the declared net stands in the middle"


def test_a_short_jar_is_drawn_apart(qtbot: QtBot) -> None:
    dot = look.colour(look.theme().series[0].colour)
    image = _drawn(qtbot, 484_000)
    assert _columns(image, dot) == []
    short, none = (_columns(one, look.colour("alert")) for one in (image, _drawn(qtbot)))
    assert len(short) > len(none)


def test_a_weight_off_the_scale_widens_it(qtbot: QtBot) -> None:
    dot = look.colour(look.theme().series[0].colour)
    columns = _columns(_drawn(qtbot, 700_000, 300_000), dot)
    assert max(columns) < 464
    assert max(columns) > 400


def test_nothing_is_drawn_before_there_is_a_bottling(qtbot: QtBot) -> None:
    strip = NetStrip()
    qtbot.addWidget(strip)
    strip.show_check(None, (), "")
    strip.grab()
    assert strip.sizeHint().height() == strip.height()
    assert tr("short") == "short"


def test_a_rule_without_far_short_has_no_line_for_it(qtbot: QtBot) -> None:
    strip = NetStrip()
    qtbot.addWidget(strip)
    strip.resize(464, strip.height())
    strip.show_check(checked(usual_net_rule(FOLDER, "us"), 454, [455_000]), (455_000,), "words")
    image = strip.grab().toImage()
    alert = _columns(image, look.colour("alert"))
    assert max(alert) - min(alert) < 4
