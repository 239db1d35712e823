"""Which holds stood when something was dispatched: for the audit, over all entries in order.

The state knows what is held now. Whether a dispatch kept "held means held" is judged by what was
held then: holds released since count, releases, clears, narrowings and amendments made since do
not.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from honeyledger.ledger.effects import effects_of
from honeyledger.ledger.entry import Entry, Json, Lot
from honeyledger.ledger.holds import Hold, hold_from, is_of_days, reach_of
from honeyledger.ledger.places import YARD, class_of
from honeyledger.ledger.sources import first_place
from honeyledger.ledger.state import State

NARROWED = "not from/"
AMENDED = "from/"
_OF_SOURCES = (NARROWED, AMENDED)
_YARDS = f"{YARD}/"


@dataclass(frozen=True, slots=True)
class Dispatched:
    """A dispatch with the holds that stood, each with the lots it stood on, and rows void then."""

    entry: int
    lots: frozenset[int]
    holds: tuple[tuple[Hold, frozenset[int]], ...]
    void: frozenset[tuple[int, int]]


class Gist(NamedTuple):
    """The little of an entry that holds depend on, without making one of its rows."""

    id: int
    kind: str
    reverses: int
    effects: Mapping[str, Json]
    pulls: Sequence[Lot]
    postings: Sequence[tuple[int, str, int]]
    """Lot, place, grams."""


def gist_of(entry: Entry) -> Gist:
    """What holds depend on, of a whole entry."""
    return Gist(
        entry.id,
        entry.kind,
        entry.reverses,
        effects_of(entry),
        [lot for lot in entry.lots if lot.kind == "S"],
        [(one.lot, one.place, one.grams) for one in entry.postings],
    )


class HoldsThen:
    """Follows entries by id and keeps the dispatches made while any hold stood."""

    def __init__(self) -> None:
        self.dispatched: dict[int, Dispatched] = {}
        self._marks: dict[tuple[str, str], dict[int, Json]] = {}
        self._void: set[tuple[int, int]] = set()
        self._wrote: dict[int, Mapping[str, Json]] = {}
        self._pulled: dict[int, tuple[str, int]] = {}  # with the season, where no day was said
        self._codes: dict[int, str] = {}
        self._first: dict[int, str] = {}
        self._given: dict[str, dict[int, int]] = {}

    def follow(self, gist: Gist) -> None:
        """The next entry."""
        number, kind, reverses, effects, pulls, postings = gist
        if reverses:
            self._undo(reverses)
            self.dispatched.pop(reverses, None)
        if kind == "dispatch":
            self._dispatch(number, postings)
        if "marks" in effects or "voids" in effects:
            self._keep(number, effects)
        for pull in pulls:
            self._pulled[pull.id] = (str(pull.attributes.get("pulled", "")), pull.season)
            self._codes[pull.id] = pull.code
            self._first[pull.id] = first_place(pull)
        for lot, where, grams in postings:
            if where.startswith(_YARDS):
                given = self._given.setdefault(where, {})
                given[lot] = given.get(lot, 0) - grams

    def _keep(self, number: int, effects: Mapping[str, Json]) -> None:
        """Marks of holds and narrowings, and void rows; nothing else is needed."""
        kept = False
        for subject, name, value in _rows(effects, "marks"):
            subject, name = str(subject), str(name)
            if subject.startswith("hold/") or name.startswith(_OF_SOURCES):
                self._marks.setdefault((subject, name), {})[number] = value
                kept = True
        for other, line in _rows(effects, "voids"):
            self._void.add((int(str(other)), int(str(line))))
            kept = True
        if kept:
            self._wrote[number] = effects

    def _undo(self, entry_id: int) -> None:
        effects = self._wrote.pop(entry_id, None)
        if effects is None:
            return
        for subject, name, _ in _rows(effects, "marks"):
            self._marks.get((str(subject), str(name)), {}).pop(entry_id, None)
        for other, line in _rows(effects, "voids"):
            self._void.discard((int(str(other)), int(str(line))))

    def _dispatch(self, number: int, postings: Sequence[tuple[int, str, int]]) -> None:
        holds = tuple((hold, self._targets(hold)) for hold in self._open())
        if holds:
            lots = frozenset(lot for lot, _, _ in postings)
            void = frozenset(self._void)
            self.dispatched[number] = Dispatched(number, lots, holds, void)

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
