"""What there is of the kind in hand, at the right; or all that is wrong with a table."""

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QStackedWidget, QVBoxLayout, QWidget

from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.rows import Column, ColumnKind
from honeyledger.desktop.stations.setup.asks import tr
from honeyledger.desktop.stations.setup.records import RecordRow
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.notes import Notes
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.sheet_look import SheetLook
from honeyledger.desktop.widgets.table import Table
from honeyledger.documents.stock import Stock


class RecordsPanel(Panel):
    """The records of one kind.

    Signals:
        opened: the key of a record, to be taken in hand.
    """

    opened = Signal(str)

    def __init__(self, density: Density) -> None:
        super().__init__(tr("What there is"), density=density)
        columns: tuple[Column[RecordRow], ...] = (
            Column(
                "name",
                tr("Name"),
                lambda row: row.name,
                ColumnKind.NAME,
                note=lambda row: row.facts,
                strong=True,
            ),
            Column("code", tr("Code or day"), lambda row: row.code, least=96),
        )
        empty = tr("There is none yet.")
        self.records = Table(columns, lambda row: row.key, density=density, empty=empty)
        self.records.view.setAccessibleName(tr("What there is"))
        self.records.opened.connect(self.opened)
        self.notes = Notes()
        self.bodies = QStackedWidget()
        self.bodies.addWidget(self.records)
        self.bodies.addWidget(self.notes)
        self.sheet = SheetLook()
        self.sheet.setVisible(False)
        whole = QWidget()
        column = QVBoxLayout(whole)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.sheet, 3)
        column.addWidget(self.bodies, 2)
        self.set_body(whole)
        self.badges = self.add_bar()
        self.badge = self.badges.add_secondary(tr("Print the badge"))
        self.every_badge = self.badges.add_plain(tr("All badges"))
        self.badges.setVisible(False)

    def show_rows(self, heading: str, rows: Sequence[RecordRow]) -> None:
        """Show what there is of a kind."""
        self.records.show_rows(rows)
        self.set_heading(heading)

    def codes(self) -> list[str]:
        """The codes of all that is listed."""
        return [row.code for row in self.records.model.rows() if row.code]

    def draw_stock(self, stock: Stock | None) -> None:
        """Draw a sheet of labels over the list; None for none."""
        self.sheet.show_stock(stock)
        self.sheet.setVisible(stock is not None)

    def show_problems(self, messages: Sequence[Message]) -> None:
        """All that is wrong with a table, one by one; none for the list again."""
        self.notes.show_messages(messages)
        self.bodies.setCurrentWidget(self.notes if messages else self.records)
