"""What is shown of a plan of runs."""

from dataclasses import replace

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.hot_room.plan_rows import (
    own_words,
    plan_figures,
    plan_message,
    run_columns,
    run_rows,
)
from honeyledger.services.recall_plans import Plan, PlannedLot
from tests.desktop.stations.hot_room.pages import OLD, PAGE, WET

YARDS = ("yard/Y26-0001-P", "yard/Y26-0002-M")
PLAN = Plan(
    (
        PlannedLot((WET.code,), 450_000, 1_900, YARDS),
        PlannedLot((OLD.code,), 300_000, None, YARDS[:1]),
    ),
    *(450_000, 600_000, True, 500_000, 450_000, "proved", {"G26-0003-2": "hold"}),
)


def test_runs_stand_in_their_order_with_their_pallets_and_yards() -> None:
    rows = run_rows(PLAN, PAGE)
    texts = [[column.text(row) for column in run_columns("kg")] for row in rows]
    assert texts == [["1", "1 pallet", "2", "19.0", "450"], ["2", "1 pallet", "1", "", "300"]]
    notes = [column.note(rows[0]) for column in run_columns("kg") if column.note]
    assert notes == ["G26-0002-4", "Mill Lane, Willow Bank"]


def test_it_is_held_against_the_oldest_first_and_against_your_order() -> None:
    figures = [(one.figure, one.meaning) for one in plan_figures(PLAN, "kg")]
    assert figures == [
        ("450 kg", "as proposed"),
        ("600 kg", "oldest first"),
        ("500 kg", "your order"),
    ]
    alone = replace(PLAN, own_g=None, by_age_g=None)
    assert [one.meaning for one in plan_figures(alone, "kg")] == ["as proposed"]


def test_how_good_it_is_and_what_stays_out() -> None:
    message = plan_message(PLAN, "kg")
    assert message.mark is Mark.NOTE
    assert message.text == (
        "25.0 % less than oldest first. No plan can do better. 1 pallet stays out: held, or too "
        "wet yet."
    )
    same = replace(PLAN, expected_g=600_000, stopped="time", best_g=450_000, left_out={})
    assert plan_message(same, "kg").text == (
        "Oldest first is as good. The time was up; none can come below 450 kg."
    )
    unsure = replace(PLAN, by_age_g=None, stopped="asked", best_g=None, left_out={})
    assert plan_message(unsure, "kg").text == "The time was up; a better plan may exist."
    strict = replace(PLAN, by_age_fits=False, left_out={})
    assert "Oldest first would not keep what was asked." in plan_message(strict, "kg").text


def test_what_is_said_of_a_run_that_was_taken() -> None:
    assert own_words(("G26-0001-6",)) == "The next run is ordered as proposed: 1 pallet."
