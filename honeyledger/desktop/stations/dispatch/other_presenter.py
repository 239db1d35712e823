"""What comes back, what is thrown away, what is sampled: three small forms and what they say."""

from collections.abc import Mapping
from dataclasses import replace

from PySide6.QtCore import QObject, QTimer, Signal

from honeyledger.desktop.desk import Desk, refusal_of
from honeyledger.desktop.drafts import DraftKeeper
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.language import note_words, refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.dispatch.other_rows import done_message, follows
from honeyledger.desktop.stations.dispatch.other_typed import (
    AWAY,
    BACK,
    FIELD_OF,
    SAMPLE,
    OtherTyped,
    facts_of,
    other_as_draft,
    other_from_draft,
)
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.entry import Entry
from honeyledger.services.dispatch_page import DispatchPage
from honeyledger.services.dispatch_returns import CameBack, came_back
from honeyledger.services.dispatching import drum_in
from honeyledger.services.house import Recorded, Said, notes_of

PAUSE_MS = 200
NO_REASON_YET = "not said yet"
KINDS = (BACK, AWAY, SAMPLE)
CLOSING = frozenset({"closing"})
# Not worth a word while a form is being filled: there is simply nothing there yet.
NOT_YET = frozenset({"no-reason", "nothing-named", "no-number", "no-sample", "no-code"})


class OtherPresenter(QObject):
    """Returns, what is thrown away, samples.

    Signals:
        filled: the kind whose form changed by itself; the view shows it anew.
        came_back: a `CameBack`, or None: who has what comes back.
        followed: what follows if it is recorded, line by line.
        warned: messages about the form in hand, worst first.
        refused: a `Refusal`; the form stays.
        done: the kind of what was recorded, and a `Message`.
        working: whether something is being recorded.
    """

    filled = Signal(str)
    came_back = Signal(object)
    followed = Signal(object)
    warned = Signal(object)
    refused = Signal(object)
    done = Signal(str, object)
    working = Signal(bool)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.kind = BACK
        self.page: DispatchPage | None = None
        self.back: CameBack | None = None
        self.typed: dict[str, OtherTyped] = {kind: OtherTyped() for kind in KINDS}
        self._commands: dict[str, str] = {}
        self._typing = ""
        self._is_recording = self._is_closed = self._is_refused = False
        self._keeper = DraftKeeper(desk.drafts, desk.jobs)
        self.pause = QTimer(self)
        self.pause.setSingleShot(True)
        self.pause.setInterval(PAUSE_MS)
        self.pause.timeout.connect(self._look)
        desk.refresh.watch(CLOSING, self._close)

    def show_page(self, page: DispatchPage) -> None:
        """The station's page has come."""
        self.page = page
        if not self._keeper.name:
            self._keeper.name = f"dispatch-other-{page.ledger}"
            self._keeper.read(self._restored)

    def choose(self, kind: str) -> None:
        """Another form is in hand."""
        self.kind = kind
        self._is_refused = False
        self.pause.start()

    def now(self) -> OtherTyped:
        """The form in hand."""
        return self.typed[self.kind]

    def letter(self, text: str) -> str:
        """The letter of the code typed; "" for what is none yet."""
        return self._desk.letter_of(text)

    def type(self, typed: OtherTyped, at: str = "") -> None:
        """The form in hand was changed; `at` is the field the keyboard is in."""
        before = self.now()
        if typed == before or self._is_closed:
            return
        self.typed[self.kind], self._typing, self._is_refused = typed, at, False
        if self.kind == BACK and typed.lot != before.lot:
            self.back = None
            self.came_back.emit(None)
        self.pause.start()

    def scan(self, code: str) -> None:
        """A code was scanned: the lot of the form; of a sample, one more of its lots."""
        if not code:
            return
        typed = self.now()
        if self.kind == SAMPLE:
            typed = replace(typed, lot=", ".join(dict.fromkeys((*typed.lots, code))))
        elif typed.lot != code:
            typed = replace(typed, lot=code, jars="", net="", party="")
        self.typed[self.kind], self._typing, self._is_refused = typed, "", False
        self.filled.emit(self.kind)
        if self.kind == BACK:
            self.look_up()
        self.pause.start()

    def look_up(self) -> None:
        """Ask who has what is typed as come back; the one who has it is filled in."""
        lot, house = self.typed[BACK].lot.strip(), self._desk.house
        if not lot or self._desk.letter_of(lot) == "N":
            return
        self._desk.jobs.read(
            lambda: house.ask(lambda view: came_back(view, drum_in(view, lot))),
            lambda outcome: self._looked_up(lot, outcome),
            about=(self, "back"),
        )

    def _looked_up(self, lot: str, outcome: Outcome[CameBack]) -> None:
        typed = self.typed[BACK]
        if lot != typed.lot.strip():
            return
        if outcome.value is None:
            self._refuse(refusal_of(outcome))
            return
        self.back = outcome.value
        holders = self.back.holders
        if holders and not typed.party.strip():
            self.typed[BACK] = replace(typed, lot=self.back.code, party=holders[0].customer)
            self.filled.emit(BACK)
        self.came_back.emit(self.back)
        self.pause.start()

    # What the ledger would say to it.

    def _look(self) -> None:
        """The person paused: say what the ledger would and what follows, and keep the draft."""
        self._keep()
        kind, typed, house = self.kind, self.now(), self._desk.house
        if not typed.lot.strip():
            self.followed.emit(())
            self._warn(None)
            return
        # What follows is shown before the reason is said; without one nothing is recorded.
        asked = typed if typed.why.strip() else replace(typed, reason=NO_REASON_YET)
        try:
            facts = facts_of(kind, asked, self._desk.unit, self.back)
        except Refusal as refusal:
            self._warn(refusal)
            return
        self._desk.jobs.read(
            lambda: house.preview(facts[0], Said(command="preview")),
            lambda outcome: self._looked(kind, typed, outcome),
            about=(self, "preview"),
        )

    def _looked(self, kind: str, typed: OtherTyped, outcome: Outcome[Entry]) -> None:
        if (kind, typed) != (self.kind, self.now()):
            return
        if outcome.value is not None and self.page is not None:
            self.followed.emit(follows(kind, typed, outcome.value, self.page))
        else:
            self.followed.emit(())
        self._warn(outcome.refusal, outcome.value)

    def _warn(self, refusal: Refusal | None, entry: Entry | None = None) -> None:
        if self._is_refused:
            return
        messages = []
        if refusal is not None:
            at = FIELD_OF.get(refusal.field, "")
            if refusal.key not in NOT_YET and not (at and at == self._typing):
                messages.append(Message(Mark.WARNING, refusal_words(refusal)))
        if entry is not None:
            messages += [
                Message(Mark.NOTE, note_words(key, text)) for key, text in notes_of(entry)
            ]
        self.warned.emit(messages)

    def _refuse(self, refusal: Refusal) -> None:
        """What was refused stands until something else is typed or scanned."""
        self._is_refused, self._typing = True, ""
        self.refused.emit(refusal)

    # Recording.

    def record(self) -> None:
        """Record the form in hand, all its parts or none."""
        if self._is_recording:
            return
        kind, typed = self.kind, self.now()
        try:
            facts = facts_of(kind, typed, self._desk.unit, self.back)
        except Refusal as refusal:
            self._refuse(refusal)
            return
        self.pause.stop()
        self._is_recording = True
        self.working.emit(True)
        by = replace(self._desk.said(), command=self._command(kind))
        self._desk.record(facts, by, lambda outcome: self._recorded(kind, typed, outcome))

    def _command(self, kind: str) -> str:
        """One id a form, kept with its draft, so that what was recorded is recorded once."""
        if not self._commands.get(kind):
            self._commands[kind] = self._desk.house.new_id()
        return self._commands[kind]

    def _recorded(self, kind: str, typed: OtherTyped, outcome: Outcome[Recorded]) -> None:
        self._is_recording = False
        self.working.emit(False)
        if outcome.value is None:
            self._refuse(refusal_of(outcome))
            return
        self.clear(kind)
        self.done.emit(kind, done_message(kind, typed, outcome.value, self._desk.unit))

    def clear(self, kind: str) -> None:
        """Empty one form; nothing is recorded."""
        self.typed[kind], self._commands[kind], self._is_refused = OtherTyped(), "", False
        if kind == BACK:
            self.back = None
            self.came_back.emit(None)
        self.followed.emit(())
        self.warned.emit([])
        self.filled.emit(kind)
        self.pause.start()

    # The draft.

    def _draft(self) -> dict[str, object]:
        return {
            kind: {**other_as_draft(typed), "command": self._command(kind)}
            for kind, typed in self.typed.items()
            if typed.is_begun
        }

    def _keep(self) -> None:
        self._keeper.keep(self._draft())

    def _close(self) -> None:
        self._is_closed = True
        self.pause.stop()
        self._keeper.keep_now(self._draft())

    def _restored(self, kept: Mapping[str, object]) -> None:
        """Take up the forms where they were left, unless somebody types already."""
        for kind in KINDS:
            row = kept.get(kind)
            if isinstance(row, Mapping) and not self.typed[kind].is_begun:
                self.typed[kind] = other_from_draft(row)
                self._commands[kind] = str(row.get("command", ""))
                self.filled.emit(kind)
