"""The page of what was recorded: the list at the left; at the right the entry, or what is done."""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import QEvent, QObject, QSize
from PySide6.QtGui import QPaintEvent
from PySide6.QtWidgets import QStackedWidget, QWidget

from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.keeping import Keeping
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.sheets import Sheets
from honeyledger.desktop.stations.entries.amend_draft import AmendDraft
from honeyledger.desktop.stations.entries.amend_view import AmendPanel
from honeyledger.desktop.stations.entries.amends import tr
from honeyledger.desktop.stations.entries.house_view import HousePanel
from honeyledger.desktop.stations.entries.list_view import EntryList
from honeyledger.desktop.stations.entries.narrow_view import NarrowPanel
from honeyledger.desktop.stations.entries.presenter import (
    EntriesPage,
    EntriesPresenter,
    Previewed,
)
from honeyledger.desktop.stations.entries.rows import answer, entry_notes
from honeyledger.desktop.stations.entries.undo_view import UndoPanel
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.turns import Making, Pieced
from honeyledger.desktop.widgets.figures import Answer
from honeyledger.desktop.widgets.notes import Notes
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import format_number


class _Stack(QStackedWidget):
    """It gives way: a page's columns are what they are, whatever a panel would like."""

    def minimumSizeHint(self) -> QSize:
        return QSize(0, 0)


class Sides(Panel):
    """One of several panels at a time, where the page has a place for one."""

    def __init__(self, panels: Sequence[Panel], density: Density) -> None:
        super().__init__(density=density)
        self._panels = tuple(panels)
        self._column.setContentsMargins(0, 0, 0, 0)
        self.stack = _Stack()
        for panel in panels:
            self.stack.addWidget(panel)
        self.set_body(self.stack)

    def set_narrow(self, narrow: bool) -> None:
        for panel in self._panels:
            panel.set_narrow(narrow)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Each panel paints its own outline."""


class EntriesView(Pieced, QObject):
    """The page of the entries. See `StationView`."""

    def pieces(self, desk: Desk, keeping: Keeping) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        QObject.__init__(self)
        self._desk = desk
        self._wants_amending = False
        self.widget = QWidget()
        self.widget.installEventFilter(self)
        self.asks = StationAsks()
        self.sheets = Sheets(desk, self.asks.told)
        self.presenter = EntriesPresenter(desk)
        density = desk.density(Density.DESK)
        yield
        self.list = EntryList(self.presenter, density)
        yield
        self.entry = self._entry_panel(density)
        self.undoing = UndoPanel(self.presenter, density)
        yield
        self.amending = AmendPanel(self.presenter, density)
        yield
        self.draft = AmendDraft(desk, self.amending, self._amend_on)
        self.narrowing = NarrowPanel(desk, density)
        yield
        self.house = HousePanel(desk, keeping, density)
        yield
        doing = (self.undoing.panel, self.amending.panel, self.narrowing.panel)
        panels = (self.entry, *doing, self.house.panel)
        self.side = Sides(panels, density)
        self.sides = self.side.stack
        self.answer = Answer()
        self.spread = Spread(
            [Part(self.list.panel, tr("Entries"), 7, 8), Part(self.side, tr("This one"), 5, 8)],
            above=self.answer,
        )
        self.spread.fill(self.widget)
        yield
        self.older, self.all, self.kept = self.list.add_bar()
        self._connect()

    def _entry_panel(self, density: Density) -> Panel:
        panel = Panel(tr("The entry"), density=density)
        self.notes = Notes()
        panel.set_body(self.notes)
        bar = panel.add_bar()
        self.reverse_it = bar.add_secondary(tr("Reverse…"))
        self.amend_it = bar.add_secondary(tr("Amend…"))
        self.open_card = bar.add_plain(tr("Open its card"))
        return panel

    def _connect(self) -> None:
        presenter = self.presenter
        presenter.shown.connect(self._show)
        presenter.previewed.connect(self._previewed)
        presenter.refused.connect(self._refused)
        presenter.done.connect(self._done)
        self.list.chosen.connect(self._chosen)
        self.list.opened.connect(self.asks.card)
        self.older.clicked.connect(presenter.show_older)
        self.all.clicked.connect(self.list.show_all)
        self.kept.clicked.connect(self.show_house)
        self.reverse_it.clicked.connect(lambda: self.undo(self.list.in_hand()))
        self.amend_it.clicked.connect(lambda: self._amend(self.list.in_hand()))
        self.open_card.clicked.connect(self._card)
        self.undoing.amend_asked.connect(self._amend_instead)
        self.undoing.left.connect(self._leave)
        self.amending.left.connect(self.draft.forget)
        self.amending.left.connect(self._leave)
        self.amending.narrow.clicked.connect(self.narrow)
        self.narrowing.left.connect(self._leave)
        self.narrowing.done.connect(self._done)
        self.house.left.connect(self._leave)
        self.house.folder_chosen.connect(self._keep_folder)

    # What stands at the right.

    def _turn(self, panel: Panel) -> None:
        self.sides.setCurrentWidget(panel)
        self.spread.show_part(1)

    def _leave(self) -> None:
        """Back to the entry in hand and the list."""
        self.presenter.leave()
        self.sides.setCurrentWidget(self.entry)
        self.spread.show_part(0)
        self.list.take_focus()

    def show_house(self) -> None:
        """Say how the house is kept, and offer to back it up."""
        self._turn(self.house.panel)
        self.house.begin()

    def undo(self, entry: int) -> None:
        """Show what reversing an entry would take along."""
        if entry:
            self._wants_amending = False
            self.undoing.clear()
            self.list.table.select(str(entry))
            self.presenter.undo(entry)

    def _amend(self, entry: int) -> None:
        """Amend an entry: which ways there are is asked with what a reversal would take."""
        if entry:
            self._wants_amending = True
            self.presenter.undo(entry)

    def narrow(self) -> None:
        """Take something out of reach: of the lot to be amended, where one is in hand."""
        self._turn(self.narrowing.panel)
        self.narrowing.about(self._desk.code_of(self.amending.about.text()))

    def _amend_on(self) -> None:
        """What was half typed is there again."""
        self._turn(self.amending.panel)
        if self.presenter.is_seen:
            self.amending.begin()

    def _previewed(self, preview: Previewed) -> None:
        ways = preview.what.amends
        if self._wants_amending:
            self._wants_amending = False
            self.presenter.leave()
            self.amending.show_ways(ways)
            self._turn(self.amending.panel)
            self.amending.begin()
            return
        again = self.sides.currentWidget() is self.undoing.panel
        self.undoing.show_preview(preview)
        self._turn(self.undoing.panel)
        if not again:
            self.undoing.begin()

    def _amend_instead(self) -> None:
        preview = self.presenter.preview
        if preview is not None:
            self.presenter.leave()
            self.amending.show_ways(preview.what.amends)
            self._turn(self.amending.panel)
            self.amending.begin()

    # What the presenter has to show.

    def _show(self, page: EntriesPage) -> None:
        # In turns of their own: all of it in one would hold the window.
        self._desk.jobs.turns.add_pieces(self._showing(page))

    def _showing(self, page: EntriesPage) -> Making[None]:
        filtered = self.list.is_filtered()
        self.answer.show_answer(
            tr("What was recorded"), answer(page.rows, more=page.more, filtered=filtered)
        )
        self.older.setVisible(page.more)
        self.all.setVisible(filtered)
        yield
        self.list.show_page(page)
        yield
        self.amending.show_page(page)
        self.draft.show_page(page)
        self.narrowing.show_page(page)
        self.house.show_page(page)
        self._chosen(self.list.in_hand())

    def _chosen(self, entry: int) -> None:
        row = self.presenter.row(entry)
        if row is None:
            self.notes.show_messages(())
            self.entry.set_heading(tr("The entry"))
        else:
            self.notes.show_messages(entry_notes(row))
            self.entry.set_heading(tr("Entry {n}").format(n=format_number(row.entry)))
        self.reverse_it.setVisible(row is not None and not row.reversed_by and not row.reverses)
        self.amend_it.setVisible(row is not None and not row.reversed_by and not row.reverses)
        self.open_card.setVisible(row is not None and bool(row.code))

    def _refused(self, refusal: Refusal) -> None:
        shown = self.sides.currentWidget()
        if shown is self.undoing.panel:
            self.undoing.show_refusal(refusal)
        elif shown is self.amending.panel:
            self.amending.show_refusal(refusal)
        else:
            self.list.refuse_code()
            self.asks.told(Message(Mark.REFUSED, tr("Not found."), refusal_words(refusal)))

    def _done(self, message: Message) -> None:
        self.undoing.clear()
        self.draft.forget()
        self._leave()
        self.asks.told(message)

    def _card(self) -> None:
        row = self.presenter.row(self.list.in_hand())
        if row is not None and row.code:
            self.asks.card.emit(row.code)

    def _keep_folder(self, folder: Path) -> None:
        self._desk.remember(replace(self._desk.settings, backups=str(folder)))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.widget and event.type() in (QEvent.Type.Show, QEvent.Type.Hide):
            self.presenter.is_seen = event.type() == QEvent.Type.Show
        return super().eventFilter(watched, event)

    # What the window asks of a station.

    def begin(self) -> None:
        """Ask what was recorded, and put the keyboard where work goes on."""
        self.presenter.is_seen = True
        self.presenter.ask()
        shown = self.sides.currentWidget()
        if shown is self.undoing.panel:
            self.undoing.begin()
        elif shown is self.amending.panel:
            self.amending.begin()
        elif shown is self.narrowing.panel:
            self.narrowing.form.begin()
        else:
            self.list.take_focus()

    def take_code(self, code: str) -> bool:
        """A code narrows the list; while something is amended it is what is meant."""
        plain = self._desk.code_of(code)
        if not plain:
            return False
        if self.sides.currentWidget() is self.amending.panel:
            return self.amending.take_code(plain, self._desk.letter_of(code))
        if self.sides.currentWidget() is self.narrowing.panel:
            return self.narrowing.take_code(plain)
        self.list.show_about(plain)
        return True

    def handle(self, action: str) -> bool:
        """The keys that mean the entry in hand, and the list."""
        if action == "reverse":
            self.undo(self.list.in_hand())
        elif action == "card":
            self._card()
        elif action == "find":
            self.spread.show_part(0)
            self.list.narrow_down()
        elif action == "print":
            row = self.presenter.row(self.list.in_hand())
            self.sheets.print_history(row.code if row is not None else "")
        elif action == "clear":
            self.list.show_all()
        else:
            return False
        return True
