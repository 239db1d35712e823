"""Honey colour: the seven classes of the Pfund scale, by millimetres and by optical density."""

from dataclasses import dataclass
from math import log10

from honeyledger.domain.refusals import Refusal, Sentence

NO_LIGHT_THROUGH = Sentence(
    "no-light-through",
    "A transmittance is above 0 and at most 100 %: set the instrument to 100 with its clear "
    "standard and read again.",
)


@dataclass(frozen=True, slots=True)
class PfundClass:
    """A colour class and the darkest reading still in it, in tenths of a Pfund millimetre.

    The last class has no darkest reading.

    Args:
        densest: the highest optical density still in it, ten-thousandths, at 560 nm in 3.15 cm
            against caramel in glycerin.
    """

    code: str
    name: str
    upto: int | None
    densest: int | None


# Source: United States Standards for Grades of Extracted Honey (effective 23 May 1985), table I,
# as quoted at https://www.sizes.com/units/pfund_scale.htm: "over X to Y inclusive", so no gaps.
CLASSES = (
    PfundClass("WW", "Water White", 80, 945),
    PfundClass("XW", "Extra White", 170, 1_890),
    PfundClass("W", "White", 340, 3_780),
    PfundClass("XLA", "Extra Light Amber", 500, 5_950),
    PfundClass("LA", "Light Amber", 850, 13_890),
    PfundClass("A", "Amber", 1140, 30_080),
    PfundClass("DA", "Dark Amber", None, None),
)


def class_of(colour_tenths: int) -> PfundClass:
    """Give the class of a reading in tenths of a Pfund millimetre; its bounds are inclusive."""
    return next(one for one in CLASSES if one.upto is None or colour_tenths <= one.upto)


def class_of_density(density: int) -> PfundClass:
    """Give the class of an optical density in ten-thousandths; its bounds are inclusive."""
    return next(one for one in CLASSES if one.densest is None or density <= one.densest)


def density_of(transmittance: int) -> int:
    """The optical density, in ten-thousandths, of a transmittance in hundredths of a percent.

    Raises:
        Refusal: no light came through, or more than went in.
    """
    if not 0 < transmittance <= 10_000:
        raise Refusal(NO_LIGHT_THROUGH, field="transmittance")
    return round(10_000 * log10(10_000 / transmittance))


def pfund_of_absorbance(absorbance: int) -> int | None:
    """Tenths of a Pfund millimetre from an absorbance in thousandths, as an estimate only.

    At 560 nm, 1 cm, honey and water by halves (White 1984): value from memory, so it is never
    shown as a reading. None below the scale.
    """
    tenths = (37_139 * absorbance - 3_870_000 + 5_000) // 10_000
    return tenths if tenths >= 0 else None
