"""Whether honey keeps or may ferment: by its moisture, and by its yeast where that was counted."""

from dataclasses import dataclass

from honeyledger.domain.phrases import phrase


@dataclass(frozen=True, slots=True)
class KeepingClass:
    """A class by moisture, in hundredths of a percent, and the yeast with which it keeps a year.

    Args:
        name: short, for tables and cards.
        upto: the highest moisture still in it; the last class has none.
        yeast_a_gram: the most yeast cells in a gram it keeps with; None where any number does, -1
            where none is few enough.
    """

    name: str
    upto: int | None
    yeast_a_gram: int | None


# Source: Lochhead 1933, as Table 2 of "A Practical Manual of Beekeeping" reprints it at
# what-when-how.com; USDA Agriculture Handbook 335 has the same bounds. Between the bounds of the
# table, which are in tenths, a reading is rounded to tenths.
CLASSES = (
    KeepingClass(phrase("keeps"), 1_704, None),
    KeepingClass(phrase("keeps with little yeast"), 1_804, 1_000),
    KeepingClass(phrase("may ferment"), 1_904, 10),
    KeepingClass(phrase("will likely ferment"), 2_004, 1),
    KeepingClass(phrase("ferments"), None, -1),
)


def class_of(moisture: int) -> KeepingClass:
    """The class of a reading in hundredths of a percent."""
    return next(one for one in CLASSES if one.upto is None or moisture <= one.upto)


def keeps_a_year(moisture: int, yeast_a_gram: int) -> bool:
    """Whether honey keeps a year with so many yeast cells in a gram, as far as the table says.

    USDA Agriculture Handbook 335 is stricter above 19 %: it expects fermentation with even one.
    """
    most = class_of(moisture).yeast_a_gram
    return most is None or yeast_a_gram <= most
