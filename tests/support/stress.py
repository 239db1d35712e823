"""Papers at their limits: every word and figure of a row put in the place of another kind."""

import re
from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass, replace
from datetime import date
from enum import Enum
from typing import Any

from honeyledger.domain.codes import parse_code
from honeyledger.domain.moments import Moment
from honeyledger.domain.refusals import Refusal

YARD = "Wolverhampstead-on-the-Marsh behind the old railway station"
NAMES = {
    "60 characters": YARD[:59] + "s",
    "one long word": "Sonnenblumenblütenhonigspezialitätenhersteller" + "verbandsvertreter"[:14],
    "Polish": "Zażółć gęślą jaźń, Łódź nad Świdrem",
    "Greek": "Μελισσοκομείο Υμηττού, Θεσσαλονίκη",
    "Cyrillic": "Пчеловодческое хозяйство «Щедрый Юг», Їжакове",
}
EMOJI = "Bee 🐝 yard"
LEAST_G, MOST_G = 0, 99_999_999
# What the program makes itself, or reads again: no person's words.
_OURS = frozenset(
    {
        *("uri", "head", "sscc", "gtin", "elements", "kind", "unit", "basis", "digest", "sort"),
        *("zone", "title", "key"),
    }
)


def worded(row: Any, words: str) -> Any:
    """A row whose every word that a person may have typed is this one."""
    return _changed(row, lambda name, value: words if _is_typed(name, value) else value)


def weighing(row: Any, grams: int) -> Any:
    """A row whose every weight is this one."""

    def weigh(name: str, value: Any) -> Any:
        return grams if name.endswith("_g") and type(value) is int else value

    return _changed(row, weigh)


def emptied(row: Any) -> Any:
    """A row without all that it may be without."""
    gone = {one.name: one.default for one in fields(row) if one.default in ("", None, (), 0)}
    return replace(row, **gone)


def _is_typed(name: str, value: Any) -> bool:
    if type(value) is not str or name in _OURS or not re.search("[a-z]", value):
        return False
    try:
        parse_code(value)
    except Refusal:
        return True
    return False


def _changed(value: Any, change: Callable[[str, Any], Any], name: str = "") -> Any:
    if is_dataclass(value) and not isinstance(value, type):
        changed = {
            one.name: _changed(getattr(value, one.name), change, one.name)
            for one in fields(value)
            if one.init
        }
        return replace(value, **changed)
    if isinstance(value, tuple) and not hasattr(value, "_fields"):
        return tuple(_changed(one, change, name) for one in value)
    if isinstance(value, list):
        return [_changed(one, change, name) for one in value]
    if isinstance(value, Mapping | date | Enum | Moment):
        return value
    return change(name, value)


Box = tuple[float, float, float, float]


def overlapping(boxes: list[Box]) -> list[tuple[Box, Box]]:
    """Pairs of boxes that cover one another by more than a tenth of a millimetre.

    Of lines one above the other the tails of one may reach up to an eighth of its height into the
    box of the next, where its accents stand: the boxes meet, the ink need not.
    """
    found = []
    for at, one in enumerate(boxes):
        for other in boxes[at + 1 :]:
            across = min(one[2], other[2]) - max(one[0], other[0])
            down = min(one[3], other[3]) - max(one[1], other[1])
            tails = max(0.3, 0.125 * min(one[3] - one[1], other[3] - other[1]))
            if across > 0.3 and down > tails:
                found.append((one, other))
    return found
