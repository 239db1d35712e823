"""Pallets split and joined: supers move with their honey, and nothing is lost by rounding."""

import pytest

from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dispatch import Discard
from honeyledger.ledger.verbs.dock import Join, Line, Receive, Split
from honeyledger.ledger.verbs.floor import Load
from tests.support.books import code_in, holding, postings, standing, turned_down
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    house.yard("Hill")
    house.vessel("Tank 1")
    return house


def _two_pulls(house: BuiltHouse) -> tuple[str, str, str]:
    """One pallet with 3 supers of Creek (44.4 kg) and 7 of Hill (103.6 kg)."""
    done = house.do(Receive((Line("Creek", 3), Line("Hill", 7))))
    return (*done.codes, code_in(done, "G"))  # type: ignore[return-value]


def test_part_of_a_pallet_goes_onto_a_new_tag(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 160_000)
    done = house.do(Split(tag, 4))
    new = code_in(done, "G")
    assert new != tag
    assert postings(house, done) == {
        (pull, f"pallet/{tag}", -64_000),
        (pull, f"pallet/{new}", 64_000),
    }
    assert holding(house, pull) == {
        "Creek": (-160_000, 0),
        f"pallet/{tag}": (96_000, 6),
        f"pallet/{new}": (64_000, 4),
    }


def test_a_split_is_of_all_pulls_in_proportion_or_of_one_that_is_named(house: BuiltHouse) -> None:
    creek, hill, tag = _two_pulls(house)
    new = code_in(house.do(Split(tag, 5)), "G")
    pieces = {pull: holding(house, pull)[f"pallet/{new}"][1] for pull in (creek, hill)}
    assert pieces == {creek: 2, hill: 3}  # 1.5 and 3.5: the first of equal remainders
    assert sum(standing(house, f"pallet/{new}").values()) == 74_000
    only = code_in(house.do(Split(tag, 2, pull=hill)), "G")
    assert list(standing(house, f"pallet/{only}")) == [hill]


def test_the_last_part_takes_the_rest(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 100_000, count=3)
    parts = [code_in(house.do(Split(tag, 1)), "G") for _ in range(2)]
    parts.append(code_in(house.do(Split(tag, 1)), "G"))
    assert [standing(house, f"pallet/{part}")[pull] for part in parts] == [33_333, 33_333, 33_334]
    assert standing(house, f"pallet/{tag}") == {}


def test_pallets_are_joined(house: BuiltHouse) -> None:
    creek, hill, tag = _two_pulls(house)
    other, onto = house.pull("Creek", 80_000)
    done = house.do(Join(tag, onto))
    assert done.codes == ()
    assert standing(house, f"pallet/{onto}") == {creek: 44_400, hill: 103_600, other: 80_000}
    assert standing(house, f"pallet/{tag}") == {}
    assert turned_down(house, Load(tag, "Tank 1")) == (
        f"Nothing stands on {tag} any more: it was joined to another with entry "
        f"{done.entries[0].id}. Scan the tag of the next pallet."
    )


def test_a_pallet_is_joined_onto_a_tag_that_stands_empty(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 160_000)
    _, empty = house.pull("Hill", 160_000)
    house.do(Load(empty, "Tank 1"))
    house.do(Join(tag, empty))
    assert standing(house, f"pallet/{empty}") == {pull: 160_000}
    house.do(Load(empty, "Tank 1"))
    assert standing(house, f"pallet/{empty}") == {}


def test_what_is_joined_and_split_again_keeps_its_grams(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 100_001, count=7)
    part = code_in(house.do(Split(tag, 3)), "G")
    house.do(Join(part, tag))
    assert holding(house, pull) == {"Creek": (-100_001, 0), f"pallet/{tag}": (100_001, 7)}


def test_a_split_is_reversed_with_its_supers(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 160_000)
    done = house.do(Split(tag, 4))
    house.do(Reverse(done.entries[0].id, "wrong pallet"))
    assert holding(house, pull) == {"Creek": (-160_000, 0), f"pallet/{tag}": (160_000, 10)}
    house.do(Split(tag, 10))  # all of it: the old tag stands empty
    assert standing(house, f"pallet/{tag}") == {}


def test_what_moving_refuses(house: BuiltHouse) -> None:
    creek, hill, tag = _two_pulls(house)
    other, _ = house.pull("Hill", 100_000)
    assert turned_down(house, Split(tag, 11)) == (
        f"{tag} holds 10 supers, not 11. Count them, or correct the count."
    )
    for count in (0, -2):
        said = f"{count} of {tag} is none: say one at least."
        assert turned_down(house, Split(tag, count)) == said
    assert turned_down(house, Split(tag, 4, pull=creek)) == (
        f"{tag} holds 3 supers, not 4. Count them, or correct the count."
    )
    assert turned_down(house, Split(tag, 2, pull=other)) == (
        f"Nothing of {other} is on {tag}. Look at the tag again: it has {creek}, {hill}."
    )
    assert turned_down(house, Join(tag, tag)) == (
        f"{tag} cannot be joined to itself. Scan the other tag."
    )


def test_supers_thrown_away(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 160_000)
    house.do(Discard(pull, "wax moth", jars=4))
    assert holding(house, pull) == {
        "Creek": (-160_000, 0),
        "discarded": (64_000, 4),
        f"pallet/{tag}": (96_000, 6),
    }
    done = house.do(Discard(pull, "wax moth"))
    assert turned_down(house, Split(tag, 1)) == (
        f"Nothing stands on {tag} any more: it was thrown away with entry {done.entries[0].id}. "
        "Scan the tag of the next pallet."
    )
