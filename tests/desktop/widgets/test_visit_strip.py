"""The strip of a visit."""

from pytestqt.qtbot import QtBot

from honeyledger.desktop.widgets.visit_strip import VisitStrip


def test_it_says_what_is_hidden_and_how_it_ends(qtbot: QtBot) -> None:
    strip = VisitStrip()
    qtbot.addWidget(strip)
    strip.resize(1280, strip.height())
    strip.show()
    ended: list[int] = []
    strip.ended.connect(lambda: ended.append(1))
    strip.end.click()
    assert ended == [1]
    assert strip.accessibleName() == "Visit: read only; customers and coordinates are hidden."
    assert not strip.end.is_cut()
    assert not strip.grab().isNull()
