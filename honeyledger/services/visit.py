"""A visit: the house read only, with nobody's customers in it, and no coordinates.

What is hidden is hidden where the books are read, so that every page, card, search, table and
paper shows the same: a customer is "Customer" and a number, its record has no more than its
country, and its names are taken out of every text of the books. So are those who complained, took
a notice, or were passed some on. What a person typed of a
customer in other words stays: nobody can know it for one.
"""

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass, replace
from typing import Any, cast

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.entry import Entry, Json, Lot
from honeyledger.ledger.places import CUSTOMER
from honeyledger.ledger.state import Mark, Standing
from honeyledger.services.store import OnHand, Store, Unit, View

READ_ONLY = Sentence(
    "visit-read-only",
    "This is a visit: nothing is recorded. End the visit and sign in, then enter it again.",
)

HIDDEN = "…"
_RECORD = "record"
_KEPT = ("country", "market")
_PEOPLE, COMPLAINER = ("whom", "passed_on"), "who"
"""Names of marks and facts under which people stand who are customers, or are at theirs."""
_SPOTS = ("latitude", "longitude")
_SHORTEST = 3
"""A name or number shorter than this stands in too many words to be looked for in texts."""


@dataclass(frozen=True, slots=True)
class Veil:
    """What customers are called during a visit, and how their own words are found in texts."""

    names: Mapping[str, str]
    words: Mapping[str, str]
    pattern: re.Pattern[str] | None

    def text(self, text: str) -> str:
        """A text without what names a customer."""
        if self.pattern is None:
            return text
        return self.pattern.sub(lambda found: self.words[found[0].casefold()], text)

    def value(self, value: Json) -> Json:
        """Whatever a mark or an entry holds, without customers and coordinates."""
        if isinstance(value, str):
            return self.text(value)
        if isinstance(value, Mapping):
            hidden = (*_PEOPLE, COMPLAINER) if "what" in value else _PEOPLE
            return {
                key: self.person(one) if key in hidden else self.value(one)
                for key, one in value.items()
                if key not in _SPOTS
            }
        if isinstance(value, Sequence):
            rest = [self.value(one) for one in value]
            if _is_customer_record(value):
                rest[2] = self.record(str(value[0]), value[2])
            return rest
        return value

    def person(self, said: Json) -> Json:
        """Who complained, took a notice, or got some passed on: a customer, else nobody's name."""
        if not isinstance(said, str) or not said.strip():
            return said
        label = self.text(said.strip())
        return label if label in self.names.values() else HIDDEN

    def record(self, subject: str, value: Json) -> Json:
        """A customer's record."""
        if not isinstance(value, Mapping):
            return value
        kept = {key: one for key, one in value.items() if key in _KEPT}
        return {**kept, "name": self.names.get(subject, CUSTOMER.capitalize())}

    def mark(self, mark: Mark) -> Mark:
        """A mark as a visitor sees it."""
        if mark.subject.startswith(f"{CUSTOMER}/") and mark.name == _RECORD:
            return replace(mark, value=self.record(mark.subject, mark.value))
        return replace(mark, value=self.value(mark.value))

    def lot(self, lot: Lot) -> Lot:
        """A lot as a visitor sees it: its owner may be a customer, and what it is for."""
        attributes = cast(Mapping[str, Json], self.value(lot.attributes))
        return lot if attributes == lot.attributes else replace(lot, attributes=attributes)

    def entry(self, entry: Entry) -> Entry:
        """An entry as a visitor sees it: its codes and amounts are what they are."""
        facts = cast(Mapping[str, Json], self.value(entry.facts))
        said = facts.get("said", {})
        if isinstance(said, Mapping) and said.get("what") == CUSTOMER:
            # Its own words of then may be others than those of its record now.
            facts = {**facts, "said": {"what": CUSTOMER, "record": {}, "key": said.get("key", "")}}
        return replace(entry, facts=facts, lots=tuple(map(self.lot, entry.lots)))


def _is_customer_record(value: Sequence[Json]) -> bool:
    return (
        len(value) == 3
        and str(value[0]).startswith(f"{CUSTOMER}/")
        and value[1] == _RECORD
        and isinstance(value[2], Mapping)
    )


def veil_of(view: View) -> Veil:
    """The veil of a house as it is now; numbers go by the customers' keys."""
    marks = sorted(view.marked(_RECORD, f"{CUSTOMER}/"), key=lambda mark: mark.subject)
    names, words = {}, {}
    for number, mark in enumerate(marks, 1):
        names[mark.subject] = label = f"Customer {number}"
        words[mark.subject.removeprefix(f"{CUSTOMER}/").casefold()] = label
        for key, said in mark.value.items() if isinstance(mark.value, Mapping) else ():
            if isinstance(said, str) and key not in _KEPT and len(said.strip()) >= _SHORTEST:
                words[said.strip().casefold()] = label if key == "name" else HIDDEN
    longest = sorted(words, key=lambda word: (-len(word), word))
    # A place of the ledger ("customer/corvane") is no text: names are looked up by it.
    pattern = "|".join(re.escape(word) for word in longest)
    found = re.compile(rf"(?<![\w/])(?:{pattern})(?![\w/])", re.IGNORECASE) if words else None
    return Veil(names, words, found)


class _Veiled:
    """A view through the veil; what holds no words is as it is."""

    def __init__(self, view: View, veil: Veil) -> None:
        self._view, self._veil = view, veil

    def __getattr__(self, name: str) -> Any:
        return getattr(self._view, name)

    def mark(self, subject: str, name: str) -> Mark | None:
        mark = self._view.mark(subject, name)
        return self._veil.mark(mark) if mark is not None else None

    def marks(self, subject: str) -> Sequence[Mark]:
        return [self._veil.mark(mark) for mark in self._view.marks(subject)]

    def marked(self, name: str, under: str = "") -> Sequence[Mark]:
        return [self._veil.mark(mark) for mark in self._view.marked(name, under)]

    def marked_on(self, name: str, subjects: Collection[str]) -> Mapping[str, Mark]:
        found = self._view.marked_on(name, subjects)
        return {subject: self._veil.mark(mark) for subject, mark in found.items()}

    def marked_between(
        self, name: str, under: str, since_ms: int, before_ms: int
    ) -> Sequence[Mark]:
        found = self._view.marked_between(name, under, since_ms, before_ms)
        return [self._veil.mark(mark) for mark in found]

    def marked_without(self, name: str, without: str, under: str) -> Sequence[Mark]:
        found = self._view.marked_without(name, without, under)
        return [self._veil.mark(mark) for mark in found]

    def lot(self, lot_id: int) -> Lot:
        return self._veil.lot(self._view.lot(lot_id))

    def lots(self, lot_ids: Collection[int]) -> Mapping[int, Lot]:
        return {key: self._veil.lot(lot) for key, lot in self._view.lots(lot_ids).items()}

    def lot_by_code(self, code: str) -> Lot | None:
        lot = self._view.lot_by_code(code)
        return self._veil.lot(lot) if lot is not None else None

    def source_lots(self, place: str) -> Sequence[Lot]:
        return [self._veil.lot(lot) for lot in self._view.source_lots(place)]

    def standing(self, place: str) -> Sequence[Standing]:
        return [replace(row, lot=self._veil.lot(row.lot)) for row in self._view.standing(place)]

    def on_hand(self, classes: Collection[str] = ()) -> Sequence[OnHand]:
        return [replace(row, lot=self._veil.lot(row.lot)) for row in self._view.on_hand(classes)]

    def names_of(self, subjects: Collection[str]) -> Mapping[str, str]:
        found = self._view.names_of(subjects)
        return {subject: self._veil.names.get(subject, name) for subject, name in found.items()}

    def entry(self, entry_id: int) -> Entry | None:
        entry = self._view.entry(entry_id)
        return self._veil.entry(entry) if entry is not None else None

    def entries(
        self, kinds: Collection[str] = (), since_ms: int = 0, last: int = 0
    ) -> Sequence[Entry]:
        return [self._veil.entry(one) for one in self._view.entries(kinds, since_ms, last)]

    def entries_before(
        self, before: int, last: int, kinds: Collection[str] = (), station: str = ""
    ) -> Sequence[Entry]:
        found = self._view.entries_before(before, last, kinds, station)
        return [self._veil.entry(one) for one in found]

    def entries_of_run(self, run: str) -> Sequence[Entry]:
        return [self._veil.entry(one) for one in self._view.entries_of_run(run)]

    def entry_of_command(self, command: str) -> Sequence[Entry]:
        return [self._veil.entry(one) for one in self._view.entry_of_command(command)]

    def history(self, lot_id: int) -> Sequence[Entry]:
        return [self._veil.entry(one) for one in self._view.history(lot_id)]


class VisitedStore:
    """A store that a visitor may read; see `Store`."""

    def __init__(self, store: Store) -> None:
        self._store = store
        self._made: tuple[int, Veil] | None = None

    @contextmanager
    def reading(self) -> Iterator[View]:
        """A steady view through the veil, made anew when anything was recorded."""
        with self._store.reading() as view:
            head = view.head().entry
            if self._made is None or self._made[0] != head:
                self._made = (head, veil_of(view))
            yield cast(View, _Veiled(view, self._made[1]))

    def writing(self) -> AbstractContextManager[Unit]:
        """Never.

        Raises:
            Refusal: it is a visit.
        """
        raise Refusal(READ_ONLY)

    def audit(self, *said: Any, **more: Any) -> Any:
        """The chain and the books are checked as ever: a finding names entries, no customer."""
        return self._store.audit(*said, **more)

    def warnings(self) -> Sequence[str]:
        """Where the house is kept is not a visitor's affair."""
        return ()

    def close(self) -> None:
        """The store is its owner's to close."""
