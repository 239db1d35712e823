"""Which holds stood when something was dispatched: for the audit, over all entries in order.

The state knows what is held now. Whether a dispatch kept "held means held" is judged by what was
held then: holds released since count, releases, clears, narrowings and amendments made since do
not.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from honeyledger.ledger.audit import Stored
from honeyledger.ledger.effects import effects_of
from honeyledger.ledger.entry import Entry, Json
from honeyledger.ledger.holds import Hold, hold_from, is_of_days, reach_of
from honeyledger.ledger.places import YARD, class_of
from honeyledger.ledger.sources import first_place
from honeyledger.ledger.state import State

NARROWED = "not from/"
AMENDED = "from/"


@dataclass(frozen=True, slots=True)
class Dispatched:
    """A dispatch with the holds that stood, each with the lots it stood on, and rows void then."""

    entry: int
    lots: frozenset[int]
    holds: tuple[tuple[Hold, frozenset[int]], ...]
    void: frozenset[tuple[int, int]]


def concerns(stored: Stored, effects: Mapping[str, Json]) -> bool:
    """Whether `HoldsThen` has to follow an entry; most entries have nothing to do with holds."""
    row = stored.row
    if row[1] == "dispatch" or row[12] or "voids" in effects:
        return True
    if "marks" in effects and any(_is_kept(*mark[:2]) for mark in _rows(effects, "marks")):
        return True
    return any(lot[2] == "S" for lot in stored.lots) or any(
        class_of(posting[2]) == YARD for posting in stored.postings
    )


def _is_kept(subject: Json, name: Json) -> bool:
    return str(subject).startswith("hold/") or str(name).startswith((NARROWED, AMENDED))


class HoldsThen:
    """Follows entries by id and keeps the dispatches made while any hold stood."""

    def __init__(self) -> None:
        self.dispatched: dict[int, Dispatched] = {}
        self._marks: dict[tuple[str, str], dict[int, Json]] = {}
        self._void: set[tuple[int, int]] = set()
        self._wrote: dict[int, Entry] = {}
        self._pulled: dict[int, tuple[str, int]] = {}  # with the season, where no day was said
        self._codes: dict[int, str] = {}
        self._first: dict[int, str] = {}
        self._given: dict[str, dict[int, int]] = {}

    def follow(self, entry: Entry) -> None:
        """The next entry."""
        if entry.reverses:
            self._undo(entry.reverses)
            self.dispatched.pop(entry.reverses, None)
        if entry.kind == "dispatch":
            self._dispatch(entry)
        self._keep(entry)
        for lot in entry.lots:
            if lot.kind == "S":
                self._pulled[lot.id] = (str(lot.attributes.get("pulled", "")), lot.season)
                self._codes[lot.id] = lot.code
                self._first[lot.id] = first_place(lot)
        for posting in entry.postings:
            if class_of(posting.place) == YARD:
                given = self._given.setdefault(posting.place, {})
                given[posting.lot] = given.get(posting.lot, 0) - posting.grams

    def _keep(self, entry: Entry) -> None:
        """Marks of holds and narrowings, and void rows; nothing else is needed."""
        effects = effects_of(entry)
        kept = False
        for subject, name, value in _rows(effects, "marks"):
            subject, name = str(subject), str(name)
            if _is_kept(subject, name):
                self._marks.setdefault((subject, name), {})[entry.id] = value
                kept = True
        for other, line in _rows(effects, "voids"):
            self._void.add((int(str(other)), int(str(line))))
            kept = True
        if kept:
            self._wrote[entry.id] = entry

    def _undo(self, entry_id: int) -> None:
        entry = self._wrote.pop(entry_id, None)
        if entry is None:
            return
        effects = effects_of(entry)
        for subject, name, _ in _rows(effects, "marks"):
            self._marks.get((str(subject), str(name)), {}).pop(entry_id, None)
        for other, line in _rows(effects, "voids"):
            self._void.discard((int(str(other)), int(str(line))))

    def _dispatch(self, entry: Entry) -> None:
        holds = tuple((hold, self._targets(hold)) for hold in self._open())
        if holds:
            lots = frozenset(posting.lot for posting in entry.postings)
            void = frozenset(self._void)
            self.dispatched[entry.id] = Dispatched(entry.id, lots, holds, void)

    def _open(self) -> list[Hold]:
        holds = []
        for (subject, name), values in self._marks.items():
            released = self._marks.get((subject, "released"), {})
            if name != "hold" or not values or released:
                continue
            value = values[max(values)]
            assert isinstance(value, Mapping)
            holds.append(hold_from(subject, value, self._cleared(subject)))
        return holds

    def _cleared(self, subject: str) -> list[tuple[str, Json]]:
        return [
            (name, values[max(values)])
            for (about, name), values in self._marks.items()
            if about == subject and name.startswith("cleared/") and values
        ]

    def _is_from(self, lot: int, where: str) -> bool:
        """Whether a pull with no grams from a yard any more was still in its reach."""
        if self._latest(lot, NARROWED + where):
            return False
        return self._first[lot] == where or self._latest(lot, AMENDED + where) is not None

    def _latest(self, lot: int, name: str) -> object:
        values = self._marks.get((self._codes[lot], name))
        return values[max(values)] if values else None

    def _targets(self, hold: Hold) -> frozenset[int]:
        if class_of(hold.target) != YARD:
            return frozenset(hold.lots)
        return frozenset(
            lot
            for lot, grams in self._given.get(hold.target, {}).items()
            if is_of_days(*self._pulled[lot], hold.first_day, hold.last_day)
            and (grams > 0 or self._is_from(lot, hold.target))
        )


def _rows(effects: Mapping[str, Json], name: str) -> Sequence[Sequence[Json]]:
    rows = effects.get(name, ())
    assert isinstance(rows, Sequence)
    return rows  # type: ignore[return-value]


def broken_holds(state: State, dispatched: Collection[Dispatched]) -> list[str]:
    """Lots that were dispatched under a hold that stood then."""
    broken = []
    for sent in dispatched:
        edges = [
            edge
            for edge in state.ancestry(sorted(sent.lots))
            if edge.entry < sent.entry and (edge.entry, edge.line) not in sent.void
        ]
        for hold, targets in sent.holds:
            hit = reach_of(hold, set(targets), edges) & sent.lots
            broken += [
                f"entry {sent.entry}: lot {lot} went out under {hold.subject}"
                for lot in sorted(hit)
            ]
    return broken
