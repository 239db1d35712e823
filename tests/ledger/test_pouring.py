"""All of a vessel, weighed or not: what clings is said in grams, and never most of it."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.drums import Fill
from tests.support.books import grams_at, standing, turned_down
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """100 kg of Creek in Tank 1; Tank 2 stands empty."""
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.vessel("Tank 2")
    house.load("Creek", 100_000, "Tank 1")
    return house


def test_what_clings_is_said_in_grams(house: BuiltHouse) -> None:
    done = house.do(Fill("Tank 1", Weight(net_g=90_000), into="Tank 2", whole=True))
    assert done.notes == (
        "The books still saw 10.0 kg in Tank 1: it counts as clinging there, and goes to weighing "
        "difference.",
    )
    assert grams_at(house, "difference") == 10_000


def test_all_of_it_unweighed_leaves_nothing_to_cling(house: BuiltHouse) -> None:
    assert house.do(Fill("Tank 1", into="Tank 2", whole=True)).notes == ()
    assert list(standing(house, "Tank 2").values()) == [100_000]


@pytest.mark.parametrize("into", ["", "Tank 2"])
def test_most_of_it_cannot_cling(house: BuiltHouse, into: str) -> None:
    facts = Fill("Tank 1", Weight(net_g=5_000), into=into, whole=True)
    assert turned_down(house, facts) == (
        "The books see 100.0 kg in Tank 1, and 5.0 kg is all that came out? 95.0 kg cannot cling. "
        "Weigh again, or say only what was drawn, and record what became of the rest."
    )


def test_the_most_that_clings_is_the_house_s_own_shortfall(house: BuiltHouse) -> None:
    """One fifth of the draw, as for a draw that is short: 83.334 kg leave 16.666 kg."""
    assert turned_down(
        house, Fill("Tank 1", Weight(net_g=83_333), into="Tank 2", whole=True)
    ).endswith("record what became of the rest.")
    house.do(Fill("Tank 1", Weight(net_g=83_334), into="Tank 2", whole=True))


def test_more_than_the_books_hold_is_short_and_nothing_clings(house: BuiltHouse) -> None:
    done = house.do(Fill("Tank 1", Weight(net_g=110_000), into="Tank 2", whole=True))
    assert [note.split(";")[0] for note in done.notes] == ["The books saw 100.0 kg in Tank 1"]


@pytest.mark.parametrize(
    "facts",
    [
        Fill("Tank 1", pending=True, whole=True),
        Fill("Tank 1", Weight(net_g=5_000), pending=True),
        Fill("Tank 1", Weight(net_g=5_000), pending=True, whole=True),
        Fill("Tank 1", Weight(gross_g=25_000, tare_g=5_000), pending=True),
    ],
)
def test_a_weight_follows_or_it_does_not(house: BuiltHouse, facts: Fill) -> None:
    assert turned_down(house, facts) == (
        "Either the weight is to follow, or it is typed, or all of it goes. Say one of them."
    )
