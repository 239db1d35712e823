"""The extraction station: the floor, and the page on which a run is closed."""

from PySide6.QtWidgets import QStackedWidget

from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.stations.extraction.closing_view import ClosingPage
from honeyledger.desktop.stations.extraction.floor_view import FloorView
from honeyledger.desktop.stations.extraction.presenter import ExtractionPresenter
from honeyledger.services.floor_page import FloorPage


class ExtractionView:
    """The page of the extraction floor. See `StationView`."""

    def __init__(self, desk: Desk) -> None:
        self.asks = StationAsks()
        self.presenter = ExtractionPresenter(desk)
        self.floor = FloorView(desk, self.presenter)
        self.closing = ClosingPage(self.presenter)
        self.widget = QStackedWidget()
        self.widget.addWidget(self.floor)
        self.widget.addWidget(self.closing)
        self.presenter.shown.connect(self._show)
        self.presenter.done.connect(self._done)
        self.presenter.closing.connect(self._turn)
        for table in (
            self.floor.went_in,
            self.floor.came_out,
            self.closing.went_in,
            self.closing.came_out,
        ):
            table.opened.connect(self.asks.card)
        self.closing.ties.opened.connect(self.asks.trace)
        self.presenter.ask()

    def _show(self, page: FloorPage) -> None:
        self.floor.show_page(page)
        if page.sheet is not None:
            self.closing.show_sheet(page.sheet)

    def _done(self, message: object) -> None:
        self.floor.clear()
        self.asks.say.emit(message)

    def _turn(self, closing: bool) -> None:
        self.widget.setCurrentWidget(self.closing if closing else self.floor)
        self.begin()

    # What the window asks of a station.

    def begin(self) -> None:
        """Put the keyboard where work goes on."""
        if self.widget.currentWidget() is self.closing:
            self.closing.begin()
        else:
            self.floor.begin()

    def take_code(self, code: str) -> bool:
        """A pallet's tag loads it; a drum's number starts its fill; else the card opens."""
        if self.presenter.take_code(code):
            return True
        if self.presenter.letter_of(code) == "E" and self.presenter.is_open():
            self.floor.take_container(code.strip().upper())
            return True
        return False

    def handle(self, action: str) -> bool:
        """Clear the form."""
        if action == "clear":
            self.floor.clear()
            return True
        return False
