"""The house: records facts and answers questions, the same for window, terminal and import.

One command may write several entries (parts); a retry of the same command writes nothing and
answers what it wrote. Clock and ids are given, so that the same facts give the same digests.
"""

import importlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import repeat
from typing import Any, TypeVar

from honeyledger.domain.moments import Moment, check_not_future, format_moment, moment_at
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import UNIT_LETTER, as_json, rules_of
from honeyledger.ledger.canonical import Seal, text_of
from honeyledger.ledger.entry import Act, Entry
from honeyledger.ledger.verbs.table import book
from honeyledger.services.store import Store, Unit, View

Answer = TypeVar("Answer")

_CORRECTIONS = "honeyledger.ledger.verbs.corrections"  # loaded where something is reversed
LONGEST_AGO_MS = 5 * 366 * 86_400_000  # common practice, no source
MOST_UNSURE_MS = 7 * 86_400_000  # common practice, no source
LONG_AGO = Sentence(
    "long-ago", "{moment} is more than 5 years ago, for it is now {now}: check the year."
)
TOO_UNSURE = Sentence(
    "too-unsure",
    "A time that may be off by {days} days says too little: 7 days is the most. Look it up.",
)
CHAIN_CHANGED = Sentence(
    "chain-changed",
    "What is built on entry {entry} has changed meanwhile. Look at the list again, then reverse.",
)
USED_BEFORE = Sentence(
    "command-used-before",
    "The id {command} was used before, with entry {entry}, for something else. Nothing was "
    "written: give this command an id of its own.",
)


@dataclass(frozen=True, slots=True)
class Said:
    """Who, when, where: what a face says with the facts.

    Args:
        operator: code or name of the person ("" where nobody is signed in).
        station: name of the computer.
        command: the face's own id of the command; a new one is made where none is given.
        happened: when it happened; now, where none is given.
        run: code of the open run.
        unsure_ms: how far the time may be off.
    """

    operator: str = ""
    station: str = ""
    command: str = ""
    happened: Moment | None = None
    run: str = ""
    unsure_ms: int = 0


@dataclass(frozen=True, slots=True)
class Recorded:
    """What was written: entries with their seals; `again` where a retry found them there."""

    entries: tuple[Entry, ...]
    seals: tuple[Seal, ...]
    again: bool = False

    @property
    def codes(self) -> tuple[str, ...]:
        """Codes of the lots made, in order."""
        return tuple(lot.code for entry in self.entries for lot in entry.lots)

    @property
    def given(self) -> tuple[str, ...]:
        """All codes given: lots, pallet tags, runs, notes, equipment."""
        return tuple(code for entry in self.entries for code in given_codes(entry))

    @property
    def notes(self) -> tuple[str, ...]:
        """What the person is told, worst first as booked."""
        return tuple(note[1] for entry in self.entries for note in notes_of(entry))


def notes_of(entry: Entry) -> list[tuple[str, str]]:
    """An entry's notes as (key, sentence)."""
    rows = entry.facts.get("notes", ())
    assert isinstance(rows, Sequence)
    return [(str(row[0]), str(row[1])) for row in rows if isinstance(row, Sequence)]


def given_codes(entry: Entry) -> list[str]:
    """The codes an entry gave; what numbers of logistic units are counted by is none."""
    effects = entry.facts.get("effects", {})
    assert not isinstance(effects, (str, int, Sequence))
    rows = effects.get("codes", ())
    assert isinstance(rows, Sequence)
    codes = [str(row[0]) for row in rows if isinstance(row, Sequence)]
    return [code for code in codes if not code.startswith(f"{UNIT_LETTER}00-")]


class House:
    """One ledger, opened.

    Args:
        store: where it is kept.
        clock: milliseconds UTC now.
        new_id: a fresh command id.
    """

    def __init__(self, store: Store, clock: Callable[[], int], new_id: Callable[[], str]) -> None:
        self.store = store
        self.clock = clock
        self.new_id = new_id

    def record(self, facts: Any, said: Said = Said()) -> Recorded:
        """Record one verb's facts as one entry.

        Raises:
            Refusal: nothing was written; the sentence says what to do.
        """
        return self.record_all([facts], said)

    def record_all(
        self, all_facts: Sequence[Any], said: Said = Said(), happened: Sequence[Moment] = ()
    ) -> Recorded:
        """Record several facts as the parts of one command: all of them, or nothing.

        Args:
            happened: when each part happened, where that is not one moment for all of them.
        """
        now_ms = self.clock()
        for moment in happened:
            _check_time(moment, now_ms)
        with self.store.writing() as unit:
            if said.command and (done := unit.entry_of_command(said.command)):
                _check_same(done, [(facts.kind, as_json(facts)) for facts in all_facts], said)
                return Recorded(tuple(done), (), again=True)
            act = self._act(unit, said, now_ms)
            acts = [replace(act, happened=moment) for moment in happened]
            entries, seals = [], []
            for part, (facts, its_act) in enumerate(
                zip(all_facts, acts or repeat(act, len(all_facts)), strict=True)
            ):
                entry = book(facts, unit, its_act, now_ms, part)
                seals.append(unit.append(entry))
                entries.append(entry)
            return Recorded(tuple(entries), tuple(seals))

    def preview(self, facts: Any, said: Said = Said()) -> Entry:
        """The entry these facts would make; nothing is written."""
        now_ms = self.clock()
        with self.store.reading() as view:
            return book(facts, view, self._act(view, said, now_ms), now_ms)

    def chain(self, entry_id: int) -> list[Entry]:
        """What a chain reversal of an entry would reverse, newest first."""
        corrections = importlib.import_module(_CORRECTIONS)
        with self.store.reading() as view:
            entries = [view.entry(one) for one in corrections.chain_of(view, entry_id)]
            return [entry for entry in entries if entry is not None]

    def reverse_chain(
        self, entry_id: int, reason: str, said: Said = Said(), seen: Sequence[int] = ()
    ) -> Recorded:
        """Reverse an entry and all that is built on it, newest first, as one command.

        Args:
            seen: the entries that somebody agreed to; where it would be others, none is reversed.
        """
        corrections = importlib.import_module(_CORRECTIONS)
        now_ms = self.clock()
        with self.store.writing() as unit:
            if said.command and (done := unit.entry_of_command(said.command)):
                # The first entry was reversed last; what was built on it is reversed by now.
                facts = corrections.Reverse(entry_id, reason)
                _check_same(done[-1:], [(facts.kind, as_json(facts))], said)
                return Recorded(tuple(done), (), again=True)
            chain = corrections.chain_of(unit, entry_id)
            if seen and set(chain) != set(seen):
                raise Refusal(CHAIN_CHANGED, field="entry", entry=entry_id)
            act = self._act(unit, said, now_ms)
            entries, seals = [], []
            for part, one in enumerate(chain):
                entry = book(corrections.Reverse(one, reason), unit, act, now_ms, part)
                seals.append(unit.append(entry))
                entries.append(entry)
            return Recorded(tuple(entries), tuple(seals))

    def ask(self, question: Callable[[View], Answer]) -> Answer:
        """Ask a question of a steady view."""
        with self.store.reading() as view:
            return question(view)

    def _act(self, view: View | Unit, said: Said, now_ms: int) -> Act:
        zone = rules_of(view).zone
        happened = said.happened or moment_at(now_ms, zone)
        _check_time(happened, now_ms)
        if said.unsure_ms > MOST_UNSURE_MS:
            days = -(-said.unsure_ms // 86_400_000)
            raise Refusal(TOO_UNSURE, field="unsure", days=days)
        return Act(
            happened=happened,
            operator=said.operator,
            station=said.station,
            command=said.command or self.new_id(),
            run=said.run,
            unsure_ms=said.unsure_ms,
        )


def _check_time(moment: Moment, now_ms: int) -> None:
    """What is recorded has happened, and not in a year that was mistyped."""
    check_not_future(moment, now_ms)
    if moment.at_ms < now_ms - LONGEST_AGO_MS:
        now = format_moment(moment_at(now_ms, moment.zone))
        raise Refusal(LONG_AGO, field="happened", moment=format_moment(moment), now=now)


def _check_same(done: Sequence[Entry], wanted: Sequence[tuple[str, object]], said: Said) -> None:
    """A command's id that was used before is a retry only where it says the same as then."""
    before = [[entry.kind, entry.facts["said"]] for entry in done]
    if text_of(before) != text_of([list(one) for one in wanted]):
        raise Refusal(USED_BEFORE, field="command", command=said.command, entry=done[0].id)
