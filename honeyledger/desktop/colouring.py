"""Colour arithmetic: mixing in OKLab, the drawn Pfund scale, contrast.

OKLab: Björn Ottosson, "A perceptual color space for image processing" (2020), constants from
that page. Contrast: WCAG 2.2, definitions of relative luminance and contrast ratio.
"""

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise

from honeyledger.desktop import tokens

Triple = tuple[float, float, float]


def channels(colour: str) -> tuple[int, int, int]:
    """The red, green and blue of `#RRGGBB`, 0 to 255."""
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def _linear(channel: int) -> float:
    value = channel / 255
    return value / 12.92 if value <= 0.04045 else float(((value + 0.055) / 1.055) ** 2.4)


def _encoded(value: float) -> int:
    held = min(1.0, max(0.0, value))
    coded = 12.92 * held if held <= 0.0031308 else 1.055 * held ** (1 / 2.4) - 0.055
    return round(coded * 255)


def _oklab(colour: str) -> Triple:
    r, g, b = (_linear(channel) for channel in channels(colour))
    long = (0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b) ** (1 / 3)
    middle = (0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b) ** (1 / 3)
    short = (0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b) ** (1 / 3)
    return (
        0.2104542553 * long + 0.7936177850 * middle - 0.0040720468 * short,
        1.9779984951 * long - 2.4285922050 * middle + 0.4505937099 * short,
        0.0259040371 * long + 0.7827717662 * middle - 0.8086757660 * short,
    )


def _from_oklab(lab: Triple) -> str:
    light, a, b = lab
    long = (light + 0.3963377774 * a + 0.2158037573 * b) ** 3
    middle = (light - 0.1055613458 * a - 0.0638541728 * b) ** 3
    short = (light - 0.0894841775 * a - 1.2914855480 * b) ** 3
    red = _encoded(4.0767416621 * long - 3.3077115913 * middle + 0.2309699292 * short)
    green = _encoded(-1.2684380046 * long + 2.6097574011 * middle - 0.3413193965 * short)
    blue = _encoded(-0.0041960863 * long - 0.7034186147 * middle + 1.7076147010 * short)
    return f"#{red:02X}{green:02X}{blue:02X}"


@lru_cache(maxsize=4096)
def mixed(start: str, end: str, share: float) -> str:
    """The colour a share of the way from start to end, along a straight line in OKLab."""
    one, other = _oklab(start), _oklab(end)
    return _from_oklab(
        (
            one[0] + (other[0] - one[0]) * share,
            one[1] + (other[1] - one[1]) * share,
            one[2] + (other[2] - one[2]) * share,
        )
    )


def pfund_colour(mm: float) -> str:
    """How honey of a Pfund reading in mm is drawn; constant beyond the end anchors."""
    anchors = tokens.PFUND
    if mm <= anchors[0].at_mm:
        return anchors[0].colour
    for low, high in pairwise(anchors):
        if mm <= high.at_mm:
            return mixed(low.colour, high.colour, (mm - low.at_mm) / (high.at_mm - low.at_mm))
    return anchors[-1].colour


def ink_on_honey(mm: float) -> str:
    """Pure black or white, whichever is read on honey of this colour."""
    return tokens.ON_PALE_HONEY if mm <= tokens.PALE_HONEY_TO_MM else tokens.ON_DARK_HONEY


def pfund_symbol(mm: float) -> str:
    """The colour class a reading in mm falls in, by its symbol."""
    for anchor in tokens.PFUND:
        if mm <= anchor.to_mm:
            return anchor.symbol
    return tokens.PFUND[-1].symbol


def luminance(colour: str) -> float:
    """WCAG relative luminance, 0 to 1."""
    red, green, blue = (_linear(channel) for channel in channels(colour))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """WCAG contrast ratio, 1 to 21."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def mean_pfund(parts: Sequence[tuple[int, float]]) -> float | None:
    """The mass mean of (grams, mm); for drawing only. None where there is no mass."""
    mass_g = sum(grams for grams, _ in parts)
    if not mass_g:
        return None
    return sum(grams * mm for grams, mm in parts) / mass_g
