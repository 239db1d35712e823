"""The page of a residue: what is feared at the left, what it comes to at the right."""

from PySide6.QtCore import QEvent, QObject, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.language import refusal_words, say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.trace.residue_presenter import (
    ASSUMED,
    MEASURED,
    Feared,
    ResiduePresenter,
)
from honeyledger.desktop.stations.trace.residue_rows import (
    residue_answer,
    residue_columns,
    residue_figures,
    residue_heading,
    residue_totals,
)
from honeyledger.desktop.stations.trace.words import tr
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.asking_page import TOTALS_HEIGHT
from honeyledger.desktop.widgets.choice_buttons import ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.fields import CodeField, Field, TextField
from honeyledger.desktop.widgets.figures import Answer, KeyFigures
from honeyledger.desktop.widgets.form import Form
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.desktop.widgets.table import Table, TablePlan
from honeyledger.domain.refusals import Refusal
from honeyledger.services.residues import CAUTION, UNIT, ResidueSpread

DENSITY = Density.DESK
LOW = 400  # below this height the figures, which the answer says too, leave their room to rows


class ResidueView(QObject):
    """What a residue in one code comes to in all that was made of it. See `StationView`.

    Signals:
        left: back to the trace.
    """

    left = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.widget = QWidget()
        self.asks = StationAsks()
        self._is_asked = False
        self.presenter = ResiduePresenter(desk)
        self.presenter.is_seen = self.widget.isVisible
        self.answer = Answer()
        self.spread = Spread(
            [
                Part(self._made_form(), tr("What is feared"), 4, 8),
                Part(self._made_list(), tr("What it comes to"), 8, 8),
            ],
            above=self.answer,
        )
        column = QVBoxLayout(self.widget)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.spread)
        self.widget.installEventFilter(self)
        self.presenter.shown.connect(self._show)
        self.presenter.refused.connect(self._refuse)
        self._show_nothing()

    def _made_form(self) -> Panel:
        panel = Panel(tr("What is feared"), density=DENSITY)
        self.messages = panel.add_slot(
            tr("Type the level, and the limit you hold it against."), tall=True
        )
        self.form = Form()
        self.fields: dict[str, Field] = {
            "code": CodeField(tr("Yard, pull or drum"), density=DENSITY),
            "substance": TextField(tr("Substance"), density=DENSITY),
            "level": TextField(tr("Level"), unit=UNIT, density=DENSITY),
            "limit": TextField(tr("Limit"), unit=UNIT, density=DENSITY),
            "first_day": TextField(tr("Pulls from"), density=DENSITY),
            "last_day": TextField(tr("Pulls up to"), density=DENSITY),
        }
        choices = [Choice(MEASURED, tr("Measured")), Choice(ASSUMED, tr("Assumed"))]
        self.how = ChoiceButtons(tr("The level is"), choices, density=DENSITY)
        self.how.set_key(MEASURED)
        self.form.add_row((self.fields["code"], 1), (self.fields["substance"], 1))
        self.form.add_row((self.how, 1))
        self.form.add_row((self.fields["level"], 1), (self.fields["limit"], 1))
        self.form.add_row((self.fields["first_day"], 1), (self.fields["last_day"], 1))
        # Days are seldom typed: Enter reckons at once, and Tab goes on to them.
        self.form.on_enter(self.fields["limit"], self._entered)
        panel.set_body(self.form)
        bar = panel.add_bar(wide_primary=True)
        self.reckon = bar.add_primary(tr("Reckon it"))
        self.back = bar.add_plain(tr("To the trace"))
        self.reckon.clicked.connect(self._asked)
        self.back.clicked.connect(self.left)
        self.form.finish_with(self.reckon)
        return panel

    def _made_list(self) -> Panel:
        panel = Panel(density=DENSITY)
        self.caution = panel.add_slot(tall=True)
        self.table = Table(
            residue_columns("kg", judged=True),
            lambda row: str(row.code),
            density=DENSITY,
            empty=tr("Nothing is reckoned yet."),
            sorts_itself=True,
            plan=TablePlan(foot_height=TOTALS_HEIGHT),
        )
        self.table.view.setAccessibleName(tr("What it comes to"))
        self.table.opened.connect(self.asks.card)
        self.figures = KeyFigures(density=DENSITY)
        panel.set_body(self.table)
        panel.add_part(self.figures)
        return panel

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.widget and isinstance(event, QResizeEvent):
            self.figures.setVisible(self.widget.height() >= LOW)
        return super().eventFilter(watched, event)

    def open_for(self, code: str) -> None:
        """Take a code in hand; what was typed of the substance stays."""
        if code and code != self.fields["code"].text():
            self.fields["code"].set_text(code)
            self._show_nothing()
        self.begin()

    def _entered(self) -> bool:
        self.reckon.click()
        return True

    def _asked(self) -> None:
        self._is_asked = True
        texts = {key: field.text() for key, field in self.fields.items()}
        self.presenter.reckon(Feared(how=self.how.key(), **texts))

    # What is shown.

    def _show_nothing(self) -> None:
        code = self.fields["code"].text()
        self.presenter.found = None
        heading = residue_heading(Feared(code, "") if code else None)
        words = tr("What it comes to in every lot that was made of it, at most and as expected.")
        self.answer.show_answer(heading, words)
        self._clear()

    def _clear(self) -> None:
        self.table.show_rows(())
        self.table.show_totals("", {})
        self.figures.show_figures("", [])
        self._mark(None)

    def _show(self, found: ResidueSpread) -> None:
        feared, unit = self.presenter.feared, self.presenter.unit
        assert feared is not None
        self._mark(None)
        self.answer.show_answer(residue_heading(feared), residue_answer(found, feared))
        self.table.model.columns = residue_columns(unit, judged=found.limit is not None)
        self.table.show_rows(found.lots)
        self.table.show_totals(*residue_totals(found, unit))
        self.table.say_rows()
        heading = tr("Lots") if found.limit is None else tr("Lots against the limit")
        self.figures.show_figures(heading, residue_figures(found))
        if self._taken():
            self.spread.show_part(1)
            self.table.take_focus()

    def _taken(self) -> bool:
        """Whether the person asked; what only follows the ledger leaves the keyboard alone."""
        asked, self._is_asked = self._is_asked, False
        return asked

    def _mark(self, refusal: Refusal | None) -> None:
        """The caution always stands; a refusal stands at its field."""
        self.caution.show_messages([Message(Mark.NOTE, say(CAUTION))])
        at = "" if refusal is None else refusal.field
        for key, field in self.fields.items():
            field.set_refused(key == at)
        lead = tr("Nothing is reckoned.")
        said = [Message(Mark.REFUSED, lead, refusal_words(refusal))] if refusal else []
        self.messages.show_messages(said)

    def _refuse(self, refusal: Refusal) -> None:
        self._show_nothing()
        self._mark(refusal)
        if self._taken() and refusal.field in self.fields:
            self.spread.show_part(0)
            self.form.take_focus(self.fields[refusal.field])

    # What the window asks of a station.

    def begin(self) -> None:
        """Put the keyboard on the first field that is empty."""
        self.presenter.open()
        self.spread.show_part(0)
        asked = [self.fields[key] for key in ("code", "substance", "level")]
        self.form.take_focus(next((one for one in asked if not one.text()), asked[-1]))

    def take_code(self, code: str) -> bool:
        """A code that is scanned is where the residue is."""
        self.open_for(code)
        return True

    def handle(self, action: str) -> bool:
        """Open the card, or the trace, of the row in hand."""
        return self.asks.of_row(action, self.table.selected_key())
