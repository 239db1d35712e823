"""What lies far off, against scipy's median distance and the authors' own example."""

import pytest
from scipy.stats import median_abs_deviation

from honeyledger.domain.outliers import TOO_FAR, median, middle_of

# Iglewicz and Hoaglin 1993, the data that hide themselves from a plain z-score (from memory).
HIDDEN = (2.1, 2.6, 2.4, 2.5, 2.3, 2.1, 2.3, 2.6, 8.2, 8.3)


def test_two_that_hide_each_other_are_found() -> None:
    found = middle_of(HIDDEN)
    assert found is not None
    assert found.median == pytest.approx(2.45)
    assert found.spread == pytest.approx(median_abs_deviation(HIDDEN) / 0.6745)
    far = [value for value in HIDDEN if abs(found.score(value)) > TOO_FAR]
    assert far == [8.2, 8.3]
    assert found.score(8.3) == pytest.approx(26.3055)


def test_where_most_are_alike_the_mean_distance_counts() -> None:
    found = middle_of([10.0] * 9 + [20.0])
    assert found is not None
    assert found.spread == pytest.approx(1.253314)
    assert found.score(20.0) > TOO_FAR


def test_too_few_and_all_alike_say_nothing() -> None:
    assert middle_of(HIDDEN[:7]) is None
    assert middle_of([3.0] * 12) is None
    assert median([4.0, 1.0, 3.0, 2.0]) == 2.5
    assert median([3.0, 1.0, 2.0]) == 2.0
