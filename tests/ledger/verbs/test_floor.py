"""The floor: runs open, pallets are loaded, empties come out wet."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.corrections import Amend, Reverse
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import CloseRun, Load, OpenRun, WetOut
from tests.support.books import (
    code_in,
    effects,
    holding,
    late,
    mark,
    place,
    postings,
    refusal_of,
    standing,
    turned_down,
)
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """Two yards; a line that feeds Tank 1."""
    house = BuiltHouse()
    house.yard("Creek")
    house.yard("Hill")
    house.vessel("Line", sort="line")
    house.vessel("Tank 1", fed_by="Line")
    return house


def test_a_run_notes_what_its_vessels_hold(house: BuiltHouse) -> None:
    house.load("Creek", 60_000, "Line")
    house.drum("Tank 1", 50_000)
    tank3 = house.vessel("Tank 3")
    done = house.do(OpenRun("Line", tank="Tank 3", crew="Ana"))
    run = code_in(done, "R")
    assert done.entries[0].act.run == run
    line, tank1 = (place(house, name).partition("/")[2] for name in ("Line", "Tank 1"))
    assert mark(house, f"run/{run}", "opened") == {
        "line": line,
        "heels": [[line, 0], [tank1, 10_000], [tank3, 0]],
        "crew": "Ana",
    }


def test_a_load_moves_the_honey_and_mixes_nothing(house: BuiltHouse) -> None:
    creek = house.load("Creek", 60_000, "Line")
    hill, tag = house.pull("Hill", 100_000)
    done = house.do(Load(tag, "Line"))
    assert postings(house, done) == {
        (hill, f"pallet/{tag}", -100_000),
        (hill, "Line", 100_000),
    }
    assert done.codes == ()
    assert standing(house, "Line") == {creek: 60_000, hill: 100_000}
    assert standing(house, f"pallet/{tag}") == {}
    assert effects(done, "arrived") == [[place(house, "Line"), 2]]


def test_part_of_a_pallet_is_of_all_its_pulls_and_the_last_part_takes_the_rest(
    house: BuiltHouse,
) -> None:
    """3 supers of Creek (44.4 kg) and 7 of Hill (103.6 kg), loaded as 4, 4 and the last 2."""
    done = house.do(Receive((Line("Creek", 3), Line("Hill", 7))))
    creek, hill = done.codes
    tag = code_in(done, "G")
    house.do(Load(tag, "Line", count=4))  # 4/10 of 148 kg = 59.2 kg: 17.76 and 41.44
    assert standing(house, "Line") == {creek: 17_760, hill: 41_440}
    assert holding(house, creek)[f"pallet/{tag}"] == (26_640, 2)
    assert holding(house, hill)[f"pallet/{tag}"] == (62_160, 4)
    house.do(Load(tag, "Line", count=4))
    house.do(Load(tag, "Line", count=2))
    assert standing(house, "Line") == {creek: 44_400, hill: 103_600}
    assert standing(house, f"pallet/{tag}") == {}


def test_grams_that_do_not_divide_go_by_the_largest_remainder(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 100_000, count=3)
    for _ in range(2):
        house.do(Load(tag, "Line", count=1))
    assert standing(house, "Line") == {pull: 66_666}
    house.do(Load(tag, "Line"))
    assert standing(house, "Line") == {pull: 100_000}


def test_every_pull_of_a_mixed_pallet_is_in_reach_of_every_part(house: BuiltHouse) -> None:
    """One super of Creek among nine of Hill: which one went in first, nobody knows."""
    done = house.do(Receive((Line("Creek", 1), Line("Hill", 9))))
    creek, _ = done.codes
    house.do(Load(code_in(done, "G"), "Line", count=1))
    drum = house.drum("Tank 1", 14_800)
    assert house.shares(drum) == pytest.approx({"Creek": 0.1, "Hill": 0.9})
    assert holding(house, creek)[f"pallet/{code_in(done, 'G')}"][1] == 1


def test_only_the_pull_that_is_named(house: BuiltHouse) -> None:
    done = house.do(Receive((Line("Creek", 3), Line("Hill", 7))))
    creek, hill = done.codes
    tag = code_in(done, "G")
    house.do(Load(tag, "Line", pull=hill, count=2))
    assert standing(house, "Line") == {hill: 29_600}
    house.do(Load(tag, "Line", pull=hill))
    assert standing(house, "Line") == {hill: 103_600}
    assert standing(house, f"pallet/{tag}") == {creek: 44_400}


def test_a_pallet_loaded_twice(house: BuiltHouse) -> None:
    _, tag = house.pull("Creek", 100_000)
    entry = house.do(Load(tag, "Line")).entries[0].id
    assert turned_down(house, Load(tag, "Line")) == (
        f"Nothing stands on {tag} any more: it was loaded with entry {entry}. Scan the tag of the "
        "next pallet."
    )


def test_what_a_load_refuses(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 100_000)
    other, _ = house.pull("Hill", 100_000)
    assert turned_down(house, Load(tag, "Line", count=11)) == (
        f"{tag} holds 10 supers, not 11. Count them, or correct the count."
    )
    assert turned_down(house, Load(tag, "Line", pull=other)) == (
        f"Nothing of {other} is on {tag}. Look at the tag again: it has {pull}."
    )
    assert turned_down(house, Load(tag, "Tank 9")) == (
        "There is no vessel called Tank 9. Choose one, such as Tank 1, or register it first."
    )
    assert turned_down(house, Load("Line", "Line")) == (
        "Line is not a code: type it as printed, such as D26-0611-Y, or J26-0147-00382-F for a "
        "jar."
    )


def test_a_load_typed_late_widens_what_was_drawn_since() -> None:
    """Filled at minute 10 and 30; the pallet loaded at minute 20 is typed at minute 60."""
    house = BuiltHouse()
    for name in ("Creek", "Hill"):
        house.yard(name)
    house.vessel("Sump")
    house.load("Creek", 500_000, "Sump", at_min=5)
    _, tag = house.pull("Hill", 100_000)
    before = house.drum("Sump", 100_000, at_min=10)
    house.load("Creek", 1_000, "Sump", at_min=25)
    after = house.drum("Sump", 100_000, at_min=30)
    house.wait(30)
    done = house.do(Load(tag, "Sump"), at_min=20)
    hill = done.entries[0].postings[0].lot
    assert [(row.parent, row.grams, row.late) for row in done.entries[0].origins] == [
        (hill, 0, True)
    ]
    assert done.notes == (
        "S26-0002-E may have gone into Sump before the scan, so 1 earlier fill has it in reach "
        "now.",
    )
    assert set(house.shares(before)) == {"Creek"}
    assert house.shares(after) == {"Creek": 1.0, "Hill": 0.0}
    assert house.back(after).ancestors[1].how == ("late",)


def test_live_scans_widen_within_the_margin() -> None:
    """A drum filled 59 minutes before the scan may hold what was scanned; one of 61 may not."""
    house = BuiltHouse(margin_min=60)
    house.yard("Creek")
    house.yard("Hill")
    house.vessel("Sump")
    house.load("Creek", 500_000, "Sump", at_min=0)
    old = house.drum("Sump", 100_000, at_min=100)
    house.load("Creek", 1_000, "Sump", at_min=101)
    new = house.drum("Sump", 100_000, at_min=102)
    _, tag = house.pull("Hill", 100_000)
    done = house.do(Load(tag, "Sump"), at_min=161)
    assert done.notes == (
        "S26-0003-C may have gone into Sump before the scan, up to 60 minutes, so 1 earlier fill "
        "has it in reach now.",
    )
    assert set(house.shares(old)) == {"Creek"}
    assert house.shares(new) == {"Creek": 1.0, "Hill": 0.0}
    assert house.back(new).ancestors[1].how == ("margin",)


def test_a_load_before_unknown_honey_is_offered_as_the_amendment() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Line")
    house.vessel("Tank 1", fed_by="Line")
    _, tag = house.pull("Creek", 100_000, at_min=1)
    _, other = house.pull("Creek", 100_000, at_min=2)
    unknown = house.do(Fill("Tank 1", Weight(net_g=100_000)), at_min=10).codes[0]
    house.wait(60)
    text = (
        f"{unknown} stands for unknown honey in Line since then. If it was this pallet, amend "
        f"{unknown} to {tag} instead (amend {unknown} --pallet {tag}). If not, say that this is "
        "a load of its own."
    )
    assert turned_down(house, Load(tag, "Line"), at_min=8) == text
    refusal = refusal_of(house, Load(tag, "Line"), at_min=8)
    assert (refusal.field, refusal.offers) == ("apart", (unknown,))
    assert house.do(Load(other, "Line"), at_min=11).notes == ()
    house.do(Load(tag, "Line", apart=True), at_min=8)


def test_all_unknown_honey_is_named_and_none_that_was_amended() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    _, tag = house.pull("Creek", 100_000, at_min=1)
    _, right = house.pull("Creek", 100_000, at_min=2)
    first, second = (
        house.do(
            Fill("Tank 1", Weight(net_g=100_000), despite_hold="looked at"), at_min=at_min
        ).codes[0]
        for at_min in (10, 12)
    )
    assert turned_down(house, Load(tag, "Tank 1"), at_min=8).startswith(
        f"{first}, {second} stand for unknown honey in Tank 1 since then."
    )
    house.do(Amend(first, "not scanned", pallet=right), at_min=9)
    assert turned_down(house, Load(tag, "Tank 1"), at_min=8).startswith(
        f"{second} stands for unknown honey"
    )


def test_the_empties(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 100_000)
    run = code_in(house.do(OpenRun("Line")), "R")
    house.do(Load(tag, "Line"), run=run)
    facts = WetOut(10, gross_g=86_000, tare_g=15_000, pull=pull.lower(), to="Creek")
    done = house.do(facts, run=run)
    said = {
        "count": 10,
        "gross_g": 86_000,
        "tare_g": 15_000,
        "pull": pull.lower(),
        "to": "Creek",
    }
    number = done.entries[0].id
    assert done.entries[0].postings == ()
    assert mark(house, f"run/{run}", f"wet out/{number}") == said
    assert mark(house, pull, f"wet out/{number}") == said


def test_what_the_empties_refuse(house: BuiltHouse) -> None:
    _, tag = house.pull("Creek", 100_000)
    for count in (0, -1):
        assert turned_down(house, WetOut(count)) == (
            f"Count the empty supers again: {count} is none, and there is at least one."
        )
    assert turned_down(house, WetOut(10, gross_g=14_000, tare_g=15_000)) == (
        "Gross 14.0 kg is not above the tare of 15.0 kg. Weigh again, or correct the tare."
    )
    assert turned_down(house, WetOut(10, pull=tag)) == (
        f"{tag} is a pallet tag, but a pull is needed here. Scan that code instead."
    )


def test_a_run_that_is_closed_or_never_was(house: BuiltHouse) -> None:
    _, tag = house.pull("Creek", 100_000)
    run = code_in(house.do(OpenRun("Line")), "R")
    house.do(CloseRun(run))
    facts = [Load(tag, "Line"), WetOut(5), Fill("Line", Weight(net_g=5)), CloseRun(run)]
    for one in facts:
        refusal = refusal_of(house, one, run=run)
        assert refusal.text == (
            f"{run} is closed. Open a new run, or correct the entry that is wrong."
        )
        assert refusal.field == "run"
        assert turned_down(house, one, run=run)
    assert turned_down(house, Load(tag, "Line"), run=tag) == (
        f"{tag} is not a run of this house. Open a run first."
    )


def test_a_load_is_reversed(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 100_000)
    done = house.do(Load(tag, "Line"))
    house.do(Reverse(done.entries[0].id, "wrong pallet"))
    assert standing(house, "Line") == {}
    assert holding(house, pull)[f"pallet/{tag}"] == (100_000, 10)
    house.do(Load(tag, "Line"))
    assert late(house, house.drum("Tank 1", 100_000)) == set()
