"""The page of recalls: what is done at the left; all cases, the one in hand and who has it."""

from collections.abc import Callable, Mapping

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.wrongs import wrongs
from honeyledger.desktop.sheets import Sheets
from honeyledger.desktop.stations.recalls.asks import (
    ALL,
    ANSWER,
    CASES,
    CUSTOMERS,
    EQUIPMENT,
    PEOPLE,
    THEIR_LOTS,
    TOLD,
    WRONGS,
    YARDS,
)
from honeyledger.desktop.stations.recalls.presenter import RecallsPresenter
from honeyledger.desktop.stations.recalls.rows import (
    case_columns,
    heading,
    told,
    who_columns,
    who_state,
)
from honeyledger.desktop.stations.recalls.words import tr
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.turns import Making, in_pieces, whole
from honeyledger.desktop.widgets.asking_page import AskingPage
from honeyledger.desktop.widgets.asking_panel import AskingPanel
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.notes import Notes
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.table import Table
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.recalls import DRILL
from honeyledger.services.recall_rows import RecallCase
from honeyledger.services.recalls_page import RecallsPage


class RecallsView(AskingPage):
    """The page of recalls. See `StationView`."""

    def __init__(self, desk: Desk) -> None:
        whole(self.pieces(desk))

    def pieces(self, desk: Desk) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        self.presenter = RecallsPresenter(desk)
        super().__init__(desk, self.presenter, Density.DESK)
        self.form = yield from in_pieces(
            AskingPanel, self.presenter.asking, tr("Recalls"), tr("What is done"), self.density
        )
        self.form.offer(WRONGS, [Choice(word, word) for word in wrongs()])
        yield
        self.sheets = Sheets(desk, self.asks.told)
        listed = self._made_list()
        yield
        self.presenter.shown.connect(self._show)
        self.table.selected.connect(self.presenter.take)
        self.who.opened.connect(self._take_customer)
        self.report.clicked.connect(lambda: self._print(letters=False))
        self.letters.clicked.connect(lambda: self._print(letters=True))
        self.exposure.clicked.connect(lambda: self.asks.open.emit("exposure"))
        self.drawing.clicked.connect(lambda: self.presenter.draw(self._drawn))
        self.lay_out(tr("Write down"), listed, tr("Cases"))

    def _made_list(self) -> Panel:
        panel = Panel(tr("Cases"), density=self.density)
        self.table = Table(
            case_columns(),
            lambda one: one.code,
            density=self.density,
            empty=tr("Nothing was ever called back, and no drill was made."),
            sorts_itself=True,
        )
        self.table.view.setAccessibleName(tr("All cases"))
        self.notes = Notes()
        self.who = Table(
            who_columns("kg"),
            lambda one: one.key or one.name,
            density=self.density,
            empty=tr("No customer has any of it."),
            sorts_itself=True,
        )
        self.who.view.setAccessibleName(tr("Who has some of it"))
        panel.set_bodies((self.table, 2), (self.notes, 3), (self.who, 3))
        bar = panel.add_bar()
        self.report = bar.add_secondary(tr("Print the report"), icon="print")
        self.letters = bar.add_secondary(tr("Print the letters"), icon="print")
        self.exposure = bar.add_plain(tr("Exposure"))
        self.drawing = bar.add_plain(tr("Draw a jar"))
        return panel

    # What is shown.

    def _show(self, page: RecallsPage) -> None:
        case = page.case
        self.form.offer(YARDS, [Choice(row.code, row.name) for row in page.yards])
        self.form.offer(EQUIPMENT, [Choice(row.code, row.name) for row in page.equipment])
        self.form.offer(CASES, [Choice(row.code, row.code, row.about) for row in page.open_ones])
        self.form.offer(
            THEIR_LOTS,
            [Choice(one.text, one.text, ", ".join(one.codes)) for one in page.their_lots],
        )
        self.form.offer(CUSTOMERS, _customers(case))
        self.form.offer(PEOPLE, [Choice(row.code, row.name) for row in page.people])
        self.listed.set_heading(heading(page))
        self.table.show_rows(page.heads)
        in_hand = case or page.scope
        if in_hand is not None:
            self.table.select(in_hand.code)
        self.notes.show_messages(told(page))
        self.who.model.columns = who_columns(page.unit, is_drill=_is_drill(page.case))
        self.who.view.empty = (
            tr("It is being read.") if page.scope else tr("No customer has any of it.")
        )
        self.who.show_rows(case.consignees if case else ())

    def _take_customer(self, key: str) -> None:
        """A customer was opened: who was not told is told, who was has answered."""
        page = self.presenter.page
        rows = page.case.consignees if page and page.case else ()
        one = next((row for row in rows if row.key == key), None)
        if one is None:
            return
        kind, field = (ANSWER, "customer") if one.told else (TOLD, "customers")
        self.form.choose(kind)
        asking = self.presenter.asking
        asking.fill(asking.typed[kind].with_value(field, key))
        self.go_on()

    def _drawn(self, refusal: Refusal | None) -> None:
        """A jar was drawn for a drill, which a person opens."""
        if refusal is not None:
            self.form.show_refusal(refusal)
            return
        self.form.choose(self.presenter.asking.kind)
        self.go_on()

    def _print(self, *, letters: bool) -> None:
        case = self.presenter.page.case if self.presenter.page is not None else None
        if case is None:
            words = tr("Open a case, or choose one: its report and letters are printed then.")
            self.form.say(Message(Mark.NOTE, words))
        elif letters and not case.to_tell:
            words = tr("Nobody whose name is known has any of it: there is no letter to write.")
            self.form.say(Message(Mark.NOTE, words))
        else:
            self.sheets.print_recall(case.code, letters=letters)

    def _print_or_open(self) -> None:
        """The report as it is now; once it is printed, the same key opens it."""
        if not self.sheets.open_printed():
            self._print(letters=False)

    # What the window asks of a station.

    def take_code(self, code: str) -> bool:
        """A jar or lot that is scanned is what is called back; a case's code is taken in hand."""
        if self.desk.letter_of(code) == "Q":
            self.presenter.take(self.desk.code_of(code))
            return True
        self.presenter.call_back(code.strip().upper())
        self.form.choose(self.presenter.asking.kind)
        self.go_on()
        return True

    def own_keys(self) -> Mapping[str, Callable[[], object]]:
        return {
            "print": self._print_or_open,
            "trace-this": lambda: None,
            "card": lambda: None,
        }


def _customers(case: RecallCase | None) -> list[Choice]:
    """Customers of the case; all who were not told yet first, where there are several."""
    rows = [one for one in case.consignees if one.key] if case else []
    is_drill = _is_drill(case)
    choices = [Choice(one.key, one.name, who_state(one, is_drill=is_drill)) for one in rows]
    if sum(not one.told for one in rows) > 1:
        choices.insert(0, Choice(ALL, tr("All who were not told yet")))
    return choices


def _is_drill(case: RecallCase | None) -> bool:
    return case is not None and case.sort == DRILL
