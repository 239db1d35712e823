"""What a station will show, and the commands that do its work until then, to be copied."""

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QGuiApplication, QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLineEdit,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from honeyledger.desktop import look, tokens
from honeyledger.desktop.lettering import Hand
from honeyledger.desktop.stations.meanwhile.page import Command
from honeyledger.desktop.tokens import Density, Type
from honeyledger.desktop.widgets.buttons import IconButton
from honeyledger.desktop.widgets.text import Text, body, caption


class CommandLine(QWidget):
    """One command: what it does, and the line, which can be selected and copied."""

    def __init__(self, command: Command) -> None:
        super().__init__()
        self.command = command
        self.line = QLineEdit()
        self.line.setReadOnly(True)
        self.line.setFrame(False)
        self.line.setFont(look.font(Type.CAPTION, Density.DESK, mono=True))
        self.line.setAccessibleName(command.does)
        self.line.setFixedHeight(tokens.TARGET_LEAST)
        self.line.setProperty("ring", "none")
        palette = QPalette()
        palette.setColor(QPalette.ColorRole.Base, Qt.GlobalColor.transparent)
        self.line.setPalette(palette)
        copy = IconButton("copy", self.tr("Copy this line"), colour="ink2")
        copy.clicked.connect(self.copy)
        row = QHBoxLayout()
        row.setContentsMargins(8, 0, 0, 0)
        row.setSpacing(4)
        row.addWidget(self.line, 1)
        row.addWidget(copy)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        self.does = caption(command.does)
        column.addWidget(self.does)
        column.addLayout(row)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.show_code("")

    def show_code(self, code: str) -> None:
        """Write the line about this code."""
        text = self.command.typed(code)
        self.line.setText(text)
        self.line.setToolTip(text)
        self.line.setCursorPosition(0)

    def copy(self) -> None:
        """Put the line where it can be pasted from."""
        self.line.selectAll()
        QGuiApplication.clipboard().setText(self.line.text())

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(look.colour("well"))
        top = self.does.height() + 4
        well = QRectF(0, top, self.width(), tokens.TARGET_LEAST)
        painter.drawRoundedRect(well, tokens.RADIUS_CONTROL, tokens.RADIUS_CONTROL)
        if self.line.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(look.colour("focus"))
            painter.drawRoundedRect(well.adjusted(1, 1, -1, -1), 4, 4)

    def sizeHint(self) -> QSize:
        return QSize(200, self.does.sizeHint().height() + 4 + tokens.TARGET_LEAST)


class Commands(QScrollArea):
    """A paragraph, then the commands one under the other."""

    def __init__(self, will: str, note: str, commands: Sequence[Command]) -> None:
        super().__init__()
        self.setFrameShape(QFrame.Shape.NoFrame)
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

    def show_code(self, code: str) -> None:
        """Write every line about the row that is chosen."""
        for line in self.lines:
            line.show_code(code)
