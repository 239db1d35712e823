"""Plans that cannot be get a sentence each; one more of something is planned where it can be."""

from dataclasses import replace
from datetime import date

import pytest

from honeyledger.services.season_plan import (
    CHANGES,
    HousePlan,
    PlanBox,
    PlanYard,
    changed,
    problems,
)

PLAN = HousePlan(
    date(2026, 7, 6),
    (PlanYard("Upper Tansel", 700), PlanYard("Lower Tansel", 500)),
    (PlanBox("medium", 800, 9, 14_800), PlanBox("deep", 200, 10, 25_500)),
)


def test_what_is_usual_can_be_planned() -> None:
    assert problems(PLAN) == ()
    assert PLAN.colonies == 1_200
    assert PLAN.supers == PLAN.left == 3_120
    assert PLAN.super_g == 16_940
    assert PLAN.open_minutes == 420


@pytest.mark.parametrize(
    ("wrong", "field", "text"),
    [
        (
            {"frames_a_load": 0},
            "frames_a_load",
            "Frames a load: 0 is too little to plan with. Say 1 or more.",
        ),
        (
            {"shift_tenths": -20},
            "shift_tenths",
            "Hours a shift: -2 is too little to plan with. Say 0.1 or more.",
        ),
        (
            {"spin_tenths": 0},
            "spin_tenths",
            "Minutes a spin: 0 is too little to plan with. Say 0.1 or more.",
        ),
        ({"crew": 900}, "crew", "People: 900 is more than can be. Say 200 or less."),
        (
            {"shifts": 4},
            "shifts",
            "4 shifts of 8 h are 32 h, and a day has 24: plan fewer shifts, or shorter ones.",
        ),
        (
            {"shift_tenths": 10},
            "clean_minutes",
            "Cleaning takes 60 min a day, and the day has 60 min of work: nothing is left to "
            "extract in. Plan longer shifts, or less cleaning.",
        ),
        (
            {"through": 3_120},
            "through",
            "3120 supers are through of 3120 in all, so nothing is left to plan. Say more "
            "colonies, more supers a colony, or fewer that are through.",
        ),
        (
            {"yards": (PlanYard("Upper Tansel", 700), PlanYard("Lower Tansel", -3))},
            "colonies",
            "Colonies: -3 is too little to plan with. Say 1 or more.",
        ),
        ({"yards": ()}, "colonies", "Colonies: 0 is too little to plan with. Say 1 or more."),
        (
            {"boxes": (PlanBox("medium", 900, 9, 14_800),)},
            "frames",
            "The boxes' parts come to 900 in 1,000 of all supers: they must come to 1,000.",
        ),
    ],
)
def test_what_cannot_be_is_said(wrong: dict[str, object], field: str, text: str) -> None:
    (one,) = problems(replace(PLAN, **wrong))  # type: ignore[arg-type]
    assert (one.field, one.text) == (field, text)


def test_everything_that_cannot_be_is_said_at_once() -> None:
    boxes = (PlanBox("medium", 1_000, 0, 14_800),)
    found = problems(replace(PLAN, boxes=boxes, crew=0, tanks=-1))
    assert [one.field for one in found] == ["frames", "tanks", "crew"]


def test_a_sort_of_box_that_nobody_has_may_be_anything() -> None:
    boxes = (PlanBox("medium", 1_000, 9, 14_800), PlanBox("deep", 0, 0, 0))
    assert problems(replace(PLAN, boxes=boxes)) == ()


def test_one_more_is_a_plan_where_it_can_be() -> None:
    for what, (field, more) in CHANGES.items():
        made = changed(PLAN, what)
        assert made is not None
        assert getattr(made, field) == getattr(PLAN, field) + more
    assert changed(replace(PLAN, shifts=3), "shift") is None
