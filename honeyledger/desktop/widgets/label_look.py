"""A label as it will print, as large as there is room, black on white in either theme."""

from PySide6.QtCore import QCoreApplication, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from honeyledger.desktop import lettering, look, tokens
from honeyledger.desktop.inks import BoxInk, Ink, LineInk, SeenLabel, ShapeInk, TextInk
from honeyledger.desktop.lettering import Hand
from honeyledger.desktop.tokens import Type

_CAPTION = Hand(Type.CAPTION, colour="ink2")
_GAP = 8.0
_LEAST = 80  # below that nothing on it can be made out
_POINTS_PER_MM = 72 / 25.4
# Type is laid out at this size and shrunk, so that hinting moves no sign.
_LARGE_PX = 100
_BLACK, _WHITE = QColor(Qt.GlobalColor.black), QColor(Qt.GlobalColor.white)


class LabelLook(QWidget):
    """The label, with its size on paper above it; a screen is no proof of a print."""

    def __init__(self) -> None:
        super().__init__()
        self._label: SeenLabel | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def show_label(self, label: SeenLabel | None) -> None:
        """Show this label; None for none."""
        self._label = label
        self.setAccessibleName(self.words())
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

    def sizeHint(self) -> QSize:
        return QSize(320, 220)

    def paper(self) -> QRectF:
        """Where the paper stands."""
        if self._label is None:
            return QRectF()
        top = _CAPTION.line + _GAP
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
            _draw(painter, ink)


def _draw(painter: QPainter, ink: Ink) -> None:
    colour = _WHITE if getattr(ink, "white", False) else _BLACK
    if isinstance(ink, TextInk):
        _draw_text(painter, ink, colour)
    elif isinstance(ink, LineInk):
        painter.setPen(QPen(colour, ink.thick))
        painter.drawLine(QPointF(ink.x1, ink.y1), QPointF(ink.x2, ink.y2))
    elif isinstance(ink, ShapeInk):
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour)
        painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in ink.points]))
    elif ink.thick:
        _draw_outline(painter, ink, colour)
    else:
        painter.fillRect(QRectF(ink.x, ink.y, ink.width, ink.height), colour)


def _draw_outline(painter: QPainter, ink: BoxInk, colour: QColor) -> None:
    half = ink.thick / 2
    painter.setPen(QPen(colour, ink.thick))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    box = QRectF(ink.x, ink.y, ink.width, ink.height)
    painter.drawRect(box.adjusted(half, half, -half, -half))


def _draw_text(painter: QPainter, ink: TextInk, colour: QColor) -> None:
    """The run exactly as wide as on paper."""
    family, _, weight = ink.face.removeprefix("Honeyledger").partition("-")
    font = QFont(look.MONO if family == "Mono" else look.SANS)
    font.setPixelSize(_LARGE_PX)
    font.setWeight(
        {"Bold": QFont.Weight.Bold, "SemiBold": QFont.Weight.DemiBold}.get(
            weight, QFont.Weight.Normal
        )
    )
    painter.save()
    painter.translate(ink.x, ink.y)
    size = ink.size_pt / _POINTS_PER_MM / _LARGE_PX
    painter.scale(size, size)
    painter.setFont(font)
    painter.setPen(colour)
    painter.drawText(QPointF(0, 0), ink.text)
    painter.restore()
