"""Typing in what was written on the paper pad: every entry has its time, marked approximate.

While somebody types from the pad, what any station records happened then, give or take; so the
forms stay as they are, and the ledger widens reach as it does for a late entry from the terminal.
"""

from collections.abc import Callable

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QApplication, QWidget

from honeyledger.desktop.desk import Desk, PadTime
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.models.days import format_moment
from honeyledger.desktop.widgets.pad_strip import PadStrip
from honeyledger.domain.moments import check_not_future, parse_moment
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import parse_count
from honeyledger.ledger.booking import rules_of

MINUTE_MS = 60_000


class Pad(QObject):
    """Asks when it happened, and keeps the desk's time until somebody goes back to now.

    Args:
        begin: puts the keyboard where work goes on, where it was nowhere before.
    """

    def __init__(self, desk: Desk, strip: PadStrip, begin: Callable[[], object]) -> None:
        super().__init__(strip)
        self._desk, self._strip, self._begin = desk, strip, begin
        self._back: QWidget | None = None
        strip.answered.connect(self.take)
        strip.again.connect(self.ask)
        strip.ended.connect(self.end)
        strip.left.connect(self._leave)

    def ask(self) -> None:
        """Ask when what is typed next happened."""
        focused = QApplication.focusWidget()
        if focused is not None and not self._strip.isAncestorOf(focused):
            self._back = focused
        self._strip.ask()

    def take(self, text: str, minutes: str) -> None:
        """A time was typed: it counts from now on, if it was one."""
        house = self._desk.house
        self._desk.jobs.read(
            lambda: house.ask(lambda view: rules_of(view).zone),
            lambda outcome: self._taken(text, minutes, outcome),
        )

    def _taken(self, text: str, minutes: str, outcome: Outcome[str]) -> None:
        if outcome.value is None:
            return
        now_ms = self._desk.house.clock()
        try:
            happened = parse_moment(text, outcome.value, now_ms)
            check_not_future(happened, now_ms)
            unsure = parse_count(minutes, "a number of minutes", field="unsure")
        except Refusal as refusal:
            self._strip.ask(refusal_words(refusal))
            return
        self._desk.pad = PadTime(happened, unsure * MINUTE_MS)
        self._say()
        self._go_back()

    def end(self) -> None:
        """What is typed from now on happens now."""
        self._desk.pad = None
        self._say()
        self._go_back()

    def _leave(self) -> None:
        self._say()
        self._go_back()

    def _say(self) -> None:
        pad = self._desk.pad
        if pad is None:
            self._strip.say("")
            return
        words = self.tr("From the pad: {time}, give or take {n} min. Times approximate.")
        minutes = pad.unsure_ms // MINUTE_MS
        self._strip.say(words.format(time=format_moment(pad.happened), n=minutes))

    def _go_back(self) -> None:
        """The keyboard goes back to where it was."""
        back, self._back = self._back, None
        if back is not None and back.isVisible():
            back.setFocus()
        else:
            self._begin()
