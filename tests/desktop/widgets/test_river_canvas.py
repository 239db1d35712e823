"""The river by mouse and by key: pressed, pointed at, walked, told."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QAccessible
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.river_fold import FOLD
from honeyledger.desktop.widgets.river import River
from tests.desktop.gallery_trace import graph
from tests.desktop.widgets.test_river import many, middle

LEFT, NONE = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier


@pytest.fixture
def river(qtbot: QtBot) -> River:
    made = River()
    qtbot.addWidget(made)
    made.resize(1392, 300)
    made.show_graph(graph())
    with qtbot.waitExposed(made):
        made.show()
    made.activateWindow()
    return made


def test_a_click_chooses_a_lot_and_opens_its_card(qtbot: QtBot, river: River) -> None:
    opened: list[str] = []
    chosen: list[str] = []
    river.opened.connect(opened.append)
    river.selected.connect(chosen.append)
    at = middle(river, "T26-0101-S")
    qtbot.mouseClick(river.canvas, Qt.MouseButton.LeftButton, pos=at)
    assert opened == chosen == ["T26-0101-S"]
    assert river.canvas.selected_key() == "T26-0101-S"


def test_a_thread_is_still_a_target_of_forty(river: River) -> None:
    at = middle(river, "S26-0417-5")
    found = river.canvas.spine_at(at.x(), at.y() + 15)
    assert found is not None
    assert found.node.key == "S26-0417-5"
    assert river.canvas.spine_at(600, 5) is None


def test_arrows_walk_along_the_widest_ribbon_and_within_the_column(
    qtbot: QtBot, river: River
) -> None:
    river.select("Y09")
    river.canvas.setFocus()
    qtbot.waitUntil(river.canvas.hasFocus)
    assert river.canvas.current_key() == "Y09", "the chosen lot takes the keyboard"
    for key in (Qt.Key.Key_Right, Qt.Key.Key_Right, Qt.Key.Key_Right, Qt.Key.Key_Right):
        qtbot.keyClick(river.canvas, key)
    assert river.canvas.current_key() == "J26-0147"
    qtbot.keyClick(river.canvas, Qt.Key.Key_Right)
    assert river.canvas.current_key() == "J26-0147", "there is nothing further"
    qtbot.keyClick(river.canvas, Qt.Key.Key_Left)
    assert river.canvas.current_key() == "D26-0657-6"
    qtbot.keyClick(river.canvas, Qt.Key.Key_Down)
    assert river.canvas.current_key() in ("D26-0641-M", "D26-0642-K")
    qtbot.keyClick(river.canvas, Qt.Key.Key_Up)
    assert river.canvas.current_key() == "D26-0657-6"
    assert river.canvas.accessibleName().startswith("Drums: D26-0657-6, 212.8 kg, 66.5 %")


def test_enter_centres_and_space_opens(qtbot: QtBot, river: River) -> None:
    centred: list[str] = []
    opened: list[str] = []
    river.centred.connect(centred.append)
    river.opened.connect(opened.append)
    river.select("Y14")
    river.canvas.setFocus()
    qtbot.waitUntil(river.canvas.hasFocus)
    qtbot.keyClick(river.canvas, Qt.Key.Key_Return)
    qtbot.keyClick(river.canvas, Qt.Key.Key_Space)
    assert centred == ["Y14"]
    assert opened == ["Y14"]


def test_what_is_pointed_at_lights_its_ancestors_and_descendants(
    qtbot: QtBot, river: River
) -> None:
    river.canvas.clearFocus()
    assert river.canvas.shown().lit == frozenset()
    river.canvas.setFocus()
    qtbot.waitUntil(river.canvas.hasFocus)
    assert river.canvas.shown().lit == frozenset(), "only walking fades the rest"
    river.canvas.setFocus(Qt.FocusReason.TabFocusReason)
    qtbot.keyClick(river.canvas, Qt.Key.Key_Down)
    assert river.canvas.shown().lit
    qtbot.mouseMove(river.canvas, middle(river, "S26-0418-3"))
    shown = river.canvas.shown()
    assert shown.pointed == "S26-0418-3"
    assert set(shown.lit) == {
        "Y22", "S26-0418-3", "T26-0098-L", "D26-0641-M", "D26-0642-K", "J26-0147",
    }  # fmt: skip


def test_everything_is_told_to_who_cannot_see_it(river: River) -> None:
    lines = river.canvas.accessibleDescription().splitlines()
    assert len(lines) == len(graph().nodes)


def test_a_head_that_is_cut_says_the_whole_in_its_tip(river: River) -> None:
    laid = river.canvas.laid()
    assert laid is not None
    geometry, shown = laid.geometry, laid.graph
    for left, column in zip(geometry.columns, shown.columns, strict=True):
        assert river.canvas.tip_at(QPoint(int(left) + 20, 30)) == "\n".join(
            part for part in (column.title, column.dates) if part
        )
    assert river.canvas.tip_at(middle(river, "T26-0101-S")).startswith("T26-0101-S")
    assert River().canvas.tip_at(QPoint(20, 30)) == ""


def test_home_and_end_go_to_the_largest_of_the_first_and_the_last_column(
    qtbot: QtBot, river: River
) -> None:
    river.canvas.setFocus()
    for key, at in ((Qt.Key.Key_End, "J26-0147"), (Qt.Key.Key_Home, "Y09")):
        qtbot.keyClick(river.canvas, key)
        assert river.canvas.current_key() == at


def test_the_lot_that_has_the_keyboard_is_what_a_screen_reader_reads(
    qtbot: QtBot, river: River
) -> None:
    river.canvas.setFocus()
    qtbot.keyClick(river.canvas, Qt.Key.Key_Home)
    qtbot.keyClick(river.canvas, Qt.Key.Key_Right)
    read = QAccessible.queryAccessibleInterface(river.canvas)
    assert read.text(QAccessible.Text.Name) == (
        "Pulls: S26-0423-9, 104.0 kg, 32.5 %. From Tamarack Rise. Into T26-0101-S."
    )
    assert "Jars: J26-0147" in read.text(QAccessible.Text.Description)


def test_water_is_pulled_and_lets_go(qtbot: QtBot, river: River) -> None:
    river.set_zoom(3.0)
    across, along = river.horizontalScrollBar(), river.verticalScrollBar()
    before = across.value(), along.value()
    canvas = river.canvas
    free = QPoint(before[0] + 700, int(canvas.height()) - 200)
    canvas_at = QPoint(before[0] + 640, before[1] + 150)
    spine = canvas.spine_at(canvas_at.x(), canvas_at.y())
    start = free if spine is not None else canvas_at
    QTest.mousePress(canvas, LEFT, NONE, start)
    assert canvas.cursor().shape() == Qt.CursorShape.ClosedHandCursor
    QTest.mouseMove(canvas, start + QPoint(-60, -40))
    assert (across.value(), along.value()) == (before[0] + 60, before[1] + 40)
    QTest.mouseRelease(canvas, LEFT, NONE, start)
    assert canvas.cursor().shape() == Qt.CursorShape.ArrowCursor


def test_an_open_band_is_folded_by_its_head_and_by_escape(qtbot: QtBot) -> None:
    river = River()
    qtbot.addWidget(river)
    river.resize(1200, 300)
    river.show_graph(many(60))
    river.show()
    canvas = river.canvas
    canvas.unfold(0)
    assert canvas.laid().stands_for("S26-0000-A") == "S26-0000-A"  # type: ignore[union-attr]
    assert canvas.tip_at(QPoint(30, 10)) == "Pulls\npress to fold, or Esc"
    QTest.mouseClick(canvas, LEFT, NONE, QPoint(30, 10))
    assert canvas.stands_for("S26-0000-A") == f"{FOLD}0"
    canvas.unfold(0)
    QTest.keyClick(canvas, Qt.Key.Key_Escape)
    assert canvas.unfolded() == frozenset()
    assert not canvas.fold(), "there is nothing open any more"


def test_the_keyboard_is_followed_into_view(qtbot: QtBot) -> None:
    river = River()
    qtbot.addWidget(river)
    river.resize(700, 260)
    river.show_graph(many(200))
    river.show()
    river.canvas.unfold(0)
    river.canvas.setFocus()
    QTest.keyClick(river.canvas, Qt.Key.Key_Home)
    for _ in range(60):
        QTest.keyClick(river.canvas, Qt.Key.Key_Down)
    at = middle(river, river.canvas.current_key())
    assert river.canvas.visibleRegion().contains(at)
    assert river.canvas.spine_at(at.x(), at.y()) is not None, "and not under the heads"
