"""The window of the first run: one panel, one question at a time, Esc one back."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QCloseEvent, QKeyEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QMainWindow,
    QSizePolicy,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from honeyledger.desktop import lettering, look, tokens
from honeyledger.desktop.drafts import Drafts
from honeyledger.desktop.first_run.lines_view import Lines
from honeyledger.desktop.first_run.reckoning_view import Reckoning
from honeyledger.desktop.first_run.steps import FirstSteps, Step, tr
from honeyledger.desktop.first_run.ways_view import Ways
from honeyledger.desktop.jobs import Jobs
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.lettering import Hand
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.printing import shown_path
from honeyledger.desktop.stations.setup.form_view import KindForm
from honeyledger.desktop.tokens import BOLD, Density, Type
from honeyledger.desktop.widgets.fields import Field, TextField
from honeyledger.desktop.widgets.form import Form
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.domain.refusals import Refusal
from honeyledger.services.beginning import Doors, Opened
from honeyledger.settings import Settings

WIDEST = 760
DENSITY = Density.DESK
MAKE, LOOK, OPEN, RECKON = "make", "look", "open", "reckon"


class _Ground(QWidget):
    """What the panel stands on, under the program's name."""

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), look.colour("ground"))
        mast = QRectF(0, 0, self.width(), tokens.MAST_HEIGHT)
        painter.fillRect(mast, look.colour("mast"))
        hand = Hand(Type.BODY, weight=BOLD, colour="on_mast")
        margin = tokens.grid(self.width()).margin
        lettering.draw(painter, mast.adjusted(margin, 0, -margin, 0), [hand.run("Honeyledger")])


@dataclass(frozen=True, slots=True)
class Lent:
    """What the program lends the window of the first run."""

    drafts: Drafts
    keep_settings: Callable[[Settings], object]
    choose_house: Callable[[QWidget], Path | None]


class FirstRunWindow(QMainWindow):
    """From nothing to a house that is open.

    `opened` is that house in the end; `is_again` says that the window begins anew in another size.
    """

    def __init__(self, doors: Doors, settings: Settings, lent: Lent) -> None:
        super().__init__()
        self.jobs = Jobs()
        self._lent = lent
        self.opened: Opened | None = None
        self.reckoning: Reckoning | None = None
        self.is_again = False
        self.steps = FirstSteps(doors, settings, self.jobs, lent.drafts, lent.keep_settings)
        self.setWindowTitle("Honeyledger")
        self.panel = Panel(tr("Welcome"), density=DENSITY)
        self.slot = self.panel.add_slot()
        self.pages = QStackedWidget()
        self.panel.set_body(self.pages)
        self.lines = Lines(settings.scale)
        self.ways = _ways()
        self.form = KindForm(self.steps.house, DENSITY)
        self.file_form, self.file = _file_form()
        self._pages: dict[Step, Lines | Ways | Form] = {
            Step.SIZE: self.lines,
            Step.WAY: self.ways,
            Step.HOUSE: self.form,
            Step.FILE: self.file_form,
        }
        for page in self._pages.values():
            self.pages.addWidget(page)
        bar = self.panel.add_bar()
        self.go = bar.add_primary(tr("This one reads well"))
        self.choose = bar.add_secondary(tr("Choose a file…"))
        self.back = bar.add_plain(tr("Back"))
        self._lay_out()
        self._connect()
        self.resize(1280, 800)
        self.steps.begin()

    def _lay_out(self) -> None:
        ground = _Ground()
        column = QVBoxLayout(ground)
        column.setContentsMargins(0, tokens.MAST_HEIGHT, 0, 0)
        self._row = QHBoxLayout()
        self._row.addStretch(1)
        self._row.addWidget(self.panel, 1000)
        self._row.addStretch(1)
        self.panel.setMaximumWidth(WIDEST)
        column.addLayout(self._row)
        self.setCentralWidget(ground)

    def _connect(self) -> None:
        steps = self.steps
        steps.turned.connect(self._turn)
        steps.refused.connect(self._refused)
        steps.working.connect(self._working)
        steps.moved.connect(self._moved)
        steps.opened.connect(self._opened)
        steps.anew.connect(self._begin_again)
        steps.zones_known.connect(self.form.offer_zones)
        self.lines.submitted.connect(self._go)
        self.lines.spoken.connect(steps.choose_language)
        self.ways.taken.connect(self._take)
        self.lines.moved.connect(self.panel.keep_in_view)
        self.ways.moved.connect(self.panel.keep_in_view)
        self.form.changed.connect(self._typed)
        self.file.edited.connect(lambda _text: self._typed())
        self.go.clicked.connect(self._go)
        self.choose.clicked.connect(self._choose)
        self.back.clicked.connect(steps.back)

    # What is shown.

    def _turn(self, step: Step) -> None:
        headings = {
            Step.SIZE: tr("Stand where you will work. Which line reads well?"),
            Step.WAY: tr("How do you want to begin?"),
            Step.HOUSE: tr("Make a house"),
            Step.FILE: tr("Open a house that is there"),
        }
        buttons = {
            Step.SIZE: tr("This one reads well"),
            Step.HOUSE: tr("Make the house"),
            Step.FILE: tr("Open it"),
        }
        self.panel.set_heading(headings[step])
        self.slot.clear()
        self.slot.set_next_step(self._next_step(step))
        self.go.setVisible(step in buttons)
        self.go.setText(buttons.get(step, ""))
        self.choose.setVisible(step is Step.FILE)
        self.back.setVisible(step is not Step.SIZE)
        self.form.fill(self.steps.values)
        self.file.set_text(self.steps.file)
        page = self._pages[step]
        for one in self._pages.values():
            # The panel is as high as the step in hand needs, not as the highest.
            shown = QSizePolicy.Policy.Preferred if one is page else QSizePolicy.Policy.Ignored
            one.setSizePolicy(QSizePolicy.Policy.Preferred, shown)
        self.pages.setCurrentWidget(page)
        if step is Step.WAY and self.steps.doors.is_missed:
            self._say_missed()
        for form in (self.form, self.file_form):
            if form is page:
                form.finish_with(self.go)
        QWidget.setTabOrder(self.go, self.choose)
        QWidget.setTabOrder(self.choose, self.back)
        self.begin()

    def _next_step(self, step: Step) -> str:
        return {
            Step.SIZE: tr("At arm's length, with gloves on if you wear them. Arrows, then Enter."),
            Step.WAY: tr("Up and Down, then Enter. All of it can be left and gone on with."),
            Step.HOUSE: tr("Enter goes on, the last Enter makes it. It is kept in {file}."),
            Step.FILE: tr("A file that ends in .honeyledger, or the address of a database."),
        }[step].format(file=_told(self.steps.doors.where))

    def _say_missed(self) -> None:
        words = tr(
            "There is none at {file}: plug in what it is on and start again, or begin here."
        )
        text = words.format(file=_told(self.steps.doors.where))
        self.slot.show_messages([Message(Mark.WARNING, tr("The house is not there."), text)])

    def begin(self) -> None:
        """Put the keyboard where the step begins."""
        page = self._pages[self.steps.step]
        if isinstance(page, Form):
            page.begin()
        else:
            page.take_focus()

    # What a person does.

    def _go(self) -> None:
        step = self.steps.step
        if step is Step.SIZE:
            self.steps.choose_size(self.lines.scale())
            return
        self._typed()
        if step is Step.HOUSE:
            self.steps.make()
        elif step is Step.FILE:
            self.steps.open_file()

    def _take(self, way: str) -> None:
        if way == LOOK:
            self.steps.look_around()
        elif way == RECKON:
            self.reckon()
        else:
            self.steps.turn(Step.HOUSE if way == MAKE else Step.FILE)

    def reckon(self) -> Reckoning:
        """Show the calculator, which needs no house."""
        if self.reckoning is None:
            self.reckoning = Reckoning(datetime.now().astimezone().date(), self)
        self.reckoning.show()
        self.reckoning.activateWindow()
        return self.reckoning

    def _typed(self) -> None:
        self.steps.type(self.form.values(), self.file.text())

    def _choose(self) -> None:
        file = self._lent.choose_house(self)
        if file is not None:
            self.file.set_text(str(file))
            self._typed()
        self.file.take_focus()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.steps.back()
            return
        super().keyPressEvent(event)

    # What happens.

    def _working(self, working: bool) -> None:
        self.go.set_working(working)
        if working:
            self.slot.show_messages([Message(Mark.WORKING, tr("Opening …"))])

    def _moved(self, done: int, of: int) -> None:
        words = tr("{n} % of its rows.").format(n=100 * done // max(1, of))
        lead = tr("Loading the sample season, once:")
        self.slot.show_messages([Message(Mark.WORKING, lead, words)])

    def _refused(self, refusal: Refusal) -> None:
        self.slot.show_messages(
            [Message(Mark.REFUSED, tr("Nothing was made."), refusal_words(refusal))]
        )
        fields = self.form.by_key if self.steps.step is Step.HOUSE else {"file": self.file}
        field = fields.get(refusal.field) or fields.get("file")
        if field is None:
            return
        if isinstance(field, Field):
            field.set_refused(True)
        field.take_focus()

    def _opened(self, opened: Opened) -> None:
        self.opened = opened
        self.close()

    def _begin_again(self) -> None:
        self.is_again = True
        self.close()

    # The window itself.

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        grid = tokens.grid(self.width())
        gap = tokens.PANEL_GAP
        self._row.setContentsMargins(grid.margin, gap, grid.margin, gap)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Let what is under way end, and keep what is typed."""
        self.jobs.close()
        self.steps.keep_now()
        super().closeEvent(event)


def _told(where: str) -> str:
    """A place as a person is told of it: of an address, what stands behind name and password."""
    return where.rpartition("@")[2] if "://" in where else shown_path(Path(where))


def _ways() -> Ways:
    made = Ways()
    made.add(
        MAKE,
        "plus",
        tr("Make a house"),
        tr("Your own, empty: name it, then its people, yards, boxes and tanks."),
    )
    made.add(
        LOOK,
        "find",
        tr("Look around in the sample season"),
        tr("An invented house with a season in it. Try anything; it is kept apart from yours."),
    )
    made.add(
        OPEN,
        "forward",
        tr("Open a house that is there"),
        tr("From another computer, a stick, a backup, or on a server."),
    )
    made.add(
        RECKON,
        "season",
        tr("Only reckon"),
        tr("Moisture, colour, a tank's dip, a blend, jars, days: no house is needed."),
    )
    return made


def _file_form() -> tuple[Form, TextField]:
    form = Form()
    field = TextField(tr("File of the house"), density=DENSITY)
    form.add_row((field, 1))
    return form, field
