"""The dock: what arrived today, the yard in hand, and what there is to choose from."""

import pytest

from honeyledger.ledger.verbs.corrections import Amend, Reverse
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.dock import Choice, DockDay, choices, dock_day, yard_season
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Hill", colonies=32)
    house.yard("creek")
    return house


def _day(house: BuiltHouse) -> DockDay:
    return house.house.ask(lambda view: dock_day(view, house.now_ms))


def test_choices_by_name_with_a_word_to_tell_them_apart(house: BuiltHouse) -> None:
    house.do(Register("yard", {"name": "Moor", "number": "A-7"}))
    found = house.house.ask(lambda view: choices(view, "yard"))
    assert [(row.name, row.detail) for row in found] == [
        ("creek", ""),
        ("Hill", "32 colonies"),
        ("Moor", "A-7"),
    ]
    assert all(row.code.startswith("Y26-") for row in found)
    boxes = house.house.ask(lambda view: choices(view, "box"))
    assert boxes == (Choice("medium", "medium"),)
    assert house.house.ask(lambda view: choices(view, "customer")) == ()


def test_a_day_without_pallets(house: BuiltHouse) -> None:
    assert _day(house) == DockDay((), 0, 0, None, 0, None)


def test_arrivals_newest_first_with_their_totals(house: BuiltHouse) -> None:
    lines = (Line("creek", 10, sheet=12), Line("Hill", 4))
    first = house.do(Receive(lines, moisture=17_00))
    second = house.do(Receive((Line("Hill", 6),), gross_g=140_000, moisture=17_60))
    day = _day(house)
    assert [row.pull for row in day.arrivals] == [*second.codes, *first.codes]
    newest = day.arrivals[0]
    assert (newest.yard, newest.supers, newest.grams, newest.moisture) == (
        "Hill",
        6,
        89_000,
        17_60,
    )
    assert newest.pallet in second.given
    assert (newest.entry, newest.weighed, newest.state) == (second.entries[0].id, True, "ready")
    assert [row.weighed for row in day.arrivals[1:]] == [False, False]
    assert (day.supers, day.sheet_supers, day.grams) == (20, 22, 89_000 + 14 * 14_800)
    # (17.6 % of 89 kg and 17.0 % of 207.2 kg) over 296.2 kg
    assert day.moisture == (17_60 * 89_000 + 17_00 * 207_200) // 296_200
    assert day.last is not None
    assert day.last["gross_g"] == 140_000


def test_each_pull_says_what_its_sheet_says(house: BuiltHouse) -> None:
    lines = (
        Line("creek", 10, sheet=12, crew="North", pulled="2026-07-23"),
        Line("Hill", 4, sheet=4, crew="South"),
        Line("Hill", 5),
    )
    house.do(Receive(lines))
    rows = {(row.yard, row.supers): row for row in _day(house).arrivals}
    off = rows["creek", 10]
    assert (off.sheet, off.crew, off.box, off.pulled) == (12, "North", "medium", "2026-07-23")
    assert (off.state, off.reason) == ("count off", "12 on its sheet")
    assert rows["Hill", 4].state == "ready", "what agrees is not worth a word"
    unsaid = rows["Hill", 5]
    assert (unsaid.state, unsaid.sheet, unsaid.crew) == ("ready", 0, "")


def test_the_state_of_each_pull_says_why(house: BuiltHouse) -> None:
    green = house.do(Receive((Line("creek", 5),), condition="green")).codes[0]
    wet = house.do(Receive((Line("creek", 5),), moisture=18_60)).codes[0]
    held = house.do(Receive((Line("creek", 5),), moisture=18_60)).codes[0]
    house.do(PutOnHold(held, "brood found"))
    states = {row.pull: (row.state, row.reason) for row in _day(house).arrivals}
    assert states == {
        green: ("green", "moisture not read"),
        wet: ("dry first", "above 18 %"),
        held: ("hold", f"{held}: brood found"),
    }
    house.do(Measure(green, moisture=17_40))
    assert next(row for row in _day(house).arrivals if row.pull == green).state == "ready"


def test_reversed_and_older_receipts_are_not_of_the_day(house: BuiltHouse) -> None:
    house.pull("creek", 100_000)
    house.wait(24 * 60)
    done = house.do(Receive((Line("creek", 5),)))
    house.do(Reverse(done.entries[0].id, "other house"))
    kept = house.do(Receive((Line("Hill", 5),)))
    day = _day(house)
    assert [row.pull for row in day.arrivals] == list(kept.codes)
    assert (day.supers, day.sheet_supers) == (5, 5)


def test_what_a_yard_gave_this_season(house: BuiltHouse) -> None:
    hill = next(
        row.code for row in house.house.ask(lambda v: choices(v, "yard")) if row.name == "Hill"
    )
    one, _ = house.pull("Hill", 100_000, count=8)
    two, _ = house.pull("Hill", 300_000, count=22)
    house.do(Measure(one, moisture=17_00, colour=300))
    house.do(Measure(two, moisture=18_00))
    wrong = house.do(Receive((Line("Hill", 50),)))
    house.do(Reverse(wrong.entries[0].id, "counted twice"))
    other, _ = house.pull("Hill", 70_000)
    house.do(Amend(other, "misread", yard="creek"))
    season = house.house.ask(lambda view: yard_season(view, hill, house.now_ms))
    assert (season.name, season.colonies, season.pulls, season.supers, season.grams) == (
        "Hill",
        32,
        2,
        30,
        400_000,
    )
    assert (season.moisture, season.colour) == (17_75, 300)
    next_year = house.now_ms + 365 * 24 * 3_600_000
    later = house.house.ask(lambda view: yard_season(view, hill, next_year))
    assert (later.pulls, later.grams, later.moisture, later.colour) == (0, 0, None, None)
