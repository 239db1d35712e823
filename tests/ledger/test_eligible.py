"""What is not eligible for a customer's market does not leave, with the lots that decide it."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.opening import OpeningStock
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import code_in, refusal_of
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """Elm may go anywhere; honey of Oak not to Norland, which is where Fjord Foods is."""
    house = BuiltHouse()
    house.yard("Elm")
    house.yard("Oak", not_for="Norland, Ostmark")
    house.vessel("Tank 1")
    house.vessel("Tank 2")
    house.do(Register("customer", {"name": "Fjord Foods", "market": "norland"}))
    house.do(Register("customer", {"name": "Corner Shop"}))
    return house


def _send(house: BuiltHouse, *codes: str, to: str = "Fjord Foods") -> Dispatch:
    return Dispatch(to, tuple(DispatchLine(code) for code in codes))


def _refused(house: BuiltHouse, facts: Dispatch) -> str:
    refusal = refusal_of(house, facts)
    assert refusal.field == "code"
    return refusal.text


def test_one_source_not_eligible_keeps_the_drum_here(house: BuiltHouse) -> None:
    house.load("Elm", 300_000, "Tank 1")
    plain = house.drum("Tank 1", 290_000)
    bad = house.load("Oak", 10_000, "Tank 2")
    house.load("Elm", 500_000, "Tank 2")
    mixed = house.drum("Tank 2", 290_000)
    assert _refused(house, _send(house, plain, mixed)) == (
        f"Fjord Foods is in norland, and {mixed} is not eligible for export there, because of "
        f"{bad} from Oak. Take it off the note, or put those records right."
    )
    assert not house.do(_send(house, plain)).notes, "the other drum may go"
    assert house.do(_send(house, mixed, to="Corner Shop")), "a customer in no market on record"


def test_it_may_go_once_the_record_is_right(house: BuiltHouse) -> None:
    oak = house.yard("Ash", not_for="Norland")
    house.load("Ash", 300_000, "Tank 1")
    drum = house.drum("Tank 1", 290_000)
    assert "from Ash. Take it off" in _refused(house, _send(house, drum))
    house.do(Register("yard", {"name": "Ash"}, oak))
    assert house.do(_send(house, drum)).given


def test_what_nobody_knows_the_source_of_is_said(house: BuiltHouse) -> None:
    drum = house.do(OpeningStock(Weight(net_g=290_000), 2025)).given[0]
    source = next(row.code for row in house.back(drum).lots if row.kind == "S")
    assert list(house.do(_send(house, drum)).notes) == [
        f"Fjord Foods is in norland, and nobody knows where {source} in {drum} are from: whether "
        "it is eligible there the books cannot tell."
    ]


def test_what_was_sealed_as_jars_were_bottled_counts_too(house: BuiltHouse) -> None:
    oak = house.yard("Ash", not_for="Norland")
    house.load("Ash", 300_000, "Tank 1")
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    jars = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    house.do(Bottle(jars, 100))
    house.do(Register("yard", {"name": "Ash"}, oak))
    text = _refused(house, Dispatch("Fjord Foods", (DispatchLine(jars, jars=10),)))
    assert f"and {jars} as it was bottled is not eligible for export there" in text
