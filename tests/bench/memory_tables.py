"""Every projection of entries as plain dictionaries, carried out the way the store does it.

`effects.project` says what an entry changes; here it is done without a database, so that a
season of tens of thousands of entries is booked in a minute (`memory_state`) and then written to
a real ledger in bulk (`bulk`).
"""

from bisect import bisect_left, insort
from collections import defaultdict
from collections.abc import Callable
from typing import Any

from honeyledger.domain.refusals import BrokenRule
from honeyledger.ledger import effects
from honeyledger.ledger.effects import Change
from honeyledger.ledger.entry import Entry, Lot
from honeyledger.ledger.places import is_inside, is_source
from honeyledger.ledger.state import Edge, Mark
from honeyledger.persistence.tables import OPEN

TimeRow = tuple[int, int, int]  # at_ms, lot, entry: in the order in which they are answered


class StayRow:
    """One stay; changed when it ends, and when the entry that ended it is reversed."""

    __slots__ = ("by_wash", "ended_by", "entry", "latest_ms", "lot", "since_ms", "until_ms")

    def __init__(self, lot: int, entry: int, since_ms: int) -> None:
        self.lot = lot
        self.entry = entry
        self.since_ms = since_ms
        self.reopen()

    def reopen(self) -> None:
        """It has not ended."""
        self.until_ms, self.latest_ms, self.ended_by, self.by_wash = -1, OPEN, 0, 0

    def end(self, ended: effects.StayEnded) -> None:
        """It ended; where it was typed late it may end before it began."""
        self.until_ms = ended.at_ms
        self.latest_ms = max(self.since_ms, ended.at_ms)
        self.ended_by, self.by_wash = ended.entry, int(ended.by_wash)


class Tables:
    """All tables of one ledger, and `apply`, which adds an entry to them."""

    def __init__(self) -> None:
        self.entries: dict[int, Entry] = {}
        self.runs: dict[str, list[int]] = defaultdict(list)
        self.commands: dict[str, list[int]] = defaultdict(list)
        self.lots: dict[int, Lot] = {}
        self.lot_ids: dict[str, int] = {}
        self.posted: dict[int, list[int]] = defaultdict(list)
        self.edges_to: dict[int, list[Edge]] = defaultdict(list)  # by child
        self.edges_from: dict[int, list[Edge]] = defaultdict(list)  # by parent
        self.holdings: dict[int, dict[str, list[int]]] = defaultdict(dict)
        self.from_source: dict[str, list[int]] = defaultdict(list)
        self.stays: dict[tuple[str, int, int], StayRow] = {}
        self.open_stays: dict[str, dict[int, StayRow]] = defaultdict(dict)
        self.ended_stays: dict[str, list[TimeRow]] = defaultdict(list)
        self.arrived: dict[str, list[TimeRow]] = defaultdict(list)
        self.drawn: dict[str, list[TimeRow]] = defaultdict(list)
        self.touched: dict[str, list[tuple[int, int]]] = defaultdict(list)  # at_ms, entry
        self.marks: dict[str, dict[str, list[Mark]]] = defaultdict(dict)
        self.subjects: dict[str, list[str]] = defaultdict(list)
        self.voids: dict[tuple[int, int], set[int]] = defaultdict(set)
        self.reversals: dict[int, int] = {}
        self.codes: dict[str, tuple[str, int, int, int]] = {}  # letter, season, number, entry
        self.last_numbers: dict[tuple[str, int], int] = defaultdict(int)

    def apply(self, entry: Entry) -> None:
        """Take in an entry with its rows and everything it changes."""
        self._take_in(entry)
        for change in effects.project(entry):
            self._carry_out(change, entry)

    def _take_in(self, entry: Entry) -> None:
        self.entries[entry.id] = entry
        if entry.act.run:
            self.runs[entry.act.run].append(entry.id)
        self.commands[entry.act.command].append(entry.id)
        for lot in entry.lots:
            self.lots[lot.id] = lot
            self.lot_ids[lot.code] = lot.id
        for lot_id in dict.fromkeys(posting.lot for posting in entry.postings):
            self.posted[lot_id].append(entry.id)
        for row in entry.origins:
            edge = Edge(row.child, row.parent, row.grams, int(row.late), entry.id, row.line)
            self.edges_to[row.child].append(edge)
            self.edges_from[row.parent].append(edge)

    def _carry_out(self, change: Change, entry: Entry) -> None:
        match change:
            case effects.Undone():
                self._undo(change)
                self._void(entry, entry.id)
            case effects.Held():
                self._hold(change)
            case effects.StayEnded():
                row = self.open_stays[change.place].pop(change.lot, None)
                if row is None:
                    raise BrokenRule(f"entry {entry.id}: a lot leaves where it does not stand")
                row.end(change)
                key = (row.latest_ms, row.lot, row.entry)
                insort(self.ended_stays[change.place], key)
            case effects.StayBegan():
                row = StayRow(change.lot, change.entry, change.at_ms)
                self.stays[change.place, change.lot, change.entry] = row
                self.open_stays[change.place][change.lot] = row
            case effects.Arrived():
                _add(self.arrived[change.place], (change.at_ms, change.lot, change.entry))
            case effects.Drawn():
                _add(self.drawn[change.place], (change.at_ms, change.lot, change.entry))
            case effects.Touched():
                _add(self.touched[change.place], (change.at_ms, change.entry))
            case effects.Marked():
                self._mark(change)
            case effects.Voided():
                self.voids[change.entry, change.line].add(change.by)
            case effects.CodeGiven():
                self._give(change)

    def _hold(self, held: effects.Held) -> None:
        rows = self.holdings[held.lot]
        row = rows.setdefault(held.place, [0, 0])
        row[0] += held.grams
        row[1] += held.pieces
        if is_inside(held.place) and (row[0] < 0 or row[1] < 0):
            raise BrokenRule(f"lot {held.lot} is overdrawn at {held.place}")
        if is_source(held.place):
            _add(self.from_source[held.place], held.lot)

    def _mark(self, marked: effects.Marked) -> None:
        names = self.marks[marked.subject]
        if marked.name not in names:
            names[marked.name] = []
            _add(self.subjects[marked.name], marked.subject)
        mark = Mark(marked.subject, marked.name, marked.value, marked.at_ms, marked.entry)
        rows = names[marked.name]
        if rows and rows[-1].entry == marked.entry:
            rows.pop()
        rows.append(mark)

    def _give(self, given: effects.CodeGiven) -> None:
        head, number, _ = given.code.split("-")[-3:]
        letter, season = head[0], int(head[1:])
        self.codes[given.code] = (letter, season, int(number), given.entry)
        last = self.last_numbers[letter, season]
        self.last_numbers[letter, season] = max(last, int(number))

    def _void(self, entry: Entry, by: int) -> None:
        for row in entry.origins:
            self.voids[entry.id, row.line].add(by)

    def _undo(self, undone: effects.Undone) -> None:
        """What the store takes back for a reversal, in its order."""
        entry = self.entries[undone.entry]
        changes = effects.project(entry)
        for kind, take_back in self._taken_back():
            once = {_key(change): change for change in changes if isinstance(change, kind)}
            for change in once.values():
                take_back(change)
        self._void(entry, undone.by)
        self.reversals[undone.entry] = undone.by

    def _taken_back(self) -> tuple[tuple[type[Any], Callable[[Any], object]], ...]:
        return (
            (effects.StayBegan, self._drop_stay),
            (effects.StayEnded, self._reopen_stay),
            (effects.Arrived, lambda c: self.arrived[c.place].remove((c.at_ms, c.lot, c.entry))),
            (effects.Drawn, lambda c: self.drawn[c.place].remove((c.at_ms, c.lot, c.entry))),
            (effects.Touched, lambda c: self.touched[c.place].remove((c.at_ms, c.entry))),
            (effects.Marked, self._drop_mark),
            (effects.Voided, lambda c: self.voids[c.entry, c.line].remove(c.by)),
        )

    def _drop_stay(self, began: effects.StayBegan) -> None:
        del self.stays[began.place, began.lot, began.entry]
        del self.open_stays[began.place][began.lot]

    def _reopen_stay(self, ended: effects.StayEnded) -> None:
        rows = self.ended_stays[ended.place]
        for key in rows:
            row = self.stays[ended.place, key[1], key[2]]
            if row.lot == ended.lot and row.ended_by == ended.entry:
                rows.remove(key)
                row.reopen()
                self.open_stays[ended.place][row.lot] = row
                return
        raise BrokenRule(f"entry {ended.entry} cannot be reversed: its stay is not there")

    def _drop_mark(self, marked: effects.Marked) -> None:
        rows = self.marks[marked.subject][marked.name]
        rows[:] = [row for row in rows if row.entry != marked.entry]


def _key(change: Change) -> object:
    """What is taken back once, however often the entry says it; a mark's value may be a list."""
    return (change.subject, change.name) if isinstance(change, effects.Marked) else change


def _add(rows: list[Any], row: Any) -> None:
    """Keep a list sorted, each row once."""
    if not rows or rows[-1] < row:
        rows.append(row)
        return
    at = bisect_left(rows, row)
    if at == len(rows) or rows[at] != row:
        rows.insert(at, row)
