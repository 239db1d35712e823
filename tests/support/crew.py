"""How a crew writes down what it did: scans that come late, paper typed at night, and mistakes.

A note is what the crew knows of one thing it truly did. It is recorded only through the house's
verbs; where the program asks or refuses, the crew does what a crew does: it first writes down
what came before, counts again, or names who says so.
"""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from random import Random
from typing import Any

from honeyledger.domain.moments import moment_at
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.holds import open_holds
from honeyledger.ledger.verbs.corrections import Amend
from honeyledger.ledger.verbs.dispatch import Discard
from honeyledger.ledger.verbs.dock import Count
from honeyledger.ledger.verbs.drums import Bung, Fill, Reweigh, Weight
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.quality import Release
from honeyledger.services.house import Recorded, Said
from honeyledger.services.store import View
from tests.support.houses import MINUTE_MS, BuiltHouse

SHEETS = ("loads", "drums", "bottling", "washes", "cappings")
OPERATOR = "O26-0001-X"
CODE_MISSING = Sentence("code-missing", "The code of what came before is not known yet.")


@dataclass(frozen=True, slots=True)
class Habits:
    """How a crew records.

    Args:
        late_min: a scan may come up to this much later than what it records.
        paper: how often a sheet is kept on paper for a day, and typed at night.
        approximate: how often a time on paper is off, and said to be.
        mistakes: how often a wrong yard, line or tank is written down, and amended later.
        forgotten: how often a load is found days later.
        never: how often a load is never written down at all.
        wash_notes: how often a wash is written down.
    """

    late_min: int = 60
    paper: float = 0.0
    approximate: float = 0.0
    mistakes: float = 0.0
    forgotten: float = 0.0
    never: float = 0.0
    wash_notes: float = 0.7


@dataclass(eq=False)
class Note:
    """One thing to be written down.

    Args:
        at_ms: when it truly was.
        keys: what it is about; on a refusal, earlier notes about the same are written first.
        facts: what is said, made when it is written, or None while a code is still missing.
        done: what the crew learns from the record.
        in_order: it is written before any later note about the same.
    """

    at_ms: int
    sheet: str
    keys: frozenset[object]
    facts: Callable[[], Any | None]
    done: Callable[[Recorded], None] | None = None
    in_order: bool = False
    due_ms: int = 0
    typed_ms: int = 0  # 0: scanned, so that it is now
    unsure_ms: int = 0
    state: str = "waiting"
    only_typed: bool = False
    was_empty: bool = False  # the drum it fills
    net_g: int = 0  # what was weighed where it came out
    there: int = 0  # supers of that yard on the pallet, when some were taken
    failed_at: int = -1


@dataclass(eq=False)
class Crew:
    """Keeps the notes of a season and writes them into a house."""

    built: BuiltHouse
    habits: Habits
    random: Random
    notes: list[Note] = field(default_factory=list)
    paper_today: frozenset[str] = frozenset()
    refusals: dict[str, int] = field(default_factory=dict)
    never_scanned: int = 0
    recorded: int = 0

    def begin_day(self) -> None:
        """Choose which sheets are on paper today."""
        chosen = (sheet for sheet in SHEETS if self.random.random() < self.habits.paper)
        self.paper_today = frozenset(chosen)

    def add(self, note: Note) -> Note:
        """Note something down; when it will be written is settled here."""
        late_ms = self.habits.late_min * MINUTE_MS
        if note.sheet in self.paper_today or note.only_typed:
            self._time_on_paper(note)
        else:
            # One scan in four is at once, the others any time up to the latest.
            late = self.random.random() * late_ms if self.random.random() < 0.75 else 0
            note.due_ms = note.at_ms + int(late)
        self.notes.append(note)
        return note

    def _time_on_paper(self, note: Note) -> None:
        """To the minute, or off by a while, which is said."""
        note.typed_ms = note.at_ms // MINUTE_MS * MINUTE_MS
        if self.random.random() < self.habits.approximate:
            note.unsure_ms = self.random.choice((30, 90, 240)) * MINUTE_MS
            off = self.random.uniform(-1, 1) * (note.unsure_ms - MINUTE_MS)
            note.typed_ms += int(off) // MINUTE_MS * MINUTE_MS
        note.due_ms = max(note.due_ms, _night_of(note.at_ms))

    def catch_up(self, now_ms: int) -> None:
        """Write down all that is due by now, and what could not be written until something was."""
        scans = [note for note in self._due(now_ms) if not note.typed_ms]
        for note in sorted(scans, key=lambda note: note.due_ms):
            self.write(note, note.due_ms)
        wrote = True
        while wrote:
            papers = [note for note in self._due(now_ms) if note.typed_ms]
            wrote = sum(self.write(note, now_ms) for note in self._as_they_lie(papers)) > 0

    def _due(self, now_ms: int) -> list[Note]:
        return [note for note in self.notes if note.state == "waiting" and note.due_ms <= now_ms]

    def _as_they_lie(self, papers: list[Note]) -> list[Note]:
        """Sheet by sheet in any order, or by time, or quite mixed up."""
        way = self.random.choice(("sheets", "time", "mixed"))
        if way == "mixed":
            return self.random.sample(papers, len(papers))
        sheets = self.random.sample(SHEETS, len(SHEETS))
        by_time = sorted(papers, key=lambda note: note.typed_ms)
        return by_time if way == "time" else sorted(by_time, key=lambda n: sheets.index(n.sheet))

    def write(self, note: Note, now_ms: int) -> bool:
        """Write one note, whatever has to be written or answered first; whether it is written."""
        if note.state != "waiting" or note.failed_at == self.recorded:
            return False
        note.state = "being written"
        self.built.now_ms = max(self.built.now_ms, now_ms)
        while self._write_earlier(note, in_order=True):
            pass
        while note.state == "being written":
            facts = note.facts()
            try:
                if facts is None:
                    raise Refusal(CODE_MISSING)
                done = self.say(facts, note)
            except Refusal as refusal:
                self.refusals[refusal.key] = self.refusals.get(refusal.key, 0) + 1
                if not (self._write_earlier(note) or self._answer(refusal, facts, note)):
                    self._put_off(note)
                continue
            note.state = "written"
            if note.done:
                note.done(done)
        return note.state == "written"

    def _put_off(self, note: Note) -> None:
        """It goes on paper, and is typed with its time when more is known."""
        note.state = "waiting"
        note.failed_at = self.recorded
        if not note.typed_ms:
            note.typed_ms = note.at_ms
            note.due_ms = _night_of(note.at_ms)

    def say(self, facts: Any, note: Note | None = None) -> Recorded:
        """Record facts as a note says when it happened; now, without one."""
        typed_ms = min(note.typed_ms, self.built.now_ms) if note else 0
        happened = moment_at(typed_ms, "UTC") if typed_ms else None
        unsure_ms = note.unsure_ms if note else 0
        said = Said(operator=OPERATOR, happened=happened, unsure_ms=unsure_ms)
        done = self.built.house.record(facts, said)
        self.recorded += 1
        return done

    def _write_earlier(self, note: Note, *, in_order: bool = False) -> bool:
        """Write the first note about the same things that is still open; whether one was."""
        earlier = [
            other
            for other in self.notes
            if other.state == "waiting"
            and other.at_ms <= note.at_ms
            and other.keys & note.keys
            and (other.in_order or not in_order)
        ]
        by_time = sorted(earlier, key=lambda other: other.at_ms)
        return any(self.write(other, self.built.now_ms) for other in by_time)

    def _answer(self, refusal: Refusal, facts: Any, note: Note) -> bool:
        """What a crew does about a refusal it can do something about."""
        key = refusal.key
        if key.startswith("held"):
            return self._release()
        if isinstance(facts, (Bung, Reweigh)):
            note.state = "dropped"  # the books have it closed, or empty: nothing is left to say
            return True
        if isinstance(facts, Load) and key == "unknown-may-be":
            return self._is_it_this(refusal, facts, note)
        if isinstance(facts, Load) and key == "not-so-many":
            return self._count_again(facts, note)
        if isinstance(facts, Load) and key in ("pallet-empty", "not-on-pallet"):
            return self._amend_load(facts, note)
        if key in ("drum-full", "top-up-asks", "still-holds"):
            return self._fill_on(facts, note) or (note.was_empty and self._empty(facts.container))
        if key == "nothing-there" and isinstance(facts, Fill) and facts.whole:
            note.facts = lambda: replace(facts, weight=Weight(net_g=note.net_g), whole=False)
            return True
        return False

    def _fill_on(self, facts: Fill, note: Note) -> bool:
        """What came on top of it is written already: then the books get it on top instead."""
        later = [other for other in self.notes if other.at_ms > note.at_ms]
        if not isinstance(facts, Fill) or facts.top_up:
            return False
        if not any(o.state == "written" and o.keys & note.keys for o in later):
            return False
        note.facts = lambda: replace(facts, top_up=True)
        return True

    def _release(self) -> bool:
        """A named person lets go of what waits only for a name."""
        holds = self.built.house.ask(open_holds)
        for hold in holds:
            self.say(Release(hold.subject.partition("/")[2], "looked at"))
        return bool(holds)

    def _count_again(self, facts: Load, note: Note) -> bool:
        """The books have fewer supers: the count is corrected, or all that is left is taken."""
        if facts.pull and facts.count:
            self.say(Count(facts.pallet, max(note.there, facts.count), facts.pull))
            return True
        return self._instead(replace(facts, count=None, pull=""), note)

    def _is_it_this(self, refusal: Refusal, facts: Load, note: Note) -> bool:
        """Unknown honey may stand for this pallet: it does, or nobody can say so."""
        if facts.count is None and self.random.random() < 0.5:
            reason = "the pallet was found empty"
            return self._instead(Amend(refusal.offers[0], reason, pallet=facts.pallet), note)
        note.facts = lambda: replace(facts, apart=True)
        return True

    def _amend_load(self, facts: Load, note: Note) -> bool:
        """The books have the supers in another line already: they were in this one as well."""

        def last_load(view: View) -> int:
            loads = [e for e in view.entries(("load",)) if not view.reversed_by(e.id)]
            tags = [e for e in loads if e.facts["said"]["pallet"] == facts.pallet]
            pull = view.lot_by_code(facts.pull) if facts.pull else None
            its = [e.id for e in tags if not pull or pull.id in [p.lot for p in e.postings]]
            return max(its, default=0)

        entry = self.built.house.ask(last_load)
        if not entry:
            return False
        amend = Amend(load=entry, vessel=facts.vessel, reason="part of it went in here")
        try:
            return self._instead(amend, note)
        except Refusal as refusal:
            if refusal.key != "same-as-before":
                raise
        note.state = "written"
        return True

    def _instead(self, facts: Any, note: Note) -> bool:
        """Another entry stands for the note."""
        done = self.say(facts, note)
        note.state = "written"
        if note.done:
            note.done(done)
        return True

    def _empty(self, container: str) -> bool:
        """The drum is empty, whatever the books say: what they see there was poured long ago."""
        rows = self.built.house.ask(lambda view: view.standing(f"drum/{container}"))
        for row in rows:
            if row.grams:
                self.say(Discard(row.lot.code, "the drum is empty"))
        return any(row.grams for row in rows)


def _night_of(at_ms: int) -> int:
    """Eight in the evening of that day."""
    return at_ms - at_ms % (24 * 60 * MINUTE_MS) + 20 * 60 * MINUTE_MS
