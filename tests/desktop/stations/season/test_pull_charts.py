"""The next pulls as they are drawn and said."""

from dataclasses import replace
from datetime import date

from honeyledger.desktop.stations.season.pull_charts import (
    pulling_answer,
    pulling_chart,
    pulling_figures,
    pulling_notes,
)
from honeyledger.services.pulling import NotYet, PullingPlan, Stop, Trip
from honeyledger.services.pulling_yards import NEVER, YardToPull
from honeyledger.services.season_page import SeasonPage

ASH = YardToPull(
    *("Y1", "Ash", "", 60, False, 900_000, 1_910, 2),
    *(date(2027, 7, 24), "", None, None),
)
FIR = YardToPull(*("Y2", "Fir", "", 40, True, 0, None, 1), *(NEVER, "Pads", None, None))
ELM = replace(FIR, code="Y3", name="Elm", ready=date(2027, 8, 2))
TRIP = Trip(date(2027, 7, 24), (Stop(ASH, 50, 123), Stop(FIR, 40)), 250, True)


def _plan(*trips: Trip, later: tuple[NotYet, ...] = ()) -> PullingPlan:
    says = ("Nobody said how many supers are on Fir: guessed by their colonies.",)
    return PullingPlan("House", "9 AB", "UTC", "kg", 90, 300, 12, 100, trips, later, says)


def test_stops_in_the_order_of_the_road_then_what_is_for_later(page: SeasonPage) -> None:
    later = (NotYet(FIR, 40, "Pads"), NotYet(ELM, 40, "Strips"))
    told = replace(page, pulling=_plan(TRIP, later=later))
    chart = pulling_chart(told)
    assert [item.cells for item in chart.items] == [
        ("Ash", "24 Jul", "50", "12", "was 19.1 %, 10 stay"),
        ("Fir", "24 Jul", "40", "", "fresh supers, supers guessed"),
        ("Fir", "later", "40", "", "Pads"),
        ("Elm", "2 Aug", "40", "", "Strips"),
    ]
    assert [item.parts[0].series for item in chart.items] == [2, 1, 3, 3]
    assert chart.items[0].spoken == (
        "24 Jul, stop 1: Ash, 50 supers, 12 km from the one before, was 19.1 %, 10 stay"
    )
    assert pulling_answer(told) == "24 Jul 2027: 90 supers from 2 yards, some 25 km by road."
    assert [one.figure for one in pulling_figures(told)] == ["90", "12", "300"]
    assert [note.sentence for note in pulling_notes(told)] == [
        "Planned: Nobody said how many supers are on Fir: guessed by their colonies.",
        "Whoever drives looks under the lid: pull what is capped, read what is not, lift with "
        "two.",
    ]


def test_what_is_said_without_a_truck(page: SeasonPage) -> None:
    assert pulling_answer(page) == "Looking at the yards."
    assert pulling_notes(page) == []
    none = replace(page, pulling=_plan())
    assert pulling_answer(none) == pulling_chart(none).empty
    near = replace(page, pulling=_plan(replace(TRIP, tenths_km=0)))
    assert pulling_answer(near) == "24 Jul 2027: 90 supers from 2 yards."
    held = replace(page, pulling=_plan(later=(NotYet(FIR, 40, "Pads"),)))
    assert pulling_answer(held) == "Nothing can be pulled in these days; one yard is for later."
    past = replace(page, season=2026)
    assert pulling_answer(past).startswith("2026 is over:")
