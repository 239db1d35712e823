"""The extraction station: the floor, and the page on which a run is closed."""

from PySide6.QtWidgets import QStackedWidget

from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.label_print import print_label
from honeyledger.desktop.printing import Paper, paper_message, paper_of
from honeyledger.desktop.sheets import Sheets
from honeyledger.desktop.stations.extraction.closing_view import ClosingPage
from honeyledger.desktop.stations.extraction.floor_view import FloorView
from honeyledger.desktop.stations.extraction.presenter import ExtractionPresenter
from honeyledger.desktop.turns import Making, in_pieces, whole
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.services.floor_page import FloorPage


class ExtractionView:
    """The page of the extraction floor. See `StationView`."""

    def __init__(self, desk: Desk) -> None:
        whole(self.pieces(desk))

    def pieces(self, desk: Desk) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        self._desk = desk
        self.asks = StationAsks()
        self.presenter = ExtractionPresenter(desk)
        self.floor = yield from in_pieces(FloorView, desk, self.presenter)
        yield
        self._closing: ClosingPage | None = None
        self.widget = QStackedWidget()
        self.widget.addWidget(self.floor)
        self.presenter.shown.connect(self._show)
        self.presenter.done.connect(self._done)
        self.presenter.refused.connect(self._refused)
        self.presenter.closing.connect(self._turn)
        self.floor.opened.connect(self.asks.card)
        self.sheets = Sheets(desk, self.asks.told)
        self.floor.printed.connect(self._print)
        self._drum = ""
        self.floor.form.label.clicked.connect(self._print_label)
        forms = self.floor.more.forms
        forms.turned.connect(self._turned)
        forms.done.connect(self.asks.told)
        forms.refused.connect(lambda _refusal: self.floor.spread.show_part(0))
        self.presenter.ask()

    @property
    def closing(self) -> ClosingPage:
        """The page on which a run is closed, made when one first is."""
        if self._closing is None:
            closing = self._closing = ClosingPage(self.presenter)
            self.widget.addWidget(closing)
            closing.opened.connect(self.asks.card)
            closing.tie_opened.connect(self.asks.trace)
            closing.printed.connect(self._print)
            closing.to_drums.connect(lambda: self.asks.open.emit("drums"))
            if self.presenter.page is not None:
                self._show_sheet(closing, self.presenter.page)
            self.asks.grown.emit()
        return self._closing

    def _print(self) -> None:
        self.sheets.print_run(self._run())

    def _print_label(self) -> None:
        """The label of the drum filled last, or the sticker for its lid: seen first."""
        print_label(self._desk, self._drum, self._label_printed, looks=True)

    def _label_printed(self, outcome: Outcome[Paper]) -> None:
        what = paper_of(outcome)
        if isinstance(what, Paper) and not what.printer and what.to_ask is None:
            self._desk.open_paper(what.file)
        if what is not None:
            tr = self.widget.tr
            said = tr("The label {code}"), tr("No label printed."), tr("is in {file}.")
            self.asks.told(paper_message(what, *said))

    def _turned(self) -> None:
        self.floor.spread.show_part(0)
        self.floor.begin()

    def _run(self) -> str:
        """The run whose sheet is shown."""
        sheet = self.presenter.sheet()
        return sheet.run.code if sheet else ""

    def _is_closing(self) -> bool:
        return self.widget.currentWidget() is not self.floor

    def _show(self, page: FloorPage) -> None:
        # What is signed, and the form, are as the presenter knows them at once; tables may follow.
        showing = self.floor.showing(page)
        next(showing)
        if self._closing is not None:
            self._show_sheet(self._closing, page)
        self._desk.jobs.turns.add_pieces(showing)

    def _show_sheet(self, closing: ClosingPage, page: FloorPage) -> None:
        if page.sheet is not None and self.presenter.is_open():
            closing.show_sheet(page.sheet, page.unit)

    def _done(self, verb: str, message: object) -> None:
        if verb == Fill.kind:
            self._drum = self.presenter.made
            self.floor.form.label.setAccessibleName(
                self.widget.tr("Label or sticker of {code}").format(code=self._drum)
            )
        self.floor.form.label.setVisible(verb == Fill.kind)
        self.floor.done(verb)
        self.asks.say.emit(message)

    def _refused(self, refusal: Refusal) -> None:
        if self._is_closing():
            self.closing.show_refusal(refusal)
        else:
            self.floor.show_refusal(refusal)

    def _turn(self, closing: bool) -> None:
        if closing == self._is_closing():
            return
        had_focus = self.widget.isVisible()
        self.widget.setCurrentWidget(self.closing if closing else self.floor)
        if had_focus:
            self.begin()

    # What the window asks of a station.

    def begin(self) -> None:
        """Put the keyboard where work goes on."""
        if self._is_closing():
            self.closing.begin()
        else:
            self.floor.begin()

    def take_code(self, code: str) -> bool:
        """A pallet's tag loads it; a drum's number starts its fill; else the card opens."""
        if not self._is_closing() and self.floor.more.take_code(code):
            return True
        letter = self._desk.letter_of(code)
        if not letter:
            is_taken = not self._is_closing() and self.floor.form.take_seal(code)
            self.presenter.keep_draft()
            return is_taken
        code = self._desk.code_of(code)
        if letter not in ("G", "E"):
            return False
        if letter == "E":
            if self._is_closing():
                return False
            return self.floor.scan_container(code)
        if self._is_closing():
            self.presenter.leave_closing()
        self.floor.scan_pallet(code)
        return True

    def handle(self, action: str) -> bool:
        """Clear the form; open the card of the chosen row."""
        if action == "clear" and self.floor.more.forms.clear():
            return True
        if action == "clear":
            self.floor.form.clear(self.floor.form.kind)
            return True
        if action == "print" and self._desk.looks_first and self._drum:
            self._print_label()
            return True
        if action == "print" and self._run():
            if not self.sheets.open_printed():
                self.sheets.print_run(self._run())
            return True
        if action == "card":
            floor = (self.floor.went_in, self.floor.came_out)
            tables = self.closing.tables() if self._is_closing() else floor
            for table in tables:
                if table.view.hasFocus() and table.selected_key():
                    self.asks.card.emit(table.selected_key())
                    return True
        return False
