"""Values of marks as stored: what stands in thousands of them is one control sign each.

A value is canonical JSON, in which control signs never stand by themselves, so that what is
stored is read back whatever it is. Like the signs of words these belong to the schema: none is
ever changed, and one is added with a revision that writes all values anew. Tab and the ends of
lines are left out, for whoever looks at rows.
"""

import re
from collections.abc import Iterator

_FREQUENT = (
    '{"grams":',  # of a lot, on each note
    ',"jars":',
    '{"to":"customer/',  # each note
    '"sealed"',  # each pallet
    '{"count":',  # each wet out
    ',"tare_g":',
    '{"balance":{"cappings_pending":',  # each run
    ',"estimate_gap_g":',
    ',"heel_in_g":',
    ',"heel_out_g":',
    ',"in_g":',
    ',"lost_g":',
    ',"out_g":',
    ',"supers":',
    ',"by":"',
    '{"crew":"',
    ',"heels":[["',
    '],["',
    ',"line":"',
    '{"feed":"vessel/',  # each bottling
    ',"net_g":',
    ',"product":"',
    '{"first":',
    ',"last":',
    ',"lots":[',
)


def _signs() -> Iterator[str]:
    yield from map(chr, (*range(0x01, 0x09), *range(0x0E, 0x1F)))


WHEN = "\x1f"
"""The mark's own time, written out: of a load that was scanned it is said twice more."""

SIGNS = dict(zip(_FREQUENT, _signs(), strict=True))
_PARTS = tuple(SIGNS.items())
_PART_OF = {sign: part for part, sign in _PARTS}
_ANY_SIGN = re.compile(f"[{''.join(_PART_OF)}]")
_SHORTEST = 8


def short_value(text: str, at_ms: int) -> str:
    """The canonical text of a mark's value as stored; `at_ms` is when the mark was made."""
    if len(text) < _SHORTEST:  # a number, as most are
        return text
    text = text.replace(str(at_ms), WHEN)
    for part, sign in _PARTS:
        text = text.replace(part, sign)
    return text


def written_value(stored: str, at_ms: int) -> str:
    """The canonical text that is stored in this short form."""
    if stored.isprintable():  # without any sign, as most are
        return stored
    text = _ANY_SIGN.sub(lambda found: _PART_OF[found[0]], stored)
    return text.replace(WHEN, str(at_ms))
