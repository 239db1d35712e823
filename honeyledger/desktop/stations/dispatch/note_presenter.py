"""The note in hand: its fields, its lines, and what the ledger would say to it meanwhile."""

from dataclasses import replace

from PySide6.QtCore import QObject, QTimer, Signal

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.language import note_words, refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.dispatch.open_notes import OpenNotes
from honeyledger.desktop.stations.dispatch.picking import (
    rests,
    with_asked,
    with_jars,
    with_net,
    with_span,
)
from honeyledger.desktop.stations.dispatch.rows import customer_key, group_name
from honeyledger.desktop.stations.dispatch.typed import (
    NoteTyped,
    dispatch_facts,
    line_facts,
    read_wanted,
    with_texts,
)
from honeyledger.desktop.stations.dispatch.words import note_messages
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.places import FARM_GATE
from honeyledger.services.dispatch_page import DispatchPage
from honeyledger.services.house import Said, notes_of

PAUSE_MS = 200
PREVIEW = Said(command="preview")
# Not worth a word while a note is being picked: there is simply nothing there yet.
NOT_YET = frozenset({"nothing-to-send", "nothing-named", "how-many-go"})
# What no row of the page knows beforehand is said first, whatever else there is to say.
SAID_FIRST = frozenset({"not-eligible-there"})


class NotePresenter(QObject):
    """One open note, and those put aside.

    Signals:
        changed: the note in hand has other fields or lines.
        switched: another note is in hand.
        warned: messages about the note, worst first.
        refused: a `Refusal`; the note stays as it is.
    """

    changed = Signal()
    switched = Signal()
    warned = Signal(object)
    refused = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.page: DispatchPage | None = None
        self.open = OpenNotes()
        self.keeps_rest: bool | None = None
        self._is_closed = self._is_refused = False
        self.pause = QTimer(self)
        self.pause.setSingleShot(True)
        self.pause.setInterval(PAUSE_MS)
        self.pause.timeout.connect(self._look)

    @property
    def note(self) -> NoteTyped:
        """The note in hand."""
        return self.open.note

    def customer(self) -> str:
        """The key of the note's customer, "" for none."""
        return customer_key(self.note.customer, self.page) if self.page else ""

    def type(self, customer: str, reference: str, carrier: str, **more: str) -> None:
        """What is typed of it was changed; `more` are others of its `TEXTS`."""
        said = {"customer": customer, "reference": reference, "carrier": carrier, **more}
        note = with_texts(self.note, said)
        if note != self.note and not self._is_closed:
            self._take(note)

    def _take(self, note: NoteTyped) -> None:
        """The note is this now: it is shown and kept, and after a pause the ledger is asked."""
        self.open, self._is_refused = self.open.with_note(note, self._desk.house.new_id), False
        self.changed.emit()
        self.pause.start()

    def _switch(self, notes: OpenNotes) -> None:
        """Another note is in hand."""
        self.open, self._is_refused, self.keeps_rest = notes, False, None
        self.warned.emit([])
        self.switched.emit()
        self.changed.emit()
        self.pause.start()

    def want(self, group: str, text: str) -> bool:
        """So many of a product, or of drums, are asked for."""
        name = group_name(group, self.page) if self.page else group
        try:
            count = read_wanted(text, name)
        except Refusal as refusal:
            self._refuse(refusal)
            return False
        self._take(self.note.with_wanted(group, count))
        return True

    def count(self, code: str, jars: str) -> None:
        """So many jars of a lot go; an empty number is still to be said."""
        self._take(with_jars(self.note, code, jars))

    def weigh(self, code: str, net: str) -> None:
        """Only so much of a drum goes."""
        self._take(with_net(self.note, code, net))

    def span(self, code: str, is_span: bool) -> None:
        """The jars scanned are the first and the last, or the very jars."""
        self._take(with_span(self.note, code, is_span))

    def is_said(self, code: str) -> bool:
        """Whether the number or weight of a lot can be read; what cannot is refused."""
        picked = self.note.find(code)
        try:
            if picked is not None:
                line_facts(picked, self._desk.unit)
        except Refusal as refusal:
            self._refuse(refusal)
            return False
        return True

    def take_off(self, key: str) -> None:
        """A lot, or something wanted, does not go after all."""
        self._take(self.note.without(key))

    def repeat(self) -> bool:
        """Want what the customer's last note had; answers whether there was one."""
        had = self.page.lately.get(self.customer()) if self.page else None
        if had is not None:
            self._take(with_asked(self.note, had.asked))
        return had is not None

    def has_rest(self) -> bool:
        """Whether something that is wanted is still to pick."""
        return any(one.left for one in rests(self.note, self.page))

    def put_aside(self) -> None:
        """Begin another note; this one stays open."""
        self._switch(self.open.put_aside())

    def take_up(self, at: int) -> None:
        """Go on with a note that was put aside."""
        if 0 <= at < len(self.open.aside):
            self._switch(self.open.take_up(at))

    def clear(self) -> NoteTyped:
        """Throw the open note away; answers it, so that it can be brought back."""
        note = self.note
        self._switch(replace(self.open, note=NoteTyped()))
        return note

    def bring_back(self, note: NoteTyped) -> None:
        """Go on with a note that was cleared."""
        self._switch(replace(self.open.put_aside(), note=note))

    # What the ledger would say to it.

    def _keep(self) -> None:
        """Keep what is open."""

    def _look(self) -> None:
        """The person paused: say what the ledger would, and keep the draft."""
        self._keep()
        note, house = self.note, self._desk.house
        try:
            facts = dispatch_facts(note, self._desk.unit)
        except Refusal as refusal:
            self._warn(refusal)
            return
        if not facts.customer:
            facts = replace(facts, customer=FARM_GATE)
        self._desk.jobs.read(
            lambda: house.preview(facts, PREVIEW),
            lambda outcome: self._looked(note, outcome),
            about=(self, "preview"),
        )

    def _looked(self, note: NoteTyped, outcome: Outcome[Entry]) -> None:
        if note == self.note:
            self._warn(outcome.refusal, outcome.value)

    def _warn(self, refusal: Refusal | None, entry: Entry | None = None) -> None:
        if self.page is None or self._is_refused:
            return
        messages = note_messages(self.note, self.page)
        if refusal is not None and refusal.key in SAID_FIRST:
            messages.insert(0, Message(Mark.REFUSED, refusal_words(refusal)))
        elif refusal is not None and refusal.key not in NOT_YET and not messages:
            messages.append(Message(Mark.WARNING, refusal_words(refusal)))
        if entry is not None:
            messages += [
                Message(Mark.WARNING, note_words(key, text)) for key, text in notes_of(entry)
            ]
        self.warned.emit(messages)

    def _refuse(self, refusal: Refusal) -> None:
        """What was refused stands until something else is typed or scanned."""
        self._is_refused = True
        self.refused.emit(refusal)
