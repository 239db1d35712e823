"""What there is to do today: each thing at its station, nothing in a house that is in order."""

from datetime import date

import pytest

from honeyledger.assets import resource
from honeyledger.domain.checks import ListedCheck
from honeyledger.domain.withholding import parse_interval
from honeyledger.exchange.checks import shipped_checks
from honeyledger.exchange.season import SAMPLE_NOW_MS
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.checks import Check
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import OpenRun
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.recalls import DRILL, CloseRecall, OpenRecall
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.yards import Treat
from honeyledger.services.day_sheet import (
    BOTTLING,
    CHECKS,
    DISPATCH,
    DRUMS,
    EXTRACTION,
    HOT_ROOM,
    OVERDUE,
    RECALLS,
    SOON,
    TODAY,
    YARDS,
    DaySheet,
    day_sheet,
)
from tests.support.houses import BuiltHouse
from tests.support.sample import season_read

DAY_MIN = 24 * 60
PESTS = ListedCheck("pests", "Pests", "Look for pests.", parse_interval("2 weeks"))


def _sheet(house: BuiltHouse, *checks: ListedCheck) -> DaySheet:
    now_ms = house.now_ms
    return house.house.ask(lambda view: day_sheet(view, now_ms, checks))


def _said(sheet: DaySheet, station: str) -> list[tuple[int, str, tuple[str, ...]]]:
    return [(row.when, row.what, row.codes) for row in sheet.at(station)]


@pytest.fixture
def house() -> BuiltHouse:
    made = BuiltHouse()
    made.yard("Ash", colonies=10)
    made.vessel("Line", sort="line")
    made.vessel("Tank", fed_by="Line")
    return made


def test_a_house_with_nothing_to_do(house: BuiltHouse) -> None:
    sheet = _sheet(house)
    assert (sheet.rows, sheet.overdue, sheet.day) == ((), 0, date(2026, 7, 24))
    assert (sheet.house, sheet.unit) == ("Test House", "kg")


def test_stacks_too_long_in_the_hot_room_and_wet_ones(house: BuiltHouse) -> None:
    _, old = house.pull("Ash", 150_000)
    house.wait(4 * DAY_MIN)
    wet, tag = house.pull("Ash", 150_000)
    house.do(Measure(wet, moisture=1_910))
    house.pull("Ash", 150_000)
    assert _said(_sheet(house), HOT_ROOM) == [
        (OVERDUE, "waits for 96 h, Ash: run it first", (old,)),
        (TODAY, "dry it first: 19.1 %, Ash", (tag,)),
    ]


def test_runs_left_open_and_drums_to_read_to_weigh_and_to_decide(house: BuiltHouse) -> None:
    run = house.do(OpenRun("Line", tank="Tank")).given[0]
    house.load("Ash", 900_000, "Line")
    read = house.drum("Tank", 100_000)
    house.do(Measure(read, moisture=1_720, colour=400))
    unread = house.drum("Tank", 50_000)
    house.container("Drum 9")
    house.do(Fill("Tank", Weight(), container="Drum 9", pending=True))
    house.do(PutOnHold(read, "smells of smoke"))
    sheet = _sheet(house)
    assert _said(sheet, EXTRACTION) == [
        (TODAY, "open on Line since 24 Jul 2026: close it", (run,))
    ]
    weigh, sample, hold = _said(sheet, DRUMS)
    assert weigh[1] == "weigh what was to follow"
    assert sample[1:] == ("sample it: moisture and colour were not read", (unread,))
    assert hold[1:] == (
        f"decide the hold on {read}: smells of smoke (100.0 kg here)",
        (read,),
    )
    house.wait(DAY_MIN)
    assert _said(_sheet(house), EXTRACTION)[0][0] == OVERDUE


def test_treatments_that_become_clear(house: BuiltHouse) -> None:
    for clear in ("2026-07-24", "2026-07-31", "2026-08-30"):
        house.do(Treat("Ash", "Strips", first_day="2026-07-01", clear_day=clear))
    assert [(when, what) for when, what, _ in _said(_sheet(house), YARDS)] == [
        (TODAY, "Ash is clear of Strips from 24 Jul 2026 on"),
        (SOON, "Ash is clear of Strips from 31 Jul 2026 on"),
    ]


def test_orders_by_their_day(house: BuiltHouse) -> None:
    house.do(Register("customer", {"name": "Corner shop"}))
    days = {"A": "2026-07-20", "B": "2026-07-24", "C": "2026-07-30", "D": "2026-09-30", "E": ""}
    for name, due in days.items():
        record = {"name": name, "customer": "Corner shop", "due": due}
        house.do(Register("order", {key: text for key, text in record.items() if text}))
    assert [(when, what) for when, what, _ in _said(_sheet(house), DISPATCH)] == [
        (OVERDUE, "order A of Corner shop: nobody said what, due 20 Jul 2026"),
        (TODAY, "order B of Corner shop: nobody said what, due 24 Jul 2026"),
        (TODAY, "order E of Corner shop: nobody said what"),
        (SOON, "order C of Corner shop: nobody said what, due 30 Jul 2026"),
    ]


def test_checks_never_made_due_soon_overdue_and_off(house: BuiltHouse) -> None:
    def said() -> list[tuple[int, str]]:
        return [(when, what) for when, what, _ in _said(_sheet(house, PESTS), CHECKS)]

    assert said() == [(TODAY, "Pests: never made")]
    house.do(Check("", "Pests", "ok", listed="pests"))
    assert said() == []
    house.wait(10 * DAY_MIN)
    assert said() == [(SOON, "Pests: due 7 Aug 2026")]
    house.wait(4 * DAY_MIN)
    assert said() == [(TODAY, "Pests: due today")]
    house.wait(DAY_MIN)
    assert said() == [(OVERDUE, "Pests: overdue")]
    house.do(Check("", "Pests", "off", listed="pests"))
    assert said() == [(OVERDUE, "Pests: found off, put it right and look at what used it")]


def test_a_stack_far_off_is_to_be_looked_at_for_a_week(house: BuiltHouse) -> None:
    for at in range(12):
        house.do(Receive((Line("Ash", 40),), 42_000 + 40 * (21_000 + 50 * at), 42_000))
    far = house.do(Receive((Line("Ash", 4),), 42_000 + 4 * 21_000, 0)).entries[0].lots[0].code
    words = (
        "weight a super far off the others: weighed with its pallet: the usual tare was not "
        "taken off"
    )
    assert (TODAY, words, (far,)) in _said(_sheet(house), EXTRACTION)
    house.wait(8 * DAY_MIN)
    assert _said(_sheet(house), EXTRACTION) == []


def test_an_open_case_is_to_be_looked_at(house: BuiltHouse) -> None:
    house.load("Ash", 300_000, "Line")
    drum = house.drum("Tank", 100_000)
    case = house.do(OpenRecall("glass in it", (drum,))).given[0]
    (row,) = _said(_sheet(house), RECALLS)
    assert row == (TODAY, "the case about glass in it is open", (case,))


def test_a_drill_is_due_soon_then_overdue(house: BuiltHouse) -> None:
    house.do(Register("customer", {"name": "Shop"}))
    house.do(Register("operator", {"name": "Ada Quill"}))
    house.load("Ash", 300_000, "Line")
    drum = house.drum("Tank", 100_000)
    house.do(Dispatch("Shop", (DispatchLine(drum),)))
    never = "a recall was never rehearsed: do it from a jar that was sent"
    assert _said(_sheet(house), RECALLS) == [(TODAY, never, ())]
    case = house.do(OpenRecall(f"drill on {drum}", (drum,), sort=DRILL)).given[0]
    house.do(CloseRecall(case, "by telephone"))
    assert _said(_sheet(house), RECALLS) == []
    house.wait(364 * DAY_MIN)
    ((when, words, _),) = _said(_sheet(house), RECALLS)
    assert (when, words.rpartition(" by ")[0]) == (SOON, "a recall is to be rehearsed")
    house.wait(3 * DAY_MIN)
    ((when, words, _),) = _said(_sheet(house), RECALLS)
    assert (when, words.rpartition(" since ")[0]) == (OVERDUE, "a recall is to be rehearsed")


def test_the_sample_season_has_something_at_every_station_but_of_recalls(
    tmp_path_factory: object,
) -> None:
    folder = tmp_path_factory.mktemp("read")  # type: ignore[attr-defined]
    with season_read(folder) as season:
        sheet = day_sheet(season.view, SAMPLE_NOW_MS, shipped_checks(resource("checks")))
    found = {row.station for row in sheet.rows}
    # Its one recall is closed, and a drill was just made.
    assert found == {YARDS, HOT_ROOM, EXTRACTION, DRUMS, BOTTLING, CHECKS}
    assert sheet.overdue == 5
    assert [row.when for row in sheet.at(CHECKS)] == sorted(row.when for row in sheet.at(CHECKS))
