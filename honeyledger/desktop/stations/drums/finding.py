"""Which drums are meant by what is typed to find them: words, a moisture, a colour, all at once.

"17-18 amber" is moisture and colour; "<17.2", ">40 mm" and "XLA" likewise; any other word is part
of a code, a container, a yard, a place, an owner, a state or a hold.
"""

import re
from collections.abc import Iterable

from honeyledger.domain.colour import CLASSES, class_of
from honeyledger.services.drums_page import DrumRow

_SPAN = re.compile(r"(\d+(?:[.,]\d+)?)?-(\d+(?:[.,]\d+)?)?(%|mm)?")
_SIDE = re.compile(r"([<>])(\d+(?:[.,]\d+)?)(%|mm)?")
_UNIT = re.compile(r"\s+(%|mm)\b|\s+(%)")
_MOST_MOISTURE = 30.0
"""A span without a unit is a moisture up to here, and a colour above it."""


def found(rows: Iterable[DrumRow], text: str) -> list[DrumRow]:
    """The rows that all of it is true of; all rows where nothing is typed."""
    words = _UNIT.sub(lambda match: match[1] or match[2], text.casefold()).split()
    return [row for row in rows if all(_is_meant(row, word) for word in words)]


def _is_meant(row: DrumRow, word: str) -> bool:
    if bounds := _bounds(word):
        low, high, unit = bounds
        value = row.colour if unit == "mm" else row.moisture
        scale = 10 if unit == "mm" else 100
        return value is not None and low * scale <= value <= high * scale
    if word in _class_words():
        return row.colour is not None and word == class_of(row.colour).code.casefold()
    return word in _words_of(row)


def _bounds(word: str) -> tuple[float, float, str] | None:
    if side := _SIDE.fullmatch(word):
        at = _number(side[2])
        unit = side[3] or _unit_of(at)
        return (0.0, at, unit) if side[1] == "<" else (at, 1e9, unit)
    span = _SPAN.fullmatch(word)
    if span is None or not (span[1] and span[2]):
        return None
    low, high = _number(span[1]), _number(span[2])
    return low, high, span[3] or _unit_of(high)


def _number(text: str) -> float:
    return float(text.replace(",", "."))


def _unit_of(value: float) -> str:
    return "%" if value <= _MOST_MOISTURE else "mm"


def _class_words() -> frozenset[str]:
    return frozenset(one.code.casefold() for one in CLASSES)


def _words_of(row: DrumRow) -> str:
    colour = class_of(row.colour) if row.colour is not None else None
    parts = (
        *(row.code, row.container, row.container_code, row.noun, row.state, row.owner, row.spot),
        *(row.ways or row.held),
        *row.yards,
        colour.name if colour else "",
        "missing" if row.missing else "",
    )
    return " ".join(parts).casefold()
