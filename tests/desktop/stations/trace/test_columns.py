"""A state is a mark and at most two words."""

import pytest

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.trace.columns import YardRow, how_words, yard_columns, yard_rows
from honeyledger.ledger.verbs.yards import Treat
from honeyledger.services.trace_page import trace_page
from tests.support.houses import BuiltHouse

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


def test_treatments_are_told_of_yards_the_newest_first() -> None:
    built = BuiltHouse()
    tank = built.vessel("Tank 1")
    built.load(built.yard("Mill Lane"), 100_000, tank)
    built.load(built.yard("Creek"), 100_000, tank)
    for product, day in (("oxalic acid", "2026-04-14"), ("formic acid", "2026-05-20")):
        built.do(Treat("Mill Lane", product, first_day=day, last_day=day, clear_day=day))
    drum = built.drum(tank, 200_000)
    rows = yard_rows(built.house.ask(lambda view: trace_page(view, drum)))
    assert {row.name: row.treated for row in rows} == {
        "Mill Lane": "formic acid, 20 May 2026 +1",
        "Creek": "none on record",
    }
