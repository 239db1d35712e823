"""The floor while a run goes on: a small form for what happens, the queue, the run's sheet."""

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.rows import Total
from honeyledger.desktop.stations.extraction import rows
from honeyledger.desktop.stations.extraction.presenter import Asked, ExtractionPresenter
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.choice_buttons import ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice, ChoiceField
from honeyledger.desktop.widgets.counts import CountField
from honeyledger.desktop.widgets.fields import CodeField, Field, MassField, TextField
from honeyledger.desktop.widgets.figures import KeyFigure, KeyFigures
from honeyledger.desktop.widgets.form import Form
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.desktop.widgets.table import Table, TablePlan
from honeyledger.desktop.widgets.twin_tables import TwinTables
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import format_mass
from honeyledger.services.floor import RunSheet
from honeyledger.services.floor_page import FloorPage

LOAD, DRUM, CAPPINGS, WET, WASH, CLOSE, OPEN = (
    "load",
    "drum",
    "cappings",
    "wet",
    "wash",
    "close",
    "open",
)


COLUMNS_FROM = 1440


class FloorView(QWidget):
    """Five columns of what happens, seven of the run's sheet."""

    def __init__(self, desk: Desk, presenter: ExtractionPresenter) -> None:
        super().__init__()
        self._presenter = presenter
        self._clock = desk.house.clock
        self._shown_kind = ""
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        self.form_panel = self._form_panel()
        self.sheet_panel = self._sheet_panel()
        column.addWidget(
            Spread(
                [
                    Part(self.form_panel, self.tr("On the floor"), 5, 8),
                    Part(self.sheet_panel, self.tr("Run"), 7, 8),
                ]
            )
        )
        presenter.refused.connect(self.show_refusal)

    # Building.

    def _form_panel(self) -> Panel:
        panel = Panel(self.tr("On the floor"))
        self.slot = panel.add_slot(self.tr("Scan the tag of the first pallet."))
        self.what = ChoiceButtons(
            self.tr("What happens"),
            [
                Choice(LOAD, self.tr("Load")),
                Choice(DRUM, self.tr("Drum")),
                Choice(CAPPINGS, self.tr("Cappings")),
                Choice(WET, self.tr("Wet")),
            ],
            density=Density.DESK,
        )
        self.line = ChoiceField(self.tr("Line"))
        self.pallet = CodeField(self.tr("Pallet: scan its tag"))
        self.supers = CountField(self.tr("Supers, blank for all"))
        self.source = ChoiceField(self.tr("From"))
        self.container = ChoiceField(self.tr("Drum's number, blank for a new one"))
        self.gross = MassField(self.tr("Gross, blank to follow"))
        self.tare = MassField(self.tr("Tare"))
        self.net = MassField(self.tr("Cappings, net"))
        self.count = CountField(self.tr("Empty supers"))
        self.wet_gross = MassField(self.tr("Gross, if weighed"))
        self.remains = ChoiceButtons(
            self.tr("What the books still see there was"),
            [
                Choice("rinse", self.tr("rinse")),
                Choice("discarded", self.tr("discarded")),
                Choice("never", self.tr("never there")),
            ],
            density=Density.DESK,
        )
        self.washed = ChoiceButtons(
            self.tr("Was the drum washed since?"),
            [Choice("yes", self.tr("yes")), Choice("no", self.tr("no"))],
            density=Density.DESK,
        )
        self.top_up = ChoiceButtons(
            self.tr("It holds honey already"),
            [Choice("yes", self.tr("top it up"))],
            density=Density.DESK,
        )
        self.why = TextField(self.tr("On hold: why it may go on"))
        self.vessel = ChoiceField(self.tr("Heel in"))
        self.heel = MassField(self.tr("Left in it"))
        self.how = ChoiceButtons(
            self.tr("Read"),
            [
                Choice("dip", self.tr("by dip")),
                Choice("mark", self.tr("by mark")),
                Choice("guess", self.tr("a guess")),
            ],
            density=Density.DESK,
        )
        self.pending = ChoiceButtons(
            self.tr("Cappings of this run"),
            [Choice("done", self.tr("weighed")), Choice("later", self.tr("weighed later"))],
            density=Density.DESK,
        )
        panel.set_body(self._form())
        bar = panel.add_bar(wide_primary=True)
        self.record = bar.add_primary(self.tr("Load pallet"))
        self.record.clicked.connect(self.submit)
        self.form.finish_with(self.record)
        self.what.chosen.connect(self.choose)
        self.what.set_key(LOAD)
        return panel

    def _form(self) -> QWidget:
        self.form = Form()
        self.form.add_row((self.what, 1))
        self.form.add_row((self.line, 1))
        self.form.add_row((self.pallet, 1), (self.supers, 1))
        self.form.add_row((self.source, 1), (self.container, 1))
        self.form.add_row((self.gross, 1), (self.tare, 1))
        self.form.add_row((self.net, 1))
        self.form.add_row((self.count, 1), (self.wet_gross, 1))
        self.form.add_row((self.remains, 1))
        self.form.add_row((self.washed, 1))
        self.form.add_row((self.top_up, 1))
        self.form.add_row((self.why, 1))
        self.form.add_row((self.vessel, 1), (self.heel, 1))
        self.form.add_row((self.how, 1))
        self.form.add_row((self.pending, 1))
        body = QWidget()
        column = QVBoxLayout(body)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.form, 3)
        self.queue = Table(
            rows.queue_columns(self._clock()),
            lambda row: row.pallet,
            density=Density.DESK,
            empty=self.tr("No pallet waits."),
        )
        self.queue.opened.connect(self.take_pallet)
        column.addWidget(self.queue, 2)
        return body

    def _sheet_panel(self) -> Panel:
        panel = Panel(self.tr("No run is open"))
        plans = [TablePlan(self.tr(heading), 40, 40) for heading in ("Went in", "Came out")]
        self.went_in = Table(rows.IN_COLUMNS, lambda row: row.code, plan=plans[0])
        self.came_out = Table(rows.OUT_COLUMNS, lambda row: row.code, plan=plans[1])
        self.came_out.set_spans(lambda row: 3 if row.aside and row.pfund_mm is None else 1)
        panel.set_body(TwinTables(self.went_in, self.came_out))
        self.pace = KeyFigures()
        panel.add_part(self.pace)
        bar = panel.add_bar()
        self.close_run = bar.add_secondary(self.tr("Close this run…"))
        self.other_run = bar.add_plain(self.tr("Other run"))
        self.new_run = bar.add_plain(self.tr("Open a run"))
        self.wash = bar.add_plain(self.tr("Wash"))
        self.wash.clicked.connect(lambda: self.choose(WASH))
        self.close_run.clicked.connect(lambda: self.choose(CLOSE))
        self.other_run.clicked.connect(self._presenter.next_run)
        self.new_run.clicked.connect(lambda: self.choose(OPEN))
        return panel

    # Showing.

    def show_page(self, page: FloorPage) -> None:
        """Show the floor as it is; what is being typed stays."""
        for field, choices in (
            (self.line, page.lines),
            (self.source, page.sources),
            (self.container, page.containers),
        ):
            key = field.key()
            field.set_choices([Choice(row.code, row.name, row.detail) for row in choices])
            if key:
                field.set_key(key)
        self.queue.show_rows(page.queue)
        waiting = sum(row.supers for row in page.queue)
        self.queue.show_totals(
            self.tr("{n} pallets wait").format(n=len(page.queue)), {"supers": Total(str(waiting))}
        )
        sheet = page.sheet
        is_open = sheet is not None and sheet.run.closed_ms is None
        if sheet is not None:
            self._show_sheet(sheet, is_open=is_open)
        if not is_open and self._shown_kind != OPEN:
            self.choose(OPEN)
        elif is_open and self._shown_kind in (OPEN, ""):
            self.choose(LOAD)

    def _show_sheet(self, sheet: RunSheet, *, is_open: bool) -> None:
        words = self.tr("Run {run}, {line}") if is_open else self.tr("Run {run}, {line}: closed")
        self.sheet_panel.set_heading(words.format(run=sheet.run.code, line=sheet.run.line_name))
        self.went_in.show_rows(rows.in_rows(sheet))
        self.came_out.show_rows(rows.out_rows(sheet, (), cappings_pending=False))
        balance = sheet.balance
        self.went_in.show_totals(
            self.tr("In"),
            {
                "supers": Total(str(balance.supers)),
                "honey": Total(rows.kilograms(balance.in_g, 0), "kg", estimated=True),
            },
        )
        out_g = sum(one.grams for one in sheet.came_out)
        self.came_out.show_totals(self.tr("Out"), {"net": Total(rows.kilograms(out_g), "kg")})
        pace = sheet.pace
        left = sum(row.grams for row in sheet.vessels)
        self.pace.show_figures(
            self.tr("So far"),
            [
                KeyFigure(str(pace.frames_an_hour), self.tr("frames an hour")),
                KeyFigure(
                    self.tr("{n} loads").format(n=pace.loads), self.tr("of 30 frames, in all")
                ),
                KeyFigure(f"≈ {rows.kilograms(left, 0)} kg", self.tr("still in the line")),
            ],
        )
        vessels = [Choice(row.code, row.name) for row in sheet.vessels]
        heel = self.vessel.key()
        self.vessel.set_choices(vessels)
        if vessels:
            self.vessel.set_key(heel or vessels[-1].key)
            self.source.set_key(self.source.key() or vessels[-1].key)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        narrow = self.width() < COLUMNS_FROM
        self.went_in.fold_columns(*(("supers",) if narrow else ()))
        self.came_out.fold_columns(*(("colour",) if narrow else ()))

    # The form.

    def choose(self, kind: str) -> None:
        """Show the fields of what happens, and put the keyboard in the first."""
        self._shown_kind = kind
        self.what.set_key(kind)
        shown: dict[str, tuple[QWidget, ...]] = {
            LOAD: (self.pallet, self.supers),
            DRUM: (self.source, self.container, self.gross, self.tare),
            CAPPINGS: (self.net,),
            WET: (self.count, self.wet_gross),
            WASH: (self.remains,),
            OPEN: (self.line,),
            CLOSE: (self.vessel, self.heel, self.how, self.pending),
        }
        words = {
            LOAD: self.tr("Load pallet"),
            DRUM: self.tr("Fill drum"),
            CAPPINGS: self.tr("Weigh cappings"),
            WET: self.tr("Count wet supers"),
            WASH: self.tr("Wash the whole line"),
            OPEN: self.tr("Open the run"),
            CLOSE: self.tr("See the balance"),
        }
        for field in self.form.fields():
            field.setVisible(field in shown[kind] or (field is self.what and kind != OPEN))
        self.queue.setVisible(kind in (LOAD, OPEN))
        self.record.setText(words[kind])
        self.slot.clear()
        self.slot.set_next_step(self._next_step(kind))
        if kind == OPEN and not self.line.key() and self.line.choices():
            self.line.set_key(self.line.choices()[0].key)
        self.begin()

    def _next_step(self, kind: str) -> str:
        return {
            LOAD: self.tr("Scan the tag of the pallet at the uncapper."),
            DRUM: self.tr("Type the gross weight; Enter records."),
            CAPPINGS: self.tr("Weigh the full barrel."),
            WET: self.tr("Count the empties that go back."),
            WASH: self.tr("Emptied and washed: this cuts the chain between runs."),
            OPEN: self.tr("No run is open. Choose the line, Enter opens it."),
            CLOSE: self._heels_so_far() or self.tr("What is left in the tank: dip it, or guess."),
        }[kind]

    def _heels_so_far(self) -> str:
        rows_so_far = [f"{h.name} {format_mass(h.grams)}" for h in self._presenter.heels]
        return ", ".join(rows_so_far)

    def begin(self) -> None:
        """The keyboard goes to the first field in use."""
        for field in self.form.fields():
            if field is not self.what and field.isVisibleTo(self.form):
                # The source and the tank are chosen already; the weight is what comes next.
                if field in (self.source, self.container, self.vessel):
                    continue
                self.form.take_focus(field)
                return

    def take_pallet(self, code: str) -> None:
        """A pallet of the queue was chosen: its tag goes into the form."""
        self.choose(LOAD)
        self.pallet.set_text(code)
        self.form.take_focus(self.pallet)

    def take_container(self, code: str) -> None:
        """A drum's number was scanned: its fill begins."""
        self.choose(DRUM)
        self.container.set_key(code)
        if self.container.key() != code:
            self.container.set_text(code)
        self.form.take_focus(self.gross)

    def submit(self) -> None:
        """Record what the form says."""
        presenter = self._presenter
        presenter.asked = Asked(
            washed={"yes": True, "no": False}.get(self.washed.key()),
            top_up=self.top_up.key() == "yes",
            why=self.why.text(),
        )
        kind = self._shown_kind
        if kind == OPEN:
            presenter.open_run(self.line.key() or self.line.text())
        elif kind == LOAD:
            presenter.load(self.pallet.text(), self.supers.text())
        elif kind == DRUM:
            source = self.source.key() or self.source.text()
            container = self.container.key() or self.container.text()
            presenter.fill(source, container, self.gross.text(), self.tare.text())
        elif kind == CAPPINGS:
            presenter.cappings(self.net.text())
        elif kind == WET:
            presenter.wet_out(self.count.text(), self.wet_gross.text())
        elif kind == WASH:
            presenter.wash(self.remains.key())
        elif kind == CLOSE:
            presenter.cappings_pending = self.pending.key() == "later"
            presenter.see_balance(
                self.vessel.key() or self.vessel.text(), self.heel.text(), self.how.key() or "dip"
            )

    def clear(self) -> None:
        """After recording: empty what was typed, keep the source and the tare."""
        for field in self.form.fields():
            if field in (self.what, self.line, self.source, self.tare, self.vessel, self.how):
                continue
            if isinstance(field, Field):
                field.clear()
            elif isinstance(field, ChoiceButtons):
                field.set_key("")
        if self._shown_kind:
            self.choose(self._shown_kind)

    def show_refusal(self, refusal: Refusal) -> None:
        """The sentence at the top, the field it is about in focus, a question with its answers."""
        self.slot.show_messages([Message(Mark.REFUSED, self.tr("Not recorded."), refusal.text)])
        fields: dict[str, Field] = {
            "pallet": self.pallet,
            "count": self.count if self._shown_kind == WET else self.supers,
            "source": self.source,
            "container": self.container,
            "gross_g": self.gross if self._shown_kind == DRUM else self.wet_gross,
            "tare_g": self.tare,
            "net_g": self.net,
            "heel": self.heel,
        }
        asks: dict[str, QWidget] = {"washed-asks": self.washed, "top-up-asks": self.top_up}
        if refusal.key == "held-asks":
            self.why.show()
            self.form.take_focus(self.why)
        elif refusal.key in asks:
            field = asks[refusal.key]
            assert isinstance(field, ChoiceButtons)
            field.show()
            self.form.take_focus(field)
        elif refusal.field in fields and fields[refusal.field].isVisibleTo(self.form):
            fields[refusal.field].set_refused(True)
            self.form.take_focus(fields[refusal.field])
