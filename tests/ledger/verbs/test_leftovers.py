"""Supers that do not go through: off the pallet, or off the load that had them already."""

import pytest

from honeyledger.ledger.run_balance import RunBalance, balance_of
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.floor import CloseRun, Load, OpenRun, WetOut
from honeyledger.ledger.verbs.leftovers import SetAside
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import (
    attributes,
    code_in,
    grams_at,
    holding,
    mark,
    postings,
    standing,
    turned_down,
)
from tests.support.houses import BuiltHouse

CARE = (
    "Honey fed to bees can carry foulbrood and residues: only your own, from healthy colonies, "
    "and as your local code has it."
)


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    house.yard("Hill")
    line = house.vessel("Line", sort="line")
    house.vessel("Tank 1", fed_by=line)
    return house


def _two_pulls(house: BuiltHouse) -> tuple[str, str, str]:
    """One pallet with 6 supers of Creek (88.8 kg) and 4 of Hill (59.2 kg)."""
    done = house.do(Receive((Line("Creek", 6), Line("Hill", 4))))
    return (*done.codes, code_in(done, "G"))  # type: ignore[return-value]


def _balance(house: BuiltHouse, run: str) -> RunBalance:
    return house.house.ask(lambda view: balance_of(view, run))


def _sound(house: BuiltHouse) -> None:
    assert [one for one in house.store.audit() if not one.holds] == []


def test_supers_with_brood_go_back_to_the_bees(house: BuiltHouse) -> None:
    creek, hill, tag = _two_pulls(house)
    done = house.do(SetAside(tag, "brood", "bees", count=2, pull=creek, yard="Creek"))
    bees = f"fed/{attributes(house, creek)['yard']}"
    assert postings(house, done) == {
        (creek, f"pallet/{tag}", -29_600),
        (creek, bees, 29_600),
    }
    assert done.notes == (CARE,)
    assert mark(house, creek, "set aside")["why"] == "brood"
    assert standing(house, f"pallet/{tag}") == {creek: 59_200, hill: 59_200}
    house.do(Load(tag, "Line"))
    assert standing(house, "Line") == {creek: 59_200, hill: 59_200}
    _sound(house)


def test_frames_go_with_their_honey_and_the_supers_go_on(house: BuiltHouse) -> None:
    house.do(Register("box", {"name": "medium", "honey_g": 14_800, "frames": 8}, key="medium"))
    creek, hill, tag = _two_pulls(house)
    house.do(SetAside(tag, "set", "scrap", frames=10))
    # 80 frames stand there, 48 of Creek: 6 and 4 of the ten.
    assert holding(house, creek)["discarded"] == (11_100, 0)
    assert holding(house, hill)["discarded"] == (7_400, 0)
    assert holding(house, creek)[f"pallet/{tag}"] == (77_700, 6)
    _sound(house)


def test_frames_of_one_pull(house: BuiltHouse) -> None:
    creek, hill, tag = _two_pulls(house)
    house.do(SetAside(tag, "spoilt", "scrap", frames=9, pull=hill))
    assert holding(house, hill)["discarded"] == (14_800, 0)
    assert "discarded" not in holding(house, creek)


def test_what_is_carried_over_stays_with_a_note(house: BuiltHouse) -> None:
    creek, _, tag = _two_pulls(house)
    before = standing(house, f"pallet/{tag}")
    done = house.do(SetAside(tag, "green", count=10, note="another day of fan"))
    assert postings(house, done) == set()
    assert standing(house, f"pallet/{tag}") == before
    assert mark(house, creek, "set aside") == {
        "lot": 1,
        "grams": 88_800,
        "supers": 6,
        "frames": 0,
        "why": "green",
        "to": "stays",
        "note": "another day of fan",
        "load": 0,
    }


def test_twelve_supers_left_at_night_go_off_the_load_and_into_the_next_run(
    house: BuiltHouse,
) -> None:
    """The pallet was scanned whole; in the evening 12 of its 24 stand before the line still."""
    pull, tag = house.pull("Creek", 240_000, count=24)
    first = code_in(house.do(OpenRun("Line")), "R")
    load = house.do(Load(tag, "Line"), run=first).entries[0].id
    done = house.do(SetAside(tag, "left over", count=12))
    assert done.entries[0].act.run == first  # of the run that loaded it
    assert postings(house, done) == {(pull, "Line", -120_000), (pull, f"pallet/{tag}", 120_000)}
    assert done.notes == (
        f"Entry {load} had them in Line already: that load is less by 120.0 kg now.",
    )
    house.drum("Tank 1", 118_000, run=first)
    house.do(WetOut(12), run=first)
    house.do(CloseRun(first))
    balance = _balance(house, first)
    assert (balance.supers, balance.in_g, balance.out_g) == (12, 120_000, 118_000)
    second = code_in(house.do(OpenRun("Line")), "R")
    house.do(Load(tag, "Line"), run=second)
    assert _balance(house, second).supers == 12
    assert standing(house, f"pallet/{tag}") == {}
    _sound(house)


def test_found_at_the_uncapper_when_it_is_mixed_by_the_books(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 100_000)
    house.do(Load(tag, "Line"))
    house.drum("Tank 1", 60_000)
    cove = house.yard("Cove")
    done = house.do(SetAside(tag, "brood", "bees", count=2, yard="Cove"))
    assert holding(house, pull) == {
        "Creek": (-100_000, 0),
        "difference": (-20_000, 0),
        f"fed/{cove}": (20_000, 2),
    }
    assert done.notes[:2] == (
        CARE,
        f"{pull} is honey of Creek, and Cove gets it: be sure that Creek is healthy.",
    )
    assert done.notes[-1] == (
        "20.0 kg of it is mixed in Line by the books: that much is weighing difference."
    )
    _sound(house)


def test_no_more_comes_off_a_load_than_went_in(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 100_000)
    house.do(Load(tag, "Line"))
    house.do(SetAside(tag, "set", "scrap", count=7))
    assert turned_down(house, SetAside(tag, "set", "scrap", count=4)) == (
        f"{tag} went in with 3 supers by its last load, not 4. Count them again."
    )
    house.do(SetAside(tag, "set", "scrap", frames=9))
    house.do(SetAside(tag, "set", "scrap", count=3))
    assert grams_at(house, "discarded") == 100_000
    assert holding(house, pull)["discarded"][1] == 10


def test_of_a_pallet_that_went_in_in_part_it_is_said_which(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 100_000)
    house.do(Load(tag, "Line", count=6))
    house.do(SetAside(tag, "brood", "scrap", count=1))
    assert standing(house, f"pallet/{tag}") == {pull: 30_000}
    house.do(SetAside(tag, "brood", "scrap", count=1, loaded=True))
    assert standing(house, f"pallet/{tag}") == {pull: 30_000}
    assert standing(house, "Line") == {pull: 50_000}


def test_a_tag_used_again_forgets_the_load_before(house: BuiltHouse) -> None:
    _, tag = house.pull("Creek", 100_000)
    house.do(Load(tag, "Line"))
    house.do(Receive((Line("Hill", 3),), pallet=tag))
    house.do(SetAside(tag, "spoilt", "scrap", count=3, loaded=True))
    assert grams_at(house, "discarded") == 44_400
    entry = house.house.ask(lambda view: view.head().entry)
    assert turned_down(house, SetAside(tag, "spoilt", "scrap", count=1)) == (
        f"Nothing stands on {tag} any more: it was set aside with entry {entry}. Scan the tag of "
        "the next pallet."
    )


def test_setting_aside_is_reversed(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 100_000)
    run = code_in(house.do(OpenRun("Line")), "R")
    house.do(Load(tag, "Line"), run=run)
    done = house.do(SetAside(tag, "brood", "bees", count=2, yard="Creek"))
    assert _balance(house, run).supers == 8
    house.do(Reverse(done.entries[0].id, "it was no brood"))
    assert _balance(house, run).supers == 10
    assert standing(house, "Line") == {pull: 100_000}
    house.do(SetAside(tag, "brood", "scrap", count=10))
    _sound(house)


def test_held_honey_is_fed_only_by_name(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 100_000)
    house.do(PutOnHold(pull, "strips left in"))
    facts = SetAside(tag, "brood", "bees", count=2, yard="Creek")
    assert turned_down(house, facts).startswith(f"{pull} is on hold through {pull}")
    house.do(SetAside(tag, "brood", count=2))
    why = "their own hives, strips out"
    done = house.do(
        SetAside(tag, "brood", "bees", count=2, yard="Creek", despite_hold=why),
        operator="O26-0001-X",
    )
    assert done.notes[0] == f"{pull} went on although held through {pull}: {why}."


def test_what_setting_aside_refuses(house: BuiltHouse) -> None:
    _, _, tag = _two_pulls(house)
    assert turned_down(house, SetAside(tag, "", count=2)) == (
        "Say why supers are set aside: brood, set, green, left over or spoilt."
    )
    assert turned_down(house, SetAside(tag, "mould", count=2)) == (
        "mould is no reason to set supers aside: say brood, set, green, left over or spoilt."
    )
    assert turned_down(house, SetAside(tag, "set", "attic", count=2)) == (
        "attic is nowhere to put supers: say stays for the hot room, bees for a yard, or scrap."
    )
    for counts in ({}, {"count": 2, "frames": 4}):
        assert turned_down(house, SetAside(tag, "set", **counts)) == (
            "Count the supers set aside, or the frames: one of the two."
        )
    assert turned_down(house, SetAside(tag, "set", "bees", count=2)) == (
        "Name the yard whose bees get it."
    )
    assert turned_down(house, SetAside(tag, "set", count=2, yard="Creek")) == (
        "A yard is for what its bees get: say bees, or leave Creek out."
    )
    assert turned_down(house, SetAside(tag, "set", frames=91)) == (
        f"{tag} has some 90 frames, not 91. Count again, or set whole supers aside."
    )
    assert turned_down(house, SetAside(tag, "set", count=11)) == (
        f"{tag} holds 10 supers, not 11. Count them, or correct the count."
    )
