"""A river on paper: what flows together from its sources into one lot, as wide as its share.

In black alone: a band is outlined and hatched by its place in the row, so that a copy of a copy
still tells neighbours apart. The smallest are drawn as one, with how many they are.
"""

from collections.abc import Sequence
from itertools import pairwise

from honeyledger.documents.fonts import STRONG, TEXT, elided
from honeyledger.documents.page import Page, code_runs

_MOST = 10
_HIGH = 42.0  # all bands together at the right, mm
_APART = 4.0
_LEAST = 0.35
_NAMES = 62.0
_BEND = 24
_POINTS = 9.0

Bands = Sequence[tuple[str, float]]


def river_mm(bands: Bands) -> float:
    """How high a river of these bands is, with room below."""
    return _HIGH + _APART * (len(_fewer(bands)) - 1) + 8


def draw_river(page: Page, bands: Bands, into: str, at: tuple[float, float, float]) -> None:
    """Draw the bands from the left, where they are named, into one at the right.

    Args:
        into: the code at the right.
        at: left, top and width, mm.
    """
    left, top, width = at
    rows = _fewer(bands)
    whole = sum(share for _, share in rows) or 1.0
    code_mm = 36.0
    begin, end = left + _NAMES, left + width - code_mm
    upper, lower = top + 2, top + 2 + _APART * (len(rows) - 1) / 2
    middle = lower + _HIGH / 2
    for number, (name, share) in enumerate(rows):
        high = max(_LEAST, _HIGH * share / whole)
        _band(page, (begin, upper), (end, lower), high, hatched=number % 2 == 0)
        words = f"{share * 100:.1f} %"
        line = upper + high / 2 + 1.1
        face = page.typefaces.checked(name, TEXT)
        page.text(left, line, elided(face, TEXT, _POINTS, _NAMES - 18), TEXT, _POINTS)
        page.text(begin - 2, line, words, STRONG, _POINTS, 1)
        upper += high + _APART
        lower += high
    page.runs(left + width, middle + 1.4, code_runs(into), 11, 1)


def _fewer(bands: Bands) -> list[tuple[str, float]]:
    """The widest by themselves, all others as one."""
    rows = sorted(bands, key=lambda row: -row[1])
    if len(rows) <= _MOST:
        return rows
    rest = rows[_MOST - 1 :]
    return [*rows[: _MOST - 1], (f"{len(rest)} more", sum(share for _, share in rest))]


def _band(
    page: Page, begin: tuple[float, float], end: tuple[float, float], high: float, *, hatched: bool
) -> None:
    """One band: its two banks, and strokes across it where it is hatched."""
    upper = _bank(begin, end)
    for (x1, y1), (x2, y2) in pairwise(upper):
        page.rule(x1, y1, x2, y2, 0.3)
        page.rule(x1, y1 + high, x2, y2 + high, 0.3)
        if hatched and high > 1:
            page.rule(x1, y1 + high, x2, y2, 0.1)
    for x, y in (upper[0], upper[-1]):
        page.rule(x, y, x, y + high, 0.3)


def _bank(begin: tuple[float, float], end: tuple[float, float]) -> list[tuple[float, float]]:
    """Points of a bank that leaves and arrives level."""
    (x1, y1), (x2, y2) = begin, end
    points = []
    for step in range(_BEND + 1):
        part = step / _BEND
        eased = part * part * (3 - 2 * part)
        points.append((x1 + (x2 - x1) * part, y1 + (y2 - y1) * eased))
    return points
