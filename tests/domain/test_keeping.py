"""Whether honey keeps, by its moisture."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from honeyledger.domain.keeping import class_of, keeps_a_year


# Lochhead 1933 as reprinted in "A Practical Manual of Beekeeping", Table 2 (what-when-how, S2):
# any yeast count is safe at 17.0 %, 1,000 a gram at 17.5 %, 10 at 18.5 %, 1 at 19.5 %, none above.
@pytest.mark.parametrize(
    ("moisture", "name", "yeast"),
    [
        (1_400, "keeps", None),
        (1_700, "keeps", None),
        (1_750, "keeps with little yeast", 1_000),
        (1_800, "keeps with little yeast", 1_000),
        (1_850, "may ferment", 10),
        (1_950, "will likely ferment", 1),
        (2_010, "ferments", -1),
    ],
)
def test_the_classes_are_those_of_the_table(moisture: int, name: str, yeast: int | None) -> None:
    found = class_of(moisture)
    assert (found.name, found.yeast_a_gram) == (name, yeast)


def test_between_two_classes_a_reading_is_rounded_to_tenths() -> None:
    assert class_of(1_804).name == "keeps with little yeast"
    assert class_of(1_805).name == "may ferment"


# The same table, with a count: moisture, yeast cells a gram, whether it keeps a year.
@pytest.mark.parametrize(
    ("moisture", "yeast", "keeps"),
    [
        (1_700, 100_000, True),
        (1_750, 900, True),
        (1_750, 1_100, False),
        (1_850, 10, True),
        (1_850, 11, False),
        (1_950, 1, True),
        (1_950, 2, False),
        (2_000, 1, True),
        (2_010, 0, False),
    ],
)
def test_with_a_count_it_keeps_or_it_does_not(moisture: int, yeast: int, keeps: bool) -> None:
    assert keeps_a_year(moisture, yeast) is keeps


@given(st.integers(1_000, 2_500), st.integers(0, 10_000), st.integers(0, 500))
def test_wetter_or_with_more_yeast_it_never_keeps_better(
    moisture: int, yeast: int, more: int
) -> None:
    if not keeps_a_year(moisture, yeast):
        assert not keeps_a_year(moisture + more, yeast)
        assert not keeps_a_year(moisture, yeast + more)
