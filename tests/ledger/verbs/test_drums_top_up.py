"""Topping up a closed drum makes a new lot, and the old one's label is void."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.drums import Fill, Reweigh
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import (
    holding,
    mark,
    origins,
    postings,
    refusal_of,
    standing,
    turned_down,
)
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """Creek in Tank 1, Hill in Tank 2; container 17 takes 230 kg, usually 200."""
    house = BuiltHouse()
    house.yard("Creek")
    house.yard("Hill")
    house.vessel("Tank 1")
    house.vessel("Tank 2")
    house.container("17", usual_g=200_000, limit_g=230_000)
    house.load("Creek", 600_000, "Tank 1")
    house.load("Hill", 600_000, "Tank 2")
    return house


def _drum(house: BuiltHouse, facts: Fill) -> str:
    return next(code for code in house.do(facts).codes if code[0] == "D")


def test_it_asks_first(house: BuiltHouse) -> None:
    old = _drum(house, Fill("Tank 1", Weight(net_g=150_000), container="17"))
    facts = Fill("Tank 2", Weight(net_g=50_000), container="17")
    assert turned_down(house, facts) == (
        f"17 holds {old} with 150.0 kg. Filling it on makes a new lot and {old}'s label void: say "
        "that you top it up, or take another container."
    )
    assert refusal_of(house, facts).field == "top_up"


def test_the_old_lot_is_an_origin_of_the_new_one(house: BuiltHouse) -> None:
    old = _drum(house, Fill("Tank 1", Weight(net_g=150_000), container="17"))
    done = house.do(Fill("Tank 2", Weight(net_g=50_000), container="17", top_up=True))
    fill, new = done.codes
    assert origins(house, new) == {old: 150_000, fill: 50_000}
    assert standing(house, "17") == {new: 200_000}
    assert holding(house, old) == {}
    assert (old, "17", -150_000) in postings(house, done)
    assert done.notes == (f"The label of {old} is void: take it off. {new} is the lot now.",)
    assert mark(house, old, "label") == "void"
    assert house.shares(new) == {"Creek": 0.75, "Hill": 0.25}


def test_already_full_is_the_containers_limit(house: BuiltHouse) -> None:
    old = _drum(house, Fill("Tank 1", Weight(net_g=190_000), container="17"))
    full = (
        f"17 is already full: it holds {old} with 190.0 kg, and its limit is 230.0 kg. Take "
        "another container."
    )
    for weight in (Weight(net_g=40_001), Weight(gross_g=60_000, tare_g=10_000)):
        facts = Fill("Tank 2", weight, container="17", top_up=True)
        assert turned_down(house, facts) == full
    whole = Fill("Tank 2", whole=True, container="17", top_up=True)  # 600 kg
    assert turned_down(house, whole) == full
    house.do(Fill("Tank 2", Weight(net_g=40_000), container="17", top_up=True))
    assert "is already full" in turned_down(
        house, Fill("Tank 2", container="17", top_up=True, pending=True)
    )


def test_a_part_filled_drum_has_the_same_limit(house: BuiltHouse) -> None:
    house.do(Fill("Tank 1", Weight(net_g=150_000), container="17", bung=False))
    facts = Fill("Tank 2", Weight(net_g=90_000), container="17")
    assert turned_down(house, facts) == (
        "17 is already full: it holds honey with 150.0 kg, and its limit is 230.0 kg. Take "
        "another container."
    )
    assert _drum(house, Fill("Tank 2", Weight(net_g=80_000), container="17"))


def test_a_top_up_not_weighed_fills_it_to_its_usual_weight(house: BuiltHouse) -> None:
    _drum(house, Fill("Tank 1", Weight(net_g=150_000), container="17"))
    new = _drum(house, Fill("Tank 2", container="17", top_up=True, pending=True))
    assert standing(house, "17") == {new: 200_000}
    assert mark(house, new, "pending") == 1
    house.do(Reweigh("17", Weight(net_g=212_000)))
    assert standing(house, "17") == {new: 212_000}
    top = _drum(house, Fill("Tank 2", container="17", top_up=True, pending=True))
    assert standing(house, "17") == {top: 230_000}  # above the usual weight: to its limit


def test_a_drum_is_meant_by_its_label_too(house: BuiltHouse) -> None:
    """A one-way drum has no number; its label is what there is to scan."""
    old = house.drum("Tank 1", 150_000)
    facts = Fill("Tank 2", Weight(net_g=50_000), container=old)
    assert turned_down(house, facts) == (
        f"{old} holds {old} with 150.0 kg. Filling it on makes a new lot and {old}'s label void: "
        "say that you top it up, or take another container."
    )
    new = _drum(house, Fill("Tank 2", Weight(net_g=50_000), container=old, top_up=True))
    assert origins(house, new)[old] == 150_000
    assert holding(house, new) == {f"drum/{old}": (200_000, 0)}
    # The new label is on it now, and stands for it.
    last = _drum(house, Fill("Tank 2", Weight(net_g=30_000), container=new, top_up=True))
    assert holding(house, last) == {f"drum/{old}": (230_000, 0)}
    assert turned_down(house, Fill("Tank 2", Weight(net_g=1_000), container=new)) == (
        f"The label of {new} is void: the drum was topped up. Scan its new label."
    )


def test_the_label_of_a_registered_container_means_the_container(house: BuiltHouse) -> None:
    old = _drum(house, Fill("Tank 1", Weight(net_g=150_000), container="17"))
    new = _drum(house, Fill("Tank 2", Weight(net_g=50_000), container=old, top_up=True))
    assert standing(house, "17") == {new: 200_000}


def test_a_drum_is_not_topped_up_from_itself(house: BuiltHouse) -> None:
    old = _drum(house, Fill("Tank 1", Weight(net_g=150_000), container="17"))
    for source in (old, "17"):
        facts = Fill(source, Weight(net_g=50_000), container="17", top_up=True)
        assert turned_down(house, facts) == ("17 cannot be filled from itself. Name another one.")


def test_what_is_held_in_the_drum_is_asked_about(house: BuiltHouse) -> None:
    old = _drum(house, Fill("Tank 1", Weight(net_g=150_000), container="17"))
    house.do(PutOnHold(old, "moisture not read"))
    facts = Fill("Tank 2", Weight(net_g=50_000), container="17", top_up=True)
    assert turned_down(house, facts) == (
        f"{old} is on hold through {old}: moisture not read. It can go on only if a named person "
        "says why."
    )


def test_bought_honey_topped_up_is_honey_of_both(house: BuiltHouse) -> None:
    house.do(Register("supplier", {"name": "S9"}))
    bought = house.buy("S9", 150_000)
    new = _drum(house, Fill("Tank 2", Weight(net_g=50_000), container=bought, top_up=True))
    assert house.shares(new) == {"S9": 0.75, "Hill": 0.25}
