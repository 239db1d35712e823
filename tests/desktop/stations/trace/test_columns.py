"""A state is a mark and at most two words."""

import pytest

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.trace.columns import YardRow, how_words, yard_columns

STATE = next(column for column in yard_columns() if column.key == "state")


@pytest.mark.parametrize(
    ("how", "only_heel", "mark"),
    [
        ("direct", False, Mark.READY),
        ("heel", False, Mark.HEEL),
        ("heel only", True, Mark.HEEL),
        ("margin", False, Mark.HEEL),
        ("late", False, Mark.NOTE),
        ("amended", False, Mark.NOTE),
    ],
)
def test_each_way_in_has_its_mark(how: str, only_heel: bool, mark: Mark) -> None:
    row = YardRow("Y26-0001-P", how, only_heel, "Mill Lane", "", "", "", "0.0", 0.0, "< 1")
    cell = STATE.cell(row)
    assert (cell.text, cell.mark) == (how, mark)


def test_every_state_has_its_words() -> None:
    states = ("direct", "heel only", "heel", "margin", "late", "amended")
    assert [how_words(state) for state in states] == list(states)
    assert how_words("") == ""
