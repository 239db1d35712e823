"""Every posting of the ledger as plain rows, for a reader who wants to add up for themselves.

Decides what such a reader needs: what was said once for an entry is on each of its rows, reversed
entries and their reversals are both there, and honey that dries has its two moistures beside it.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from honeyledger.domain.moments import Moment
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Entry, Lot
from honeyledger.ledger.places import class_of
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View

PAGE = 1_000  # entries read at once: a long ledger is never in memory whole


@dataclass(frozen=True, slots=True)
class PostingRow:
    """One posting with its entry's header; grams are above 0 where they came to the place.

    Args:
        kind: the verb of the entry.
        reverses: the entry it undoes, 0 where none; `reversed_by` the one that undoes it.
        lot_kind: the letter of the lot.
        bucket: the class of the place, such as drum or customer.
        place: the ledger's name of the place; `where` what people call it.
        before, after: moisture in hundredths of a percent, where this lot dried with this entry.
    """

    entry: int
    happened: Moment
    kind: str
    run: str
    operator: str
    reverses: int
    reversed_by: int
    line: int
    lot: str
    lot_kind: str
    bucket: str
    place: str
    where: str
    grams: int
    before: int | None = None
    after: int | None = None


def every_posting(view: View) -> Iterator[PostingRow]:
    """All postings in the order in which they were written."""
    names = PlaceNames(view)
    last = view.head().entry
    for first in range(1, last + 1, PAGE):
        before = min(first + PAGE, last + 1)
        page = view.entries_before(before, before - first)
        lots = view.lots({posting.lot for entry in page for posting in entry.postings})
        for entry in page:
            yield from _rows(view, entry, lots, names)


def _rows(
    view: View, entry: Entry, lots: Mapping[int, Lot], names: PlaceNames
) -> Iterator[PostingRow]:
    dried = _moistures(entry)
    undone = view.reversed_by(entry.id)
    for posting in entry.postings:
        lot = lots[posting.lot]
        before, after = dried.get(lot.id, (None, None))
        yield PostingRow(
            entry=entry.id,
            happened=entry.act.happened,
            kind=entry.kind,
            run=entry.act.run,
            operator=entry.act.operator,
            reverses=entry.reverses,
            reversed_by=undone,
            line=posting.line,
            lot=lot.code,
            lot_kind=lot.kind,
            bucket=class_of(posting.place),
            place=posting.place,
            where=names[posting.place],
            grams=posting.grams,
            before=before,
            after=after,
        )


def _moistures(entry: Entry) -> dict[int, tuple[int, int]]:
    """The moistures before and after of each lot that dried with this entry, by lot."""
    found = {}
    for _, name, value in rows_of(entry, "marks"):
        if name == "dried" and isinstance(value, Mapping):
            lot, before, after = (int(str(value[key])) for key in ("lot", "before", "after"))
            found[lot] = (before, after)
    return found
