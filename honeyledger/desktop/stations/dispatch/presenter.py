"""What dispatch knows: its page, the scans, the note in hand, and how it is signed and printed.

An open note is kept as a draft; it goes to the ledger once, under the id it was begun with.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from PySide6.QtCore import Signal

from honeyledger.desktop.desk import EVERYTHING, Desk, refusal_of
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.printing import paper_of
from honeyledger.desktop.sheets import print_note
from honeyledger.desktop.stations.dispatch.note_presenter import NotePresenter
from honeyledger.desktop.stations.dispatch.open_notes import NoteDrafts
from honeyledger.desktop.stations.dispatch.picking import pick, rests, with_rest_only
from honeyledger.desktop.stations.dispatch.rows import rest_words
from honeyledger.desktop.stations.dispatch.scans import Scans
from honeyledger.desktop.stations.dispatch.typed import NoteTyped, dispatch_facts
from honeyledger.desktop.stations.dispatch.words import sent_message
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.signing import NO_SIGNER
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.dispatch_page import DispatchPage, dispatch_page
from honeyledger.services.dispatching import Pick
from honeyledger.services.house import Recorded

CLOSING = frozenset({"closing"})
STILL_TO_PICK = Sentence(
    "still-to-pick",
    "Still to pick: {rest}. Say whether that waits for a next note or is left out.",
)


class DispatchPresenter(NotePresenter):
    """Dispatch notes, from the first scan to the paper.

    Signals:
        shown: a `DispatchPage` has come.
        found: the code of a lot a scan found, and what the scan did (`Scanned`).
        sent: the code of a note that was recorded, and a `Message`; a new note begins.
        told: a `Message` that is no warning about the note in hand.
        printed: the note's `Paper`, or the `Refusal` it ended with.
        working: whether something is being recorded.
    """

    shown = Signal(object)
    found = Signal(str, object)
    sent = Signal(str, object)
    told = Signal(object)
    printed = Signal(object)
    working = Signal(bool)

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self.last_note = ""
        self._is_recording = False
        self._scans = Scans(desk, self._picked, self._refuse)
        self._drafts = NoteDrafts(desk, self._restored)
        desk.refresh.watch(EVERYTHING, self.ask)
        desk.refresh.watch(CLOSING, self._close)

    # The page.

    def ask(self) -> None:
        """Ask for dispatch as it is now."""
        house = self._desk.house
        now_ms = house.clock()
        self._desk.jobs.read(
            lambda: house.ask(lambda view: dispatch_page(view, now_ms)),
            self._answered,
            about=(self, "page"),
        )

    def _answered(self, outcome: Outcome[DispatchPage]) -> None:
        if outcome.value is None:
            return
        self.page = outcome.value
        self._desk.unit, self._desk.zone = self.page.unit, self.page.zone
        self.shown.emit(self.page)
        if not self._drafts.begin(self.page.ledger) and self.note.is_begun:
            self.pause.start()

    # Scans.

    def scan(self, text: str) -> None:
        """A code was scanned or typed; scans come one after another, however fast."""
        self._scans.add(text)

    def sell(self, codes: Sequence[str]) -> None:
        """These go on the note together; what may not is said in one sentence."""
        self._scans.add_all(codes)

    def _picked(self, found: Pick) -> None:
        note, what = pick(self.note, found, self.page)
        self._take(note)
        self.found.emit(found.row.code, what)

    # Recording.

    def add_customer(self, name: str) -> None:
        """Somebody new gets honey: a name is enough."""
        facts = Register("customer", {"name": name})
        self._desk.record([facts], self._desk.said(), self._added)

    def _added(self, outcome: Outcome[Recorded]) -> None:
        if outcome.value is None:
            self._refuse(refusal_of(outcome))
            return
        name = self.note.customer.strip()
        self.told.emit(Message(Mark.READY, name, self.tr("is a customer now.")))

    def send(self) -> None:
        """Sign the note and record it."""
        note = self.note
        if self._is_recording:
            return
        try:
            check_ready(note, self.page, self._desk.operator, self.keeps_rest)
            facts = dispatch_facts(note, self._desk.unit)
        except Refusal as refusal:
            self._refuse(refusal)
            return
        self.pause.stop()
        self._set_recording(True)
        by = replace(self._desk.said(), command=note.command or self._desk.house.new_id())
        self._desk.record([facts], by, lambda outcome: self._recorded(note, outcome))

    def _set_recording(self, recording: bool) -> None:
        self._is_recording = recording
        self.working.emit(recording)
        self._scans.hold(recording)

    def _recorded(self, note: NoteTyped, outcome: Outcome[Recorded]) -> None:
        done = outcome.value
        if done is None:
            self._refuse(refusal_of(outcome))
            self._set_recording(False)
            return
        rest = with_rest_only(note, self.page) if self.keeps_rest else NoteTyped()
        notes = self.open.without([note.command])
        if rest.wanted:
            notes = notes.and_aside([replace(rest, command=self._desk.house.new_id())])
        self.last_note = done.given[0]
        self._switch(notes)
        self.sent.emit(self.last_note, sent_message(note, done, self._desk.unit))
        self.print(self.last_note)
        self._set_recording(False)

    def print(self, code: str) -> None:
        """Write a note's paper among the person's papers."""
        print_note(self._desk, code, lambda done: self.printed.emit(paper_of(done)))

    # The draft.

    def _keep(self) -> None:
        self._drafts.keep(self.open)

    def _close(self) -> None:
        """The window closes: what is open is kept, and nothing more is asked."""
        self._is_closed = True
        self.pause.stop()
        self._drafts.keep_now(self.open)

    def _restored(self, kept: Mapping[str, object], sent: Mapping[str, str]) -> None:
        """Take up the notes where they were left, but for those that were signed."""
        self._switch(self.open.restored(kept).without(list(sent)))
        for code in sent.values():
            words = self.tr("was signed before the program stopped: it is kept once.")
            self.told.emit(Message(Mark.NOTE, code, words))


def check_ready(
    note: NoteTyped, page: DispatchPage | None, operator: str, keeps_rest: bool | None
) -> None:
    """Somebody signs, and what is still to pick was spoken of.

    Raises:
        Refusal: nobody is signed in, though the house has people; something is to pick.
    """
    if page is None or not note.picked:
        return
    if page.people and not operator:
        raise Refusal(NO_SIGNER, field="operator")
    left = [one for one in rests(note, page) if one.left]
    if left and keeps_rest is None:
        raise Refusal(STILL_TO_PICK, field="rest", rest=rest_words(left, page))
