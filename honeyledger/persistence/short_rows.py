"""Rows of projections as stored: what an entry changes, with its words and values in short forms.

The projector, an audit's sums and whoever writes projections in bulk take their rows from here.
"""

from collections.abc import Collection, Iterable
from functools import lru_cache

from honeyledger.ledger.canonical import text_of
from honeyledger.ledger.effects import Changes
from honeyledger.ledger.places import INSIDE, SOURCES, class_of
from honeyledger.persistence.short import short, short_name
from honeyledger.persistence.short_values import short_value
from honeyledger.persistence.statements import Row
from honeyledger.persistence.tables import (
    IN_FACTS,
    INSIDE_SIDE,
    LONG,
    OPEN,
    OTHER_SIDE,
    RECORD,
    SOURCE_SIDE,
)


def in_short(changes: Changes) -> Changes:
    """The same changes as stored: what is held with the side of its place, between lot and grams.

    Codes given stay as printed, for their numbers.
    """
    undone, held, ended, began, arrived, drawn, touched, marks, voids, codes = changes
    # An audit makes millions of them: columns are named, since taking a row's rest takes longer.
    return Changes(
        undone,
        held and [(short(place), lot, side_of(place), grams, n) for place, lot, grams, n in held],
        ended and [(short(place), lot, at_ms, by, told) for place, lot, at_ms, by, told in ended],
        began and [(short(place), lot, by, at_ms, told) for place, lot, by, at_ms, told in began],
        arrived and [(short(place), at_ms, lot, by) for place, at_ms, lot, by in arrived],
        drawn and [(short(place), at_ms, lot, by) for place, at_ms, lot, by in drawn],
        touched and [(short(place), by, at_ms) for place, by, at_ms in touched],
        marks and list(map(mark_row, marks)),
        voids,
        codes,
    )


def mark_row(mark: Row) -> Row:
    """A mark as stored: a long value stands in its entry's facts, and is not kept twice."""
    subject, name, entry, at_ms, value = mark
    text = text_of(value)
    if name != RECORD:  # of which names are read by the hundred
        text = short_value(text, at_ms) if len(text) <= LONG else IN_FACTS
    return short(subject), short_name(name), entry, at_ms, text


def stay_row(began: Row) -> Row:
    """A stay that has not ended."""
    return (*began[:4], 0, OPEN, 0, began[4])


def code_rows(codes: Iterable[Row], lots: Collection[str]) -> list[Row]:
    """Codes given as stored; those of lots are in the lots' own rows."""
    return [(short(code), entry) for code, entry in codes if code not in lots]


_SIDES = dict.fromkeys(INSIDE, INSIDE_SIDE) | dict.fromkeys(SOURCES, SOURCE_SIDE)


@lru_cache(16_384)
def side_of(place: str) -> int:
    """Which side of the house's walls a place is on, as a holding says it."""
    return _SIDES.get(class_of(place), OTHER_SIDE)
