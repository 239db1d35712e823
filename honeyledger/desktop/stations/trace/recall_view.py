"""The page of a call back: what is written down at the left, what is affected at the right."""

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QStackedWidget

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.days import format_moment
from honeyledger.desktop.models.paper import Paper, cells_of
from honeyledger.desktop.models.wrongs import wrongs
from honeyledger.desktop.printing import shown_path
from honeyledger.desktop.stations.trace.columns import yard_columns, yard_rows
from honeyledger.desktop.stations.trace.recall_asks import OPEN, REASONS
from honeyledger.desktop.stations.trace.recall_presenter import RecallPresenter
from honeyledger.desktop.stations.trace.recall_rows import (
    complaint_columns,
    lot_columns,
    lot_totals,
    who_columns,
    who_totals,
)
from honeyledger.desktop.stations.trace.words import tr
from honeyledger.desktop.stations.trace.yard_spots import yard_spots
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.asking_page import TOTALS_HEIGHT, AskingPage
from honeyledger.desktop.widgets.asking_panel import AskingPanel
from honeyledger.desktop.widgets.choice_buttons import ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.figures import Answer
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.table import Table, TablePlan
from honeyledger.desktop.widgets.yard_map import YardsMap
from honeyledger.domain.moments import moment_at
from honeyledger.domain.refusals import Refusal
from honeyledger.services.labelling import HEAD_DIGITS
from honeyledger.services.recall_page import RecallPage

WHO, LOTS, FROM, COMPLAINTS = "who", "lots", "from", "complaints"


class RecallView(AskingPage):
    """What is affected by a code, and what is done about it. See `StationView`.

    Signals:
        left: back to the trace.
    """

    left = Signal()

    def __init__(self, desk: Desk) -> None:
        self.presenter = RecallPresenter(desk)
        super().__init__(desk, self.presenter, Density.DESK)
        self.form = AskingPanel(
            self.presenter.asking, tr("Something is wrong"), tr("What is done"), self.density
        )
        self.form.offer(REASONS, [Choice(word, word) for word in wrongs()])
        self.answer = Answer()
        listed = self._made_list()
        self.lay_out(tr("Write down"), listed, tr("What is affected"), above=self.answer)
        self.presenter.shown.connect(self._show)
        self.presenter.printed.connect(self._printed)
        self.form.chosen.connect(self._turned)
        self._say()

    def _made_list(self) -> Panel:
        panel = Panel(density=self.density)
        self.slot = panel.add_slot(tall=True)
        self.kinds = ChoiceButtons(
            tr("What is shown"),
            [
                Choice(WHO, tr("Who has it")),
                Choice(LOTS, tr("Every lot")),
                Choice(FROM, tr("Where from")),
                Choice(COMPLAINTS, tr("Complaints")),
            ],
            density=self.density,
        )
        panel.add_part(self.kinds, padded=True)
        self.tables = {
            WHO: self._table(who_columns("kg"), "name", tr("No customer has any of it.")),
            LOTS: self._table(lot_columns("kg"), "code", tr("No lot is in hand.")),
            FROM: self._table(yard_columns(), "code", tr("A yard is where traces end.")),
            COMPLAINTS: self._table(complaint_columns(), "row", tr("There are no complaints.")),
        }
        self.stack = QStackedWidget()
        for table in self.tables.values():
            self.stack.addWidget(table)
        self.map = YardsMap(tr("None of these yards has its latitude and longitude on record."))
        self.stack.addWidget(self.map)
        panel.set_body(self.stack)
        bar = panel.add_bar()
        self.print_it = bar.add_secondary(tr("Print"), icon="print")
        self.print_it.setAccessibleName(tr("Print who has it"))
        self.map_it = bar.add_secondary(tr("Map"))
        self.cases = bar.add_plain(tr("Cases"))
        self.cases.setAccessibleName(tr("Recall cases"))
        self.back = bar.add_plain(tr("To the trace"))
        self.kinds.chosen.connect(self.show_kind)
        self.print_it.clicked.connect(self.print)
        self.call_back = bar.add_grave(tr("Open a recall"))
        self.cases.clicked.connect(lambda: self.asks.open.emit("recalls"))
        self.call_back.clicked.connect(lambda: self._of_row(self._call_back))
        self.back.clicked.connect(self.left)
        self.map_it.clicked.connect(self.turn_map)
        self.map.selected.connect(self.tables[FROM].select)
        self.map.opened.connect(self.asks.card)
        self.tables[FROM].selected.connect(self.map.choose)
        self.show_kind(WHO)
        return panel

    def _table(self, columns: Sequence[Any], key: str, empty: str) -> Table:
        table = Table(
            tuple(columns),
            lambda row: str(row.row.number if key == "row" else getattr(row, key)),
            density=self.density,
            empty=empty,
            sorts_itself=True,
            plan=TablePlan(foot_height=TOTALS_HEIGHT),
        )
        table.opened.connect(lambda _key: self.asks.card.emit(self._code()))
        return table

    def show_kind(self, kind: str) -> None:
        """Show one of the tables."""
        self.kinds.set_key(kind)
        self.table = self.tables[kind]
        self.stack.setCurrentWidget(self.table)
        self.map_it.setVisible(kind == FROM)
        self.map_it.setText(tr("Map"))

    def turn_map(self) -> None:
        """From the list of yards to where they stand, and back; the one chosen stays."""
        to_map = self.stack.currentWidget() is not self.map
        shown = self.map if to_map else self.table
        self.stack.setCurrentWidget(shown)
        self.map_it.setText(tr("Hide map") if to_map else tr("Map"))
        (self.map if to_map else self.table.view).setFocus(Qt.FocusReason.OtherFocusReason)

    def _code(self) -> str:
        """The lot of the row in hand, else what the page is about; a customer has no card."""
        key, page = self.table.selected_key(), self.presenter.page
        if self.table is self.tables[COMPLAINTS] and page is not None:
            row = page.complaint(key)
            return row.lot if row is not None else self.presenter.code
        return self.presenter.code if self.table is self.tables[WHO] else key

    def _call_back(self, code: str) -> None:
        """A case on the jar of the complaint in hand, else on the lot."""
        page = self.presenter.page
        is_complaint = self.table is self.tables[COMPLAINTS] and page is not None
        row = page.complaint(self.table.selected_key()) if page and is_complaint else None
        self.asks.hand.emit("recalls", ((row.jar or row.lot) if row else code,))

    def _of_row(self, ask: Callable[[str], object]) -> None:
        if code := self._code():
            ask(code)

    # What is shown.

    def open_for(self, code: str, kind: str) -> None:
        """Show what goes with a code, with one of the forms in hand."""
        self.form.choose(kind, begins=False)
        self.presenter.open_for(code)
        self.go_on()

    def _turned(self, kind: str) -> None:
        """A complaint to be answered is looked for in the list of them."""
        if kind == "answer":
            self.show_kind(COMPLAINTS)

    def _show(self, page: RecallPage) -> None:
        self.form.set_unit(page.unit)
        unanswered = [line.row for line in page.complaints if line.is_open]
        self.form.offer(
            OPEN,
            [Choice(str(row.number), f"{row.jar or row.lot}: {row.what}") for row in unanswered],
        )
        scope = page.scope
        self.tables[WHO].model.columns = who_columns(page.unit)
        self.tables[LOTS].model.columns = lot_columns(page.unit)
        self.tables[WHO].show_rows(scope.consignees if scope else ())
        self.tables[LOTS].show_rows(scope.lots if scope else ())
        self.tables[FROM].show_rows(yard_rows(page.trace) if page.trace else ())
        self.map.show_spots(*(yard_spots(page.trace) if page.trace else ((), "")))
        self.map.choose(self.tables[FROM].selected_key())
        self.tables[COMPLAINTS].show_rows(page.complaints)
        if scope is not None:
            self.tables[WHO].show_totals(*who_totals(scope, page.unit))
            self.tables[LOTS].show_totals(*lot_totals(scope, page.unit))
        for table in self.tables.values():
            table.say_rows()
            table.view.setAccessibleName(self.presenter.heading())
        self._say()

    def _say(self) -> None:
        self.answer.show_answer(self.presenter.heading(), self.presenter.answer())
        page = self.presenter.page
        scope = page.scope if page is not None else None
        if scope is None:
            self.slot.set_next_step(tr("Agree every notice with your authority."))
            return
        mark = Mark.WARNING if scope.free_g else Mark.READY
        lead = tr("Not all of it is held.") if scope.free_g else tr("Nothing of it is free here.")
        self.slot.show_messages([Message(mark, lead, self.presenter.doubts())])

    # On paper.

    def print(self) -> None:
        """Write who has it, every lot and every note, as a list to work through."""
        page = self.presenter.page
        if page is None or page.scope is None:
            words = tr("Scan a code first: who has it is what is printed.")
            self.slot.show_messages([Message(Mark.NOTE, words)])
            return
        self.presenter.print(lambda: self._paper(page))

    def _paper(self, page: RecallPage) -> Paper:
        scope = page.scope
        assert scope is not None
        columns = who_columns(page.unit, in_full=True)
        lead, totals = who_totals(scope, page.unit)
        foot = tr("{house} · head {head} · agree every notice with your authority · printed {now}")
        now = moment_at(self.desk.house.clock(), page.zone)
        head = f"{scope.entries} {scope.digest[:HEAD_DIGITS].upper()}"
        return Paper(
            (self.presenter.heading(), self.presenter.answer()),
            None,
            columns,
            cells_of(columns, scope.consignees),
            lead,
            tuple(totals.items()),
            foot.format(house=scope.house, head=head, now=format_moment(now)),
        )

    def _printed(self, what: Path | Refusal) -> None:
        if isinstance(what, Refusal):
            self.slot.show_messages(
                [Message(Mark.REFUSED, tr("Not printed."), refusal_words(what))]
            )
            return
        words = tr("is in {file}.").format(file=shown_path(what))
        self.slot.show_messages([Message(Mark.READY, tr("Who has it"), words)])
        self.desk.open_paper(what)

    # What the window asks of a station.

    def take_code(self, code: str) -> bool:
        """A code goes into the form in hand; the card opens where it asks for none."""
        taken = self.presenter.take(code)
        if taken:
            self.go_on()
        return taken

    def own_keys(self) -> Mapping[str, Callable[[], object]]:
        """Print the list."""
        return {"print": self.print}
