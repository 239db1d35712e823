"""The plan's form asks what a plan is made of, and nothing that it does not know."""

from dataclasses import fields

from honeyledger.desktop.stations.season.plan_form_view import ROWS
from honeyledger.services.season_plan import LIMITS, HousePlan

# Told by the ledger or usual; whoever wants them otherwise has them in the terminal's options.
LEFT_OUT = {
    *("here", "supers_a_place", "drum_tenths", "stops_100h_tenths", "stop_minutes"),
    *("pace_percent", "kept_permille", "spread_percent", "jar_g"),
}


def test_every_field_is_a_figure_of_the_plan_and_is_asked_once() -> None:
    asked = [name for row in ROWS for name in row]
    assert len(asked) == len(set(asked))
    assert set(asked) - {"begins"} <= set(LIMITS)
    assert set(LIMITS) - set(asked) == LEFT_OUT


def test_every_figure_of_a_plan_has_its_limit() -> None:
    of_plan = {one.name for one in fields(HousePlan)}
    learnt = {"weather_days", "truck_days", "truck_percent"}
    assert of_plan - set(LIMITS) == {"begins", "yards", "boxes", "empties", *learnt}
