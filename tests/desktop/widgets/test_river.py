"""The river by mouse and by key, folded, opened and drawn larger."""

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.river_graph import (
    FOLD,
    RiverColumn,
    RiverGraph,
    RiverNode,
    RiverRibbon,
    river_graph,
)
from honeyledger.desktop.widgets.river import River
from tests.desktop.gallery_trace import graph


def many(count: int) -> RiverGraph:
    """So many pulls in one drum."""
    heads = {"pull": RiverColumn("Pulls"), "drum": RiverColumn("Drums")}
    nodes = [
        RiverNode(f"S26-{number:04}-A", "pull", f"S26-{number:04}-A", 1000 + number, pfund_mm=30)
        for number in range(count)
    ]
    whole_g = sum(node.mass_g for node in nodes)
    nodes.append(RiverNode("D26-0611-Y", "drum", "D26-0611-Y", whole_g, pfund_mm=40))
    ribbons = [RiverRibbon(node.key, "D26-0611-Y", node.mass_g) for node in nodes[:-1]]
    return river_graph(heads, nodes, ribbons, whole_g)


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


def _middle(river: River, key: str) -> QPoint:
    geometry = river.canvas.geometry_now()
    assert geometry is not None
    spine = geometry.spine(key)
    assert spine is not None
    return QPoint(int(spine.left) + 6, int(spine.middle))


def test_a_click_chooses_a_lot_and_opens_its_card(qtbot: QtBot, river: River) -> None:
    opened: list[str] = []
    chosen: list[str] = []
    river.opened.connect(opened.append)
    river.selected.connect(chosen.append)
    at = _middle(river, "T26-0101-S")
    qtbot.mouseClick(river.canvas, Qt.MouseButton.LeftButton, pos=at)
    assert opened == chosen == ["T26-0101-S"]
    assert river.canvas.selected_key() == "T26-0101-S"


def test_a_thread_is_still_a_target_of_forty(river: River) -> None:
    at = _middle(river, "S26-0417-5")
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
    qtbot.mouseMove(river.canvas, _middle(river, "S26-0418-3"))
    shown = river.canvas.shown()
    assert shown.pointed == "S26-0418-3"
    assert set(shown.lit) == {
        "Y22", "S26-0418-3", "T26-0098-L", "D26-0641-M", "D26-0642-K", "J26-0147",
    }  # fmt: skip


@pytest.mark.parametrize("count", [3, 300, 3000])
def test_a_river_of_many_lots_is_folded_to_fit_and_can_be_opened(qtbot: QtBot, count: int) -> None:
    river = River()
    qtbot.addWidget(river)
    river.resize(1200, 300)
    river.show_graph(many(count))
    river.show()
    assert river.canvas.height() <= 300
    drawn = river.canvas.graph_now()
    assert drawn is not None
    bands = [node.key for node in drawn.nodes if node.key.startswith(FOLD)]
    assert bool(bands) == (count > 20)
    river.grab()
    if not bands:
        return
    opened: list[str] = []
    river.opened.connect(opened.append)
    qtbot.mouseClick(river.canvas, Qt.MouseButton.LeftButton, pos=_middle(river, bands[0]))
    drawn = river.canvas.graph_now()
    assert drawn is not None
    assert len(drawn.nodes) == count + 1
    assert river.canvas.height() > 300
    assert opened == [], "a band has no card"


def test_everything_is_told_to_who_cannot_see_it(river: River) -> None:
    lines = river.canvas.accessibleDescription().splitlines()
    assert len(lines) == len(graph().nodes)


def test_control_and_the_wheel_draw_it_larger(river: River) -> None:
    def turn(by: int) -> None:
        at = QPointF(100, 100)
        event = QWheelEvent(
            at,
            at,
            QPoint(),
            QPoint(0, by),
            Qt.MouseButton.NoButton,
            Qt.KeyboardModifier.ControlModifier,
            Qt.ScrollPhase.NoScrollPhase,
            False,
        )
        QApplication.sendEvent(river.viewport(), event)

    before = river.canvas.height()
    turn(120)
    assert river.zoom() == 1.5
    assert river.canvas.height() == pytest.approx(before * 1.5, abs=2)
    turn(-120)
    turn(-120)
    assert river.zoom() == 1.0
    river.set_zoom(100)
    assert river.zoom() == 4.0


def test_plus_and_minus_draw_it_larger_and_smaller(qtbot: QtBot, river: River) -> None:
    river.canvas.setFocus()
    for key, zoom in ((Qt.Key.Key_Plus, 1.5), (Qt.Key.Key_Equal, 2.0), (Qt.Key.Key_Minus, 1.5)):
        qtbot.keyClick(river.canvas, key)
        assert river.zoom() == zoom


def test_it_can_be_brought_back_to_its_first_column(river: River) -> None:
    river.resize(400, 200)
    river.horizontalScrollBar().setValue(300)
    river.show_beginning()
    assert river.horizontalScrollBar().value() == 0


def test_a_head_that_is_cut_says_the_whole_in_its_tip(river: River) -> None:
    geometry, shown = river.canvas.geometry_now(), river.canvas.graph_now()
    assert geometry is not None
    assert shown is not None
    for left, column in zip(geometry.columns, shown.columns, strict=True):
        assert river.canvas.tip_at(QPoint(int(left) + 20, 30)) == "\n".join(
            part for part in (column.title, column.dates) if part
        )
    assert river.canvas.tip_at(_middle(river, "T26-0101-S")).startswith("T26-0101-S")
    assert River().canvas.tip_at(QPoint(20, 30)) == ""
