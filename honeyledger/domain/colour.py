"""Honey colour: the seven classes of the Pfund scale."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class PfundClass:
    """A colour class and the darkest reading still in it, in tenths of a Pfund millimetre.

    The last class has no darkest reading.
    """

    code: str
    name: str
    upto: int | None


# Source: United States Standards for Grades of Extracted Honey (effective 23 May 1985), table I,
# as quoted at https://www.sizes.com/units/pfund_scale.htm: "over X to Y inclusive", so no gaps.
CLASSES = (
    PfundClass("WW", "Water White", 80),
    PfundClass("XW", "Extra White", 170),
    PfundClass("W", "White", 340),
    PfundClass("XLA", "Extra Light Amber", 500),
    PfundClass("LA", "Light Amber", 850),
    PfundClass("A", "Amber", 1140),
    PfundClass("DA", "Dark Amber", None),
)


def class_of(colour_tenths: int) -> PfundClass:
    """Give the class of a reading in tenths of a Pfund millimetre; its bounds are inclusive."""
    return next(one for one in CLASSES if one.upto is None or colour_tenths <= one.upto)
