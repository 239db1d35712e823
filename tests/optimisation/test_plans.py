"""Plans by the solver: the best of all there are on small cases, and never worse than by age."""

import itertools

import pytest

from honeyledger.optimisation.plans import SolverPlanner, better, forbid_runs, runs_model
from honeyledger.services.planning import (
    Parcel,
    Proposal,
    Runs,
    Wanted,
    blend_recall_g,
    first_in_blend,
    first_in_runs,
    fits,
    fits_runs,
    runs_recall_g,
)
from tests.support.parcels import drums, pallets

PLANNER = SolverPlanner()


def on(_best: float, _bound: float) -> bool:
    return True


@pytest.mark.parametrize("seed", range(12))
def test_blends_of_eight_drums_equal_an_exhaustive_search(seed: int) -> None:
    some = drums(seed, 8, 10)
    wanted = Wanted(800_000, 1_200_000, 1800, 1600 + seed * 10, 100, 700)
    best = min(
        (
            blend_recall_g(some, [parcel.code for parcel in chosen])
            for many in range(1, 6)
            for chosen in itertools.combinations(some, many)
            if fits(chosen, wanted)
        ),
        default=None,
    )
    found = PLANNER.blend(some, wanted, 30.0, on)
    assert (found and found.expected_g) == best
    if found is not None:
        assert found.stopped == "proved"
        assert found.gap == pytest.approx(0, abs=1e-4)


@pytest.mark.parametrize("seed", range(6))
def test_runs_of_six_pallets_equal_an_exhaustive_search(seed: int) -> None:
    some = pallets(seed, 6, 4)
    asked = Runs(1_500_000, 3, 1800, (("G00", 0), ("G01", 1)))
    best = None
    for put in itertools.product(range(3), repeat=6):
        lots = [
            [one.code for one, at in zip(some, put, strict=True) if at == run] for run in range(3)
        ]
        if fits_runs(some, lots, asked):
            recall = runs_recall_g(some, [lot for lot in lots if lot])
            best = recall if best is None else min(best, recall)
    found = PLANNER.runs(some, asked, 30.0, on)
    assert (found and found.expected_g) == best


def test_never_worse_than_the_oldest_first_even_when_stopped_at_once() -> None:
    some = drums(5, 30)
    wanted = Wanted(1_500_000, 1_800_000, 1780, None, 100, 650)
    by_age = first_in_blend(some, wanted)
    assert by_age is not None
    found = PLANNER.blend(some, wanted, 0.05, lambda _best, _bound: False)
    assert found is not None
    assert found.expected_g <= by_age.expected_g
    waiting = pallets(5, 12)
    asked = Runs(3_000_000, 4)
    assert fits_runs(waiting, first_in_runs(waiting, asked).lots, asked)
    cut = PLANNER.runs(waiting, asked, 0.05, lambda _best, _bound: False)
    assert cut is not None
    assert cut.expected_g <= first_in_runs(waiting, asked).expected_g


def test_a_plan_by_age_that_nothing_beat_says_how_the_search_ended() -> None:
    some = drums(5, 30)
    wanted = Wanted(1_500_000, 1_800_000, 1780, None, 100, 650)
    by_age = first_in_blend(some, wanted)
    assert by_age is not None
    worse = Proposal(by_age.lots, by_age.expected_g + 1, by_age.expected_g // 2, "time")
    kept = better(by_age, worse)
    assert (kept.expected_g, kept.stopped) == (by_age.expected_g, "time")
    assert kept.bound_g == worse.bound_g


def test_a_choice_on_the_very_limit_counts_and_one_beyond_does_not() -> None:
    two = [
        Parcel("A", 333_333, frozenset({"x"}), 1700),
        Parcel("B", 666_667, frozenset({"x"}), 1800),
    ]
    # (333 333 × 17.00 + 666 667 × 18.00) / 1 000 000 is 17.66667.
    assert PLANNER.blend(two, Wanted(1_000_000, 1_000_000, 1766), 5.0, on) is None
    found = PLANNER.blend(two, Wanted(1_000_000, 1_000_000, 1767), 5.0, on)
    assert found is not None
    assert found.lots == (("A", "B"),)


def test_pallets_too_many_for_the_runs_have_no_plan() -> None:
    assert PLANNER.runs(pallets(1, 4), Runs(400_000, 2), 5.0, on) is None


def test_only_the_run_that_does_not_fit_is_forbidden() -> None:
    """A and B together are too heavy by a rounding; C alone, and an empty run, stay allowed."""
    one, other = frozenset({"x"}), frozenset({"y"})
    some = [Parcel("A", 500, one), Parcel("B", 501, one), Parcel("C", 100, other)]
    model, columns = runs_model(some, Runs(2_000, 3))
    forbid_runs(model, columns, some, [["C"], [], ["A", "B"]], Runs(1_000, 3))
    solved = model.solve(5.0)
    assert solved.values is not None
    values = solved.values
    runs = sorted(
        sorted(p.code for p in some if values[columns.put[p.code, at]] > 0.5) for at in range(3)
    )
    # The best that is left has C by itself, as it was where the wrong plan had it.
    assert ["A", "B"] not in runs
    assert runs == [["A"], ["B"], ["C"]]


def test_where_each_run_fits_only_all_of_them_together_are_forbidden() -> None:
    some = [Parcel(code, 500, frozenset({code})) for code in "AB"]
    asked = Runs(1_000, 2)
    model, columns = runs_model(some, asked)
    forbid_runs(model, columns, some, [["A"], ["B"]], asked)
    solved = model.solve(5.0)
    assert solved.values is not None
    # Turned round it costs the same, and nobody forbade that.
    assert solved.values[columns.put["B", 0]] > 0.5
    assert solved.values[columns.put["A", 1]] > 0.5


@pytest.mark.full
@pytest.mark.parametrize("seed", range(1_000, 1_100))
def test_held_out_seasons_are_never_worse_than_the_oldest_first(seed: int) -> None:
    some = drums(seed, 60)
    wanted = Wanted(3_800_000, 4_300_000, 1780, None, 100, 650)
    by_age = first_in_blend(some, wanted)
    found = PLANNER.blend(some, wanted, 20.0, on)
    assert found is not None
    assert by_age is None or found.expected_g <= by_age.expected_g
    assert found.gap is not None
    assert found.gap < 0.02 or found.stopped == "time"
