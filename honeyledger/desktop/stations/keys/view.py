"""The page of keys: every action of the table with its key; and a place to try a scanner."""

from PySide6.QtCore import QT_TRANSLATE_NOOP
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QWidget

from honeyledger.desktop.actions import ACTIONS, ActionSpec, action_text, action_tip
from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.models.rows import Column, ColumnKind
from honeyledger.desktop.scanning import Scan
from honeyledger.desktop.stations.keys.scans import begin_messages, scan_messages, tr
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.turns import Making, whole
from honeyledger.desktop.widgets.figures import Answer
from honeyledger.desktop.widgets.notes import Notes
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.desktop.widgets.table import Table

# Keys by the names that stand on them and in our sentences: Qt asks for these when it names one.
_NAMES = (
    QT_TRANSLATE_NOOP("QShortcut", "Ctrl"),
    QT_TRANSLATE_NOOP("QShortcut", "Shift"),
    QT_TRANSLATE_NOOP("QShortcut", "Return"),
    QT_TRANSLATE_NOOP("QShortcut", "Enter"),
    QT_TRANSLATE_NOOP("QShortcut", "Esc"),
    QT_TRANSLATE_NOOP("QShortcut", "Tab"),
    QT_TRANSLATE_NOOP("QShortcut", "Space"),
    QT_TRANSLATE_NOOP("QShortcut", "Backspace"),
    QT_TRANSLATE_NOOP("QShortcut", "Del"),
    QT_TRANSLATE_NOOP("QShortcut", "PgUp"),
    QT_TRANSLATE_NOOP("QShortcut", "PgDown"),
    QT_TRANSLATE_NOOP("QShortcut", "Up"),
    QT_TRANSLATE_NOOP("QShortcut", "Down"),
    QT_TRANSLATE_NOOP("QShortcut", "Left"),
    QT_TRANSLATE_NOOP("QShortcut", "Right"),
    QT_TRANSLATE_NOOP("QShortcut", "Home"),
    QT_TRANSLATE_NOOP("QShortcut", "End"),
)


def key_text(spec: ActionSpec) -> str:
    """A key as this computer writes it."""
    return QKeySequence(spec.keys).toString(QKeySequence.SequenceFormat.NativeText)


def own_keys() -> tuple[ActionSpec, ...]:
    """Keys that fields, tables and the river have of their own, wherever they stand."""
    return (
        ActionSpec("own-enter", tr("Go on"), "Return",
                   tr("Goes to the next field; the last one records. In a table, the card.")),
        ActionSpec("own-tab", tr("Next"), "Tab",
                   tr("Goes to whatever comes next, the buttons too.")),
        ActionSpec("own-escape", tr("Back"), "Esc",
                   tr("Closes the card; leaves the scan box, the guide, a field to find.")),
        ActionSpec("own-down", tr("Choose"), "Down",
                   tr("Opens what a field offers, as F4 does; in a table, the next row.")),
        ActionSpec("own-up", tr("One more"), "Up",
                   tr("In a count one more, in a day one later; Down one less, one earlier.")),
        ActionSpec("own-space", tr("Press"), "Space",
                   tr("Presses a button; chooses one of several.")),
        ActionSpec("own-left", tr("Walk"), "Left",
                   tr("With Right along buttons, places, a river; Home and End to the ends.")),
        ActionSpec("own-page", tr("By the page"), "PgDown",
                   tr("Through a page of the guide, a map's yards, a chart; PgUp back.")),
        ActionSpec("own-copy", tr("Copy"), "Ctrl+C",
                   tr("Copies the rows of a table, for a spreadsheet.")),
        ActionSpec("own-larger", tr("Larger"), "+",
                   tr("Draws a river or a map larger; - smaller, 0 as it was.")),
        ActionSpec("own-earlier", tr("Goes in earlier"), "Ctrl+Up",
                   tr("In the hot room: the chosen pallet; Ctrl+Down later.")),
        ActionSpec("own-off", tr("Take off"), "Del",
                   tr("On a note: the chosen lot comes off, as with Backspace.")),
        ActionSpec("own-figures", tr("Figures"), "T",
                   tr("In a chart: its figures as a table, and back.")),
    )  # fmt: skip


class KeysView:
    """The page of keys. See `StationView`."""

    def __init__(self, desk: Desk) -> None:
        whole(self.pieces(desk))

    def pieces(self, desk: Desk) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        self._desk = desk
        self.widget = QWidget()
        self.asks = StationAsks()
        columns: tuple[Column[ActionSpec], ...] = (
            Column("keys", tr("Key"), key_text, strong=True, least=120),
            Column("text", tr("What"), action_text, least=160),
            Column("tip", tr("What it does"), action_tip, ColumnKind.NAME),
        )
        self.rows = (*ACTIONS, *own_keys())
        self.table = Table(columns, lambda spec: spec.key, density=Density.DESK)
        self.table.show_rows(self.rows)
        self.table.say_rows()
        yield
        self.table.view.setAccessibleName(tr("Keys"))
        self.table.opened.connect(self._open)
        panel = Panel(density=Density.DESK)
        panel.set_body(self.table)
        self.tried = Panel(tr("Try a scanner"), density=Density.DESK)
        self.notes = Notes()
        self.notes.show_messages(begin_messages())
        self.tried.set_body(self.notes)
        yield
        answer = Answer()
        words = tr("A scanner works from any page; Enter moves on, and the last Enter records.")
        answer.show_answer(tr("Keys"), words)
        self.spread = Spread(
            [Part(panel, tr("Keys"), 8, 8), Part(self.tried, tr("Try a scanner"), 4, 8)],
            above=answer,
        )
        self.spread.fill(self.widget)

    def _open(self, key: str) -> None:
        opens = next(spec.opens for spec in self.rows if spec.key == key)
        if opens:
            self.asks.open.emit(opens)

    # What the window asks of a station.

    def begin(self) -> None:
        """Put the keyboard on the list."""
        self.spread.show_part(0)
        self.table.take_focus()

    def take_code(self, code: str) -> bool:
        """Whatever is scanned here is only told of."""
        self.show_scan(code, self._desk.last_scan())
        return True

    def show_scan(self, code: str, scan: Scan | None) -> None:
        """Say how a scan came, and what it is."""
        self.notes.show_messages(scan_messages(scan, code, self._desk.prefix))
        self.spread.show_part(1)

    def handle(self, _action: str) -> bool:
        """No key means anything of its own here."""
        return False
