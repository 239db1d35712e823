"""The calculator's page: a sum at the left, what comes of it at the right, with its source."""

from datetime import date

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QVBoxLayout, QWidget

from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.asked import FormTyped
from honeyledger.desktop.models.key_figure import KeyFigure
from honeyledger.desktop.stations.calculator.presenter import CalculatorPresenter
from honeyledger.desktop.stations.calculator.sums import Reckoned
from honeyledger.desktop.stations.calculator.sums_honey import BLEND
from honeyledger.desktop.stations.calculator.words import tr
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.turns import Making, in_pieces, whole
from honeyledger.desktop.widgets.asked_fields import (
    made_field,
    refuse_field,
    show_text,
    text_of,
)
from honeyledger.desktop.widgets.asking_panel import in_rows
from honeyledger.desktop.widgets.choice_buttons import ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.fields import MassField
from honeyledger.desktop.widgets.figures import KeyFigures
from honeyledger.desktop.widgets.form import Form, FormField
from honeyledger.desktop.widgets.notes import Notes
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.domain.moments import house_day
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit
from honeyledger.services.lot_figures import LotFigures, lot_figures

LOTS = frozenset("DPTJWKS")
DENSITY = Density.DESK
_FIGURES = 2


class Calculator(QObject):
    """The sums and their answer, for the window of a house and for the first run."""

    def __init__(self, today: date, unit: MassUnit = "kg") -> None:
        whole(self.pieces(today, unit))

    def pieces(self, today: date, unit: MassUnit) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        super().__init__()
        self.presenter = CalculatorPresenter(today, unit)
        self._is_filling = False
        self.fields: dict[str, dict[str, FormField]] = {}
        self.form = Form()
        self.kinds = self._kind_rows()
        yield
        self.panel = Panel(tr("Calculator"), density=DENSITY)
        self.slot = self.panel.add_slot()
        self.panel.set_body(self.form)
        self.bar = self.panel.add_bar()
        self.clear_it = self.bar.add_secondary(tr("Clear"))
        self.clear_it.clicked.connect(self.clear)
        self.found = Panel(tr("What comes of it"), density=DENSITY)
        self.figures = KeyFigures(density=DENSITY)
        self.notes = Notes()
        self.found.set_bodies((self.figures, 0), (self.notes, 1))
        self.spread = Spread(
            [Part(self.panel, tr("Calculator"), 6, 8), Part(self.found, tr("Answer"), 6, 8)]
        )
        yield
        self.choose(self.presenter.key)

    def _kind_rows(self) -> list[ChoiceButtons]:
        choices = [Choice(one.key, one.title) for one in self.presenter.sums.values()]
        rows: list[ChoiceButtons] = []
        for some in in_rows(choices, DENSITY):
            made = ChoiceButtons(tr("What is reckoned"), some, density=DENSITY)
            made.label.setVisible(not rows)
            made.chosen.connect(self._kind_chosen)
            self.form.add_row((made, 1))
            rows.append(made)
        return rows

    def _kind_chosen(self, key: str) -> None:
        self.choose(key)
        self.begin()

    def choose(self, key: str) -> None:
        """Take a sum in hand; what was typed in it is still there."""
        self.presenter.choose(key)
        for row in self.kinds:
            keys = [made.choice.key for made in row.buttons()]
            row.set_key(key if key in keys else "")
        self._make()
        self._fill()
        self.slot.clear()
        self.slot.set_next_step(self.presenter.sum.step)
        self._tell()

    def _make(self) -> None:
        """The fields of a sum, made when it is first in hand."""
        one = self.presenter.sum
        if one.key in self.fields:
            return
        made = self.fields[one.key] = {}
        for row in one.rows:
            parts: list[tuple[FormField, int]] = []
            for ask in row:
                field = made_field(ask, DENSITY, self.presenter.today)
                if isinstance(field, MassField) and not ask.unit:
                    field.set_unit(self.presenter.unit)
                made[ask.key] = field
                if isinstance(field, ChoiceButtons):
                    field.chosen.connect(lambda _key: self._edited())
                else:
                    field.edited.connect(lambda _text: self._edited())
                parts.append((field, ask.part))
            self.form.add_row(*parts)
        self.form.finish_with(self.clear_it)

    def _fill(self) -> None:
        self._is_filling = True
        one, typed = self.presenter.sum, self.presenter.now()
        for ask in one.asks():
            show_text(self.fields[one.key][ask.key], ask, typed.values.get(ask.key, ""))
        self._is_filling = False
        self._show_asked()

    def _show_asked(self) -> None:
        one, typed = self.presenter.sum, self.presenter.now()
        for key, fields in self.fields.items():
            for field in fields.values():
                if key != one.key:
                    field.setVisible(False)
        for ask in one.asks():
            field = self.fields[one.key][ask.key]
            field.setVisible(ask.shown is None or ask.shown(typed, self.presenter.reading()))

    def _edited(self) -> None:
        if self._is_filling:
            return
        one = self.presenter.sum
        fields = self.fields[one.key]
        values = {ask.key: text_of(fields[ask.key], ask) for ask in one.asks()}
        self.presenter.type(FormTyped({key: text for key, text in values.items() if text}))
        self._show_asked()
        self._tell()

    # What comes of it.

    def _tell(self) -> None:
        fields = self.fields[self.presenter.key]
        for field in fields.values():
            refuse_field(field, False)
        answer = self.presenter.answer()
        self.slot.clear()
        if isinstance(answer, Refusal):
            self.slot.show_messages([Message(Mark.REFUSED, refusal_words(answer))])
            field_name = self.presenter.sum.field_of(answer.field)
            if field_name in fields:
                refuse_field(fields[field_name], True)
        found = answer if isinstance(answer, Reckoned) else Reckoned(())
        if found.figures and self.spread.is_tabbed():
            # The answer is behind another tab: its first figure is said here, too.
            first = found.figures[0]
            self.slot.show_messages([Message(Mark.READY, f"{first.meaning}: {first.figure}")])
        self._show(found)

    def _show(self, found: Reckoned) -> None:
        shown = [KeyFigure(one.figure, one.meaning) for one in found.figures[:_FIGURES]]
        self.figures.show_figures("", shown)
        self.figures.setVisible(bool(shown))
        notes = [
            Message(
                Mark.NOTE if one.doubtful else Mark.READY,
                f"{one.meaning}: {one.figure}",
                tr("Source: {source}.").format(source=one.source),
            )
            for one in found.figures
        ]
        if found.care:
            notes.append(Message(Mark.WARNING, found.care))
        if not notes:
            notes = [Message(Mark.NOTE, self.presenter.sum.step)]
        self.notes.show_messages(notes)

    def add_part(self, figures: LotFigures) -> None:
        """A lot goes into the blend; where all parts are typed already, that is said."""
        if not self.presenter.add_part(figures):
            words = tr("A blend has five parts here: clear it, or type over one.")
            self.slot.show_messages([Message(Mark.WARNING, words)])
            return
        self._fill()
        self._tell()

    # What a page asks of it.

    def begin(self) -> None:
        """Put the keyboard in the first field that has nothing in it, else the first one."""
        self.spread.show_part(0)
        one, typed = self.presenter.sum, self.presenter.now()
        fields = self.fields[one.key]
        shown = [ask for ask in one.asks() if fields[ask.key].isVisibleTo(self.form)]
        empty = [ask for ask in shown if not typed.text(ask.key)]
        self.form.take_focus(fields[(empty or shown)[0].key])

    def clear(self) -> None:
        """Empty the sum in hand."""
        self.presenter.clear()
        self._fill()
        self._tell()
        self.begin()


class CalculatorView(QObject):
    """The calculator as a page of the window. See `StationView`."""

    def __init__(self, desk: Desk) -> None:
        whole(self.pieces(desk))

    def pieces(self, desk: Desk) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        super().__init__()
        self._desk = desk
        self.widget = QWidget()
        self.asks = StationAsks()
        today = house_day(desk.house.clock(), desk.zone)
        self.calculator = yield from in_pieces(Calculator, today, desk.unit)
        yield
        column = QVBoxLayout(self.widget)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.calculator.spread)

    def begin(self) -> None:
        """Put the keyboard where the sum in hand goes on."""
        self.calculator.begin()

    def take_code(self, code: str) -> bool:
        """A lot goes into the blend, while that is reckoned; else its card opens."""
        if self.calculator.presenter.key != BLEND or self._desk.letter_of(code) not in LOTS:
            return False
        house = self._desk.house
        self._desk.jobs.read(
            lambda: house.ask(lambda view: lot_figures(view, code)),
            self._figures_came,
            about=(self, code),
        )
        return True

    def _figures_came(self, outcome: Outcome[LotFigures]) -> None:
        if outcome.refusal is not None:
            words = refusal_words(outcome.refusal)
            self.calculator.slot.show_messages([Message(Mark.REFUSED, words)])
        elif outcome.value is not None:
            self.calculator.add_part(outcome.value)

    def handle(self, action: str) -> bool:
        """The form can be cleared."""
        if action != "clear":
            return False
        self.calculator.clear()
        return True
