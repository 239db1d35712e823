"""The floor while a run goes on: the form and the queue beside the run's sheet."""

from PySide6.QtCore import Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.next_run import in_order
from honeyledger.desktop.models.rows import Total
from honeyledger.desktop.stations.extraction import rows
from honeyledger.desktop.stations.extraction.ahead_rows import (
    ahead_figures,
    pace_figures,
    pace_heading,
    queue_columns,
    waiting_frames,
)
from honeyledger.desktop.stations.extraction.draft_view import FloorDraft
from honeyledger.desktop.stations.extraction.fields_view import CLOSE, DRUM, LOAD, OPEN, WASH
from honeyledger.desktop.stations.extraction.form_view import (
    KIND_OF_VERB,
    FloorForm,
)
from honeyledger.desktop.stations.extraction.more_view import MoreOnTheFloor
from honeyledger.desktop.stations.extraction.presenter import ExtractionPresenter
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.turns import Making, Pieced, in_pieces
from honeyledger.desktop.widgets.figures import KeyFigure, KeyFigures
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.desktop.widgets.table import Table, TablePlan
from honeyledger.desktop.widgets.twin_tables import TwinTables
from honeyledger.domain.refusals import Refusal
from honeyledger.services.floor import RunSheet
from honeyledger.services.floor_pace import Pace
from honeyledger.services.floor_page import FloorPage

COLUMNS_FROM = 1440
QUEUE_FROM = 480
"""In a lower window the fields need all there is: what waits has a tab of its own."""
_WAITS = 2


class FloorView(Pieced, QWidget):
    """Five columns of what happens, seven of the run's sheet.

    Signals:
        opened: the code of a row that was opened.
        printed: the run's sheet is wanted on paper.
    """

    opened = Signal(str)
    printed = Signal()

    def pieces(self, desk: Desk, presenter: ExtractionPresenter) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        QWidget.__init__(self)
        self._presenter = presenter
        self._clock = desk.house.clock
        self._waiting: list[str] = []
        self._back_to = ""
        self.form = yield from in_pieces(FloorForm, presenter)
        yield
        self._draft = FloorDraft(self.form, presenter)
        self._add_queue()
        self.sheet_panel = self._sheet_panel()
        yield
        self.more = MoreOnTheFloor(desk, self.form.panel, self.turn)
        self.spread = Spread(
            [
                Part(self.more.forms.leaves, self.tr("On the floor"), 5, 8),
                Part(self.sheet_panel, self.tr("Run"), 7, 8),
                Part(self.waits, self.tr("What waits"), 0, 0),
            ]
        )
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.spread)
        self.form.what.chosen.connect(lambda _kind: self._fit_queue())
        presenter.working.connect(self._go_on)

    # Building.

    def _add_queue(self) -> None:
        body = QWidget()
        self._body = QVBoxLayout(body)
        self._body.setContentsMargins(0, 0, 0, 0)
        self._body.setSpacing(0)
        self._body.addWidget(self.form.form)
        self.queue = Table(
            queue_columns(self._clock(), ()),
            lambda row: row.pallet,
            density=Density.DESK,
            empty=self.tr("No pallet waits."),
        )
        self.queue.opened.connect(self.take_pallet)
        self._body.addWidget(self.queue, 1)
        self.form.panel.set_body(body)
        self.waits = Panel(self.tr("What waits"), density=Density.DESK)

    def _sheet_panel(self) -> Panel:
        panel = Panel(self.tr("No run is open"))
        plans = [TablePlan(one, 40, 40) for one in (self.tr("Went in"), self.tr("Came out"))]
        self.went_in = Table(rows.in_columns("kg"), lambda row: row.code, plan=plans[0])
        self.came_out = Table(rows.out_columns("kg"), lambda row: row.code, plan=plans[1])
        self.came_out.set_spans(self._span)
        self.twins = TwinTables(self.went_in, self.came_out)
        panel.set_body(self.twins)
        self.pace = KeyFigures()
        panel.add_part(self.pace)
        bar = panel.add_bar()
        self.close_run = bar.add_secondary(self.tr("Close this run…"))
        self.print = bar.add_secondary(self.tr("Run sheet"), icon="print")
        self.wash = bar.add_plain(self.tr("Wash"))
        self.new_run = bar.add_plain(self.tr("Open a run"))
        self.turn = bar.add_plain("")
        self.other_run = bar.add_plain(self.tr("Other run"))
        self.print.clicked.connect(self.printed)
        self.wash.clicked.connect(lambda: self.choose(WASH))
        self.close_run.clicked.connect(lambda: self.choose(CLOSE))
        self.other_run.clicked.connect(self._presenter.next_run)
        self.new_run.clicked.connect(lambda: self.choose(OPEN))
        for table in (self.went_in, self.came_out):
            table.opened.connect(self.opened)
        return panel

    def _span(self, row: rows.OutRow) -> int:
        """A remark reaches over the readings that are not there."""
        has_room = row.aside and row.pfund_mm is None and not self.came_out.model.folded()
        return 3 if has_room else 1

    # Showing.

    def showing(self, page: FloorPage) -> Making[None]:
        """Show the floor as it is, the form before the tables; what is being typed stays."""
        self.more.show_page(page)
        self.form.show_page(page)
        self._fit_queue()
        yield
        self._show_queue(page)
        waiting = sum(row.supers for row in page.queue)
        one, many = self.tr("1 pallet waits"), self.tr("{n} pallets wait")
        words = rows.counted(len(page.queue), one, many)
        self.queue.show_totals(words, {"supers": Total(str(waiting))})
        is_open = self._presenter.is_open()
        self.close_run.setVisible(is_open)
        # While a run goes on its sheet is printed where it is closed; Ctrl+P prints it here, too.
        self.print.setVisible(page.sheet is not None and not is_open)
        self.new_run.setVisible(is_open)
        self.wash.setVisible(bool(self._presenter.vessels()))
        self.other_run.setVisible(len(self._presenter.open_runs()) > 1)
        if page.sheet is not None:
            self._show_sheet(page, page.sheet, is_open=is_open)
        self._fit_queue()

    def _show_queue(self, page: FloorPage) -> None:
        """The next run in its order, then what waits longest."""
        waiting, order = in_order(page.queue, self._presenter.order()), self._presenter.order()
        self.queue.model.columns = queue_columns(self._clock(), order)
        self.queue.show_rows(waiting)

    def _show_sheet(self, page: FloorPage, sheet: RunSheet, *, is_open: bool) -> None:
        words = self.tr("Run {run}, {line}") if is_open else self.tr("Run {run}, {line}: closed")
        self.sheet_panel.set_heading(words.format(run=sheet.run.code, line=sheet.run.line_name))
        unit, balance = page.unit, sheet.balance
        self.went_in.model.columns = rows.in_columns(unit)
        self.came_out.model.columns = rows.out_columns(unit)
        self.went_in.show_rows(rows.in_rows(sheet))
        out = rows.out_rows(sheet, (), cappings_pending=False)
        self.came_out.show_rows(out)
        honey = Total(rows.bare(balance.in_g, unit, 0), unit, estimated=True)
        self.went_in.show_totals(
            self.tr("In"), {"supers": Total(str(balance.supers)), "honey": honey}
        )
        out_g = sum(row.grams for row in out)
        self.came_out.show_totals(self.tr("Out"), {"net": Total(rows.bare(out_g, unit), unit)})
        self.twins.share()
        self._show_pace(page, sheet.pace, is_open=is_open)

    def _show_pace(self, page: FloorPage, pace: Pace, *, is_open: bool) -> None:
        figures = pace_figures(pace)
        if is_open:
            waiting = waiting_frames(page.queue, self._presenter.order())
            figures += ahead_figures(pace, waiting, self._clock(), page.zone)
        left = rows.bare(self._presenter.in_line_g(), page.unit, 0)
        figures.append(KeyFigure(f"≈ {left} {page.unit}", self.tr("in the line")))
        self.pace.show_figures(pace_heading(pace, is_open=is_open), figures)

    def _fit_queue(self) -> None:
        """The fields get the height they need; the queue gets the rest, while it is of use."""
        is_low = self.window().height() < QUEUE_FROM and self.spread.is_tabbed()
        if is_low != (self.queue.parentWidget() is not self._body.parentWidget()):
            if is_low:
                self.waits.set_body(self.queue)
            else:
                self._body.addWidget(self.queue, 1)
        self.spread.offer_part(_WAITS, is_low)
        has_queue = self.form.kind in (LOAD, OPEN) and not is_low
        self.queue.setVisible(has_queue or is_low)
        self._body.setStretchFactor(self.form.form, 0 if has_queue else 1)
        if has_queue:
            self.form.form.hold_height()
        else:
            self.form.form.free_height()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        narrow = self.width() < COLUMNS_FROM
        self.went_in.fold_columns(*(("supers",) if narrow else ()))
        # Drums are read next morning; while the run goes on their weights are what matters.
        self.came_out.fold_columns(*(("moisture", "colour") if narrow else ()))
        self.twins.share()
        self._fit_queue()

    # The form.

    def choose(self, kind: str) -> None:
        """Show the fields of what happens, and put the keyboard in the first."""
        self.more.forms.show_first()
        self.spread.show_part(0)
        self.form.choose(kind, begins=False)
        self._fit_queue()
        self.form.begin()

    def begin(self) -> None:
        """The keyboard goes where work goes on."""
        forms = self.more.forms
        (forms.form if forms.is_shown() else self.form).begin()

    def take_pallet(self, code: str) -> None:
        """A pallet of the queue was chosen: its tag goes into the form."""
        self.choose(LOAD)
        self.form.pallet.set_text(code)
        self.form.form.take_focus(self.form.pallet)

    def scan_pallet(self, code: str) -> None:
        """A tag was scanned: the pallet is loaded, whatever else is half typed."""
        if not self._presenter.is_open():
            self.say(self.tr("No run is open."), self.tr("Open one, then scan the pallet again."))
        elif self._presenter.is_double(code):
            self.say(self.tr("{code} was scanned a moment ago.").format(code=code))
        elif self._presenter.busy:
            self._waiting.append(code)
        else:
            if self.form.kind != LOAD:
                self._back_to = self.form.kind
                self.choose(LOAD)
            self.spread.show_part(0)
            self.form.pallet.set_text(code)
            self.form.submit()

    def _go_on(self, busy: bool) -> None:
        """What was scanned while something was being recorded comes next."""
        if not busy and self._waiting:
            self.scan_pallet(self._waiting.pop(0))

    def scan_container(self, code: str) -> bool:
        """A drum's number begins its fill; a vessel's says where from. Else it is for the card."""
        page = self._presenter.page
        if page is None or not self._presenter.is_open():
            return False
        if any(row.code == code for row in page.containers):
            self.choose(DRUM)
            self.form.container.set_key(code)
            self.form.tare.clear()
        elif self.form.kind == DRUM and any(row.code == code for row in page.sources):
            self.form.source.set_key(code)
        else:
            return False
        self.form.form.take_focus(self.form.gross)
        return True

    def say(self, lead: str, text: str = "") -> None:
        """A note in the slot; nothing was recorded."""
        self.form.slot.show_messages([Message(Mark.NOTE, lead, text)])

    def done(self, verb: str) -> None:
        """Something was recorded: empty its fields, and go on with what was half typed."""
        self.form.clear(KIND_OF_VERB[verb])
        back, self._back_to = self._back_to, ""
        if back and verb == "load":
            self.choose(back)
        elif verb == "wash":
            self.choose(LOAD if self._presenter.is_open() else OPEN)
        self._fit_queue()

    def show_refusal(self, refusal: Refusal) -> None:
        """Why it was not recorded; the form stays."""
        self._back_to = ""
        self.spread.show_part(0)
        self.form.show_refusal(refusal)
        self._fit_queue()
