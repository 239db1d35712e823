"""The closing page: what went in, what came out, what the run ties together, and the signature."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.rows import Total
from honeyledger.desktop.stations.extraction import rows
from honeyledger.desktop.stations.extraction.ahead_rows import (
    pace_figures,
    pace_heading,
    took_figure,
)
from honeyledger.desktop.stations.extraction.presenter import ExtractionPresenter
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.balance import Balance
from honeyledger.desktop.widgets.figures import Answer, KeyFigures
from honeyledger.desktop.widgets.message_slot import MessageSlot
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.desktop.widgets.table import Table, TablePlan
from honeyledger.desktop.widgets.text import body
from honeyledger.desktop.widgets.twin_tables import TwinTables
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit
from honeyledger.services.floor import RunSheet
from honeyledger.services.pull_sheets import AgainstSheets

SUPERS_FROM = 1440
# Below this height the ties need the room; the pace was seen on the floor.
PACE_FROM = 640
PRINT_FROM = 760
REWEIGH_FROM = 1500
_ALL_THE_ROOM = 100


class ClosingPage(QWidget):
    """Eight columns of balance, four of ties.

    Signals:
        opened: the code of a row that was opened.
        tie_opened: the code of a yard among the ties.
        printed: the run's sheet is wanted on paper.
        to_drums: a drum is to be weighed again; what was typed here stays.
    """

    opened = Signal(str)
    tie_opened = Signal(str)
    printed = Signal()
    to_drums = Signal()

    def __init__(self, presenter: ExtractionPresenter) -> None:
        super().__init__()
        self._presenter = presenter
        self._against = AgainstSheets()
        self.answer = Answer()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        parts = [
            Part(self._sheet(), self.tr("Run sheet"), 8, 8),
            Part(self._ties(), self.tr("What this run ties together"), 4, 8),
        ]
        self.spread = Spread(parts, above=self.answer)
        column.addWidget(self.spread)

    def _sheet(self) -> Panel:
        panel = Panel()
        plans = [TablePlan(one, 40, 40) for one in (self.tr("Went in"), self.tr("Came out"))]
        self.went_in = Table(rows.in_columns("kg"), lambda row: row.code, plan=plans[0])
        self.came_out = Table(rows.out_columns("kg"), lambda row: row.code, plan=plans[1])
        self.came_out.set_spans(self._span)
        self.twins = TwinTables(self.went_in, self.came_out)
        panel.set_body(self.twins)
        self.against = KeyFigures()
        panel.add_part(self.against)
        self.balance = Balance()
        panel.add_part(self.balance, padded=True)
        bar = panel.add_bar()
        self.sign = bar.add_primary(self.tr("Sign and close run"))
        self.print = bar.add_secondary(self.tr("Print run sheet"))
        self.reweigh = bar.add_plain(self.tr("Reweigh a drum"))
        self.back = bar.add_plain(self.tr("Back to the floor"))
        for table in self.tables():
            table.opened.connect(self.opened)
        self.sign.clicked.connect(self._presenter.sign)
        self._presenter.working.connect(self.sign.set_working)
        self.print.clicked.connect(self.printed)
        self.reweigh.clicked.connect(self.to_drums)
        self.back.clicked.connect(self._presenter.leave_closing)
        return panel

    def _span(self, row: rows.OutRow) -> int:
        """A remark reaches over the readings that are not there."""
        has_room = row.aside and row.pfund_mm is None and not self.came_out.model.folded()
        return 3 if has_room else 1

    def tables(self) -> tuple[Table, ...]:
        """What went in and what came out."""
        return (self.went_in, self.came_out)

    def _ties(self) -> Panel:
        panel = Panel(self.tr("What this run ties together"))
        self.ties = Table(rows.tie_columns(), lambda row: row.code)
        self.ties.opened.connect(self.tie_opened)
        panel.set_body(self.ties)
        self.apart = body("", Density.FLOOR, wrap=True)
        panel.add_part(self.apart, padded=True)
        self.pace = KeyFigures()
        panel.add_part(self.pace)
        self.slot = MessageSlot(self.tr("Check, then sign."), tall=True, ground="well")
        bar = panel.add_bar()
        bar.set_side(self.slot)
        row = bar.layout()
        assert isinstance(row, QHBoxLayout)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        row.setStretchFactor(self.slot, _ALL_THE_ROOM)
        return panel

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        narrow = self.width() < SUPERS_FROM
        self.went_in.fold_columns(*(("supers",) if narrow else ()))
        # What is signed are masses: both tables and the bars in view go before the readings.
        self.came_out.fold_columns(*(("moisture", "colour") if narrow else ()))
        self.pace.setVisible(self.height() >= PACE_FROM)
        # Where the bar has no room for it, Ctrl+P prints the sheet.
        self.print.setVisible(self.width() >= PRINT_FROM)
        self.reweigh.setVisible(self.width() >= REWEIGH_FROM)
        self._show_against()
        self.twins.share()

    def show_sheet(self, sheet: RunSheet, unit: MassUnit) -> None:
        """Show a run's figures with the heels typed so far."""
        heels = self._presenter.heels
        pending = self._presenter.cappings_pending
        heading = self.tr("Extraction: close run {run}").format(run=sheet.run.code)
        self.answer.show_answer(heading, rows.answer(sheet, heels, unit, cappings_pending=pending))
        self.went_in.model.columns = rows.in_columns(unit)
        self.came_out.model.columns = rows.out_columns(unit)
        self.went_in.show_rows(rows.in_rows(sheet))
        honey = Total(rows.bare(sheet.balance.in_g, unit, 0), unit, estimated=True)
        self.went_in.show_totals(
            self.tr("In"), {"supers": Total(str(sheet.balance.supers)), "honey": honey}
        )
        out = rows.out_rows(sheet, heels, cappings_pending=pending)
        self.came_out.show_rows(out)
        is_about = pending or any(row.estimated for row in out)
        out_g = sum(row.grams for row in out)
        self.came_out.show_totals(
            self.tr("Out"), {"net": Total(rows.bare(out_g, unit), unit, estimated=is_about)}
        )
        self.came_out.say_rows()
        self.twins.share()
        self.balance.show_bars(rows.bars(sheet, heels, unit))
        self._show_ties(sheet)
        self._against = sheet.against
        self._show_against()
        self._say(sheet)

    def _show_against(self) -> None:
        """The pull sheets: in figures where there is room for them, else in one line."""
        if self.height() >= PACE_FROM:
            figures = rows.against_figures(self._against)
            self.against.show_figures(rows.against_heading(self._against), figures)
        else:
            self.against.show_figures(rows.against_sentence(self._against), [])

    def _show_ties(self, sheet: RunSheet) -> None:
        self.ties.show_rows(rows.tie_rows(sheet))
        yards = rows.counted(len(sheet.ties), self.tr("1 yard"), self.tr("{n} yards"))
        self.ties.show_totals(yards, {"share": Total("100.0", "%")} if sheet.ties else {})
        page = self._presenter.page
        called = rows.exposure_sentence(sheet.called, page.unit if page else "kg")
        self.apart.setText(" ".join(part for part in (rows.ties_sentence(sheet), called) if part))
        took = took_figure(sheet.pace, sheet.balance.first_ms, page.zone if page else "UTC")
        figures = [took, *pace_figures(sheet.pace)]
        self.pace.show_figures(pace_heading(sheet.pace, is_open=False), figures)

    def _say(self, sheet: RunSheet) -> None:
        waiting = sum(one.pending for one in sheet.came_out)
        if not waiting:
            lead, rest = self.tr("All drums weighed."), self.tr("Check, then sign.")
            self.slot.show_messages([Message(Mark.READY, lead, rest)])
            return
        lead = rows.counted(
            waiting,
            self.tr("1 drum is not weighed yet."),
            self.tr("{n} drums are not weighed yet."),
        )
        rest = rows.counted(
            waiting,
            self.tr("You can sign; its weight follows."),
            self.tr("You can sign; their weights follow."),
        )
        self.slot.show_messages([Message(Mark.WARNING, lead, rest)])

    def show_refusal(self, refusal: Refusal) -> None:
        """Why it could not be signed; nothing is changed."""
        self.spread.show_part(1)
        self.slot.show_messages(
            [Message(Mark.REFUSED, self.tr("Not signed."), refusal_words(refusal))]
        )

    def begin(self) -> None:
        """Ready to sign."""
        self.spread.show_part(0)
        self.sign.setFocus(Qt.FocusReason.OtherFocusReason)
