"""Somebody else's honey poured over, topped up and blended."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.blending import Blend, Portion
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.trade import TransferTitle
from tests.support.books import mark
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """A house with a tank of honey and a drum, "Blue 1", of which Otto has the title."""
    house = BuiltHouse()
    house.yard("Creek")
    for name in ("Tank", "Blend tank"):
        house.vessel(name)
    for name in ("Blue 1", "Blue 2"):
        house.container(name, limit_g=400_000)
    house.do(Register("customer", {"name": "Otto"}))
    house.load("Creek", 900_000, "Tank")
    return house


def _ottos(house: BuiltHouse) -> str:
    facts = Fill("Tank", Weight(net_g=200_000), container="Blue 1")
    drum = next(code for code in house.do(facts).codes if code[0] == "D")
    house.do(TransferTitle((drum,), "Otto", "INV 1"))
    return drum


def _told(drum: str) -> str:
    return (
        f"{drum} belongs to Otto: agree with them on what it goes into, and write down whose that "
        "is by a transfer of title."
    )


def test_poured_over_alone_it_stays_theirs(house: BuiltHouse) -> None:
    drum = _ottos(house)
    done = house.do(Fill(drum, whole=True, container="Blue 2"))
    new = done.codes[-1]
    assert done.notes == ()
    assert mark(house, new, "owner") == {
        "owner": "customer/otto",
        "document": drum,
        "by": "O26-0001-X",
    }


def test_topped_up_with_the_houses_honey_it_is_told_of(house: BuiltHouse) -> None:
    drum = _ottos(house)
    done = house.do(Fill("Tank", Weight(net_g=50_000), container="Blue 1", top_up=True))
    assert _told(drum) in done.notes
    assert mark(house, done.codes[-1], "owner") is None


def test_poured_into_a_vessel_or_blended_it_is_told_of(house: BuiltHouse) -> None:
    drum = _ottos(house)
    assert house.pour(drum, "Blend tank", 50_000).notes == (_told(drum),)
    parts = (Portion(drum, Weight(net_g=50_000)), Portion("Tank", Weight(net_g=50_000)))
    assert house.do(Blend("Blend tank", parts)).notes == (_told(drum),)


def test_the_houses_own_honey_is_nothing_to_say(house: BuiltHouse) -> None:
    drum = house.drum("Tank", 200_000)
    assert house.pour(drum, "Blend tank", 50_000).notes == ()
    assert mark(house, drum, "owner") is None
