"""The model against sums that can be done by hand, and what it says of how it ended."""

import pytest

from honeyledger.optimisation.model import Model


def knapsack() -> tuple[Model, list[int]]:
    """Weights 5, 4, 3 and worth 10, 7, 6 in 7: the last two weigh 7 and are worth 13."""
    model = Model()
    columns = [model.yes_or_no(-worth) for worth in (10.0, 7.0, 6.0)]
    model.row(dict(zip(columns, (5.0, 4.0, 3.0), strict=True)), most=7.0)
    return model, columns


def test_a_knapsack_by_hand(capfd: pytest.CaptureFixture[str]) -> None:
    model, columns = knapsack()
    solved = model.solve(5.0)
    assert solved.values is not None
    assert [round(solved.values[at]) for at in columns] == [0, 1, 1]
    assert solved.bound == pytest.approx(-13)
    assert solved.stopped == "proved"
    # Nothing is written: a command's answer may be read by a program.
    assert capfd.readouterr() == ("", "")


def test_amounts_go_as_far_as_they_may() -> None:
    model = Model()
    amount = model.amount(2.5, -1.0)
    assert model.solve(5.0).values == [2.5]
    model.row({amount: 2.0}, most=3.0)
    assert model.solve(5.0).values == [1.5]


def test_what_cannot_be_is_said() -> None:
    model, columns = knapsack()
    model.row({columns[0]: 1.0, columns[1]: 1.0}, least=2.0)
    solved = model.solve(5.0)
    assert (solved.values, solved.stopped) == (None, "none")


def test_a_start_that_is_known_is_kept_when_it_is_stopped_at_once() -> None:
    model, columns = knapsack()
    solved = model.solve(5.0, {columns[0]: 1.0}, lambda _best, _bound: False)
    assert solved.values is not None
    assert solved.stopped in ("asked", "proved")
