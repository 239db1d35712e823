"""The river folded, opened, drawn larger, and laid out beside the window."""

from collections.abc import Callable
from typing import Any

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.river_fold import FOLD
from honeyledger.desktop.models.river_graph import (
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


def middle(river: River, key: str) -> QPoint:
    geometry = river.canvas.geometry_now()
    assert geometry is not None
    spine = geometry.spine(key)
    assert spine is not None
    return QPoint(int(spine.left) + 6, int(spine.middle))


@pytest.mark.parametrize("count", [3, 300, 3000])
def test_a_river_of_many_lots_is_folded_to_fit_and_can_be_opened(qtbot: QtBot, count: int) -> None:
    river = River()
    qtbot.addWidget(river)
    river.resize(1200, 300)
    river.show_graph(many(count))
    river.show()
    assert river.canvas.height() <= 300
    laid = river.canvas.laid()
    assert laid is not None
    drawn = laid.graph
    bands = [node.key for node in drawn.nodes if node.key.startswith(FOLD)]
    assert bool(bands) == (count > 20)
    river.grab()
    if not bands:
        return
    opened: list[str] = []
    river.opened.connect(opened.append)
    qtbot.mouseClick(river.canvas, Qt.MouseButton.LeftButton, pos=middle(river, bands[0]))
    laid = river.canvas.laid()
    assert laid is not None
    drawn = laid.graph
    assert len(drawn.nodes) == count + 1
    assert river.canvas.height() > 300
    assert opened == [], "a band has no card"


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
    bar = river.horizontalScrollBar().height()
    assert river.canvas.height() == pytest.approx((before - bar) * 1.5, abs=2)
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


def test_nought_draws_it_as_large_as_its_place(qtbot: QtBot, river: River) -> None:
    river.set_zoom(3.0)
    qtbot.keyClick(river.canvas, Qt.Key.Key_0)
    assert river.zoom() == 1.0
    assert river.canvas.width() == river.viewport().width()


def test_what_is_zoomed_stays_under_the_pointer(river: River) -> None:
    at = middle(river, "T26-0101-S")
    river.set_zoom(2.0, QPointF(at))
    after = middle(river, "T26-0101-S") - QPoint(
        river.horizontalScrollBar().value(), river.verticalScrollBar().value()
    )
    assert abs(after.x() - at.x()) < 60


class Waiting:
    """A lane whose tasks wait until they are let through."""

    def __init__(self) -> None:
        self.tasks: dict[str, tuple[Callable[[], Any], Callable[[Any], None]]] = {}

    def __call__(self, about: str, task: Callable[[], Any], then: Callable[[Any], None]) -> None:
        self.tasks[about] = task, then

    def go(self) -> list[str]:
        """Do what waits; the names of it."""
        tasks, self.tasks = self.tasks, {}
        for task, then in tasks.values():
            then(task())
        return list(tasks)


def test_nothing_is_laid_out_or_painted_in_the_windows_thread(qtbot: QtBot) -> None:
    lane = Waiting()
    river = River(lane)
    qtbot.addWidget(river)
    river.resize(1200, 300)
    river.show()
    river.show_graph(graph())
    river.select("Y09")
    blank = river.grab().toImage()
    assert river.canvas.laid() is None
    assert lane.go() == ["layout"]
    assert river.canvas.selected_key() == "Y09"
    assert river.canvas.current_key() == "Y09", "what was chosen meanwhile is chosen"
    river.grab()
    assert lane.go() == ["picture"]
    assert river.grab().toImage() != blank
    assert lane.tasks == {}, "what is there already is not painted again"
    qtbot.mouseMove(river.canvas, middle(river, "Y22"))
    river.grab()
    assert lane.go() == ["picture"], "what fades is another picture"


def test_an_answer_about_a_trace_that_is_gone_is_dropped(qtbot: QtBot) -> None:
    lane = Waiting()
    river = River(lane)
    qtbot.addWidget(river)
    river.show_graph(many(3))
    ((task, then),) = lane.tasks.values()
    late = task()
    river.show_graph(graph())
    then(late)
    assert river.canvas.laid() is None
    lane.go()
    laid = river.canvas.laid()
    assert laid is not None
    assert laid.whole == graph()


def test_scroll_bars_do_not_come_and_go(qtbot: QtBot) -> None:
    """A river that grows downwards takes width for its bar, once."""
    lane = Waiting()
    river = River(lane)
    qtbot.addWidget(river)
    river.show_graph(many(60))
    river.show()
    lane.go()
    for width in range(300, 900, 7):
        river.resize(width, 140)
        turns = 0
        while "layout" in lane.go():
            turns += 1
            assert turns < 4
        river.grab()
