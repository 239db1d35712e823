"""The closing page: what went in, what came out, what the run ties together, and the signature."""

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.rows import Total
from honeyledger.desktop.stations.extraction import rows
from honeyledger.desktop.stations.extraction.presenter import ExtractionPresenter
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.balance import Balance
from honeyledger.desktop.widgets.figures import Answer, KeyFigure, KeyFigures
from honeyledger.desktop.widgets.message_slot import MessageSlot
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.desktop.widgets.table import Table, TablePlan
from honeyledger.desktop.widgets.text import body
from honeyledger.desktop.widgets.twin_tables import TwinTables
from honeyledger.services.floor import RunSheet

SUPERS_FROM = 1440


class ClosingPage(QWidget):
    """Eight columns of balance, four of ties."""

    def __init__(self, presenter: ExtractionPresenter) -> None:
        super().__init__()
        self._presenter = presenter
        self.answer = Answer()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        parts = [
            Part(self._sheet(), self.tr("Run sheet"), 8, 8),
            Part(self._ties(), self.tr("What this run ties together"), 4, 8),
        ]
        column.addWidget(Spread(parts, above=self.answer))

    def _sheet(self) -> Panel:
        panel = Panel()
        plans = [TablePlan(self.tr(heading), 40, 40) for heading in ("Went in", "Came out")]
        self.went_in = Table(rows.IN_COLUMNS, lambda row: row.code, plan=plans[0])
        self.came_out = Table(rows.OUT_COLUMNS, lambda row: row.code, plan=plans[1])
        self.came_out.set_spans(lambda row: 3 if row.aside and row.pfund_mm is None else 1)
        panel.set_body(TwinTables(self.went_in, self.came_out))
        self.balance = Balance()
        panel.add_part(self.balance, padded=True)
        bar = panel.add_bar()
        self.sign = bar.add_primary(self.tr("Sign and close run"))
        self.back = bar.add_secondary(self.tr("Back to the floor"))
        self.sign.clicked.connect(self._presenter.sign)
        self.back.clicked.connect(self._presenter.leave_closing)
        return panel

    def _ties(self) -> Panel:
        panel = Panel(self.tr("What this run ties together"))
        self.ties = Table(rows.TIE_COLUMNS, lambda row: row.code)
        panel.set_body(self.ties)
        self.apart = body("", Density.FLOOR, wrap=True)
        panel.add_part(self.apart, padded=True)
        self.pace = KeyFigures()
        panel.add_part(self.pace)
        self.slot = MessageSlot(self.tr("Check, then sign."), tall=True, ground="well")
        panel.add_part(self.slot)
        return panel

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.went_in.fold_columns(*(("supers",) if self.width() < SUPERS_FROM else ()))

    def show_sheet(self, sheet: RunSheet) -> None:
        """Show a run's figures with the heels typed so far."""
        heels = self._presenter.heels
        pending = self._presenter.cappings_pending
        heading = self.tr("Extraction: close run {run}").format(run=sheet.run.code)
        self.answer.show_answer(heading, rows.answer(sheet, heels, cappings_pending=pending))
        self.went_in.show_rows(rows.in_rows(sheet))
        self.went_in.show_totals(
            self.tr("In"),
            {
                "supers": Total(str(sheet.balance.supers)),
                "honey": Total(rows.kilograms(sheet.balance.in_g, 0), "kg", estimated=True),
            },
        )
        out = rows.out_rows(sheet, heels, cappings_pending=pending)
        self.came_out.show_rows(out)
        out_g = sum(row.grams for row in out)
        self.came_out.show_totals(
            self.tr("Out"), {"net": Total(rows.kilograms(out_g), "kg", estimated=pending)}
        )
        self.came_out.say_rows()
        self.balance.show_bars(rows.bars(sheet, heels))
        self._show_ties(sheet)

    def _show_ties(self, sheet: RunSheet) -> None:
        self.ties.show_rows(rows.tie_rows(sheet))
        drums = sum(one.kind == "D" for one in sheet.came_out)
        self.ties.show_totals(
            self.tr("{n} yards").format(n=len(sheet.ties)),
            {"share": Total("100.0", "%"), "recall": Total(self.tr("{n} drums").format(n=drums))},
        )
        self.apart.setText(rows.ties_sentence(sheet))
        pace = sheet.pace
        hours, minutes = divmod(pace.minutes, 60)
        self.pace.show_figures(
            self.tr("Pace"),
            [
                KeyFigure(self.tr("{n} loads").format(n=pace.loads), self.tr("of 30 frames")),
                KeyFigure(
                    self.tr("{h} h {m:02d} min").format(h=hours, m=minutes),
                    self.tr("first to last"),
                ),
                KeyFigure(str(pace.frames_an_hour), self.tr("frames an hour")),
            ],
        )
        waiting = [one.code for one in sheet.came_out if one.pending]
        if waiting:
            words = self.tr("{n} drums are not weighed yet.").format(n=len(waiting))
            more = self.tr("You can sign; their weights follow.")
            self.slot.show_messages([Message(Mark.WARNING, words, more)])
        else:
            lead = self.tr("All drums weighed.")
            self.slot.show_messages([Message(Mark.READY, lead, self.tr("Check, then sign."))])

    def begin(self) -> None:
        """Ready to sign."""
        self.sign.setFocus()
