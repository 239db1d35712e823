"""Several readings of one thing."""

from bisect import bisect_left
from math import sqrt
from random import Random
from statistics import fmean, pstdev, stdev

import pytest
from hypothesis import given
from hypothesis import strategies as st

from honeyledger.domain.repeated import FEWEST, MOST, together
from tests.support.student import upper

READINGS = st.lists(st.integers(1_300, 2_500), min_size=1, max_size=20)


def test_one_that_does_not_belong_is_shown_with_the_mean_of_the_others() -> None:
    found = together([1_740, 1_740, 1_750, 1_730, 1_740, 1_980], repeats_to=20)
    assert (found.mean, found.lowest, found.highest) == (1_780, 1_730, 1_980)
    assert found.odd == 5
    assert found.mean_without == 1_740


def test_two_equal_ones_make_no_third_odd_that_is_as_near_as_the_instrument_repeats() -> None:
    assert together([1_740, 1_740, 1_750], repeats_to=20).odd is None
    assert together([1_740, 1_740, 1_790], repeats_to=20).odd == 2


def test_of_two_nobody_can_tell_which_is_odd_and_one_has_no_spread() -> None:
    two = together([1_700, 1_900])
    assert (two.mean, two.spread, two.odd) == (1_800, 141, None)
    one = together([1_700])
    assert (one.count, one.mean, one.spread, one.odd) == (1, 1_700, 0, None)


@pytest.mark.parametrize("count", range(FEWEST, MOST + 1))
def test_how_far_out_is_odd_follows_from_students_distribution(count: int) -> None:
    # Grubbs' test at 5 %, both sides: (n - 1) / sqrt(n) * sqrt(t² / (n - 2 + t²)), t at
    # 0.05 / 2n with n - 2 degrees of freedom. Readings around 0 and one as far out as that.
    t = upper(0.025 / count, count - 2)
    furthest = (count - 1) / sqrt(count) * sqrt(t * t / (count - 2 + t * t))
    spread = [100 if at % 2 else -100 for at in range(count - 1)]

    def out(value: int) -> float:
        all_of_them = [*spread, value]
        return (value - fmean(all_of_them)) / pstdev(all_of_them) * sqrt((count - 1) / count)

    values = range(100, 1_000_000)
    below = values[bisect_left(values, furthest - 0.001, key=out) - 1]
    beyond = bisect_left(values, furthest + 0.001, key=out)
    assert together([*spread, below]).odd is None
    if beyond < len(values):
        assert together([*spread, values[beyond]]).odd == count - 1


@pytest.mark.parametrize("count", [4, 6, 10])
def test_one_in_twenty_of_fine_sets_has_an_odd_one(count: int) -> None:
    # Seeded: 4,000 sets that differ by chance alone.
    chance = Random(20_260_801)
    odd = 0
    for _ in range(4_000):
        odd += together([round(chance.gauss(0, 1_000)) for _ in range(count)]).odd is not None
    assert 0.04 <= odd / 4_000 <= 0.06


@given(READINGS)
def test_the_mean_lies_within_and_the_order_does_not_matter(readings: list[int]) -> None:
    found = together(readings, 20)
    assert found.lowest <= found.mean <= found.highest
    assert found.spread <= found.highest - found.lowest
    turned = together(readings[::-1], 20)
    assert (turned.mean, turned.spread, turned.odd is None) == (
        found.mean,
        found.spread,
        found.odd is None,
    )
    if len(readings) > 1:
        assert abs(found.spread - stdev(readings)) <= 0.5


@given(READINGS, st.integers(-500, 500))
def test_all_moved_alike_keep_their_spread(readings: list[int], by: int) -> None:
    moved = together([one + by for one in readings], 20)
    found = together(readings, 20)
    assert (moved.spread, moved.odd) == (found.spread, found.odd)
