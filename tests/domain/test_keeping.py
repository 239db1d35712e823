"""Whether honey keeps, by its moisture."""

import pytest

from honeyledger.domain.keeping import class_of


# Lochhead 1933 as reprinted in "A Practical Manual of Beekeeping", Table 2 (what-when-how.com):
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
