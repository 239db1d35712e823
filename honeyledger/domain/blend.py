"""What a blend should come to: moisture and solids by weight, colour only as a range.

Water and solids mix by weight. Colour does not: no mean of Pfund millimetres is ever told, only
between which of its parts a blend will lie.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from honeyledger.domain.results import Result, figure
from honeyledger.domain.units import largest_remainder, rounded

ALL = 10_000


@dataclass(frozen=True, slots=True)
class Part:
    """Honey that goes in.

    Args:
        moisture: hundredths of a percent, None where it was not read.
        colour: tenths of a Pfund millimetre, None where it was not read.
    """

    grams: int
    moisture: int | None = None
    colour: int | None = None


@dataclass(frozen=True, slots=True)
class Expected:
    """What a blend should come to; None where a part was not read.

    Args:
        water_g, solids_g: add up to the grams.
        lightest, darkest: between these it will lie; of parts not read nothing is said.
    """

    grams: int
    moisture: int | None
    water_g: int | None
    solids_g: int | None
    lightest: int | None
    darkest: int | None


def expected(parts: Sequence[Part]) -> Expected:
    """What parts come to together; a part of no grams does not count."""
    counted = [part for part in parts if part.grams > 0]
    grams = sum(part.grams for part in counted)
    moisture = mean_moisture([(part.grams, part.moisture) for part in counted])
    water_g = solids_g = None
    exact = [part.grams * part.moisture for part in counted if part.moisture is not None]
    if moisture is not None:
        water_g, solids_g = largest_remainder(grams, [sum(exact), grams * ALL - sum(exact)])
    colours = [part.colour for part in counted if part.colour is not None]
    is_all = bool(colours) and len(colours) == len(counted)
    return Expected(
        grams,
        moisture,
        water_g,
        solids_g,
        min(colours) if is_all else None,
        max(colours) if is_all else None,
    )


def results_of(blend: Expected) -> dict[str, Result]:
    """What can be held against the rules of a market or grade: by weight only, never colour."""
    if blend.moisture is None:
        return {}
    return {"moisture": figure(blend.moisture, 2), "solids": figure(ALL - blend.moisture, 2)}


def mean_moisture(parts: Sequence[tuple[int, int | None]]) -> int | None:
    """The moisture of parts by weight, hundredths of a percent; None where one was not read."""
    grams = sum(part_g for part_g, _ in parts)
    read = [part_g * moisture for part_g, moisture in parts if moisture is not None]
    if not grams or len(read) != len(parts):
        return None
    return rounded(Fraction(sum(read), grams))


def off_by(measured: int, expected_: int, reads_to: int = 20) -> int:
    """How far a blend as measured is from what was expected, 0 within what two readings differ by.

    Args:
        reads_to: hundredths of a percent that readings of one honey differ by: common practice, no
            source.
    """
    off = measured - expected_
    return off if abs(off) > reads_to else 0
