"""The right panel of dispatch: the note as it grows, what is on hand, the notes, who has a lot."""

from collections.abc import Callable, Sequence
from typing import Any

from PySide6.QtCore import QEvent, QObject, QPoint, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QMenu, QStackedWidget, QVBoxLayout, QWidget

from honeyledger.desktop import style
from honeyledger.desktop.models.rows import Column
from honeyledger.desktop.stations.dispatch import rows, side_rows
from honeyledger.desktop.stations.dispatch.note_presenter import NotePresenter
from honeyledger.desktop.stations.dispatch.rows import counted, tr
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.turns import Making, Pieced
from honeyledger.desktop.widgets.buttons import Button
from honeyledger.desktop.widgets.figures import KeyFigure, KeyFigures
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.table import Table, TablePlan
from honeyledger.desktop.widgets.text import body
from honeyledger.services.dispatch_page import DispatchPage
from honeyledger.services.dispatch_returns import CameBack

NOTE, HAND, NOTES, HAD, FOLLOWS = "note", "hand", "notes", "had", "follows"
_FOOT = 48
_DELETE = (Qt.Key.Key_Delete, Qt.Key.Key_Backspace)


class SidePanel(Pieced, QObject):
    """One of five views in one panel, each with its heading.

    Signals:
        opened: the view and the key of a row that was opened.
        taken_off: the key of a line that does not go after all.
        paper_asked: the code of a note whose paper is wanted.
        drums_asked: the same of the list of its drums.
        wanted: somebody wants to see a view.
        grown: the table of a view was made.
    """

    opened = Signal(str, str)
    taken_off = Signal(str)
    paper_asked = Signal(str)
    drums_asked = Signal(str)
    wanted = Signal(str)
    grown = Signal()

    def pieces(self, presenter: NotePresenter, density: Density) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        QObject.__init__(self)
        self._presenter, self._density = presenter, density
        self.shown = HAND
        self._is_chosen = False
        self.panel = Panel(tr("On hand"), density=density)
        self.tables: dict[str, Table] = {}
        self._more_headings: dict[str, str] = {}
        self._makers: dict[str, Callable[[], Table]] = {}
        self._make_tables()
        yield
        self.figures = KeyFigures(density=density)
        self.above_foot = self.tables[NOTE].set_above_foot(self.figures)
        self.above_foot.want(False)
        self.lines = QWidget()
        self._lines = QVBoxLayout(self.lines)
        self._lines.setContentsMargins(20, 16, 20, 16)
        self._lines.setSpacing(12)
        self._lines.addStretch(1)
        self.stack = QStackedWidget()
        self._pages: dict[str, QWidget] = {**self.tables, FOLLOWS: self.lines}
        for page in self._pages.values():
            self.stack.addWidget(page)
        self.panel.set_body(self.stack)
        self._make_bar()
        self.show_view(HAND)

    def _make_tables(self) -> None:
        columns: dict[str, tuple[Sequence[Column[Any]], str]] = {
            NOTE: (rows.line_columns("kg"), tr("Scan the first drum or jar of this note.")),
            HAND: (side_rows.hand_columns("kg"), tr("Nothing is here that could be sent.")),
            NOTES: (side_rows.note_columns("kg"), tr("Nothing has been sent yet.")),
            HAD: (side_rows.had_columns("kg"), tr("Scan what came back: who has it stands here.")),
        }
        for view, (made, empty) in columns.items():
            table = Table(
                made,
                lambda row: row.key,
                density=self._density,
                empty=empty,
                plan=TablePlan(foot_height=_FOOT),
            )
            table.opened.connect(lambda key, view=view: self.opened.emit(view, key))
            self.tables[view] = table
        self.tables[NOTE].view.installEventFilter(self)
        for view, name in self._headings().items():
            if view in self.tables:
                self.tables[view].view.setAccessibleName(name)

    def _make_bar(self) -> None:
        bar = self.bar = self.panel.add_bar()
        self.take_off = bar.add_secondary(tr("Take off"))
        self.paper = bar.add_secondary(tr("Print"), icon="print")
        self._switches: dict[str, Button] = {
            NOTE: bar.add_plain(tr("This note")),
            HAND: bar.add_plain(tr("On hand")),
            NOTES: bar.add_plain(tr("Notes")),
        }
        for view, button in self._switches.items():
            button.clicked.connect(lambda _checked=False, view=view: self.choose_view(view))
        self.take_off.clicked.connect(self._take_off)
        self.paper.clicked.connect(self._ask_paper)

    def add_view(self, view: str, heading: str, make: Callable[[], Table], words: str) -> None:
        """One more view, made when it is first asked for, with the button that shows it."""
        self._more_headings[view] = heading
        self._makers[view] = make
        button = self._switches[view] = self.bar.add_plain(words)
        button.clicked.connect(lambda: self.choose_view(view))

    def table(self, view: str) -> Table:
        """The table of a view."""
        if view not in self.tables:
            table = self.tables[view] = self._pages[view] = self._makers[view]()
            table.view.setAccessibleName(self._more_headings[view])
            table.opened.connect(lambda key: self.opened.emit(view, key))
            self.stack.addWidget(table)
            self.grown.emit()
        return self.tables[view]

    def _headings(self) -> dict[str, str]:
        return self._more_headings | {
            NOTE: tr("This note"),
            HAND: tr("On hand, the oldest first"),
            NOTES: tr("Dispatch notes"),
            HAD: tr("Who has it"),
            FOLLOWS: tr("What follows"),
        }

    # Which view.

    def choose_view(self, view: str) -> None:
        """The person wants to see this, and the keyboard goes there."""
        self._is_chosen = True
        self.show_view(view)
        self.wanted.emit(view)
        table = self.tables.get(view)
        if table is not None:
            table.take_focus()

    def show_view(self, view: str) -> None:
        """Show this."""
        self.shown = view
        if view in self._makers:
            self.table(view)
        self.stack.setCurrentWidget(self._pages[view])
        self._say_heading()
        for one, button in self._switches.items():
            button.setVisible(one != view)
        self.take_off.setVisible(view == NOTE)
        self.paper.setVisible(view == NOTES)

    def follow(self, view: str) -> None:
        """Something else happens now: what belongs to it is shown."""
        self._is_chosen = False
        self.show_view(view)

    def _say_heading(self) -> None:
        heading = self._headings()[self.shown]
        note = self._presenter.note
        if self.shown == NOTE and note.customer.strip():
            heading = tr("For {customer}").format(customer=rows.customer_words(note.customer))
        if self.shown == NOTES and (aside := len(self._presenter.open.aside)):
            heading = tr("Dispatch notes, {n} open").format(n=aside)
        self.panel.set_heading(heading)

    # What is shown.

    def show_page(self, page: DispatchPage) -> None:
        """The page has come: the house's unit is known only since then."""
        unit = page.unit
        self.tables[NOTE].model.columns = rows.line_columns(unit)
        self.tables[HAND].model.columns = side_rows.hand_columns(unit)
        self.tables[NOTES].model.columns = side_rows.note_columns(unit)
        self.tables[HAD].model.columns = side_rows.had_columns(unit)
        hand = side_rows.hand_rows(page)
        self.tables[HAND].show_rows(hand)
        self.tables[HAND].show_totals(tr("May go"), side_rows.hand_totals(hand, unit))
        self.show_note()

    def show_note(self, arrived: str = "") -> None:
        """The note in hand has other lines; before the first one, what is on hand is shown."""
        page, note = self._presenter.page, self._presenter.note
        if page is None:
            return
        table = self.tables[NOTE]
        table.show_rows(rows.line_rows(note, page))
        total = rows.sum_of(note, page)
        table.show_totals(rows.sum_words(total, page.unit), rows.sum_totals(total, page.unit))
        if arrived:
            table.select(arrived)
            table.mark_arrived(arrived)
        customer = self._presenter.customer()
        figures = rows.lately_figures(page, customer)
        name = rows.customer_words(note.customer)
        self.figures.show_figures(
            rows.lately_heading(name), [KeyFigure(one.figure, one.meaning) for one in figures]
        )
        self.above_foot.want(bool(figures))
        noted = side_rows.note_rows(page, self._presenter.open.aside, customer)
        self.tables[NOTES].show_rows(noted)
        if self.shown in (NOTE, HAND) and not self._is_chosen:
            self.show_view(NOTE if note.wanted or note.picked else HAND)
        self._say_heading()

    def show_had(self, back: CameBack | None) -> None:
        """Who has what comes back."""
        page = self._presenter.page
        if page is None:
            return
        table = self.tables[HAD]
        found = side_rows.had_rows(back, page)
        table.view.empty = tr("Scan what came back: who has it stands here.")
        if back is not None:
            table.view.empty = tr("No customer has anything of {code} in the books.").format(
                code=back.code
            )
        table.show_rows(found)
        table.foot.setVisible(bool(found))
        if back is not None and found:
            words = counted(len(found), tr("1 customer"), tr("{n} customers"))
            table.show_totals(f"{back.code} {back.name}: {words}", {})

    def show_follows(self, lines: Sequence[str]) -> None:
        """What comes of it, before it is recorded."""
        while (item := self._lines.takeAt(0)) is not None:
            if (old := item.widget()) is not None:
                old.hide()  # Or the layout, which may not have shown it yet, would as a window.
                old.setParent(None)
                old.deleteLater()
        said = lines or (tr("Scan what it is; what follows from it stands here first."),)
        for line in said:
            self._lines.addWidget(body(line, self._density, wrap=True))
        self._lines.addStretch(1)

    # What is done with a row.

    def selected(self) -> str:
        """The key of the row chosen in the view shown."""
        table = self.tables.get(self.shown)
        return table.selected_key() if table is not None else ""

    def _take_off(self) -> None:
        table = self.tables[NOTE]
        key = table.selected_key()
        place = table.model.place_of(key) if key else None
        if place is None:
            return
        self.taken_off.emit(key)
        if left := table.model.rowCount():
            table.select(table.model.key_at(min(place, left - 1)))

    def _ask_paper(self) -> None:
        """The note itself, or the list of its drums; Enter takes the first."""
        key = self.tables[NOTES].selected_key()
        if not key or key.startswith(side_rows.ASIDE):
            return
        note, drums = self.paper_asked, self.drums_asked
        _offer(self.paper, lambda: note.emit(key), lambda: drums.emit(key))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if (
            isinstance(event, QKeyEvent)
            and event.type() == QEvent.Type.KeyPress
            and event.key() in _DELETE
            and not event.modifiers() & Qt.KeyboardModifier.ControlModifier
        ):
            self._take_off()
            return True
        return super().eventFilter(watched, event)


def _offer(above: QWidget, note: Callable[[], None], drums: Callable[[], None]) -> None:
    """The two papers of a note, above the button that asked."""
    menu = QMenu(above.parentWidget())
    menu.setStyle(style.measured())
    menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    first = menu.addAction(tr("Dispatch note"))
    first.triggered.connect(note)
    menu.addAction(tr("Drum list")).triggered.connect(drums)
    menu.setActiveAction(first)
    menu.popup(above.mapToGlobal(QPoint(0, -menu.sizeHint().height())))
