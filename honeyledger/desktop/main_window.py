"""The window: the line across the top, one station below it, a lot's card beside it.

It opens stations, hands them what was scanned, keeps the line's figures true, and reverses what
was just recorded. It knows no station's inside.
"""

from collections.abc import Mapping

from PySide6.QtCore import QTimer
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import QApplication, QHBoxLayout, QMainWindow, QWidget

from honeyledger.desktop import actions, look, style, tokens
from honeyledger.desktop.desk import EVERYTHING, Desk, StationView
from honeyledger.desktop.frame import FrameRow, frame_row, line_figures, status_facts
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.frame_facts import MastFacts
from honeyledger.desktop.refresh import OtherStations
from honeyledger.desktop.scanning import Scanner
from honeyledger.desktop.stations.card.view import CardView
from honeyledger.desktop.widgets.shell import Shell
from honeyledger.desktop.widgets.toast import Toast
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.services.house import Recorded
from honeyledger.services.store import View

PUTTING_RIGHT = "entered wrongly"
MINUTE_MS = 60_000


class MainWindow(QMainWindow):
    """Everything a person sees of one house."""

    def __init__(self, desk: Desk, stations: Mapping[str, StationView], card: CardView) -> None:
        super().__init__()
        self.desk = desk
        self.stations = dict(stations)
        self.card = card
        self.shell = Shell()
        self._house = ""
        self._season = ""
        self._operator_name = ""
        middle = QWidget()
        row = QHBoxLayout(middle)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        row.addWidget(self.shell, 1)
        self.setCentralWidget(middle)
        self.toast = Toast(self.shell)
        self.toast.acted.connect(self._reverse_recorded)
        self._add_stations()
        self._card_beside()
        self.scanner = Scanner(_application())
        self.scanner.scanned.connect(self.take_code)
        self.shell.code_typed.connect(self.take_code)
        self.shell.place_pressed.connect(self.open_station)
        actions.attach(self, {spec.key: self._handler(spec) for spec in actions.ACTIONS})
        desk.refresh.changed.connect(lambda *_: self.refresh_frame())
        self.others = OtherStations(desk.jobs, desk.refresh, self._news)
        self._minute = QTimer(self)
        self._minute.setInterval(MINUTE_MS)
        self._minute.timeout.connect(self.refresh_frame)
        self._minute.start()
        self.setWindowTitle("Honeyledger")
        self.resize(1280, 800)

    def _add_stations(self) -> None:
        for key, station in self.stations.items():
            self.shell.add_page(key, station.widget)
            station.asks.card.connect(self.open_card)
            station.asks.trace.connect(self.trace)
            station.asks.say.connect(self.toast.show_message)
            station.asks.reverse.connect(self.reverse)

    def _card_beside(self) -> None:
        self.shell.set_aside(self.card.widget)
        self.card.asks.trace.connect(self.trace)
        self.card.asks.card.connect(self.open_card)
        self.card.asks.say.connect(self.toast.show_message)
        self.card.closed.connect(self.close_card)
        self.card.widget.hide()

    def _handler(self, spec: actions.ActionSpec):  # type: ignore[no-untyped-def]
        if spec.opens:
            return lambda: self.open_station(spec.opens)
        own = {
            "scan": self.shell.begin_scan,
            "theme": self.change_theme,
            "quit": self.close,
        }
        return own.get(spec.key) or (lambda: self._station_action(spec.key))

    # Stations.

    def open_station(self, key: str) -> None:
        """Open a station and put the keyboard where its work begins."""
        self.shell.open_page(key)
        self._say_mast()
        self.stations[key].begin()

    def station(self) -> StationView:
        """The station that is open."""
        return self.stations[self.shell.open_key()]

    def _station_action(self, key: str) -> None:
        if not self.station().handle(key) and key == "reverse":
            self.toast.act()

    def take_code(self, code: str) -> None:
        """A code, whatever it is: the station uses it, else its card opens."""
        self.shell.show_scanned(code)
        if not self.station().take_code(code):
            self.open_card(code)

    def trace(self, code: str) -> None:
        """Open the trace of a code."""
        self.open_station("trace")
        self.stations["trace"].take_code(code)

    def open_card(self, code: str) -> None:
        """Open the card of a lot beside the page."""
        self.card.show_code(code)
        self.shell.show_aside(True)

    def close_card(self) -> None:
        """Put the card away; the keyboard goes back to the station."""
        self.shell.show_aside(False)
        self.station().begin()

    # What was recorded can be taken back.

    def reverse(self, entry: int) -> None:
        """Reverse an entry that was just recorded here."""
        facts = Reverse(entry, PUTTING_RIGHT)
        self.desk.record([facts], self.desk.said(), lambda outcome: self._reversed(entry, outcome))

    def _reverse_recorded(self, about: object) -> None:
        if isinstance(about, int):
            self.reverse(about)

    def _reversed(self, entry: int, outcome: Outcome[Recorded]) -> None:
        if outcome.refusal is not None:
            self.toast.show_message(
                Message(Mark.REFUSED, self.tr("Not reversed."), outcome.refusal.text)
            )
        elif outcome.value is not None:
            by = outcome.value.entries[0].id
            words = self.tr("Entry {entry} is reversed by entry {by}.")
            self.toast.show_message(Message(Mark.REVERSED, words.format(entry=entry, by=by)))

    # The frame.

    def refresh_frame(self) -> None:
        """Ask for the line's figures and the foot of the window."""
        now_ms = self.desk.house.clock()
        operator = self.desk.operator
        self.desk.jobs.read(
            lambda: self.desk.house.ask(lambda view: frame_row(view, now_ms, operator)),
            self._show_frame,
            about="frame",
        )

    def _show_frame(self, outcome: Outcome[FrameRow]) -> None:
        row = outcome.value
        if row is None:
            self.shell.strip.say(self.tr("The ledger cannot be reached. Nothing is lost."))
            return
        self.shell.strip.say("")
        self._house, self._season = row.house, str(row.line.season)
        self._operator_name = row.operator
        self.shell.show_line(line_figures(row.line))
        self.shell.show_status(status_facts(row))
        self._say_mast()

    def _say_mast(self) -> None:
        names = dict(self.shell.line.names())
        key = self.shell.open_key()
        self.shell.show_mast(
            MastFacts(
                self._house,
                names.get(key, ""),
                self._operator_name,
                self.desk.operator,
                self._season,
            )
        )

    def _news(self, head: int) -> tuple[int, frozenset[str]]:
        """In the read lane: whether anyone has recorded anything since."""
        newest = self.desk.house.ask(_head)
        return newest, EVERYTHING if newest > head else frozenset()

    def change_theme(self) -> None:
        """Light to dark and back."""
        dark = look.theme() is tokens.LIGHT
        style.wear(_application(), tokens.DARK if dark else tokens.LIGHT)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Finish what is being recorded, then let go of the ledger."""
        self.desk.jobs.close()
        super().closeEvent(event)


def _head(view: View) -> int:
    return view.head().entry


def _application() -> QApplication:
    application = QApplication.instance()
    assert isinstance(application, QApplication)
    return application
