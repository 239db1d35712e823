"""A store in no database: the state that `book` reads, and units of work that seal entries.

The real `House` works over it unchanged. Every sealed entry goes to a sink, which writes it to a
real ledger in bulk. A test compares digests and every table with a ledger made entry by entry.
"""

from bisect import bisect_left
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager

from honeyledger.domain.refusals import BrokenRule
from honeyledger.ledger import canonical
from honeyledger.ledger.canonical import Seal
from honeyledger.ledger.effects import BY_WASH, rows_of
from honeyledger.ledger.entry import SOURCE_KINDS, Entry, Lot
from honeyledger.ledger.places import class_of, is_inside, is_source
from honeyledger.ledger.state import Edge, Event, Holding, Mark, Standing, Stay
from tests.bench.memory_tables import Tables, TimeRow

Sink = Callable[[Entry, Seal], None]


class MemoryState:
    """A `ledger.state.State` over dictionaries, answering as the store's views do."""

    def __init__(self, tables: Tables) -> None:
        self.tables = tables

    @property
    def next_entry(self) -> int:
        return len(self.tables.entries) + 1

    @property
    def next_lot(self) -> int:
        return len(self.tables.lots) + 1

    def last_number(self, letter: str, season: int) -> int:
        return self.tables.last_numbers[letter, season]

    # Lots and origins.

    def lot(self, lot_id: int) -> Lot:
        return self.tables.lots[lot_id]

    def lots(self, lot_ids: Collection[int]) -> Mapping[int, Lot]:
        return {lot_id: self.tables.lots[lot_id] for lot_id in lot_ids}

    def lot_by_code(self, code: str) -> Lot | None:
        return self.tables.lots.get(self.tables.lot_ids.get(code, 0))

    def is_given(self, code: str) -> bool:
        return code in self.tables.codes or code in self.tables.lot_ids

    def source_lots(self, place: str) -> Sequence[Lot]:
        lots = [self.tables.lots[one] for one in self.tables.from_source.get(place, ())]
        return [lot for lot in lots if lot.kind in SOURCE_KINDS]

    def origins(self, lot_id: int) -> Sequence[Edge]:
        rows = self._counting(self.tables.edges_to.get(lot_id, ()))
        return sorted(rows, key=lambda edge: (edge.parent, edge.entry, edge.line))

    def _counting(self, edges: Iterable[Edge]) -> list[Edge]:
        voids = self.tables.voids
        return [edge for edge in edges if not voids.get((edge.entry, edge.line))]

    def ancestry(self, lot_ids: Collection[int]) -> Sequence[Edge]:
        rows = self._walk(lot_ids, self.tables.edges_to, lambda edge: edge.parent)
        return sorted(rows, key=lambda edge: -edge.child)

    def descent(self, lot_ids: Collection[int]) -> Sequence[Edge]:
        rows = self._walk(lot_ids, self.tables.edges_from, lambda edge: edge.child)
        return sorted(rows, key=lambda edge: edge.parent)

    def _walk(
        self,
        starts: Collection[int],
        edges: Mapping[int, Sequence[Edge]],
        end_of: Callable[[Edge], int],
    ) -> list[Edge]:
        seen = set(starts)
        waiting = list(seen)
        found = []
        while waiting:
            for edge in self._counting(edges.get(waiting.pop(), ())):
                found.append(edge)
                if end_of(edge) not in seen:
                    seen.add(end_of(edge))
                    waiting.append(end_of(edge))
        return found

    # Places.

    def standing(self, place: str) -> Sequence[Standing]:
        rows = self.tables.open_stays.get(place, {})
        found = []
        for lot_id in sorted(rows):
            grams, pieces = self.tables.holdings[lot_id].get(place, (0, 0))
            lot = self.tables.lots[lot_id]
            found.append(Standing(lot, grams, pieces, rows[lot_id].since_ms))
        return found

    def stays(self, place: str, since_ms: int) -> Sequence[Stay]:
        ended = self.tables.ended_stays.get(place, [])
        keys = [(lot, entry) for _, lot, entry in ended[bisect_left(ended, (since_ms, 0, 0)) :]]
        keys += [(row.lot, row.entry) for row in self.tables.open_stays.get(place, {}).values()]
        rows = [self.tables.stays[place, *key] for key in sorted(keys)]
        return [
            Stay(place, row.lot, row.since_ms, row.until_ms, bool(row.told & BY_WASH))
            for row in rows
        ]

    def holdings(self, lot_id: int) -> Sequence[Holding]:
        rows = self.tables.holdings.get(lot_id, {})
        return [
            Holding(place, lot_id, *rows[place])
            for place in sorted(rows)
            if any(rows[place]) or not is_inside(place)
        ]

    def sources_of(self, lot_ids: Collection[int]) -> Sequence[Holding]:
        rows = [row for lot_id in sorted(set(lot_ids)) for row in self.holdings(lot_id)]
        return [row for row in rows if is_source(row.place)]

    def held_at(self, place_class: str) -> Sequence[Holding]:
        rows = [
            Holding(place, lot, grams, pieces)
            for lot, places in self.tables.holdings.items()
            for place, (grams, pieces) in places.items()
            if (grams or pieces) and class_of(place) == place_class
        ]
        return sorted(rows, key=lambda row: (row.place, row.lot))

    def arrivals(self, place: str, since_ms: int) -> Sequence[Event]:
        return _since(place, self.tables.arrived.get(place, []), since_ms)

    def draws(self, place: str, since_ms: int) -> Sequence[Event]:
        return _since(place, self.tables.drawn.get(place, []), since_ms)

    def last_touch(self, place: str) -> Event | None:
        tables = self.tables
        latest = [rows[-1] for rows in [tables.touched.get(place)] if rows]
        for moved in (tables.arrived.get(place), tables.drawn.get(place)):
            if moved:
                last = moved[bisect_left(moved, (moved[-1][0], 0, 0)) :]
                latest.append(max((at_ms, entry) for at_ms, _, entry in last))
        return Event(place, 0, *max(latest)) if latest else None

    # Marks.

    def mark(self, subject: str, name: str) -> Mark | None:
        rows = self.tables.marks.get(subject, {}).get(name)
        return rows[-1] if rows else None

    def marks(self, subject: str) -> Sequence[Mark]:
        names = self.tables.marks.get(subject, {})
        return [names[name][-1] for name in sorted(names) if names[name]]

    def marked(self, name: str, under: str = "") -> Sequence[Mark]:
        subjects = self.tables.subjects.get(name, [])
        if under:
            after = under[:-1] + chr(ord(under[-1]) + 1)
            subjects = subjects[bisect_left(subjects, under) : bisect_left(subjects, after)]
        found = [self.mark(subject, name) for subject in subjects]
        return [mark for mark in found if mark is not None]

    def marked_on(self, name: str, subjects: Collection[str]) -> Mapping[str, Mark]:
        found = {subject: self.mark(subject, name) for subject in subjects}
        return {subject: mark for subject, mark in found.items() if mark is not None}

    def marked_without(self, name: str, without: str, under: str) -> Sequence[Mark]:
        subjects = self.tables.begun(name, without)
        found = [self.mark(subject, name) for subject in subjects if subject.startswith(under)]
        return [mark for mark in found if mark is not None]

    # Entries.

    def entry(self, entry_id: int) -> Entry | None:
        return self.tables.entries.get(entry_id)

    def entries_of_run(self, run: str) -> Sequence[Entry]:
        rows = [self.tables.entries[one] for one in self.tables.runs.get(run, ())]
        return [row for row in rows if not row.reverses and row.id not in self.tables.reversals]

    def entry_of_command(self, command: str) -> Sequence[Entry]:
        return [self.tables.entries[one] for one in self.tables.commands.get(command, ())]

    def reversed_by(self, entry_id: int) -> int:
        return self.tables.reversals.get(entry_id, 0)

    def built_on(self, entry_id: int) -> Sequence[int]:
        """As the store answers it: see `EntryQueries.built_on`."""
        entry = self.tables.entries[entry_id]
        lots = {lot.id for lot in entry.lots} | {one.lot for one in entry.postings}
        lots |= {one.child for one in entry.origins}
        lots |= {int(str(lot)) for _, lot in rows_of(entry, "arrived")}
        ids = {began for _, lot, began in self.tables.stays if lot in lots}
        for arrivals in self.tables.arrived.values():
            ids.update(came for _, lot, came in arrivals if lot in lots)
        for lot in lots:
            ids.update(self.tables.posted.get(lot, ()))
            ids.update(edge.entry for edge in self.tables.edges_to.get(lot, ()))
            ids.update(edge.entry for edge in self.tables.edges_from.get(lot, ()))
            amended = self.tables.marks.get(self.lot(lot).code, {}).get("amended", ())
            ids.update(mark.entry for mark in amended)
        for (place,) in rows_of(entry, "touched"):
            ids.update(one for _, one in self.tables.touched.get(str(place), ()))
            for moved in (self.tables.arrived, self.tables.drawn):
                ids.update(row[2] for row in moved.get(str(place), ()))
        undone = {*self.tables.reversals, *self.tables.reversals.values()}
        return sorted(one for one in ids if one > entry_id and one not in undone)


class MemoryUnit(MemoryState):
    """A unit of work: what it appends is sealed, applied, and handed on."""

    def __init__(self, store: "MemoryStore") -> None:
        super().__init__(store.tables)
        self._store = store

    def append(self, entry: Entry) -> Seal:
        """Seal and take in the next entry."""
        if entry.id != self.next_entry:
            raise BrokenRule(f"entry {entry.id} is not the next one")
        seal = canonical.seal(entry, self._store.digest)
        self.tables.apply(entry)
        self._store.digest = seal.digest
        self._store.sink(entry, seal)
        return seal


class MemoryStore:
    """What `House` needs of a store to record; it answers no questions and keeps no file.

    Args:
        ledger_id: the first digest before.
        sink: is given every entry with its seal, in order.
    """

    def __init__(self, ledger_id: str, sink: Sink) -> None:
        self.tables = Tables()
        self.digest = ledger_id
        self.sink = sink

    @contextmanager
    def writing(self) -> Iterator[MemoryUnit]:
        """A unit of work. One that fails leaves half an entry, so the whole store is spoiled."""
        yield MemoryUnit(self)


def _since(place: str, rows: Sequence[TimeRow], since_ms: int) -> list[Event]:
    return [
        Event(place, lot, at_ms, entry)
        for at_ms, lot, entry in rows[bisect_left(rows, (since_ms, 0, 0)) :]
    ]
