"""A plan drawn, as data: the band by day, the parts, what more buys, what machines wait for."""

from dataclasses import replace
from datetime import date

import pytest

from honeyledger.desktop.models.charts import ChartForm
from honeyledger.desktop.stations.season.plan_charts import (
    BY_DAY,
    MORE,
    MOST_POINTS,
    PARTS_OF_IT,
    WAITING,
    plan_answer,
    plan_chart,
    plan_figures,
)
from honeyledger.optimisation.season_runs import HouseSimulator
from honeyledger.services.season_forecast import Forecast, forecast
from honeyledger.services.season_plan import HousePlan, PlanBox, PlanYard

PLAN = HousePlan(
    date(2026, 7, 6),
    (PlanYard("All", 300),),
    (PlanBox("medium", 1_000, 9, 15_000),),
    pulled_a_day=12,
)


def _go_on(_done: int, _of: int) -> bool:
    return True


@pytest.fixture(scope="module")
def made() -> Forecast:
    return forecast(PLAN, HouseSimulator(1), _go_on, count=8, changes=("truck", "extractor"))


def test_the_band_ends_with_all_supers_on_the_last_day(made: Forecast) -> None:
    chart = plan_chart(made, BY_DAY)
    assert chart.form is ChartForm.DOTS
    assert len(made.curve) > MOST_POINTS >= len(chart.items) == len(chart.spreads)
    last = chart.items[-1]
    assert last.cells[1:] == ("780", "780", "780")
    assert chart.levels[0].value == 780
    assert all(one.low <= one.middle <= one.high for one in chart.spreads)
    assert last.spoken.endswith("780 supers are through, 780 to 780 in four seasons of five")


def test_the_longest_part_is_said_in_words(made: Forecast) -> None:
    chart = plan_chart(made, PARTS_OF_IT)
    assert [item.name for item in chart.items][:2] == ["Pulling supers", "Hot room"]
    assert chart.items[0].words.endswith("days, the longest")
    assert "it holds the season up" in chart.items[0].spoken
    assert not any("longest" in item.words for item in chart.items[1:])


def test_what_more_buys_has_its_band_behind(made: Forecast) -> None:
    truck, extractor = plan_chart(made, MORE).items
    assert truck.name == "32 more supers a day pulled"
    assert truck.behind is not None
    assert truck.behind[0] <= truck.parts[0].value <= truck.behind[1]
    assert truck.parts[0].value > extractor.parts[0].value


def test_what_machines_wait_for_is_of_their_hours(made: Forecast) -> None:
    items = plan_chart(made, WAITING).items
    assert next(item.name for item in items) == "Uncapping waits for warm supers"
    assert items[0].words.endswith(" %")
    assert items[0].parts[0].value > 50


def test_the_answer_is_when_and_why(made: Forecast) -> None:
    assert made.ends is not None
    said = plan_answer(made)
    assert said.startswith("Ends on ")
    assert "; four seasons of five from " in said
    assert said.endswith("What holds it up: Pulling supers.")
    figures = {figure.meaning: figure.figure for figure in plan_figures(made)}
    assert made.days is not None
    assert figures["days"] == str(made.days.middle)
    assert figures["supers"] == "780"
    assert "drums" in figures, "nobody knows how many stand empty"
    assert f"of {made.plan.places} warm places" in figures
    known = plan_figures(replace(made, plan=replace(made.plan, empties=7)))
    assert "drums, 7 empty" in {figure.meaning for figure in known}
    assert figures["frames"] == "7\u202f020"


def test_what_cannot_be_has_no_end_and_its_other_figures() -> None:
    wrong = forecast(replace(PLAN, frames_a_load=0), HouseSimulator(1), _go_on)
    assert plan_answer(wrong) == ("No end can be told. Longest of the rest: Pulling supers.")
    assert plan_chart(wrong, BY_DAY).items == ()
    assert plan_chart(wrong, WAITING).items == ()
    assert {figure.meaning for figure in plan_figures(wrong)} == {
        "drums",
        "supers",
        "frames",
        "jars",
    }
    nothing = forecast(replace(PLAN, yards=()), HouseSimulator(1), _go_on)
    assert plan_answer(nothing) == (
        "As it stands it cannot be planned: the marked figures say why."
    )


def test_one_that_does_not_end_within_a_year_says_so() -> None:
    slow = forecast(replace(PLAN, pulled_a_day=1), HouseSimulator(1), _go_on, count=2, changes=())
    assert plan_answer(slow) == (
        "It does not end within a year. What holds it up: Pulling supers."
    )
