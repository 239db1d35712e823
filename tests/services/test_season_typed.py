"""A plan's figures as typed and shown: each comes back as it was, and below zero is read, too."""

from datetime import date

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.services.season_plan import LIMITS, HousePlan, PlanBox, PlanYard
from honeyledger.services.season_typed import (
    parse_plan_figure,
    plan_figure,
    plan_unit,
    with_yards,
)


@pytest.mark.parametrize("name", LIMITS)
def test_what_is_shown_is_read_again(name: str) -> None:
    limit = LIMITS[name]
    some = 14_800 if name.endswith("_g") else min(limit.most, max(limit.least, 25))
    assert parse_plan_figure(name, plan_figure(name, some, "kg"), "kg") == some


@pytest.mark.parametrize(
    ("name", "text", "value", "shown"),
    [
        ("supers_hundredths", "2.6", 260, "2.6"),
        ("supers_hundredths", "2,59", 259, "2.59"),
        ("spin_tenths", "5", 50, "5"),
        ("shift_tenths", "-2", -20, "-2"),
        ("weather_permille", "20 %", 200, "20"),
        ("honey_g", "14.8", 14_800, "14.8"),
        ("crew", "3", 3, "3"),
        ("jar_g", "500", 500, "500"),
    ],
)
def test_by_hand(name: str, text: str, value: int, shown: str) -> None:
    assert parse_plan_figure(name, text, "kg") == value
    assert plan_figure(name, value, "kg").replace("−", "-") == shown


def test_units_stand_behind_figures() -> None:
    assert [plan_unit(name, "lb") for name in ("honey_g", "jar_g", "spin_tenths", "crew")] == [
        "lb",
        "g",
        "min",
        "",
    ]


def test_what_is_no_number_is_refused() -> None:
    with pytest.raises(Refusal) as refused:
        parse_plan_figure("crew", "some", "kg")
    assert refused.value.field == "crew"
    assert refused.value.text == "some is not People: type it in digits, such as 24."


def test_a_yards_colonies_are_typed_by_its_name() -> None:
    yards = (PlanYard("Long Field", 30), PlanYard("Mill = Lane", 20))
    plan = HousePlan(date(2026, 7, 6), yards, (PlanBox("medium", 1_000, 9, 15_000),))
    made = with_yards(plan, ("long field=36", "New Yard = 12"))
    assert [(one.name, one.colonies) for one in made.yards] == [
        ("Long Field", 36),
        ("Mill = Lane", 20),
        ("New Yard", 12),
    ]
    assert with_yards(plan, ()) == plan
    for text in ("Long Field", "=12"):
        with pytest.raises(Refusal) as refused:
            with_yards(plan, (text,))
        assert refused.value.text == (
            f"{text} is no yard with its colonies: type its name, an equals sign and how many, "
            "such as Long Field=32."
        )
