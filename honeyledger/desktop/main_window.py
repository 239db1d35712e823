"""The window: the line across the top, one station below it, a lot's card beside it.

It opens stations, hands them what was scanned, and reverses what was just recorded. It knows no
station's inside.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Protocol, cast

from PySide6.QtCore import QCoreApplication, QPoint, Qt
from PySide6.QtGui import QCloseEvent, QKeyEvent
from PySide6.QtWidgets import QApplication, QMainWindow, QWidget

from honeyledger.desktop import actions, look, style, tokens
from honeyledger.desktop.desk import Desk, StationAsks, StationView
from honeyledger.desktop.frame import BackUpMeant, Frame, place_names
from honeyledger.desktop.house_care import HouseCare, KeptMeant
from honeyledger.desktop.keeping import Keeping
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.opening import Opening, Stations
from honeyledger.desktop.pad import Pad
from honeyledger.desktop.scanning import Scanner, monotonic_ms
from honeyledger.desktop.sign_in import Person, SignIn, people_menu
from honeyledger.desktop.stations.card.view import CardView
from honeyledger.desktop.table_care import TableCare
from honeyledger.desktop.taking_back import ChainMeant, TakingBack
from honeyledger.desktop.turns import Making
from honeyledger.desktop.unit_scan import unit_scan
from honeyledger.desktop.visiting import Visit
from honeyledger.desktop.widgets.message_slot import show_whole
from honeyledger.desktop.widgets.shell import Shell
from honeyledger.desktop.widgets.toast import Toast
from honeyledger.domain.refusals import Refusal

CLOSING = ("closing",)
KEYS = "keys"
GUIDE = "guide"
ENTRIES = "entries"
SELLING = "dispatch"
BADGE = "O"


@dataclass(frozen=True, slots=True)
class CodeMeant:
    """What a toast offers instead of a code that was misread."""

    code: str


@dataclass(frozen=True, slots=True)
class PeopleMeant:
    """A toast offers to choose who works here."""


class EntriesStation(StationView, Protocol):
    """What the window asks of the page of entries besides."""

    def undo(self, entry: int) -> None:
        """Show what reversing an entry would take along."""

    def show_house(self) -> None:
        """Show how the house is kept."""


class SellingStation(StationView, Protocol):
    """What the window asks of dispatch besides."""

    def sell(self, codes: Sequence[str]) -> None:
        """Put these on the note in hand."""


class TracingStation(StationView, Protocol):
    """What the window asks of the trace besides."""

    def show_recall(self, kind: str, code: str) -> None:
        """Show what goes with a code, with one of its forms in hand."""


class MainWindow(QMainWindow):
    """Everything a person sees of one house."""

    def __init__(
        self,
        desk: Desk,
        stations: Mapping[str, Callable[[], Making[StationView]]],
        card: CardView,
        keeping: Keeping,
        scan_clock: Callable[[], float] = monotonic_ms,
    ) -> None:
        super().__init__()
        self.desk = desk
        self.stations = Stations(stations, self._add_station, lambda: self.scanner.resting())
        self.opening = Opening(self.stations, desk, self._show_station, self)
        self.card = card
        self.shell = Shell()
        self.setCentralWidget(self.shell)
        self.toast = Toast(self.shell)
        self.toast.acted.connect(self._act)
        self.toast.listen(self.opening.failed, self.opening.overcome)
        self.frame = Frame(desk, self.shell, _titles(self.shell))
        self.pad = Pad(desk, self.shell.pad_strip, lambda: self.station().begin())
        self.signing = SignIn(desk)
        self.visit = Visit(desk, self.shell, self.signing, self.toast.show_message)
        self.taking_back = TakingBack(desk, self.toast)
        self.care = HouseCare(desk, self.frame, self.toast, keeping)
        self.tables = TableCare(desk, self.toast.show_message, self)
        self.shell.status_pressed.connect(self.show_kept)
        self._back: QWidget | None = None
        card.made.connect(self.shell.set_aside)
        self._listen(card.asks)
        card.closed.connect(self.close_card)
        card.found.connect(self._card_found)
        card.not_found.connect(self._code_refused)
        self.shell.aside_left.connect(self.close_card)
        self._is_unit = unit_scan(desk, self.take_code, self._code_refused)
        self.shell.code_typed.connect(self.take_code)
        self.shell.place_pressed.connect(self.open_station)
        self.shell.mast.side_pressed.connect(self.show_people)
        self.signing.signed.connect(self._signed)
        self.signing.refused.connect(self._code_refused)
        self.signing.wanted.connect(self._want_operator)
        handlers = {spec.key: self._handler(spec) for spec in actions.ACTIONS}
        self.actions_made = actions.attach(self, handlers)
        self.setWindowTitle("Honeyledger")
        self.resize(1280, 800)
        self.scanner = Scanner(_application(), scan_clock)  # last: nothing before it was typed
        self.scanner.scanned.connect(self.take_code)
        desk.last_scan = self.scanner.last_scan

    def _add_station(self, key: str, station: StationView) -> None:
        self.shell.add_page(key, station.widget)
        self.tables.attend(key, station.widget)
        station.asks.grown.connect(lambda: self.tables.attend(key, station.widget))
        self._listen(station.asks)

    def _listen(self, asks: StationAsks) -> None:
        asks.card.connect(self.open_card)
        asks.open.connect(self.open_station)
        asks.trace.connect(self.trace)
        asks.hand.connect(partial(hand, self))
        asks.say.connect(self.toast.show_message)
        asks.reverse.connect(self.taking_back.reverse)
        asks.kept.connect(self.show_kept)
        asks.sell.connect(self.sell)
        asks.complain.connect(partial(complain, self))

    def _handler(self, spec: actions.ActionSpec) -> Callable[[], object]:
        if spec.opens:
            return lambda: self.open_station(spec.opens)
        own: dict[str, Callable[[], object]] = {
            "scan": self.shell.begin_scan,
            "theme": self.change_theme,
            "operator": self.show_people,
            "pad": self.pad.ask,
            "visit": self.visit.begin,
            "back-up": lambda: self.care.back_up(),
            "quit": self.close,
            "message": lambda: show_whole(self),
            "look-first": lambda: self.desk.look_first(self.actions_made["print"].trigger),
        }
        return own.get(spec.key) or (lambda: self._station_action(spec))

    # Stations.

    def begin(self, key: str) -> None:
        """Open the first station, and ask who works here and how the house is."""
        self.open_station(key)
        self.opening.finish()
        self.frame.ask()
        self.frame.ask_warnings()
        self.visit.start()

    def open_station(self, key: str, then: Callable[[], object] = lambda: None) -> None:
        """Open a station, put the keyboard where its work begins, and then do this."""
        self.opening.open(key, then)

    def _show_station(self, key: str, station: StationView) -> None:
        if not self.shell.are_pages_shown():
            self.shell.show_aside(False)
        self.desk.came_from = self.shell.open_key()
        with self.scanner.resting():
            self.shell.open_page(key)
        self.frame.say_mast()
        station.begin()

    def station(self) -> StationView:
        """The station that is open."""
        return self.stations[self.shell.open_key()]

    def _station_action(self, spec: actions.ActionSpec) -> None:
        # A code that was just scanned is what is meant, whatever row the page has in hand.
        scanned = spec.key == "trace-this" and self._back is None and self.shell.is_aside_shown()
        if (scanned or self.card_has_focus()) and self.card.handle(spec.key):
            return
        if self.station().handle(spec.key) or self.tables.handle(spec.key, self.station().widget):
            return
        if spec.key == "reverse" and self.toast.message() is not None:
            self.toast.act()
            return
        if self.shell.is_aside_shown() and self.card.handle(spec.key):
            return
        self.toast.show_message(_nothing_to_do_with(spec))

    def take_code(self, code: str) -> None:
        """A code, whatever it is: the station uses it, else its card opens."""
        self.shell.show_scanned(code)
        said = self.toast.message()
        if said is not None and said.mark is Mark.REFUSED:
            self.toast.put_away()
        if self.desk.letter_of(code) == BADGE:
            self.signing.sign_in(code)
        elif not (self._is_unit(code) or self.station().take_code(code)):
            self._back = None
            self.card.show_code(code)

    def trace(self, code: str) -> None:
        """Open the trace of a code."""
        hand(self, "trace", (code,))

    def sell(self, codes: Sequence[str]) -> None:
        """Open dispatch with these on the note in hand."""
        self.open_station(SELLING, lambda: cast(SellingStation, self.station()).sell(codes))

    # The card.

    def open_card(self, code: str) -> None:
        """Open the card of a lot beside the page, with the keyboard in it."""
        self._back = _application().focusWidget() or self
        self.card.show_code(code)

    def card_has_focus(self) -> bool:
        """Whether the keyboard is in the card."""
        return self.card.holds(_application().focusWidget())

    def _card_found(self) -> None:
        self.shell.show_aside(True)
        if self._back is not None or not self.shell.are_pages_shown():
            self.card.take_focus()

    def close_card(self) -> None:
        """Put the card away; the keyboard goes back to where it was."""
        had_focus = self.card_has_focus() or not self.shell.are_pages_shown()
        back, self._back = self._back, None
        self.card.put_away()
        self.shell.show_aside(False)
        if not had_focus:
            return
        if back is not None and back is not self and back.isVisible():
            back.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.station().begin()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self.shell.is_aside_shown():
            self.close_card()
            return
        super().keyPressEvent(event)

    def _code_refused(self, refusal: Refusal) -> None:
        """Say why a code is none; one that exists and is near may be taken instead."""
        if scanned := self.shell.scan_box().scanned_code():
            self.shell.show_scanned(scanned, refused=True)
        if self.desk.settings.tones:
            QApplication.beep()
        self.toast.show_message(_not_found(refusal))

    # What the toast offers, what was recorded and can be taken back, how the house is kept.

    def _act(self, about: object) -> None:
        if isinstance(about, CodeMeant):
            self.take_code(about.code)
        elif isinstance(about, PeopleMeant):
            self.show_people()
        elif isinstance(about, ChainMeant):
            self.show_chain(about.entry)
        elif isinstance(about, KeptMeant):
            self.show_kept()
        elif isinstance(about, BackUpMeant):
            self.care.back_up()
        elif isinstance(about, int):
            self.taking_back.reverse(about)
        elif isinstance(about, tuple):
            self.taking_back.reverse(*about)

    def show_chain(self, entry: int) -> None:
        """Show an entry with all that is built on it, to be reversed or amended."""
        self.open_station(ENTRIES, lambda: self.entries().undo(entry))

    def show_kept(self) -> None:
        """Show how the house is kept, and offer to back it up."""
        self.open_station(ENTRIES, lambda: self.entries().show_house())

    def entries(self) -> EntriesStation:
        """The page of what was recorded."""
        return cast(EntriesStation, self.stations[ENTRIES])

    # Who works here.

    def show_people(self) -> None:
        """A list of who may work here, under the name in the mast."""
        menu = people_menu(self.signing, self, lambda: self.open_station("setup"))
        menu.popup(_right_end_of(self.shell.line if self.shell.is_narrow() else self.shell.mast))

    def _signed(self, person: Person | None) -> None:
        self.frame.want_operator(person is None and bool(self.signing.people))
        self.frame.ask()
        if person is not None:
            words = self.tr("{name} works here now.").format(name=person.name)
            self.toast.show_message(Message(Mark.READY, words))

    def _want_operator(self) -> None:
        self.frame.want_operator(True)
        self.toast.show_message(_who_works_here())

    def change_theme(self) -> None:
        """Light to dark and back, and so again at the next start."""
        dark = look.theme() is tokens.LIGHT
        with self.scanner.resting():  # Every widget is told, none of it a key.
            style.wear(_application(), tokens.DARK if dark else tokens.LIGHT)
        self.desk.jobs.turns.paint_later(self.shell.pages)
        self.desk.remember(replace(self.desk.settings, look="dark" if dark else "light"))

    def closeEvent(self, event: QCloseEvent) -> None:
        """Keep what is typed, finish what is being recorded, then let go of the ledger."""
        self.desk.refresh.broadcast(CLOSING)
        self.desk.jobs.close()
        self.scanner.stop()
        super().closeEvent(event)


def _tr(text: str) -> str:
    return QCoreApplication.translate("MainWindow", text)


def _titles(shell: Shell) -> dict[str, str]:
    """What every station is called."""
    tools = dict(zip(("trace", "season", "setup"), shell.line.tool_names(), strict=True))
    own = {
        KEYS: _tr("Keys"),
        GUIDE: _tr("Guide"),
        ENTRIES: _tr("Entries"),
        "checks": _tr("Checks"),
        "recalls": _tr("Recalls"),
        "exposure": _tr("Recall exposure"),
        "calculator": _tr("Calculator"),
    }
    return place_names() | tools | own


def _nothing_to_do_with(spec: actions.ActionSpec) -> Message:
    words = _tr("There is nothing here to do it with.")
    return Message(Mark.NOTE, f"{actions.action_text(spec)}:", words)


def _not_found(refusal: Refusal) -> Message:
    message = Message(Mark.REFUSED, _tr("Not found."), refusal_words(refusal))
    if not refusal.offers:
        return message
    words = _tr("Take {code}").format(code=refusal.offers[0])
    return replace(message, action=words, about=CodeMeant(refusal.offers[0]))


def _who_works_here() -> Message:
    words = _tr("Scan your badge, or choose your name (Ctrl+L).")
    return Message(Mark.NOTE, _tr("Who works here?"), words, _tr("Choose"), PeopleMeant())


def _right_end_of(mast: QWidget) -> QPoint:
    return mast.mapToGlobal(QPoint(mast.width(), mast.height()))


def _application() -> QApplication:
    application = QApplication.instance()
    assert isinstance(application, QApplication)
    return application


def hand(window: MainWindow, key: str, codes: Sequence[str]) -> None:
    """Open a station with these scanned there."""
    window.shell.show_aside(False)

    def scan() -> None:
        for code in codes:
            window.stations[key].take_code(code)

    window.open_station(key, scan)


def complain(window: MainWindow, code: str) -> None:
    """Open the form of a complaint, about this."""
    window.shell.show_aside(False)
    tracing = cast(TracingStation, window.stations["trace"])
    window.open_station("trace", lambda: tracing.show_recall("complaint", code))
