"""What is typed in a station's small forms, what the ledger would say to it, and recording it."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from typing import Any

from PySide6.QtCore import QObject, QTimer, Signal

from honeyledger.desktop.desk import Desk, refusal_of
from honeyledger.desktop.drafts import DraftKeeper
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.language import note_words, refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message, recorded
from honeyledger.desktop.models.asked import (
    AT,
    FormSpec,
    FormTyped,
    Reading,
    as_draft,
    field_of,
    from_draft,
    with_scan,
    without_line,
)
from honeyledger.domain.moments import house_day
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.entry import Entry
from honeyledger.services.house import House, Recorded, Said, notes_of

PAUSE_MS = 200
CLOSING = frozenset({"closing"})
PREVIEW = Said(command="preview")
REGISTER = "register"
# Not worth a word while a form is being filled: there is simply nothing there yet.
NOT_YET = frozenset(
    {"no-reason", "nothing-named", "no-number", "no-sample", "no-code", "nothing-read"}
    | {"nothing-moved", "no-parts", "weigh-it", "no-signer", "no-after", "no-room-reading"}
    | {"recall-nothing", "which-recall", "which-recall-customer", "recall-nobody-told"}
    | {"recall-answer-empty"}
    | {"supers-or-frames", "no-why", "whose-bees", "no-complaint", "which-complaint", "no-answer"}
)
# Notes of the ledger that are something to act on, and not only to know.
TO_ACT_ON = frozenset(
    {"dry-first", "too-wet-to-sell", "instrument-found-off", "read-with-one-off"}
    | {"instrument-not-on-record", "instrument-near"}
)

Looked = tuple[list[Entry], Refusal | None]


class Asking(QObject):
    """The forms of one station, each kept as it was left.

    Signals:
        filled: the kind whose form changed by itself; the view shows it anew.
        warned: messages about the form in hand, worst first.
        refused: a `Refusal`; the form stays.
        done: the kind of what was recorded, and a `Message`.
        working: whether something is being recorded.
        changed: something in the form in hand is other than before.
        restored: the kind of a form that was taken up where it was left.
    """

    filled = Signal(str)
    warned = Signal(object)
    refused = Signal(object)
    done = Signal(str, object)
    working = Signal(bool)
    changed = Signal()
    restored = Signal(str)

    def __init__(self, desk: Desk, name: str, specs: Sequence[FormSpec]) -> None:
        super().__init__()
        self._desk, self._name = desk, name
        self.specs = {spec.key: spec for spec in specs}
        self.kind = specs[0].key
        self.typed: dict[str, FormTyped] = {spec.key: spec.begins() for spec in specs}
        self.page: Any = None
        self._today = house_day(desk.house.clock(), desk.zone)
        self._commands: dict[str, str] = {}
        self._at = ""
        self._is_recording = self._is_closed = self._is_refused = False
        self._keeper = DraftKeeper(desk.drafts, desk.jobs)
        self.pause = QTimer(self)
        self.pause.setSingleShot(True)
        self.pause.setInterval(PAUSE_MS)
        self.pause.timeout.connect(self._look)
        desk.refresh.watch(CLOSING, self._close)

    @property
    def spec(self) -> FormSpec:
        """The form in hand."""
        return self.specs[self.kind]

    def now(self) -> FormTyped:
        """What is typed in it."""
        return self.typed[self.kind]

    def show_page(self, page: Any, ledger: str, today: date) -> None:
        """The station's page has come; with the first one, what was left half typed."""
        self.page, self._today = page, today
        if not self._keeper.name:
            self._keeper.name = f"{self._name}-{ledger}"
            self._keeper.read(self._restored)

    def reading(self) -> Reading:
        """What the forms are read by."""
        return Reading(self._desk.unit, self._today, self.page)

    # What is typed.

    def choose(self, kind: str) -> None:
        """Another form is in hand."""
        self.kind = kind
        self._is_refused = False
        self.pause.start()
        self.changed.emit()

    def type(self, typed: FormTyped, at: str = "") -> None:
        """The form in hand was changed; `at` is the answer the keyboard is in, "" for none."""
        if self._is_closed:
            return  # Fields that lose the keyboard as the window goes say so, too.
        if typed == self.now() and at == self._at:
            return
        self.typed[self.kind], self._at, self._is_refused = typed, at, False
        self.pause.start()
        self.changed.emit()

    def fill(self, typed: FormTyped) -> None:
        """Let the form in hand show this."""
        self.type(typed)
        self.filled.emit(self.kind)

    def scan(self, code: str) -> bool:
        """A code was scanned: whether the form in hand takes it."""
        if not self.spec.scan and not self.spec.line:
            return False
        self.fill(with_scan(self.spec, self.now(), code))
        return True

    def take_off(self, code: str) -> None:
        """A lot of the list is not meant after all."""
        self.fill(without_line(self.now(), code))

    def clear(self, kind: str = "") -> None:
        """Empty a form, the one in hand unless named; nothing is recorded."""
        kind = kind or self.kind
        self.typed[kind], self._commands[kind] = self.specs[kind].begins(), ""
        self._is_refused = False
        self.warned.emit([])
        self.filled.emit(kind)
        self.pause.start()
        self.changed.emit()

    # What the ledger would say to it.

    def _look(self) -> None:
        """The person paused: say what the ledger would, and keep the draft."""
        self._keep()
        kind, typed = self.kind, self.now()
        if self.page is None or not self.spec.is_begun(typed):
            self._warn(None, ())
            return
        try:
            facts = self.spec.facts(typed, self.reading())
        except Refusal as refusal:
            self._warn(refusal, ())
            return
        house, spec = self._desk.house, self.spec
        said = replace(PREVIEW, operator=self._desk.operator)
        self._desk.jobs.read(
            lambda: _previewed(house, spec, facts, said),
            lambda outcome: self._looked(kind, typed, outcome),
            about=(self, "preview"),
        )

    def _looked(self, kind: str, typed: FormTyped, outcome: Outcome[Looked]) -> None:
        if (kind, typed) != (self.kind, self.now()) or outcome.value is None:
            return
        entries, refusal = outcome.value
        self._warn(refusal, entries)

    def _warn(self, refusal: Refusal | None, entries: Sequence[Entry]) -> None:
        if self._is_refused:
            return
        messages = []
        if refusal is not None:
            at, _ = field_of(self.spec, refusal)
            if refusal.key not in NOT_YET and not (at and at == self._at):
                messages.append(Message(Mark.WARNING, refusal_words(refusal)))
        said = {
            note_words(key, text): Mark.WARNING if key in TO_ACT_ON else Mark.NOTE
            for entry in entries
            for key, text in notes_of(entry)
        }
        worst = sorted(said.items(), key=lambda one: one[1] is not Mark.WARNING)
        messages += [Message(mark, text) for text, mark in worst]
        self.warned.emit(messages)

    def _refuse(self, refusal: Refusal) -> None:
        """What was refused stands until something else is typed or scanned."""
        self.pause.stop()
        self._is_refused, self._at = True, ""
        self.refused.emit(refusal)

    # Recording.

    def record(self) -> None:
        """Record the form in hand, all its parts or none."""
        if self._is_recording or self.page is None:
            return
        kind, typed, spec = self.kind, self.now(), self.spec
        try:
            facts = spec.facts(typed, self.reading())
        except Refusal as refusal:
            self._refuse(refusal)
            return
        self.pause.stop()
        self._is_recording = True
        self.working.emit(True)
        by = replace(self._desk.said(), command=self._command(kind))

        def written(outcome: Outcome[Recorded]) -> None:
            if outcome.refusal is not None and spec.line:
                self._place(facts, outcome.refusal)
            else:
                self._recorded(kind, typed, outcome)

        self._desk.record(facts, by, written)

    def _place(self, facts: Sequence[Any], refusal: Refusal) -> None:
        """Of a list that was refused, find the line it was for."""
        house, spec = self._desk.house, self.spec
        said = replace(PREVIEW, operator=self._desk.operator)

        def placed(outcome: Outcome[Looked]) -> None:
            self._stop_working()
            found = outcome.value[1] if outcome.value else None
            self._refuse(found if found is not None else refusal)

        self._desk.jobs.read(lambda: _previewed(house, spec, facts, said), placed)

    def _stop_working(self) -> None:
        self._is_recording = False
        self.working.emit(False)

    def _command(self, kind: str) -> str:
        """One id a form, kept with its draft, so that what was recorded is recorded once."""
        if not self._commands.get(kind):
            self._commands[kind] = self._desk.house.new_id()
        return self._commands[kind]

    def _recorded(self, kind: str, typed: FormTyped, outcome: Outcome[Recorded]) -> None:
        self._stop_working()
        if outcome.value is None:
            self._refuse(refusal_of(outcome))
            return
        done = outcome.value
        words = self.specs[kind].done(typed, done, self.reading())
        if done.again:
            words = self.tr("That was recorded already, as entry {entry}: it is kept once.")
            words = words.format(entry=done.entries[0].id)
        notes = dict.fromkeys(
            note_words(key, text) for entry in done.entries for key, text in notes_of(entry)
        )
        numbers = tuple(entry.id for entry in done.entries)
        about = numbers if len(numbers) > 1 else numbers[0]  # one of several is not all of it
        message = replace(recorded(words, about), text=" ".join(notes))
        self.clear(kind)
        self.done.emit(kind, message)

    # The draft.

    def _draft(self) -> dict[str, object]:
        return {
            kind: as_draft(typed, self._command(kind))
            for kind, typed in self.typed.items()
            if self.specs[kind].is_begun(typed)
        }

    def _keep(self) -> None:
        self._keeper.keep(self._draft())

    def _close(self) -> None:
        self._is_closed = True
        self.pause.stop()
        self._keeper.keep_now(self._draft())

    def _restored(self, kept: Mapping[str, object]) -> None:
        """Take up the forms where they were left, unless somebody types already."""
        for kind, spec in self.specs.items():
            typed, command = from_draft(kept.get(kind))
            if spec.is_begun(typed) and not spec.is_begun(self.typed[kind]):
                self.typed[kind], self._commands[kind] = typed, command
                self.filled.emit(kind)
                self.restored.emit(kind)
        self.changed.emit()


def _previewed(house: House, spec: FormSpec, facts: Sequence[Any], said: Said) -> Looked:
    """The entries these facts would make, one by one, up to the first that is refused."""
    entries = []
    for one in facts:
        try:
            entries.append(house.preview(one, said))
        except Refusal as refusal:
            if spec.line and spec.scan and AT not in refusal.field:
                refusal.field = f"{refusal.field}{AT}{getattr(one, spec.scan, '')}"
            return entries, refusal
        if one.kind == REGISTER:
            break  # what comes behind it is about a record that is not there yet
    return entries, None
