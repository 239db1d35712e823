"""What the bottling does with what is typed and scanned: asks the ledger, records, prints."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial
from typing import Any

from PySide6.QtCore import QObject, QTimer, Signal

from honeyledger.desktop.desk import Desk, refusal_of
from honeyledger.desktop.drafts import DraftKeeper
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.label_print import print_label
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.bottling import steps, words
from honeyledger.desktop.stations.bottling.hand import Hand
from honeyledger.desktop.stations.bottling.looking import Looking
from honeyledger.desktop.stations.bottling.typed import (
    LABELS,
    START,
    WEIGH,
    Typed,
    serials_of,
)
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.holds import ASKS_WHY
from honeyledger.ledger.verbs.bottling import ChangeOver
from honeyledger.services.bottling import feed_of
from honeyledger.services.bottling_page import BottlingPage, Wanted, bottling_page
from honeyledger.services.house import House, Recorded

PAUSE_MS = 200
CLOSING = frozenset({"closing"})


class BottlingPresenter(QObject):
    """The bottling.

    Signals:
        shown: a `BottlingPage` has come.
        filled: the form is to show what is in hand; the field the keyboard goes to, "" for none.
        begun: something else happens now: the keyboard goes where that begins.
        warned: messages about what is typed, worst first.
        refused: a `Refusal`; the form stays as it is.
        done: a `Message` that offers to reverse what was recorded.
        printed: the labels' file, or None where they were refused.
        drawing: how many labels are drawn, of how many.
        working: whether something is being recorded.
    """

    shown = Signal(object)
    filled = Signal(str)
    begun = Signal()
    warned = Signal(object)
    refused = Signal(object)
    done = Signal(object)
    printed = Signal(object)
    drawing = Signal(object, object)
    working = Signal(bool)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.hand = Hand()
        self._looking = Looking(desk, self.hand, self.warned.emit)
        self._is_closed = self._is_recording = False
        self.made_beside: Callable[[BottlingPage], object] = lambda _page: None
        """What the view makes of a page beside the window, before it is shown."""
        self._keeper = DraftKeeper(desk.drafts, desk.jobs)
        self.pause = QTimer(self, singleShot=True, interval=PAUSE_MS)
        self.pause.timeout.connect(self._paused)
        desk.refresh.watch(CLOSING, self._close)

    # The page.

    def ask(self) -> None:
        """Ask for the station as it is now."""
        read = partial(_read, self._desk.house, self.hand.wanted(), self.made_beside)
        self._desk.jobs.read(read, self._answered, about=(self, "page"))

    def _answered(self, outcome: Outcome[BottlingPage]) -> None:
        page, hand = outcome.value, self.hand
        if page is None:
            return
        first, before, against = hand.page is None, hand.typed, hand.against()
        self._desk.unit, self._desk.zone = page.unit, page.zone
        hand.take_page(page)
        if first or hand.typed != before:
            self._show()
            self._desk.jobs.turns.add(lambda: self.shown.emit(page))  # both would hold the window
        else:
            self._looking.look_again(against)
            self.shown.emit(page)
        if first:
            self._keeper.name = f"bottling-{page.ledger}"
            self._keeper.read(self._restored)

    def take_in_hand(self, code: str) -> None:
        """Go on with an open bottling; with none, another one is begun beside those that go on."""
        self.hand.take_in_hand(code)
        self._begin()

    def _begin(self) -> None:
        self._show()
        self.ask()
        self.begun.emit()

    # What is typed.

    def type(self, typed: Typed, at: str = "") -> None:
        """The form was changed; `at` is the field the keyboard is in, "" for none."""
        before, left = self.hand.typed, bool(self._looking.typing) and not at
        self.hand.typed, self._looking.typing = typed, at
        # Fields that lose the keyboard as the window goes say so, too.
        if (typed != before or left) and not self._is_closed:
            self._take_up()

    def _show(self, at: str = "") -> None:
        self._looking.typing = ""
        self.filled.emit(at)
        self._take_up()

    def _take_up(self) -> None:
        self._looking.is_refused = False
        self.pause.start()

    def choose(self, kind: str) -> None:
        """Something else happens now; what was typed for it is still there."""
        self.hand.choose(kind)
        self._show()

    def clear(self) -> None:
        """Take back the jar weighed last, or empty the form; nothing is recorded."""
        if self.hand.take_back_jar():
            self._show("weight")
            return
        self.hand.clear()
        self._begin()

    def _paused(self) -> None:
        """The person paused: say what the ledger would, and keep the draft."""
        self._keeper.keep(self.hand.draft(self._desk.house.new_id))
        self._looking.look()

    # One after another: feeds in their order, jars on the scale.

    def add_feed(self) -> bool:
        """Take what is typed as one more feed; False where nothing is typed."""
        page, typed = self.hand.page, self.hand.typed
        text = typed.feed.strip()
        if not text or page is None:
            return False
        feed = feed_of(page.feeds, text)
        if feed is not None:
            self.follow(steps.with_feed(typed, feed))
        else:
            # The floor is right: what the books see empty may hold honey. The ledger knows it.
            facts = ChangeOver(product=typed.product, feed=text)
            self._looking.ask(facts, lambda outcome: self._added(typed, text, outcome))
        return True

    def _added(self, typed: Typed, text: str, outcome: Outcome[Entry]) -> None:
        refusal = outcome.refusal
        if refusal is not None and refusal.key not in ASKS_WHY:
            self.refuse(refusal)
        elif typed == self.hand.typed:
            self.follow(steps.After(replace(typed, order=(*typed.order, text), feed=""), "feed"))

    def add_weight(self) -> bool:
        """Note the jar on the scale; False where nothing is typed."""
        try:
            is_weighed = self.hand.weigh()
        except Refusal as refusal:
            self.refuse(refusal)
            return True
        if is_weighed:
            self._show("weight")
        return is_weighed

    # The scanner.

    def scan(self, text: str) -> bool:
        """A code was scanned; answers whether it means something here."""
        after = self.hand.scan(text, self._desk.prefix, self._desk.house.clock())
        if after is None:
            return False
        if after.is_double:
            self._note(self.tr("{code} was scanned a moment ago."), text)
        elif after.bottling:
            self.take_in_hand(after.bottling)
        else:
            self.follow(after)
        return True

    def follow(self, after: steps.After) -> None:
        """Take up what a scan, a feed or a proposal makes of the form."""
        self.hand.typed = after.typed
        self._show(after.at)
        self.ask()
        if after.note:
            self._note(self.tr("{code} is in the order already."), after.note)

    def _note(self, sentence: str, code: str) -> None:
        self.warned.emit([Message(Mark.NOTE, sentence.format(code=code))])

    # Recording.

    def refuse(self, refusal: Refusal) -> None:
        """What was refused stands until something else is typed."""
        self.pause.stop()
        self._looking.is_refused, self._looking.typing = True, ""
        self.refused.emit(refusal)

    def submit(self) -> None:
        """Do what the form says: record it, note a jar, or print labels; one at a time."""
        kind = self.hand.typed.kind
        if self._is_recording or self.hand.page is None:
            return
        if kind == WEIGH and not self.add_weight():
            self.begun.emit()
        elif kind == LABELS:
            self.print_labels()
        elif kind != WEIGH:
            self._record(self.hand.page)

    def _record(self, page: BottlingPage) -> None:
        typed = self.hand.typed
        if typed.kind == START and typed.feed.strip() and typed.order:
            self.add_feed()
            return
        try:
            facts = self.hand.facts(self._desk.unit)
        except Refusal as refusal:
            self.refuse(refusal)
            return
        self.pause.stop()
        self._is_recording = True
        self.working.emit(True)
        by = replace(self._desk.said(), command=self.hand.command_id(self._desk.house.new_id))
        self._desk.record([facts], by, lambda outcome: self._recorded(typed, page, outcome))

    def _recorded(self, typed: Typed, page: BottlingPage, outcome: Outcome[Recorded]) -> None:
        self._is_recording = False
        self.working.emit(False)
        if outcome.value is None:
            self.refuse(refusal_of(outcome))
            return
        self.hand.after(typed, page, outcome.value)
        self._show()
        self.done.emit(words.done_message(outcome.value, page, typed))
        self.ask()
        self.begun.emit()

    # Labels.

    def print_labels(self, code: str = "") -> None:
        """Print the labels the form says, or all of a jar lot."""
        typed, tell = Typed(lot=code) if code else self.hand.typed, self.drawing.emit
        try:
            serials = serials_of(typed)
        except Refusal as refusal:
            self.refuse(refusal)
        else:
            print_label(
                self._desk, typed.lot.strip(), self._printed, serials=serials, progress=tell
            )

    def _printed(self, outcome: Outcome[Any]) -> None:
        if outcome.value is None:
            self.refuse(refusal_of(outcome))
        self.printed.emit(outcome.value)

    # The draft.

    def _close(self) -> None:
        """The window closes: what is typed is kept, and nothing more is asked."""
        self._is_closed = True
        self.pause.stop()
        self._keeper.keep_now(self.hand.draft(self._desk.house.new_id))

    def _restored(self, draft: Mapping[str, object]) -> None:
        self.hand.restore(draft)
        self._begin()


def _read(
    house: House, wanted: Wanted, made_beside: Callable[[BottlingPage], object]
) -> BottlingPage:
    page = house.ask(lambda view: bottling_page(view, wanted))
    made_beside(page)
    return page
