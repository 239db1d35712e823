"""The plan's form: big fields in the order in which honey goes, filled with what the house is."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QApplication, QVBoxLayout, QWidget

from honeyledger.desktop.language import refusal_words, say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.season import plan_presenter
from honeyledger.desktop.stations.season.plan_presenter import BEGINS, PlanPresenter
from honeyledger.desktop.stations.season.words import tr
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.choice_buttons import ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.fields import Field, TextField
from honeyledger.desktop.widgets.form import Form
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import format_number
from honeyledger.services.season_plan import LIMITS
from honeyledger.services.season_typed import plan_unit

_ABOVE = 32  # a field has its label above it
REST, WHOLE = "rest", "whole"
FEW, MANY = "few", "many"
ROWS = (
    (BEGINS, "colonies"),
    ("supers_hundredths", "through"),
    ("frames", "honey_g"),
    ("pulled_a_day", "weather_permille"),
    ("places", "warm_hours"),
    ("uncappers", "uncapped_an_hour"),
    ("extractors", "frames_a_load"),
    ("spin_tenths", "load_tenths"),
    ("tanks", "tank_g"),
    ("settle_hours", "drum_g"),
    ("crew", "shifts"),
    ("shift_tenths", "clean_minutes"),
    ("days_a_week", "jars_percent"),
)
"""The figures of a plan that are typed, two a row."""


class PlanForm(Panel):
    """The figures of a plan, with its one button.

    Signals:
        asked: the plan is to be made as it stands.
        chosen: a whole season, or what is left.
    """

    asked = Signal()
    chosen = Signal(str)

    def __init__(self, presenter: PlanPresenter) -> None:
        super().__init__(tr("Planned with"), density=Density.DESK)
        self._presenter = presenter
        self.messages = self.add_slot(
            tr(
                "Type over what will be otherwise, then plan. What is marked usual is not your "
                "house’s own."
            ),
            tall=True,
        )
        self.form = Form()
        choices = [Choice(REST, tr("What is left")), Choice(WHOLE, tr("A whole season"))]
        self.which = ChoiceButtons(tr("Plan"), choices, density=Density.DESK)
        self.which.chosen.connect(self.chosen)
        self.form.add_row((self.which, 1))
        self.fields: dict[str, Field] = {}
        for row in ROWS:
            made = [(self._made(name), 1) for name in row]
            self.form.add_row(*made)
        counts = [
            Choice(FEW, tr("{n}, quick").format(n=format_number(plan_presenter.SEASONS))),
            Choice(MANY, tr("{n}, finer").format(n=format_number(plan_presenter.MANY))),
        ]
        self.count = ChoiceButtons(tr("Seasons simulated"), counts, density=Density.DESK)
        self.count.set_key(FEW)
        self.count.chosen.connect(self._counted)
        self.form.add_row((self.count, 1))
        self.set_body(_grown(self.form))
        bar = self.add_bar(wide_primary=True)
        self.plan_it = bar.add_primary(tr("Plan it"))
        self.again = bar.add_secondary(tr("As it was"))
        self.plan_it.clicked.connect(self.asked)
        self.form.finish_with(self.plan_it)
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        app.focusChanged.connect(self._focused)

    def _made(self, name: str) -> Field:
        label = tr("First day") if name == BEGINS else say(LIMITS[name].what)
        field = TextField(label, density=Density.DESK)
        field.edited.connect(lambda text: self._typed(name, text))
        self.fields[name] = field
        return field

    def _focused(self, _before: QWidget | None, now: QWidget | None) -> None:
        """What the keyboard comes to from outside of the form is scrolled into view, too."""
        if now is not None and self.form.isAncestorOf(now):
            self.form.ensureWidgetVisible(now, 0, _ABOVE)

    def _counted(self, key: str) -> None:
        self._presenter.is_many = key == MANY

    def _typed(self, name: str, text: str) -> None:
        self._presenter.type(name, text)
        self._tell_source(name)

    def fill(self) -> None:
        """Show every figure as it stands; what is only usual says so beside its unit."""
        presenter = self._presenter
        defaults = presenter.defaults
        if defaults is None:
            return
        self.which.set_key(REST if defaults.is_rest else WHOLE)
        for name, field in self.fields.items():
            field.set_text(presenter.text_of(name))
            field.set_refused(False)
            self._tell_source(name)

    def _tell_source(self, name: str) -> None:
        """A figure's unit; and of one that nobody typed and the ledger does not know, that."""
        presenter, defaults = self._presenter, self._presenter.defaults
        if defaults is None or name == BEGINS:
            return
        unit = plan_unit(name, presenter.unit)
        is_usual = name not in defaults.told and name not in presenter.typed
        told = tr("{unit} usual").format(unit=unit).strip() if is_usual else unit
        self.fields[name].set_unit(told)

    def refuse(self, refusals: tuple[Refusal, ...]) -> None:
        """Say what cannot be, and mark its fields; nothing where all can."""
        bad = {one.field for one in refusals}
        for name, field in self.fields.items():
            field.set_refused(name in bad)
        said = [Message(Mark.REFUSED, refusal_words(one)) for one in refusals]
        self.messages.show_messages(said)
        first = next((self.fields[name] for name in self.fields if name in bad), None)
        if first is not None:
            self.form.take_focus(first)


def _grown(form: Form) -> QWidget:
    holder = QWidget()
    column = QVBoxLayout(holder)
    column.setContentsMargins(0, 0, 0, 0)
    column.addWidget(form)
    return holder
