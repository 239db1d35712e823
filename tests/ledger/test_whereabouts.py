"""A spot is a room and a row; what should stand there is what was put there last and is here."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.quality import Sample
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.stocktake import Move
from honeyledger.ledger.whereabouts import expected_at, find_spot, is_here, is_there, spot_of
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """Honey in a tank, a room, a customer."""
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.load("Creek", 900_000, "Tank 1")
    house.do(Register("room", {"name": "Store"}))
    house.do(Register("customer", {"name": "Packer"}))
    return house


def test_a_room_with_its_row_as_people_call_it(house: BuiltHouse) -> None:
    ask = house.house.ask
    assert ask(lambda view: find_spot(view, "", "")) == {}
    assert ask(lambda view: find_spot(view, "STORE", "")) == {"room": "store"}
    assert ask(lambda view: find_spot(view, "store", " b   3 ")) == {"room": "store", "row": "b 3"}
    with pytest.raises(Refusal) as refused:
        ask(lambda view: find_spot(view, " ", "3"))
    assert refused.value.text == "Name the room first; a row alone says too little."


def test_a_row_is_the_same_in_capitals(house: BuiltHouse) -> None:
    spot = {"room": "store", "row": "b 3"}
    assert is_there(spot, {"room": "store", "row": "B 3"})
    assert is_there(spot, {"room": "store"})
    assert not is_there(spot, {"room": "store", "row": "B 4"})
    assert not is_there({"room": "store"}, spot)
    assert not is_there({}, spot)


def test_what_should_stand_there_is_in_the_house(house: BuiltHouse) -> None:
    drum, other = house.drum("Tank 1", 100_000), house.drum("Tank 1", 100_000)
    sample = house.do(Sample((drum,), 250)).codes[-1]
    house.do(Move((drum, other, sample), "Store", "B"))
    house.do(Dispatch("Packer", (DispatchLine(other),)))
    spot = {"room": "store", "row": "b"}
    assert house.house.ask(lambda view: expected_at(view, spot)) == [drum, sample]
    assert house.house.ask(lambda view: [is_here(view, one) for one in (drum, other)]) == [
        True,
        False,
    ]
    assert house.house.ask(lambda view: spot_of(view, sample)) == {"room": "store", "row": "B"}
