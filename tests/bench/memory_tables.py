"""Every projection of entries as plain dictionaries, carried out the way the store does it.

`effects.project` says what an entry changes; here it is done without a database, so that a
season of tens of thousands of entries is booked in a minute (`memory_state`) and then written to
a real ledger in bulk (`bulk`).
"""

from bisect import bisect_left, insort
from collections import defaultdict
from typing import Any

from honeyledger.domain.refusals import BrokenRule
from honeyledger.ledger.effects import (
    ARRIVED_AS_BEGAN,
    DRAWN_AS_BEGAN,
    TOLD_AS_ENDED,
    TOUCHED_AS_BEGAN,
    TOUCHED_AS_ENDED,
    Changes,
    project,
)
from honeyledger.ledger.entry import Entry, Json, Lot
from honeyledger.ledger.places import is_inside, is_source
from honeyledger.ledger.state import Edge, Mark
from honeyledger.persistence.tables import OPEN

TimeRow = tuple[int, int, int]  # at_ms, lot, entry: in the order in which they are answered


class StayRow:
    """One stay; changed when it ends, and when the entry that ended it is reversed."""

    __slots__ = ("ended_by", "entry", "latest_ms", "lot", "since_ms", "told", "until_ms")

    def __init__(self, lot: int, entry: int, since_ms: int, told: int) -> None:
        self.lot = lot
        self.entry = entry
        self.since_ms = since_ms
        self.told = told
        self.reopen()

    def reopen(self) -> None:
        """It has not ended."""
        self.until_ms, self.latest_ms, self.ended_by = -1, OPEN, 0
        self.told &= ~TOLD_AS_ENDED

    def end(self, at_ms: int, entry: int, told: int) -> None:
        """It ended; where it was typed late it may end before it began."""
        self.until_ms = at_ms
        self.latest_ms = max(self.since_ms, at_ms)
        self.ended_by = entry
        self.told |= told


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
        self.unended: dict[tuple[str, str], set[str]] = {}
        self.voids: dict[tuple[int, int], set[int]] = defaultdict(set)
        self.reversals: dict[int, int] = {}
        self.codes: dict[str, int] = {}  # by which entry
        self.last_numbers: dict[tuple[str, int], int] = defaultdict(int)

    def apply(self, entry: Entry) -> None:
        """Take in an entry with its rows and everything it changes."""
        self._take_in(entry)
        self._carry_out(_as_meant(project(entry)), entry)

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

    def _carry_out(self, changes: Changes, entry: Entry) -> None:
        if changes.undone:
            self._undo(changes.undone, entry.id)
            self._void(entry, entry.id)
        for held in changes.held:
            self._hold(*held)
        for place, lot, at_ms, by, told in changes.ended:
            row = self.open_stays[place].pop(lot, None)
            if row is None:
                raise BrokenRule(f"entry {entry.id}: a lot leaves where it does not stand")
            row.end(at_ms, by, told)
            insort(self.ended_stays[place], (row.latest_ms, row.lot, row.entry))
        for place, lot, by, at_ms, told in changes.began:
            row = StayRow(lot, by, at_ms, told)
            self.stays[place, lot, by] = row
            self.open_stays[place][lot] = row
        for place, *key in changes.arrived:
            _add(self.arrived[place], tuple(key))
        for place, *key in changes.drawn:
            _add(self.drawn[place], tuple(key))
        for place, by, at_ms in changes.touched:
            _add(self.touched[place], (at_ms, by))
        for mark in changes.marks:
            self._mark(*mark)
        for other, line, by in changes.voids:
            self.voids[other, line].add(by)
        made = {lot.code for lot in entry.lots}
        for code, by in changes.codes:
            self._give(code)
            if code not in made:
                self.codes[code] = by

    def _hold(self, place: str, lot: int, grams: int, pieces: int) -> None:
        row = self.holdings[lot].setdefault(place, [0, 0])
        row[0] += grams
        row[1] += pieces
        if is_inside(place) and (row[0] < 0 or row[1] < 0):
            raise BrokenRule(f"lot {lot} is overdrawn at {place}")
        if is_source(place):
            _add(self.from_source[place], lot)

    def _mark(self, subject: str, name: str, entry: int, at_ms: int, value: Json) -> None:
        names = self.marks[subject]
        if name not in names:
            names[name] = []
            _add(self.subjects[name], subject)
        names[name].append(Mark(subject, name, value, at_ms, entry))
        self._look_again(subject, name)

    def begun(self, name: str, without: str) -> list[str]:
        """Subjects with a mark of the one name and none of the other, in order.

        Kept from the first time it is asked for: there are few at a time, and many that ended.
        """
        pair = (name, without)
        if pair not in self.unended:
            self.unended[pair] = set()
            for subject in self.subjects.get(name, []):
                self._look_at(subject, pair)
        return sorted(self.unended[pair])

    def _look_again(self, subject: str, name: str) -> None:
        for pair in self.unended:
            if name in pair:
                self._look_at(subject, pair)

    def _look_at(self, subject: str, pair: tuple[str, str]) -> None:
        names = self.marks[subject]
        if names.get(pair[0]) and not names.get(pair[1]):
            self.unended[pair].add(subject)
        else:
            self.unended[pair].discard(subject)

    def _give(self, code: str) -> None:
        head, number, _ = code.split("-")[-3:]
        letter, season = head[0], int(head[1:])
        last = self.last_numbers[letter, season]
        self.last_numbers[letter, season] = max(last, int(number))

    def _void(self, entry: Entry, by: int) -> None:
        for row in entry.origins:
            self.voids[entry.id, row.line].add(by)

    def _undo(self, undone: int, by: int) -> None:
        """What the store takes back for a reversal, in its order."""
        entry = self.entries[undone]
        changes = _as_meant(project(entry))
        for place, lot, began, *_ in changes.began:
            del self.stays[place, lot, began]
            del self.open_stays[place][lot]
        for place, lot, _, ended_by, _ in changes.ended:
            self._reopen_stay(place, lot, ended_by)
        for place, *key in changes.arrived:
            self.arrived[place].remove(tuple(key))
        for place, *key in changes.drawn:
            self.drawn[place].remove(tuple(key))
        for place, number, at_ms in changes.touched:
            self.touched[place].remove((at_ms, number))
        for subject, name, number, *_ in changes.marks:
            rows = self.marks[subject][name]
            rows[:] = [row for row in rows if row.entry != number]
            self._look_again(subject, name)
        for other, line, voided_by in changes.voids:
            self.voids[other, line].remove(voided_by)
        self._void(entry, by)
        self.reversals[undone] = by

    def _reopen_stay(self, place: str, lot: int, ended_by: int) -> None:
        rows = self.ended_stays[place]
        for key in rows:
            row = self.stays[place, key[1], key[2]]
            if row.lot == lot and row.ended_by == ended_by:
                rows.remove(key)
                row.reopen()
                self.open_stays[place][lot] = row
                return
        raise BrokenRule(f"entry {ended_by} cannot be reversed: its stay is not there")


def _as_meant(changes: Changes) -> Changes:
    """With a row of its own for all that stays tell."""
    touched = dict.fromkeys(changes.touched)
    for place, _, at_ms, by, told in changes.ended:
        if told & TOUCHED_AS_ENDED:
            touched[place, by, at_ms] = None
    arrived, drawn = list(changes.arrived), list(changes.drawn)
    for place, lot, by, at_ms, told in changes.began:
        if told & TOUCHED_AS_BEGAN:
            touched[place, by, at_ms] = None
        if told & ARRIVED_AS_BEGAN:
            arrived.append((place, at_ms, lot, by))
        if told & DRAWN_AS_BEGAN:
            drawn.append((place, at_ms, lot, by))
    return changes._replace(arrived=arrived, drawn=drawn, touched=list(touched))


def _add(rows: list[Any], row: Any) -> None:
    """Keep a list sorted, each row once."""
    if not rows or rows[-1] < row:
        rows.append(row)
        return
    at = bisect_left(rows, row)
    if at == len(rows) or rows[at] != row:
        rows.insert(at, row)
