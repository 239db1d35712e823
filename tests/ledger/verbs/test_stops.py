"""Stops of a line: what was said, by which run, and what cannot be."""

import pytest

from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.floor import OpenRun
from honeyledger.ledger.verbs.stops import Stop
from tests.support.books import code_in, mark, place, postings, turned_down
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Line A")
    return house


def test_a_stop_is_a_fact_of_its_line_and_moves_nothing(house: BuiltHouse) -> None:
    done = house.do(Stop("Line A", "pump", 25, "the seal"))
    assert done.notes == ()
    assert postings(house, done) == set()
    name = f"stopped/{done.entries[0].id}"
    said = {"reason": "pump", "minutes": 25, "why": "the seal"}
    assert mark(house, place(house, "Line A"), name) == said


def test_a_stop_is_of_the_run_that_is_open(house: BuiltHouse) -> None:
    run = code_in(house.do(OpenRun("Line A")), "R")
    entry = house.do(Stop("Line A", "break", 30)).entries[0]
    assert entry.act.run == run


def test_a_stop_can_be_taken_back(house: BuiltHouse) -> None:
    entry = house.do(Stop("Line A", "power", 10)).entries[0].id
    house.do(Reverse(entry, "another line"))
    assert mark(house, place(house, "Line A"), f"stopped/{entry}") is None


def test_what_cannot_be_is_refused(house: BuiltHouse) -> None:
    assert turned_down(house, Stop("Line A", "rain", 5)) == (
        "rain is no reason for a stop: say uncapping, extractor, pump, settling, drums, supers, "
        "people, break, power, washing, other."
    )
    assert turned_down(house, Stop("Line A", "", 5)).startswith("Nothing is no reason for a stop")
    for minutes in (0, -5, 1_441):
        assert turned_down(house, Stop("Line A", "pump", minutes)) == (
            f"Say for how many minutes the line stood, from 1 to 1,440; {minutes} cannot be."
        )
