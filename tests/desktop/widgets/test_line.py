"""The line is the navigation: by mouse, by key, and for who cannot see it."""

import pytest
from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtGui import QHoverEvent
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from honeyledger.desktop import look
from honeyledger.desktop.models.line_figures import Flow, LineFigures
from honeyledger.desktop.widgets.line import MORE, SCAN, TOOLS, LineBar
from tests.desktop.gallery import line_figures


@pytest.fixture
def line(qtbot: QtBot) -> LineBar:
    made = LineBar()
    qtbot.addWidget(made)
    made.show_figures(line_figures())
    made.resize(1280, 88)
    with qtbot.waitExposed(made):
        made.show()
    made.activateWindow()
    return made


def test_a_press_on_a_place_asks_for_its_station(qtbot: QtBot, line: LineBar) -> None:
    asked: list[str] = []
    line.pressed.connect(asked.append)
    for key in ("drums", "trace"):
        qtbot.mouseClick(line.spot(key), Qt.MouseButton.LeftButton)
    assert asked == ["drums", "trace"]


def test_tab_comes_to_the_open_place_and_arrows_go_on(qtbot: QtBot, line: LineBar) -> None:
    line.open_place("dock")
    stops = [spot.key for spot in line.spots() if spot.focusPolicy() & Qt.FocusPolicy.TabFocus]
    assert stops == ["dock"]
    line.spot("dock").setFocus()
    qtbot.waitUntil(line.spot("dock").hasFocus)
    qtbot.keyClick(line.spot("dock"), Qt.Key.Key_Right)
    assert line.spot("hot_room").hasFocus()
    asked: list[str] = []
    line.pressed.connect(asked.append)
    qtbot.keyClick(line.spot("hot_room"), Qt.Key.Key_Return)
    assert asked == ["hot_room"]
    qtbot.keyClick(line.spot("hot_room"), Qt.Key.Key_Left)
    qtbot.keyClick(line.spot("dock"), Qt.Key.Key_Left)
    qtbot.keyClick(line.spot("yards"), Qt.Key.Key_Left)
    assert line.spot("setup").hasFocus(), "the arrows go round"
    assert line.grab().toImage() != line.spot("yards").grab().toImage()


def test_each_place_is_named_in_full_for_a_screen_reader(line: LineBar) -> None:
    assert line.spot("drums").accessibleName() == (
        "Drums, 41 300 kilograms, 3 on hold, 1 805 kilograms from Extraction today"
    )
    assert [line.spot(key).accessibleName() for key in TOOLS] == ["Trace", "Season", "Setup"]
    assert line.names()["hot_room"] == "Hot room"
    assert line.names()["trace"] == "Trace"
    assert line.tool_names() == ("Trace", "Season", "Setup")


def test_a_narrow_line_has_the_scan_box_and_more_at_its_ends(line: LineBar) -> None:
    line.resize(731, 88)
    QApplication.processEvents()
    keys = [spot.key for spot in line.spots()]
    assert keys[0] == SCAN
    assert keys[-1] == MORE
    assert len(keys) == 9
    assert line.height() == 56
    assert min(min(spot.width(), spot.height()) for spot in line.spots()) >= 40
    line.grab()
    line.resize(1280, 88)
    QApplication.processEvents()
    assert not line.spot(SCAN).isVisible()
    assert line.height() == 88


def test_flows_ease_from_what_they_were_unless_motion_is_stilled(
    qtbot: QtBot, line: LineBar
) -> None:
    line.resize(1280, 88)
    before = line.grab().toImage()
    figures = line_figures()
    flows = tuple(Flow(one.amount_kg, one.pfund_mm) for one in reversed(figures.flows))
    less = LineFigures(figures.places, flows)
    look.change(moving=True)
    line.show_figures(less)
    first = line.grab().toImage()
    qtbot.waitUntil(lambda: line.grab().toImage() != first, timeout=2000)
    look.change(moving=False)
    line.show_figures(figures)
    qtbot.waitUntil(lambda: line.grab().toImage() == before, timeout=2000)


def test_the_open_station_is_known(line: LineBar) -> None:
    line.open_place("trace")
    assert line.opened() == "trace"
    geometry = line.geometry_now()
    assert geometry is not None
    assert geometry.width == 1280


def test_a_mouse_that_moves_over_a_place_paints_it_when_it_comes_and_goes(
    qtbot: QtBot, line: LineBar, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[str] = []
    spot = line.spots()[0]
    monkeypatch.setattr(line, "update", lambda: asked.append("update"))
    near, far = QPointF(4, 4), QPointF(-1, -1)
    for kind, at, before in (
        (QEvent.Type.HoverEnter, near, far),
        (QEvent.Type.HoverMove, near, near),
        (QEvent.Type.HoverMove, near, near),
        (QEvent.Type.HoverLeave, far, near),
    ):
        QApplication.sendEvent(spot, QHoverEvent(kind, at, at, before))
    assert asked == ["update", "update"]
