"""Drums nobody wrote down: an opening stock with stated or unknown origin, and drums found."""

from typing import Any

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.stated import Part
from honeyledger.ledger.verbs.corrections import Amend, Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import CloseRun, Heel, Load, OpenRun
from honeyledger.ledger.verbs.opening import FoundDrum, OpeningStock
from honeyledger.ledger.verbs.quality import PutOnHold, Release
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import (
    attributes,
    code_in,
    holding,
    late,
    mark,
    origins,
    postings,
    refusal_of,
    standing,
    turned_down,
)
from tests.support.houses import BuiltHouse

WEIGHT = Weight(net_g=290_000)


@pytest.fixture
def house() -> BuiltHouse:
    """Two yards, a tank, a container, a customer."""
    house = BuiltHouse()
    for yard in ("Creek", "Hill"):
        house.yard(yard)
    house.vessel("Tank 1")
    house.container("17", tare_g=18_000, usual_g=290_000)
    house.do(Register("customer", {"name": "Packer"}))
    house.do(Register("room", {"name": "Drum room"}))
    return house


def _open(house: BuiltHouse, *yards: Part, **more: Any) -> str:
    return house.do(OpeningStock(WEIGHT, 2025, yards, **more)).codes[-1]


# Opening stock.


def test_last_seasons_drum_of_stated_yards(house: BuiltHouse) -> None:
    yards = (Part("Creek", 750), Part("Hill", 250))
    facts = OpeningStock(
        WEIGHT, 2025, yards, written="14/25", filled_on="2025-08-02", moisture=1750
    )
    done = house.do(facts)
    first, second, drum = done.codes
    assert [code[:3] for code in done.codes] == ["S25", "S25", "D25"]
    assert done.notes == ()
    assert postings(house, done) == {
        (first, "Creek", -217_500),
        (second, "Hill", -72_500),
        (drum, f"drum/{drum}", 290_000),
    }
    assert origins(house, drum) == {first: 217_500, second: 72_500}
    assert house.shares(drum) == {"Creek": 0.75, "Hill": 0.25}
    assert mark(house, drum, "moisture") == 1750
    assert (mark(house, drum, "written"), mark(house, drum, "filled_on")) == (
        "14/25",
        "2025-08-02",
    )
    house.do(Fill(drum, whole=True, into="Tank 1"))
    house.do(Dispatch("Packer", (DispatchLine(_open(house, Part("Hill"))),)))


def test_shares_nobody_said_are_equal_parts(house: BuiltHouse) -> None:
    done = house.do(OpeningStock(Weight(net_g=100_001), 2025, (Part("Creek"), Part("Hill"))))
    drum = done.codes[-1]
    assert list(origins(house, drum).values()) == [50_001, 50_000]
    assert done.notes == (
        f"Nobody has said the shares of {drum}'s yards: they count in equal parts.",
    )


def test_where_nobody_knows_the_origin_the_trace_ends_there_until_it_is_amended(
    house: BuiltHouse,
) -> None:
    done = house.do(OpeningStock(WEIGHT, 2024))
    source, drum = done.codes
    assert done.notes == (
        f"Nobody has said where {drum} is from: traces end there until {source} is amended to its "
        "yard.",
    )
    trace = house.back(drum)
    assert [(row.kind, row.name) for row in trace.ancestors] == [("unknown", "source not known")]
    assert not trace.reach_complete
    house.do(Amend(source, "the old notebook", yard="Hill"))
    assert house.shares(drum)["Hill"] == 1.0


def test_it_stands_in_a_container_of_the_house_with_what_clings_in_it(house: BuiltHouse) -> None:
    house.load("Creek", 100_000, "Tank 1")
    old = house.do(Fill("Tank 1", Weight(net_g=90_000), container="17")).codes[-1]
    facts = OpeningStock(WEIGHT, 2025, (Part("Hill"),), container="17")
    assert turned_down(house, facts) == (
        "17 still holds 90.0 kg. Take an empty one, or empty it first."
    )
    house.do(Dispatch("Packer", (DispatchLine(old),)))
    drum = house.do(facts).codes[-1]
    assert origins(house, drum)[old] == 0
    assert {code: g for code, g in standing(house, "17").items() if g} == {drum: 290_000}


def test_a_hold_on_days_of_its_season_holds_it_for_nobody_knows_its_day(house: BuiltHouse) -> None:
    drum = _open(house, Part("Hill"))
    sends = Dispatch("Packer", (DispatchLine(drum),))
    this = house.do(PutOnHold("Hill", "treated", first_day="2026-07-01")).entries[0].id
    house.house.preview(sends)
    house.do(PutOnHold("Hill", "treated", first_day="2025-07-01", last_day="2025-07-09"))
    assert refusal_of(house, sends).key.startswith("held")
    assert all(finding.holds for finding in house.store.audit())
    house.do(Release(str(this), "another year"))
    assert refusal_of(house, sends).key.startswith("held")


def test_an_opening_drum_is_reversed_until_something_is_built_on_it(house: BuiltHouse) -> None:
    done = house.do(OpeningStock(WEIGHT, 2025, (Part("Creek"),)))
    drum = done.codes[-1]
    house.do(Reverse(done.entries[0].id, "it is of this season"))
    assert holding(house, drum) == {}
    done = house.do(OpeningStock(WEIGHT, 2025, (Part("Creek"),)))
    house.pour(done.codes[-1], "Tank 1")
    assert refusal_of(house, Reverse(done.entries[0].id, "x")).key == "built-on"


def test_what_an_opening_stock_refuses(house: BuiltHouse) -> None:
    for season in (2015, 2027):
        assert turned_down(house, OpeningStock(WEIGHT, season)) == (
            f"The season {season} cannot be: type the year of the crop, 2016 to 2026."
        )
    assert turned_down(house, OpeningStock(Weight(), 2025)) == (
        "Type the gross or the net weight from the scale."
    )
    assert turned_down(house, OpeningStock(WEIGHT, 2025, (Part("Crick"),))).startswith(
        "There is no yard called Crick."
    )
    assert refusal_of(house, OpeningStock(WEIGHT, 2025, (Part("Hill", 900),))).field == "yards"
    assert refusal_of(house, OpeningStock(WEIGHT, 2025, moisture=9_000)).field == "moisture"
    assert turned_down(house, OpeningStock(WEIGHT, 2025, filled_on="2026-12-01")) == (
        "It cannot have been filled on 1 Dec 2026, which is still to come. Correct the day."
    )


# Found drums.


def _closed_run(house: BuiltHouse, yard: str, loaded_g: int, drummed_g: int) -> str:
    """A run into which so much went by estimate, and of which so much was drummed."""
    run = code_in(house.do(OpenRun("Tank 1")), "R")
    _, tag = house.pull(yard, loaded_g)
    house.do(Load(tag, "Tank 1"), run=run)
    house.do(Fill("Tank 1", Weight(net_g=drummed_g)), run=run)
    house.do(CloseRun(run, (Heel("Tank 1", 0),)))
    house.wash("Tank 1")
    return run


def test_a_found_drum_is_on_hold_with_the_runs_it_may_be_of(house: BuiltHouse) -> None:
    _closed_run(house, "Hill", 300_000, 295_000)
    likely = _closed_run(house, "Creek", 600_000, 312_000)
    done = house.do(FoundDrum(WEIGHT, written="no lid", room="Drum room", row=" B  3 "))
    source, drum = done.codes
    assert done.notes == (
        f"{drum} stands for a drum of 290.0 kg that the books do not know, on hold. It may be of "
        f"{likely} (288.0 kg missing). Amend it to its run or its yard, and release it by name.",
    )
    assert attributes(house, source)["candidates"] == [likely]
    assert mark(house, drum, "stands") == {"room": "drum-room", "row": "B 3"}
    assert turned_down(house, Dispatch("Packer", (DispatchLine(drum),))).startswith(
        f"{drum} is on hold through {source}: found: source not known."
    )


def test_a_found_drum_is_amended_to_its_run(house: BuiltHouse) -> None:
    """It is of all that was loaded there, by weight; the run's fills are in its reach."""
    run = code_in(house.do(OpenRun("Tank 1")), "R")
    pulls = []
    for yard, grams in (("Creek", 400_000), ("Hill", 200_000)):
        pull, tag = house.pull(yard, grams)
        house.do(Load(tag, "Tank 1"), run=run)
        pulls.append(pull)
    house.drum("Tank 1", 310_000, run=run)
    house.do(CloseRun(run, (Heel("Tank 1", 0),)))
    source, drum = house.do(FoundDrum(WEIGHT)).codes
    done = house.do(Amend(drum, "its lid lay in the sump of that run", run=run))
    assert postings(house, done) == {
        (source, "unknown", 290_000),
        (source, "Creek", -193_333),
        (source, "Hill", -96_667),
    }
    assert house.shares(drum)["Creek"] == pytest.approx(193_333 / 290_000)
    (fill,) = late(house, source)
    assert fill[0] == "T"
    assert set(origins(house, fill)) == set(pulls)
    assert done.notes == (f"{source} stays on hold until someone releases it by name.",)
    house.do(Release(source, "seen by two people"))
    house.do(Dispatch("Packer", (DispatchLine(drum),)))
    assert refusal_of(house, Amend(source, "again", run=run)).key == "not-unknown"


def test_a_found_drum_is_amended_to_its_yard(house: BuiltHouse) -> None:
    source, drum = house.do(FoundDrum(WEIGHT)).codes
    house.do(Amend(source, "the crew knew it", yard="Hill"))
    assert house.shares(drum)["Hill"] == 1.0


def test_what_clings_in_the_container_it_was_found_in_is_in_its_reach(house: BuiltHouse) -> None:
    house.load("Creek", 100_000, "Tank 1")
    old = house.do(Fill("Tank 1", Weight(net_g=90_000), container="17")).codes[-1]
    facts = FoundDrum(Weight(gross_g=308_000), container="17")
    assert turned_down(house, facts) == (
        f"By the books 17 holds {old}: this is that drum. Scan it, and weigh it again where it "
        "weighs otherwise."
    )
    house.pour(old, "Tank 1")
    _, drum = house.do(facts).codes
    assert holding(house, drum) == {"17": (290_000, 0)}
    assert origins(house, drum)[old] == 0


def test_what_a_found_drum_and_its_amendment_refuse(house: BuiltHouse) -> None:
    assert turned_down(house, FoundDrum(Weight())) == (
        "Type the gross or the net weight from the scale."
    )
    assert turned_down(house, FoundDrum(Weight(net_g=5_000_000))) == (
        "5 000.0 kg does not go into a drum, which takes 1 500.0 kg at most: check pounds against "
        "kilograms, and gross against tare."
    )
    assert turned_down(house, FoundDrum(WEIGHT, row="3")) == (
        "Name the room first; a row alone says too little."
    )
    _, drum = house.do(FoundDrum(WEIGHT)).codes
    run = code_in(house.do(OpenRun("Tank 1")), "R")
    assert turned_down(house, Amend(drum, "maybe", run=run)) == (
        f"Nothing was loaded in {run}: no drum can be of it. Name another run."
    )
    assert refusal_of(house, Amend(drum, "maybe", run=run, yard="Hill")).key == "one-amendment"
