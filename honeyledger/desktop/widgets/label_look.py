"""A label as it will print, as large as there is room, black on white in either theme."""

from PySide6.QtCore import QCoreApplication, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from honeyledger.desktop import lettering, look, tokens
from honeyledger.desktop.ink_paint import draw_ink
from honeyledger.desktop.inks import SeenLabel
from honeyledger.desktop.language import say
from honeyledger.desktop.lettering import Hand, Run
from honeyledger.desktop.tokens import Type

_CAPTION = Hand(Type.CAPTION, colour="ink2")
_NOTE = Hand(Type.CAPTION, colour="ink")
_GAP = 8.0
_LEAST = 80  # below that nothing on it can be made out
_WHITE = QColor(Qt.GlobalColor.white)


class LabelLook(QWidget):
    """The label, with its size on paper above it; a screen is no proof of a print."""

    def __init__(self) -> None:
        super().__init__()
        self._label: SeenLabel | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def show_label(self, label: SeenLabel | None) -> None:
        """Show this label; None for none."""
        self._label = label
        notes = [say(note) for note in label.notes] if label is not None else []
        self.setAccessibleName(". ".join((self.words(), *notes)))
        self.setVisible(label is not None)
        self.update()

    def words(self) -> str:
        """Whose label it is, and how large on paper."""
        if self._label is None:
            return ""
        words = QCoreApplication.translate(
            "label", "{code} as it will print, {width} × {height} mm"
        )
        return words.format(
            code=self._label.code,
            width=f"{self._label.width_mm:g}",
            height=f"{self._label.height_mm:g}",
        )

    def _notes(self) -> list[list[Run]]:
        """What is worth knowing of it, in lines that fit."""
        label, room = self._label, self.width() - 2 * tokens.PANEL_SIDE
        notes = [say(note) for note in label.notes] if label is not None else []
        return [line for note in notes for line in lettering.wrapped(note, _NOTE, room)]

    def sizeHint(self) -> QSize:
        return QSize(320, 220)

    def paper(self) -> QRectF:
        """Where the paper stands."""
        if self._label is None:
            return QRectF()
        top = _CAPTION.line + len(self._notes()) * _NOTE.line + _GAP
        side = tokens.PANEL_SIDE
        room = QRectF(side, top, self.width() - 2 * side, self.height() - top - _GAP)
        scale = min(room.width() / self._label.width_mm, room.height() / self._label.height_mm)
        size = self._label.width_mm * scale, self._label.height_mm * scale
        return QRectF(room.left(), room.top(), *size)

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self._label is None or self.height() < _LEAST:
            return
        painter = QPainter(self)
        line = QRectF(tokens.PANEL_SIDE, 0, self.width() - 2 * tokens.PANEL_SIDE, _CAPTION.line)
        lettering.draw(painter, line, [_CAPTION.run(self.words())])
        for note in self._notes():
            line = line.translated(0, line.height())
            lettering.draw(painter, line, note)
        paper = self.paper()
        painter.fillRect(paper, _WHITE)
        painter.setPen(QPen(look.colour("edge"), 1))
        painter.drawRect(paper)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setClipRect(paper)
        painter.translate(paper.topLeft())
        scale = paper.width() / self._label.width_mm
        painter.scale(scale, scale)
        for ink in self._label.inks:
            draw_ink(painter, ink)
