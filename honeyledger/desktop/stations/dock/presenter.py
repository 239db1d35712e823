"""What the dock knows: the day, what is typed, what the ledger would say to it."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date

from PySide6.QtCore import QObject, QTimer, Signal

from honeyledger.desktop.desk import EVERYTHING, Desk, refusal_of
from honeyledger.desktop.drafts import DraftKeeper
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.label_print import print_label
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.printing import paper_of
from honeyledger.desktop.stations.dock.rows import (
    about_yards,
    entry_messages,
    received_of,
    said,
)
from honeyledger.desktop.stations.dock.typed import (
    FIELD_OF,
    Typed,
    as_draft,
    facts_of,
    from_draft,
    next_form,
    repeated_line,
    yard_in,
)
from honeyledger.domain.moments import house_day
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.verbs.dock import NO_LINES, NO_USUAL_HONEY, Receive
from honeyledger.services.dock import Choice
from honeyledger.services.dock_page import DockPage, dock_page
from honeyledger.services.house import Recorded, Said

PAUSE_MS = 200
CLOSING = frozenset({"closing"})
# Not worth a word while a form is being filled: there is simply nothing there yet.
NOT_YET = frozenset({"no-lines", "no-number", "nothing-named", "no-supers"})

RECORD_FIRST = Sentence(
    "record-first",
    "This pallet has its weight already: record it with Enter, or clear the form with "
    "Ctrl+Backspace, then scan {yard} again.",
)


class DockPresenter(QObject):
    """The dock.

    Signals:
        shown: a `DockPage` has come.
        filled: the form is to show this `Typed`.
        warned: messages about what is typed, worst first.
        refused: a `Refusal`; the form stays as it is.
        line_kept: a yard was kept for the pallet; the next one is wanted.
        received: a `Received`; the form begins anew.
        printed: the tag's `Paper`, or the `Refusal` it ended with.
        working: whether something is being recorded.
    """

    shown = Signal(object)
    filled = Signal(object)
    warned = Signal(object)
    refused = Signal(object)
    line_kept = Signal()
    received = Signal(object)
    printed = Signal(object)
    working = Signal(bool)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.page: DockPage | None = None
        self.typed = Typed()
        self.last = Typed()
        self.last_tag = ""
        self._yard = ""
        self._typing = ""
        self._command = ""
        self._is_closed = self._is_refused = self._is_recording = False
        self._keeper = DraftKeeper(desk.drafts, desk.jobs)
        self.pause = QTimer(self)
        self.pause.setSingleShot(True)
        self.pause.setInterval(PAUSE_MS)
        self.pause.timeout.connect(self._look)
        desk.refresh.watch(EVERYTHING, self.ask)
        desk.refresh.watch(CLOSING, self._close)

    # The page.

    def ask(self) -> None:
        """Ask for the dock as it is now."""
        house, yard = self._desk.house, self._yard
        now_ms = house.clock()
        self._desk.jobs.read(
            lambda: house.ask(lambda view: dock_page(view, now_ms, yard)),
            self._answered,
            about=(self, "page"),
        )

    def _answered(self, outcome: Outcome[DockPage]) -> None:
        if outcome.value is None:
            return
        first, self.page = self.page is None, outcome.value
        self._desk.unit, self._desk.zone = self.page.unit, self.page.zone
        self.shown.emit(self.page)
        if first:
            self._keeper.name = f"dock-{self.page.ledger}"
            self._keeper.read(self._restored)

    def today(self) -> date:
        """The house's day."""
        return house_day(self._desk.house.clock(), self._desk.zone)

    def yard_of(self, text: str) -> Choice | None:
        """The yard meant by a code or a name; None for neither."""
        return yard_in(self.page, text)

    # What is typed.

    def type(self, typed: Typed, at: str = "") -> None:
        """The form was changed; `at` is the field the keyboard is in, "" for none."""
        if self._is_closed:
            return  # Fields that lose the keyboard as the window goes say so, too.
        changed, left = typed != self.typed, bool(self._typing) and not at
        self.typed, self._typing = typed, at
        if changed or left:
            self._take_up()

    def fill(self, typed: Typed) -> None:
        """Let the form show this."""
        self.typed, self._typing = typed, ""
        self.filled.emit(typed)
        self._take_up()

    def _take_up(self) -> None:
        """Something else is typed: its yard is in hand, and after a pause the ledger is asked."""
        self._is_refused = False
        yard = self.yard_of(self.typed.line.yard)
        if yard is not None and yard.code != self._yard:
            self._yard = yard.code
            self.ask()
        self.pause.start()

    def begin_anew(self) -> None:
        """Empty the form but for what repeats; nothing is recorded."""
        self._command = ""
        self.warned.emit([])
        self.fill(next_form(self.last, self.page))

    def repeat(self) -> None:
        """Fill the form as the last pallet was; its weight and its readings are its own."""
        if self.last != Typed():
            self.fill(Typed(self.last.line, self.last.kept))
        else:
            self.fill(replace(self.typed, line=repeated_line(self.page)))

    def repeats(self) -> bool:
        """Whether day, crew and box stand as on the pallet before."""
        today = self.page is not None and bool(self.page.repeated.pulled)
        return today or self.last != Typed()

    def scan_yard(self, code: str) -> bool:
        """A pull sheet was scanned; answers whether the form now waits for its supers."""
        line = self.typed.line
        now, yard = self.yard_of(line.yard), self.yard_of(code)
        if now is not None and yard is not None and now.code == yard.code:
            return True
        if line.supers.strip():
            if self.typed.gross.strip() or self.typed.moisture.strip():
                self._refuse(_record_first(yard.name if yard else code))
                return False
            self.keep_line(then_yard=code)
            return True
        self.fill(replace(self.typed, line=replace(line, yard=code)))
        return True

    def keep_line(self, then_yard: str = "") -> None:
        """Keep the line in hand for this pallet, if the ledger would, and begin the next one."""
        typed = self.typed
        only = replace(typed, gross="", moisture="", condition="sealed")
        if not typed.line.yard.strip():
            self._refuse(Refusal(NO_LINES, field="yard"))
        elif (facts := self._facts(only)) is not None:
            self._ask_ledger(facts, lambda outcome: self._kept_line(typed, then_yard, outcome))

    def _kept_line(self, typed: Typed, then_yard: str, outcome: Outcome[Entry]) -> None:
        refusal = outcome.refusal
        if refusal is not None and refusal.key != NO_USUAL_HONEY.key:
            self._refuse(refusal)
            return
        if typed != self.typed:
            return
        line = replace(typed.line, yard=then_yard, sheet="", supers="")
        self.fill(replace(typed, line=line, kept=(*typed.kept, typed.line)))
        self.line_kept.emit()

    # What the ledger would say to it.

    def _ask_ledger(
        self, facts: Receive, then: Callable[[Outcome[Entry]], None], about: object = None
    ) -> None:
        house, asked = self._desk.house, Said(command="preview")
        self._desk.jobs.read(lambda: house.preview(facts, asked), then, about=about)

    def _look(self) -> None:
        """The person paused: say what the ledger would, and keep the draft."""
        self._keeper.keep(self._draft())
        try:
            facts = facts_of(self.typed, self.today(), self._desk.unit)
        except Refusal as refusal:
            self._warn(refusal)
            return
        typed = self.typed
        self._ask_ledger(facts, lambda outcome: self._looked(typed, outcome), (self, "preview"))

    def _looked(self, typed: Typed, outcome: Outcome[Entry]) -> None:
        if typed != self.typed or self.page is None or self._is_refused:
            return
        if outcome.refusal is not None:
            self._warn(outcome.refusal)
        elif outcome.value is not None:
            about = about_yards(self.page, typed)
            self.warned.emit([*about, *entry_messages(outcome.value, self.page, typed)])

    def _warn(self, refusal: Refusal) -> None:
        """What would be refused, unless it is just being typed."""
        field = FIELD_OF.get(refusal.field, "")
        quiet = refusal.key in NOT_YET or (field and field == self._typing)
        about = about_yards(self.page, self.typed)
        self.warned.emit(about if quiet else [*about, said(Mark.WARNING, refusal_words(refusal))])

    # Recording.

    def _refuse(self, refusal: Refusal) -> None:
        """What was refused stands until something else is typed."""
        self.pause.stop()
        self._is_refused, self._typing = True, ""
        self.refused.emit(refusal)

    def _facts(self, typed: Typed) -> Receive | None:
        """The facts the form says; None where they were refused."""
        try:
            return facts_of(typed, self.today(), self._desk.unit)
        except Refusal as refusal:
            self._refuse(refusal)
            return None

    def receive(self) -> None:
        """Record the pallet as it is typed."""
        typed = self.typed
        facts = None if self._is_recording else self._facts(typed)
        if facts is None:
            return
        self.pause.stop()
        self._is_recording = True
        self.working.emit(True)
        by = replace(self._desk.said(), command=self._command_id())
        self._desk.record([facts], by, lambda outcome: self._received(typed, outcome))

    def _command_id(self) -> str:
        """One id a form, kept with its draft, so that what was recorded is recorded once."""
        self._command = self._command or self._desk.house.new_id()
        return self._command

    def _received(self, typed: Typed, outcome: Outcome[Recorded]) -> None:
        self._is_recording = False
        self.working.emit(False)
        if outcome.value is None:
            self._refuse(refusal_of(outcome))
            return
        received = received_of(outcome.value, self._desk.unit)
        self.last, self.last_tag = typed, received.tag
        self.begin_anew()
        self.received.emit(received)
        print_label(self._desk, received.tag, lambda done: self.printed.emit(paper_of(done)))

    # The draft.

    def _close(self) -> None:
        """The window closes: what is typed is kept, and nothing more is asked."""
        self._is_closed = True
        self.pause.stop()
        self._keeper.keep_now(self._draft())

    def _draft(self) -> dict[str, object]:
        return as_draft(self.typed, self._command_id()) if self.typed.is_begun else {}

    def _restored(self, kept: Mapping[str, object]) -> None:
        """Take up the form where it was left, unless somebody types already."""
        if self.typed.is_begun:
            return
        typed, command = from_draft(kept)
        self._command = command
        self.fill(typed if typed.is_begun else next_form(self.last, self.page))


def _record_first(yard: str) -> Refusal:
    return Refusal(RECORD_FIRST, field="gross_g", yard=yard)
