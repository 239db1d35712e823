"""The plan of a season: its answer, its picture, and beside it the figures it is made with."""

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from honeyledger.desktop import tokens
from honeyledger.desktop.desk import Desk
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.printing import Paper, paper_message
from honeyledger.desktop.stations.season.plan_charts import (
    BY_DAY,
    MORE,
    PARTS_OF_IT,
    WAITING,
    plan_answer,
    plan_chart,
    plan_figures,
)
from honeyledger.desktop.stations.season.plan_form_view import WHOLE, PlanForm
from honeyledger.desktop.stations.season.plan_presenter import PlanPresenter
from honeyledger.desktop.stations.season.words import tr
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.chart import ChartView
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.chooser import Chooser
from honeyledger.desktop.widgets.figures import Answer, KeyFigures
from honeyledger.desktop.widgets.message_slot import MessageSlot
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.domain.refusals import Refusal
from honeyledger.services.season_forecast import Forecast

PLAN = "plan"
_PICTURE, _FIGURES = 0, 1
_LOW_SLOT = 56  # a sentence of two lines, in a low window
LOW = 400  # below this height the picture has no room beside figures and a bar


class Above(QWidget):
    """The answer, and under it what there is to look at."""

    def __init__(self, answer: Answer, chooser: Chooser) -> None:
        super().__init__()
        self._column = QVBoxLayout(self)
        self._column.setSpacing(0)
        self._column.addWidget(answer)
        self._column.addWidget(chooser)
        self.set_low(False)

    def set_low(self, low: bool) -> None:
        """In a low window no room is left under it."""
        self._column.setContentsMargins(0, 0, 0, 0 if low else tokens.STEPS[2])


class PlanView(QWidget):
    """The page.

    Signals:
        left: another look at the season was chosen, by its key.
    """

    left = Signal(str)

    def __init__(self, desk: Desk, looks: Sequence[Choice]) -> None:
        super().__init__()
        self._desk = desk
        self.presenter = PlanPresenter(desk)
        self.answer = Answer()
        self.chooser = Chooser(looks)
        self.chooser.set_key(PLAN)
        self.above = Above(self.answer, self.chooser)
        self.form = PlanForm(self.presenter)
        self.drawn = self._made_picture()
        self.spread = Spread(
            [Part(self.drawn, tr("Picture"), 8, 8), Part(self.form, tr("Planned with"), 4, 8)],
            above=self.above,
        )
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.spread)
        self._connect()
        self.answer.show_answer(tr("Season plan"), tr("Reading what the house is"))

    def _made_picture(self) -> Panel:
        panel = Panel(density=Density.DESK)
        choices = [
            Choice(BY_DAY, tr("Day by day")),
            Choice(PARTS_OF_IT, tr("What holds it up")),
            Choice(MORE, tr("What more buys")),
            Choice(WAITING, tr("Where it waits")),
        ]
        self.pictures = Chooser(choices, tr("Picture"), prints=False)
        self.pictures.set_key(BY_DAY)
        self.chart = ChartView()
        self.figures = KeyFigures(density=Density.DESK)
        self.pictures.setContentsMargins(0, tokens.STEPS[2], 0, tokens.STEPS[1])
        panel.add_part(self.pictures, padded=True)
        panel.set_body(self.chart)
        panel.add_part(self.figures)
        bar = panel.add_bar()
        self.print_it = bar.add_secondary(tr("Print"), icon="print")
        self.stop_it = bar.add_secondary(tr("Stop planning"))
        self.stop_it.hide()
        self.slot = MessageSlot(density=Density.DESK, tall=True, ground="well")
        bar.set_side(self.slot)
        return panel

    def _connect(self) -> None:
        presenter = self.presenter
        self.chooser.chosen.connect(self._chosen)
        self.chooser.print_it.clicked.connect(presenter.print)
        self.pictures.chosen.connect(self._drawn)
        self.chooser.second_chosen.connect(self.pictures.chosen)
        self.print_it.clicked.connect(presenter.print)
        self.stop_it.clicked.connect(presenter.stop)
        self.form.asked.connect(self._plan)
        self.form.chosen.connect(lambda key: presenter.choose(whole=key == WHOLE))
        self.form.again.clicked.connect(presenter.ask)
        presenter.begun.connect(self._begun)
        presenter.shown.connect(self._show)
        presenter.moved.connect(self._moved)
        presenter.failed.connect(self._failed)
        presenter.printed.connect(self._printed)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        """In a low window the picture has all the room; one prints above it."""
        low = self.height() < LOW
        self.figures.setVisible(not low)
        self.pictures.setVisible(self.chooser.is_wide())
        self.chooser.offer_second(self.pictures.choices, self.pictures.key())
        self.form.messages.setFixedHeight(_LOW_SLOT if low else tokens.SLOT_HEIGHT)
        self.above.set_low(low)
        bar = self.drawn.bar
        assert bar is not None
        bar.setVisible(not low or self.presenter.is_working)

    def _name_picture(self, key: str) -> None:
        self.pictures.set_key(key)
        self.chooser.offer_second(self.pictures.choices, key)

    def begin(self) -> None:
        """Put the keyboard on the picture; what the house is is asked the first time."""
        self.chooser.set_key(PLAN)
        self.presenter.open()
        self.chart.setFocus()

    def _chosen(self, key: str) -> None:
        if key != PLAN:
            self.left.emit(key)

    # What is shown.

    def _begun(self) -> None:
        self.form.fill()
        self._working()

    def _plan(self) -> None:
        self.form.refuse(())
        self.presenter.run()
        self._working()

    def _working(self) -> None:
        self.form.plan_it.set_working(self.presenter.is_working)
        self.stop_it.setVisible(self.presenter.is_working)
        self._fit()

    def _moved(self, done: int, of: int) -> None:
        if self.presenter.is_working:
            words = tr("{n} of {all} seasons are simulated.").format(n=done, all=of)
            self.slot.show_messages([Message(Mark.NOTE, tr("Planning."), words)])

    def _show(self, made: Forecast) -> None:
        self._working()
        self.answer.show_answer(tr("Season plan"), plan_answer(made))
        self._turn_to(_FIGURES if made.wrong else _PICTURE)
        self.form.refuse(made.wrong)
        if made.wrong and self.pictures.key() != PARTS_OF_IT:
            self._name_picture(PARTS_OF_IT)
        self._draw()
        self.figures.show_figures("", plan_figures(made))
        self.slot.show_messages(self._notes(made))
        self._fit()

    def _notes(self, made: Forecast) -> list[Message]:
        notes = []
        if made.needs.drums_short:
            words = tr("{n} more empty drums than there are.").format(n=made.needs.drums_short)
            notes.append(Message(Mark.WARNING, tr("It takes"), words))
        if made.stopped:
            words = tr("the band is of {n} seasons.").format(n=made.seasons)
            notes.append(Message(Mark.NOTE, tr("Stopped:"), words))
        words = tr("weather, breakdowns and people are only guessed at.")
        notes.append(Message(Mark.NOTE, tr("A plan is no promise:"), words))
        return notes

    def _drawn(self, key: str) -> None:
        self._name_picture(key)
        self._draw()

    def _draw(self) -> None:
        if self.presenter.made is not None:
            self.chart.show_chart(plan_chart(self.presenter.made, self.pictures.key()))

    def _failed(self, refusal: Refusal) -> None:
        self._working()
        self._turn_to(_FIGURES)
        self.form.refuse((refusal,))

    def _turn_to(self, part: int) -> None:
        """In a narrow window the answer is behind one tab, what was refused behind the other."""
        if self.spread.is_tabbed():
            self.spread.show_part(part)

    def _printed(self, what: Paper | Refusal) -> None:
        message = paper_message(what, tr("The plan"), tr("Not printed."), tr("is in {file}."))
        self.slot.show_messages([message])
        if isinstance(what, Paper) and not what.printer and what.to_ask is None:
            self._desk.open_paper(what.file)

    def handle(self, action: str) -> bool:
        """Print the plan."""
        if action == "print":
            self.presenter.print()
        return action == "print"
