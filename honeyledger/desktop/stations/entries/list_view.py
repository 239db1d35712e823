"""The list of what was recorded, with what narrows it."""

from dataclasses import replace
from itertools import pairwise

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from honeyledger.desktop.stations.entries.amends import tr
from honeyledger.desktop.stations.entries.presenter import EntriesPage, EntriesPresenter
from honeyledger.desktop.stations.entries.rows import entry_columns
from honeyledger.desktop.tokens import PANEL_SIDE, Density
from honeyledger.desktop.widgets.buttons import Button
from honeyledger.desktop.widgets.choices import Choice, ChoiceField
from honeyledger.desktop.widgets.fields import CodeField
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.table import Table
from honeyledger.services.journal import USUAL_COUNT, Wanted
from honeyledger.services.journal_words import called

# Under it the fields that narrow the list would leave no room for the list.
LOW = 360
KINDS = (
    *("receive", "split", "join", "count", "dry", "set aside", "open run", "load", "wet out"),
    *("cappings", "wash", "close run", "fill", "bung", "reweigh", "skim", "purchase", "measure"),
    *("sample", "hold", "clear", "release", "change-over", "bottle", "dispatch", "take back"),
    *("discard", "register", "amend", "narrow", "reverse"),
)


class EntryList(QWidget):
    """The entries wanted, newest first, and the fields that say which.

    Signals:
        chosen: the number of the entry in hand, 0 for none.
        opened: the code of an entry that was opened.
    """

    chosen = Signal(int)
    opened = Signal(str)

    def __init__(self, presenter: EntriesPresenter, density: Density) -> None:
        super().__init__()
        self._presenter = presenter
        self.panel = Panel(density=density)
        self.station = ChoiceField(tr("Station"), density=density)
        self.kind = ChoiceField(tr("What"), density=density)
        self.code = CodeField(tr("About a code"), density=density)
        self.kind.set_choices([Choice(kind, called(kind)) for kind in KINDS])
        self.station.set_hint(tr("all"))
        self.kind.set_hint(tr("all"))
        self.narrowing = QWidget()
        self._is_narrowing = False
        row = QHBoxLayout(self.narrowing)
        row.setContentsMargins(PANEL_SIDE - 1, 12, PANEL_SIDE - 1, 12)
        row.setSpacing(12)
        for field, part in ((self.station, 3), (self.kind, 4), (self.code, 3)):
            row.addWidget(field, part)
            field.edited.connect(lambda _text: self._narrow())
            field.submitted.connect(self.take_focus)
        for choice in (self.station, self.kind):
            choice.chosen.connect(lambda _key: self._narrow())
        self.table = Table(
            entry_columns(),
            lambda row: str(row.entry),
            density=density,
            empty=tr("No entry is like that. Ctrl+Backspace shows them all again."),
        )
        self.table.view.setAccessibleName(tr("What was recorded"))
        self.table.selected.connect(lambda key: self.chosen.emit(int(key or 0)))
        self.table.opened.connect(self._open)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.narrowing)
        column.addWidget(self.table, 1)
        self.panel.set_body(self)

    def add_bar(self) -> tuple[Button, Button, Button]:
        """The buttons under the list: older entries, all of them, how the house is kept."""
        bar = self.panel.add_bar()
        older, every = bar.add_secondary(tr("Older ones")), bar.add_plain(tr("Show all"))
        kept = bar.add_plain(tr("How this house is kept"))
        # Tab goes through the list and its own buttons before it goes to the other panel.
        for before, after in pairwise((self.table.view, older, every, kept)):
            QWidget.setTabOrder(before, after)
        return older, every, kept

    def show_page(self, page: EntriesPage) -> None:
        """Show the entries that have come."""
        stations = [Choice(one.station, one.station) for one in page.seen if one.station]
        self.station.set_choices(sorted(stations, key=lambda choice: choice.text.casefold()))
        self.table.show_rows(page.rows)
        self.table.say_rows()
        if page.rows and not self.table.selected_key():
            self.table.select(str(page.rows[0].entry))

    def is_filtered(self) -> bool:
        """Whether not all entries are wanted."""
        return replace(self._presenter.wanted, count=USUAL_COUNT) != Wanted()

    def in_hand(self) -> int:
        """The number of the entry that is chosen, 0 for none."""
        return int(self.table.selected_key() or 0)

    def take_focus(self) -> None:
        """Put the keyboard on the entries."""
        self._is_narrowing = False
        self._make_room()
        self.table.take_focus()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._make_room()

    def _make_room(self) -> None:
        """In a low window the entries have the room, but while they are narrowed down."""
        room = self.panel.height() >= LOW or self._is_narrowing or self.is_filtered()
        self.narrowing.setVisible(room)

    def narrow_down(self) -> None:
        """Put the keyboard where the list is narrowed."""
        self._is_narrowing = True
        self._make_room()
        self.code.take_focus()

    def show_all(self) -> None:
        """List all entries again."""
        for field in (self.station, self.kind, self.code):
            field.clear()
        self._presenter.want(Wanted())
        self._presenter.ask()

    def show_about(self, code: str) -> None:
        """List what a code is about, whatever was wanted before."""
        for field in (self.station, self.kind):
            field.clear()
        self.code.set_text(code)
        self._narrow()
        self._presenter.ask()

    def _narrow(self) -> None:
        """What is typed half is no station or kind yet, and narrows nothing."""
        self.code.set_refused(False)
        kind = self.kind.key()
        self._presenter.want(Wanted((kind,) if kind else (), self.station.key(), self.code.text()))

    def _open(self, key: str) -> None:
        row = self._presenter.row(int(key))
        if row is not None and row.code:
            self.opened.emit(row.code)

    def refuse_code(self) -> None:
        """The code is none: its field says so and has the keyboard."""
        self.code.set_refused(True)
        self.code.editor.setFocus(Qt.FocusReason.OtherFocusReason)
