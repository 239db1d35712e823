"""Questions about entries: what was written, by which command, and what builds on it."""

from collections import defaultdict
from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Any

from sqlalchemy import (
    BigInteger,
    ColumnElement,
    CompoundSelect,
    Select,
    cast,
    func,
    literal_column,
    or_,
    select,
    union,
)

from honeyledger.ledger.effects import TOUCHED_AS_BEGAN, TOUCHED_AS_ENDED, rows_of
from honeyledger.ledger.entry import Entry
from honeyledger.persistence.mark_queries import MarkQueries
from honeyledger.persistence.rows import entry_of
from honeyledger.persistence.short import short, written
from honeyledger.persistence.statements import (
    Row,
    Statement,
    as_list,
    ids_given,
    is_among,
    the,
    words_given,
)
from honeyledger.persistence.tables import (
    ARRIVED,
    CODE_GIVEN,
    DRAWN,
    ENTRY,
    LOT,
    MARK,
    ORIGIN,
    POSTING,
    REVERSAL,
    STAY,
    TOUCHED,
    is_told,
)
from honeyledger.services.store import EntryHead, Moved, Seen

AMENDED = "amended"
"""The mark on a lot's code that stands for an amendment of it."""

_ENTRIES = Statement(
    lambda engine: select(*ENTRY.c).where(ENTRY.c.id.in_(ids_given(engine))).order_by(ENTRY.c.id),
    "ids",
)
_HEADS = Statement(
    lambda engine: (
        select(ENTRY.c.id, ENTRY.c.kind, ENTRY.c.happened_ms, ENTRY.c.recorded_ms, ENTRY.c.digest)
        .where(ENTRY.c.id.in_(ids_given(engine)))
        .order_by(ENTRY.c.id)
    ),
    "ids",
)
_TYPED = Statement(
    lambda engine: select(
        ENTRY.c.id, ENTRY.c.kind, ENTRY.c.recorded_ms - ENTRY.c.happened_ms
    ).where(is_among(ENTRY.c.id, engine)),
    "ids",
)
_LOTS_OF = Statement(
    lambda engine: select(*LOT.c).where(LOT.c.made_by.in_(ids_given(engine))).order_by(LOT.c.id),
    "ids",
)
_POSTINGS_OF = Statement(
    lambda engine: (
        select(*POSTING.c)
        .where(POSTING.c.entry.in_(ids_given(engine)))
        .order_by(POSTING.c.entry, POSTING.c.line)
    ),
    "ids",
)
_ORIGINS_OF = Statement(
    lambda engine: (
        select(*ORIGIN.c)
        .where(ORIGIN.c.entry.in_(ids_given(engine)))
        .order_by(ORIGIN.c.entry, ORIGIN.c.line)
    ),
    "ids",
)
_OF_COMMAND = Statement(
    select(*ENTRY.c).where(ENTRY.c.command == the("command")).order_by(ENTRY.c.part),
    "command",
)
_COUNTS = ~(
    select(REVERSAL.c.entry)
    .where(or_(REVERSAL.c.entry == ENTRY.c.id, REVERSAL.c.by_entry == ENTRY.c.id))
    .exists()
)
_OF_RUN = Statement(
    select(*ENTRY.c)
    .where(ENTRY.c.run == the("run"), literal_column("entry.run <> ''"), _COUNTS)
    .order_by(ENTRY.c.id),
    "run",
)
_REVERSED_BY = Statement(
    select(REVERSAL.c.by_entry).where(REVERSAL.c.entry == the("entry")), "entry"
)
_MOVED = Statement(
    lambda engine: (
        select(
            POSTING.c.entry,
            ENTRY.c.happened_ms,
            POSTING.c.place,
            # A sum of whole numbers is a decimal on a server.
            cast(func.sum(POSTING.c.grams), BigInteger),
        )
        .join_from(POSTING, ENTRY, ENTRY.c.id == POSTING.c.entry)
        .where(is_among(POSTING.c.lot, engine), ENTRY.c.kind == the("kind"), _COUNTS)
        .group_by(POSTING.c.entry, ENTRY.c.happened_ms, POSTING.c.place)
        .order_by(POSTING.c.entry, POSTING.c.place)
    ),
    "ids",
    "kind",
)
_CODES_GIVEN = Statement(
    lambda engine: select(CODE_GIVEN.c.entry, CODE_GIVEN.c.code).where(
        is_among(CODE_GIVEN.c.entry, engine)
    ),
    "ids",
)


def _newest(*, by_kind: bool) -> Statement:
    def built(engine: str) -> Select[Any]:
        wanted = select(*ENTRY.c).where(ENTRY.c.happened_ms >= the("since"))
        if by_kind:
            wanted = wanted.where(ENTRY.c.kind.in_(words_given(engine)))
        return wanted.order_by(ENTRY.c.id.desc()).limit(the("last"))

    return Statement(built, "since", *(["words"] if by_kind else []), "last")


_NEWEST = _newest(by_kind=False)
_NEWEST_BY_KIND = _newest(by_kind=True)


def _listed(*, by_kind: bool, by_station: bool) -> Statement:
    def built(engine: str) -> Select[Any]:
        wanted = select(*ENTRY.c).where(ENTRY.c.id < the("before"))
        if by_kind:
            wanted = wanted.where(ENTRY.c.kind.in_(words_given(engine)))
        if by_station:
            wanted = wanted.where(ENTRY.c.station == the("station"))
        return wanted.order_by(ENTRY.c.id.desc()).limit(the("last"))

    kinds, station = ["words"] * by_kind, ["station"] * by_station
    return Statement(built, "before", *kinds, *station, "last")


_LISTED = {
    (by_kind, by_station): _listed(by_kind=by_kind, by_station=by_station)
    for by_kind in (False, True)
    for by_station in (False, True)
}
_STATIONS = Statement(
    select(ENTRY.c.station, func.max(ENTRY.c.recorded_ms))
    .where(ENTRY.c.id > the("entry"))
    .group_by(ENTRY.c.station)
    .order_by(func.max(ENTRY.c.recorded_ms).desc(), ENTRY.c.station),
    "entry",
)
_HISTORY = Statement(
    union(
        select(POSTING.c.entry).where(POSTING.c.lot == the("lot")),
        select(LOT.c.made_by).where(LOT.c.id == the("lot")),
        select(ORIGIN.c.entry).where(ORIGIN.c.child == the("lot")),
        select(MARK.c.entry).where(MARK.c.subject == the("subject")),
    ),
    "lot",
    "subject",
)


def _built_on(engine: str) -> Select[Any]:
    """Those that count of the entries below."""
    later = _later(engine).subquery("later")
    undone = or_(REVERSAL.c.entry == later.c.entry, REVERSAL.c.by_entry == later.c.entry)
    counts = ~select(REVERSAL.c.entry).where(undone).exists()
    return select(later.c.entry).where(counts).order_by(later.c.entry)


def _later(engine: str) -> CompoundSelect[Any]:
    """Later entries that post on these lots, give or take origins, amend them, put them in
    places, or touch places."""
    lots = ids_given(engine, "lots")
    codes, places = words_given(engine, "codes"), words_given(engine, "places")
    amends: ColumnElement[str] = literal_column(f"'{AMENDED}'")
    return union(
        select(POSTING.c.entry).where(POSTING.c.lot.in_(lots), POSTING.c.entry > the("entry")),
        select(ORIGIN.c.entry).where(ORIGIN.c.child.in_(lots), ORIGIN.c.entry > the("entry")),
        select(ORIGIN.c.entry).where(ORIGIN.c.parent.in_(lots), ORIGIN.c.entry > the("entry")),
        select(MARK.c.entry).where(
            MARK.c.subject.in_(codes), MARK.c.name == amends, MARK.c.entry > the("entry")
        ),
        select(STAY.c.entry).where(STAY.c.lot.in_(lots), STAY.c.entry > the("entry")),
        select(ARRIVED.c.entry).where(ARRIVED.c.lot.in_(lots), ARRIVED.c.entry > the("entry")),
        *(
            select(table.c.entry).where(table.c.place.in_(places), table.c.entry > the("entry"))
            for table in (TOUCHED, ARRIVED, DRAWN)
        ),
        *(
            select(entry).where(STAY.c.place.in_(places), entry > the("entry"), is_told(bit))
            for entry, bit in (
                (STAY.c.entry, TOUCHED_AS_BEGAN),
                (STAY.c.ended_by, TOUCHED_AS_ENDED),
            )
        ),
    )


_BUILT_ON = Statement(_built_on, "lots", "codes", "places", "entry")
_NO_LIMIT = 9_223_372_036_854_775_807


class EntryQueries(MarkQueries):
    """Entries by id, run, command, kind and lot, and what builds on them."""

    _entries_read: dict[int, Entry]

    def entry(self, entry_id: int) -> Entry | None:
        """An entry with all its rows, reversed or not; read with the others an answer named."""
        if entry_id not in self._entries_read:
            wanted = {entry_id, *self._entries_named}.difference(self._entries_read)
            self._entries_named.clear()
            ids = as_list(wanted)
            headers, *rows = self._each((_ENTRIES, (ids,)), *_parts_of(ids))
            self._entries_read.update((one.id, one) for one in _assembled(headers, *rows))
        return self._entries_read.get(entry_id)

    def entries_of_run(self, run: str) -> Sequence[Entry]:
        """The entries that carry a run's code and count, by id."""
        return self._whole(self._all(_OF_RUN, run))

    def entry_of_command(self, command: str) -> Sequence[Entry]:
        """The entries a command has already written, by part."""
        return self._whole(self._all(_OF_COMMAND, command))

    def entries(
        self, kinds: Collection[str] = (), since_ms: int = 0, last: int = 0
    ) -> Sequence[Entry]:
        """Entries of these kinds (all, if none named) that happened since then, by id.

        `last` above 0 keeps only the newest so many. Reversed ones are included.
        """
        if kinds:
            rows = self._all(_NEWEST_BY_KIND, since_ms, as_list(kinds), last or _NO_LIMIT)
        else:
            rows = self._all(_NEWEST, since_ms, last or _NO_LIMIT)
        return self._whole(rows[::-1])

    def entries_before(
        self, before: int, last: int, kinds: Collection[str] = (), station: str = ""
    ) -> Sequence[Entry]:
        """The newest so many entries below this number, of these kinds and this station, by id.

        All kinds where none is named, all stations for "". Reversed ones are included.
        """
        values = [before, *([as_list(kinds)] if kinds else []), *([station] if station else [])]
        rows = self._all(_LISTED[bool(kinds), bool(station)], *values, last)
        return self._whole(rows[::-1])

    def stations_after(self, entry_id: int) -> Sequence[Seen]:
        """Which stations recorded entries above this number, the latest first."""
        return [Seen(*row) for row in self._all(_STATIONS, entry_id)]

    def entry_heads(self, entry_ids: Collection[int]) -> Sequence[EntryHead]:
        """Heads of many entries, by id."""
        if not entry_ids:
            return []
        rows = self._all(_HEADS, as_list(sorted(entry_ids)))
        return [
            EntryHead(number, kind, happened_ms, recorded_ms, digest.hex())
            for number, kind, happened_ms, recorded_ms, digest in rows
        ]

    def typed(self, entry_ids: Collection[int]) -> Mapping[int, tuple[str, int]]:
        """The kind of many entries, and how long after it happened each was recorded."""
        if not entry_ids:
            return {}
        known = self._remembered()
        return known.answers(known.typed, entry_ids, self._read_typed)

    def _read_typed(self, entry_ids: Collection[int]) -> dict[int, tuple[str, int]]:
        rows = self._all(_TYPED, as_list(entry_ids))
        return {number: (kind, after_ms) for number, kind, after_ms in rows}

    def moved(self, kind: str, lot_ids: Collection[int]) -> Sequence[Moved]:
        """What entries of a kind brought to each place of these lots, by entry then place.

        Reversed ones are left out. Looked up from the lots: most entries of a kind are of others.
        """
        return [Moved(*row) for row in self._all(_MOVED, as_list(lot_ids), kind)]

    def codes_given(self, entry_ids: Collection[int]) -> Mapping[int, Sequence[str]]:
        """The codes of what is no lot (a note, a case) that entries gave, by entry."""
        codes: dict[int, list[str]] = {}
        rows = self._all(_CODES_GIVEN, as_list(entry_ids)) if entry_ids else []
        for entry, code in sorted((entry, written(stored)) for entry, stored in rows):
            codes.setdefault(entry, []).append(code)
        return codes

    def history(self, lot_id: int) -> Sequence[Entry]:
        """Every entry that posts on a lot, makes it, gives it an origin, or marks its code."""
        ids = [row[0] for row in self._all(_HISTORY, lot_id, short(self.lot(lot_id).code))]
        return self._whole(self._all(_ENTRIES, as_list(ids)))

    def reversed_by(self, entry_id: int) -> int:
        """The entry that reverses this one, or 0."""
        row = self._one(_REVERSED_BY, entry_id)
        return int(row[0]) if row else 0

    def built_on(self, entry_id: int) -> Sequence[int]:
        """Later entries that count and build on this one, by id.

        They post on a lot this one posts on or makes, have an origin row to or from such a lot,
        amend it, put it somewhere (a wash keeps at 0 g what came in lately), or touch a vessel or
        container this one touched. Entries reversed and their reversals do not count.
        """
        entry = self.entry(entry_id)
        if entry is None:
            return []
        lots = {lot.id for lot in entry.lots} | {one.lot for one in entry.postings}
        lots |= {one.child for one in entry.origins}
        lots |= {int(str(lot)) for _, lot in rows_of(entry, "arrived")}
        codes = as_list([short(lot.code) for lot in self.lots(lots).values()])
        touched = [short(str(place)) for (place,) in rows_of(entry, "touched")]
        rows = self._all(_BUILT_ON, as_list(sorted(lots)), codes, as_list(touched), entry_id)
        return [int(row[0]) for row in rows]

    def _whole(self, headers: Sequence[Row]) -> list[Entry]:
        """Entries with their rows, three questions for however many."""
        if not headers:
            return []
        return _assembled(headers, *self._each(*_parts_of(as_list([row[0] for row in headers]))))


def _parts_of(ids: str) -> Iterator[tuple[Statement, Row]]:
    """Questions for the lots, postings and origins of entries."""
    return ((statement, (ids,)) for statement in (_LOTS_OF, _POSTINGS_OF, _ORIGINS_OF))


def _assembled(
    headers: Sequence[Row],
    lot_rows: Sequence[Row],
    posting_rows: Sequence[Row],
    origin_rows: Sequence[Row],
) -> list[Entry]:
    lots, postings = _grouped(lot_rows, 3), _grouped(posting_rows, 0)
    origins = _grouped(origin_rows, 0)
    return [
        entry_of(row, lots.get(row[0], ()), postings.get(row[0], ()), origins.get(row[0], ()))
        for row in headers
    ]


def _grouped(rows: Sequence[Row], column: int) -> dict[int, list[Row]]:
    groups: dict[int, list[Row]] = defaultdict(list)
    for row in rows:
        groups[row[column]].append(row)
    return groups
