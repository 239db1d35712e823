"""Commands of the terminal one under the other, each with what it does, to be copied."""

from collections.abc import Sequence

from PySide6.QtCore import QMimeData, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QScrollArea,
    QTextEdit,
    QVBoxLayout,
    QWidget,
)

from honeyledger.desktop import look, style, tokens
from honeyledger.desktop.lettering import Hand
from honeyledger.desktop.models.command_lines import Command
from honeyledger.desktop.tokens import Density, Type
from honeyledger.desktop.widgets.buttons import IconButton
from honeyledger.desktop.widgets.text import Text, body, caption

# Word joiner: no line is broken beside it, and nothing is drawn.
_JOINER = "\u2060"


class Typed(QTextEdit):
    """A line as it is typed, wrapped between its words only, as high as it needs to be."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self.setReadOnly(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        style.wear_bars(self)
        self.setFont(look.font(Type.CAPTION, Density.DESK, mono=True))
        self.setAccessibleName(name)
        self.setTabChangesFocus(True)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByMouse
            | Qt.TextInteractionFlag.TextSelectableByKeyboard
        )
        self.viewport().setAutoFillBackground(False)
        self.document().setDocumentMargin(0)

    def line(self) -> str:
        """The line, as it is to be typed."""
        return self.toPlainText().replace(_JOINER, "")

    def show_line(self, text: str) -> None:
        """Show another line; an option is never parted from its hyphens."""
        self.setPlainText(text.replace("-", f"{_JOINER}-{_JOINER}"))
        self._fit()

    def createMimeDataFromSelection(self) -> QMimeData:
        """What is copied is what is typed, without the joiners that hold words together."""
        data = QMimeData()
        data.setText(self.textCursor().selectedText().replace(_JOINER, ""))
        return data

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        self.document().setTextWidth(self.viewport().width())
        self.setFixedHeight(int(self.document().size().height()) + 2)


class CommandLine(QWidget):
    """One command: what it does, and the line, which can be selected and copied."""

    def __init__(self, command: Command) -> None:
        super().__init__()
        self.command = command
        self.line = Typed(command.does)
        self.copying = IconButton("copy", self.tr("Copy this line"), colour="ink2")
        self.copying.clicked.connect(self.copy)
        row = QHBoxLayout()
        row.setContentsMargins(10, 8, 0, 8)
        row.setSpacing(4)
        row.addWidget(self.line, 1)
        row.addWidget(self.copying)
        self._well = row
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(caption(command.does))
        column.addLayout(row)
        self.show_code("")

    def show_code(self, code: str) -> None:
        """Write the line about this code."""
        self.line.show_line(self.command.typed(code))

    def copy(self) -> None:
        """Put the line where it can be pasted from."""
        self.line.selectAll()
        self.line.copy()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(look.colour("well"))
        well = QRectF(self._well.geometry())
        painter.drawRoundedRect(well, tokens.RADIUS_CONTROL, tokens.RADIUS_CONTROL)


class Commands(QScrollArea):
    """The commands one under the other, then a note and what stands there later."""

    def __init__(self, will: str, note: str, commands: Sequence[Command]) -> None:
        super().__init__()
        self.setFrameShape(QFrame.Shape.NoFrame)
        style.wear_bars(self)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.viewport().setAutoFillBackground(False)
        sheet = QWidget()
        column = QVBoxLayout(sheet)
        side = tokens.PANEL_SIDE - 1
        column.setContentsMargins(side, 8, side, 16)
        column.setSpacing(12)
        self.lines = [CommandLine(command) for command in commands]
        for line in self.lines:
            column.addWidget(line)
        column.addWidget(Text(note, Hand(Type.CAPTION, colour="ink2"), wrap=True))
        column.addSpacing(4)
        column.addWidget(body(will, Density.DESK, wrap=True))
        column.addStretch(1)
        self.setWidget(sheet)
        sheet.setAutoFillBackground(False)

    def show_rows(self, rows: Sequence[tuple[str, str]], chosen: str) -> None:
        """Write every line about the row that is chosen, or the first that can be meant.

        Args:
            rows: the code and the state of each.
        """
        for line in self.lines:
            wanted = line.command.state
            fitting = [code for code, state in rows if not wanted or state == wanted]
            about = chosen if chosen in fitting else next(iter(fitting), "")
            line.show_code(about)
