"""Short lists are ordered at once, long ones beside the window, and the newest wish counts."""

from collections.abc import Callable
from typing import Any

import pytest
from PySide6.QtCore import QObject
from pytestqt.modeltest import ModelTester

from honeyledger.desktop.models.row_order import Meant
from honeyledger.desktop.models.rows import Column, ColumnKind, RowsModel
from honeyledger.desktop.widgets.table_rows import AT_ONCE, TableRows

NUMBER: Column[int] = Column("n", "Number", str, ColumnKind.NUMBER, sort_key=lambda row: row)
MANY = range(AT_ONCE + 1)
DOWN = Meant(by="n", descending=True)


class Lane:
    """Holds what it is given until it is let go."""

    def __init__(self) -> None:
        self.waiting: list[tuple[Callable[[], Any], Callable[[Any], None]]] = []

    def take(self, task: Callable[[], Any], then: Callable[[Any], None]) -> None:
        self.waiting.append((task, then))

    def run(self, at: int = 0) -> None:
        task, then = self.waiting.pop(at)
        then(task())


@pytest.fixture
def rows(qapp: QObject) -> TableRows:
    return TableRows(RowsModel((NUMBER,), str, qapp), qapp)


def _shown(rows: TableRows) -> list[int]:
    return list(rows._model.rows())


def test_a_short_list_is_ordered_at_once_and_again_when_it_is_replaced(rows: TableRows) -> None:
    lane = Lane()
    rows.beside = lane.take
    rows.give([2, 3, 1])
    rows.mean(DOWN)
    assert _shown(rows) == [3, 2, 1]
    rows.give([7, 9])
    assert _shown(rows) == [9, 7]
    assert lane.waiting == []
    assert rows.count() == 2


def test_a_long_list_is_made_ready_beside_the_window(
    rows: TableRows, qtmodeltester: ModelTester
) -> None:
    lane = Lane()
    rows.beside = lane.take
    rows.give(MANY)
    assert _shown(rows)[0] == 0, "as it was given it needs no making"
    rows.mean(DOWN)
    assert _shown(rows)[0] == 0, "until then what is shown stays"
    assert rows.is_waiting()
    lane.run()
    assert _shown(rows)[0] == AT_ONCE
    assert not rows.is_waiting()
    qtmodeltester.check(rows._model)


def test_an_answer_that_is_no_longer_wanted_is_dropped(rows: TableRows) -> None:
    lane = Lane()
    rows.beside = lane.take
    rows.give(MANY)
    rows.mean(DOWN)
    rows.mean(Meant("17"))
    lane.run(1)
    seventeens = [row for row in MANY if "17" in str(row)]
    assert _shown(rows) == seventeens
    lane.run()
    assert _shown(rows) == seventeens
    rows.mean(DOWN)
    rows.give([5])
    lane.run()
    assert _shown(rows) == [5]


def test_without_a_lane_a_long_list_is_ordered_all_the_same(rows: TableRows) -> None:
    rows.give(MANY)
    rows.mean(DOWN)
    assert _shown(rows)[0] == AT_ONCE


def test_other_columns_are_searched_when_they_are_shown(rows: TableRows) -> None:
    rows.give([1, 2])
    rows._model.columns = (Column("n", "Number", lambda row: "one" if row == 1 else "two"),)
    rows.mean(Meant("two"))
    assert _shown(rows) == [2]
