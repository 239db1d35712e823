"""What the papers of the floor say: of a run, and of what should stand in a room."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.floor import CloseRun
from honeyledger.services.floor_papers import RunPaper, run_paper, standing_paper
from honeyledger.services.printed import printed_words
from tests.support.houses import BuiltHouse
from tests.support.run_house import house_with_a_run


@pytest.fixture(scope="module")
def house() -> BuiltHouse:
    """A run that goes on, and two drums in a row."""
    return house_with_a_run()


def _run(house: BuiltHouse) -> RunPaper:
    return house.house.ask(lambda view: run_paper(view, "R26-0001-X", house.now_ms))


def test_a_run_is_told_open_and_then_by_who_signed_it(house: BuiltHouse) -> None:
    paper = _run(house)
    assert (paper.house, paper.closed, paper.signed_by) == ("Test House", None, "")
    assert paper.sheet.balance.supers == 20
    house.do(CloseRun("R26-0001-X"), operator="O26-0001-A")
    paper = _run(house)
    assert paper.closed is not None
    assert paper.closed.at_ms == house.now_ms
    assert paper.signed_by == "Ann Reed"


def test_what_should_stand_in_a_row(house: BuiltHouse) -> None:
    paper = house.house.ask(lambda view: standing_paper(view, "drum room", "b3", house.now_ms))
    assert (paper.room, paper.row) == ("Drum room", "b3")
    assert [(row.code, row.held) for row in paper.rows] == [
        ("D26-0001-C", False),
        ("D26-0002-A", True),
    ]
    assert paper.printed == house.house.ask(lambda view: printed_words(view, house.now_ms))


def test_nothing_is_printed_of_what_is_not_there(house: BuiltHouse) -> None:
    with pytest.raises(Refusal) as refused:
        house.house.ask(lambda view: run_paper(view, "R26-0099-X", 0))
    assert refused.value.key == "run-unknown"
    with pytest.raises(Refusal) as refused:
        house.house.ask(lambda view: standing_paper(view, "", "", 0))
    assert refused.value.field == "room"
