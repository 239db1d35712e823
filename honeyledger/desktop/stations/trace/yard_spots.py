"""The yards of a trace on the map: what a mark says, and which yards have no place on it."""

from collections.abc import Sequence

from honeyledger.desktop.models.yard_places import Spot
from honeyledger.desktop.stations.trace.columns import YardRow, how_words, yard_rows
from honeyledger.desktop.stations.trace.words import counted, tr
from honeyledger.services.trace_page import TracePage, YardLine


def yard_spots(page: TracePage) -> tuple[list[Spot], str]:
    """A mark for each yard with coordinates, and the note at the map's foot."""
    rows = yard_rows(page)
    spots = [
        Spot(
            row.code,
            row.name,
            line.latitude,
            line.longitude,
            row.share_value > 0,
            row.share_value,
            _words(row),
        )
        for line, row in zip(page.yards, rows, strict=True)
        if line.latitude is not None and line.longitude is not None
    ]
    return spots, _note(page.yards)


def _words(row: YardRow) -> str:
    share = f"{row.share} %" if row.share_value else tr("in reach only")
    return f"{share}, {how_words(row.how)}" if row.how else share


def _note(lines: Sequence[YardLine]) -> str:
    """What a mark means, and who is not on the map."""
    absent = [line.row.name for line in lines if line.latitude is None or line.longitude is None]
    words = tr("The area of a mark is its share.")
    if not absent:
        return words
    none = counted(len(absent), tr("1 without a place:"), tr("{n} without a place:"))
    return f"{words} {none} {', '.join(absent)}."
