"""The page of keys: every action of the table, its key, and what it does."""

from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QVBoxLayout, QWidget

from honeyledger.desktop.actions import ACTIONS, ActionSpec, action_text, action_tip
from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.models.rows import Column, ColumnKind
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.figures import Answer
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.desktop.widgets.table import Table


def key_text(spec: ActionSpec) -> str:
    """A key as this computer writes it."""
    return QKeySequence(spec.keys).toString(QKeySequence.SequenceFormat.NativeText)


class KeysView:
    """The page of keys. See `StationView`."""

    def __init__(self, _desk: Desk | None = None) -> None:
        self.widget = QWidget()
        self.asks = StationAsks()
        tr = self.widget.tr
        columns: tuple[Column[ActionSpec], ...] = (
            Column("keys", tr("Key"), key_text, strong=True, least=150),
            Column("text", tr("What"), action_text, least=200),
            Column("tip", tr("What it does"), action_tip, ColumnKind.NAME),
        )
        self.table = Table(columns, lambda spec: spec.key, density=Density.DESK)
        self.table.show_rows(ACTIONS)
        self.table.say_rows()
        self.table.view.setAccessibleName(tr("Keys"))
        self.table.opened.connect(self._open)
        panel = Panel(density=Density.DESK)
        panel.set_body(self.table)
        answer = Answer()
        words = tr("A scanner works from any page; Enter moves on, and the last Enter records.")
        answer.show_answer(tr("Keys"), words)
        column = QVBoxLayout(self.widget)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(Spread([Part(panel, tr("Keys"), 12, 8)], above=answer))

    def _open(self, key: str) -> None:
        opens = next(spec.opens for spec in ACTIONS if spec.key == key)
        if opens:
            self.asks.open.emit(opens)

    # What the window asks of a station.

    def begin(self) -> None:
        """Put the keyboard on the list."""
        self.table.take_focus()

    def take_code(self, _code: str) -> bool:
        """Its card opens."""
        return False

    def handle(self, _action: str) -> bool:
        """No key means anything of its own here."""
        return False
