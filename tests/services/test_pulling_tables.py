"""A plan of pulls as a truck sheet."""

from dataclasses import replace
from datetime import date

from honeyledger.services.pulling import NotYet, PullingPlan, Stop, Trip
from honeyledger.services.pulling_tables import plan_facts, pulling_tables, truck_day, truck_sheet
from honeyledger.services.pulling_yards import NEVER, YardToPull

ASH = YardToPull(
    *("Y26-0001-P", "Ash", "NW 22", 60, False, 900_000, 1_910, 2),
    *(date(2026, 7, 24), "", None, None),
)
FIR = YardToPull(
    *("Y26-0002-M", "Fir", "", 40, True, 0, None, 1),
    *(NEVER, "Pads is not out yet", None, None),
)


def _plan(*trips: Trip) -> PullingPlan:
    later = (NotYet(FIR, 40, FIR.why),) if trips else ()
    return PullingPlan(
        *("Test House", "9 AB", "UTC", "kg", 50, None, 12, 100, trips, later),
        ("No coordinates are on record of Fir: planned last on their trip.",),
    )


TRIP = Trip(date(2026, 7, 24), (Stop(ASH, 50, 123), Stop(FIR, 40)), 250, True)


def test_a_table_a_day_and_what_is_left_for_later() -> None:
    day, later = pulling_tables(_plan(TRIP))
    assert day.title == "24 Jul 2026"
    assert day.rows == (
        ("1", "Ash", "NW 22", "50", "750.0 kg", "12", "was wet, 19.1 %, 10 stay", ""),
        ("2", "Fir", "", "40", "", "", "fresh supers, supers guessed", ""),
    )
    assert day.total == ("", "in all", "", "90", "750.0 kg", "25", "", "")
    assert later.rows == (("Fir", "40", "not known", "Pads is not out yet"),)


def test_nothing_to_pull_is_a_sentence() -> None:
    day, later = pulling_tables(_plan())
    assert (day.rows, day.none) == ((), "Nothing can be pulled in these days.")
    assert later.none == "No yard with supers is left for later."


def test_a_house_that_ran_nothing_yet_has_no_pace() -> None:
    assert dict(plan_facts(replace(_plan(), a_day=0)))["Line puts through"] == "not known"


def test_the_sheet_says_what_it_was_made_with() -> None:
    sheet = truck_sheet(_plan(TRIP))
    assert dict(plan_facts(_plan())) == {
        "Truck takes": "50 supers",
        "Hot room takes": "not known",
        "In the house now": "12 supers",
        "Line puts through": "100 supers a day",
    }
    assert sheet.facts == plan_facts(_plan(TRIP))
    assert truck_day(_plan(TRIP)) == TRIP.day.isoformat()
    assert truck_day(_plan()) == ""
    assert sheet.ticks
    assert sheet.sign[0] == "Driver"
    assert sheet.says[0].startswith("A plan, no order: look under the lid")
