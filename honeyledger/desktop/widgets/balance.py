"""The balance of a run: two bars on one scale, and the difference said under them."""

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QHelpEvent, QPainter, QPainterPath, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from honeyledger.desktop import colouring, honey_paint, lettering, look
from honeyledger.desktop.lettering import Hand, Run, Side
from honeyledger.desktop.models.balance_bars import (
    BAR,
    BETWEEN,
    LABEL,
    BalanceBars,
    BalanceGeometry,
    BalancePiece,
    PieceKind,
    PlacedPiece,
    lay_out_balance,
)
from honeyledger.desktop.tokens import BOLD, REGULAR, SEMIBOLD, Density, Type

_TITLE = Hand(Type.CAPTION, weight=SEMIBOLD, colour="ink2")
_SMALL = Hand(Type.CAPTION, colour="ink2")
_VERDICT = Hand(Type.FIGURE)
_UNDER = Hand(Type.BODY)
_LOWER_END = 24.0 + BAR + BETWEEN + BAR
_VERDICT_TOP = _LOWER_END + 4
# A piece of a bar, no character: as broad as the narrowest that has a label in it.
_KEY_WIDTH = 40.0
_KEY_GAP = 12.0
_BETWEEN_WORDS = 24.0
_DASHES = [4.0, 3.0]


def label_runs(piece: BalancePiece, words: str, colour: str) -> list[Run]:
    """A label on a bar: the name in 600, a code's number in the companion, the value after it."""
    value = words.removeprefix(piece.label).strip()
    if piece.is_code:
        name = Hand(Type.CAPTION, colour=colour).font(mono=True, weight=BOLD)
        made = [Run(piece.label, name, colour)]
        return [*made, Hand(Type.CAPTION, colour=colour).run("\u00a0" + value)] if value else made
    large = Hand(Type.BODY, Density.DESK, SEMIBOLD, colour)
    made = [large.run(piece.label)]
    if value:
        made.append(Hand(Type.BODY, Density.DESK, REGULAR, colour).run("\u00a0\u00a0" + value))
    return made


class Balance(QWidget):
    """Both bars over the full width."""

    def __init__(self) -> None:
        super().__init__()
        self._bars: BalanceBars | None = None
        self._is_note_below = False
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_bars(self, bars: BalanceBars) -> None:
        """Show a run's balance."""
        self._bars = bars
        pieces = [piece.words for piece in (*bars.went_in, *bars.came_out) if piece.words]
        self.setAccessibleName(f"{bars.title}. {bars.verdict}. {bars.under}")
        self.setAccessibleDescription(", ".join(pieces))
        self._fit()
        self.update()

    def sizeHint(self) -> QSize:
        below = _SMALL.line if self._is_note_below else 0
        return QSize(480, int(_VERDICT_TOP + _VERDICT.line + _UNDER.line) + below)

    def minimumSizeHint(self) -> QSize:
        return QSize(240, self.sizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        """What is said of colours stands beside the losses, or below them where that is narrow."""
        if self._bars is None:
            return
        wanted = lettering.width([_UNDER.run(self._bars.under)]) + lettering.width(self._note())
        is_below = self._words_left() + wanted + _BETWEEN_WORDS > self.width()
        if is_below != self._is_note_below:
            self._is_note_below = is_below
            self.updateGeometry()

    def _note(self) -> list[Run]:
        return [_SMALL.run(self.tr("A screen’s colour is not a reading."))]

    def _words_left(self) -> float:
        """Where words begin: behind the key, where something is missing."""
        missing = self._bars is not None and self._bars.in_g != self._bars.out_g
        return _KEY_WIDTH + _KEY_GAP if missing else 0.0

    def geometry_now(self) -> BalanceGeometry | None:
        """The bars at the present width."""
        if self._bars is None:
            return None
        by_label = {
            words: lettering.width(label_runs(piece, words, "ink"))
            for piece in (*self._bars.went_in, *self._bars.came_out)
            for words in (piece.words, piece.label)
        }
        title = lettering.width([_TITLE.run(self._bars.title)]) + 24
        verdict = lettering.width([_VERDICT.run(self._bars.verdict)]) + _KEY_WIDTH + 48
        return lay_out_balance(
            self._bars,
            float(self.width()),
            lambda words: by_label.get(words, 0.0),
            keep_free=(title, verdict),
        )

    def paintEvent(self, _event: QPaintEvent) -> None:
        geometry = self.geometry_now()
        if self._bars is None or geometry is None:
            return
        painter = QPainter(self)
        title = QRectF(0, 0, self.width(), LABEL)
        lettering.draw(painter, title, [_TITLE.run(self._bars.title)])
        for piece in geometry.upper:
            self._paint_piece(painter, piece)
            self._paint_outside(painter, piece, 0.0, piece.top)
        for piece in geometry.lower:
            self._paint_piece(painter, piece)
            self._paint_outside(painter, piece, _VERDICT_TOP + 2, piece.top + BAR)
        self._paint_words(painter)

    def _missing_edge(self) -> str:
        return "alert" if self._bars is not None and self._bars.is_loss else "edge"

    def _paint_piece(self, painter: QPainter, placed: PlacedPiece) -> None:
        rect = QRectF(placed.left, placed.top, placed.width, BAR)
        piece = placed.piece
        if piece.kind is PieceKind.MISSING:
            self._paint_missing(painter, rect)
            return
        edge = rect.adjusted(0.5, 0.5, -0.5, -0.5)
        path = QPainterPath()
        path.addRect(edge)
        read = piece.pfund_mm is not None
        fill = colouring.pfund_colour(piece.pfund_mm) if piece.pfund_mm is not None else "well"
        painter.fillPath(path, look.colour(fill))
        if piece.kind in (PieceKind.CAPPINGS, PieceKind.HEEL) or not read:
            honey_paint.hatch(painter, path, "honey_hatch" if read else "edge")
        pen = QPen(look.colour("honey_edge" if read else "edge"), 1)
        if piece.kind is PieceKind.HEEL:
            pen.setDashPattern(_DASHES)
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPath(path)
        if placed.inside:
            ink = colouring.ink_on_honey(piece.pfund_mm) if piece.pfund_mm is not None else "ink"
            runs = label_runs(piece, placed.inside, ink)
            words = rect.adjusted(9, 0, -2, 0)
            if not read:
                # No line of the hatch runs through a figure.
                ground = rect.adjusted(1, 8, -1, -8)
                ground.setWidth(min(lettering.width(runs) + 14, ground.width()))
                painter.fillRect(ground, look.colour("well"))
            lettering.draw(painter, words, runs)

    def _paint_missing(self, painter: QPainter, rect: QRectF) -> None:
        painter.fillRect(rect, look.colour("sheet"))
        painter.setPen(QPen(look.colour(self._missing_edge()), 2))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(rect.adjusted(1, 1, -1, -1))

    def _paint_outside(
        self, painter: QPainter, placed: PlacedPiece, top: float, from_y: float
    ) -> None:
        if placed.outside_left is None:
            return
        runs = [_SMALL.run(placed.piece.words)]
        room = QRectF(placed.outside_left, top, lettering.width(runs) + 1, LABEL)
        lettering.draw(painter, room, runs)
        painter.setPen(QPen(look.colour("edge"), 1))
        to_y = top + LABEL - 1 if from_y > top else top + 2
        painter.drawLine(QPointF(placed.middle, from_y), QPointF(placed.middle, to_y))

    def _paint_words(self, painter: QPainter) -> None:
        assert self._bars is not None
        left = self._words_left()
        if left:
            self._paint_missing(painter, QRectF(0, _VERDICT_TOP + 6, _KEY_WIDTH, 20))
        verdict = QRectF(left, _VERDICT_TOP, self.width() - left, _VERDICT.line)
        lettering.draw(painter, verdict, [_VERDICT.run(self._bars.verdict)])
        note = self._note()
        under = QRectF(left, verdict.bottom(), self.width() - left, _UNDER.line)
        if self._is_note_below:
            below = QRectF(left, under.bottom(), under.width(), _SMALL.line)
            lettering.draw(painter, below, note)
        else:
            lettering.draw(painter, under, note, Side.RIGHT)
            under.setWidth(under.width() - lettering.width(note) - _BETWEEN_WORDS)
        lettering.draw(painter, under, [_UNDER.run(self._bars.under)])

    def piece_at(self, x: float, y: float) -> BalancePiece | None:
        """The piece under a point."""
        geometry = self.geometry_now()
        if geometry is None:
            return None
        for placed in (*geometry.upper, *geometry.lower):
            across = placed.left <= x <= placed.left + placed.width
            if across and placed.top <= y <= placed.top + BAR:
                return placed.piece
        return None

    def event(self, event: QEvent) -> bool:
        if isinstance(event, QHelpEvent) and event.type() == QEvent.Type.ToolTip:
            piece = self.piece_at(event.pos().x(), event.pos().y())
            QToolTip.showText(event.globalPos(), f"{piece.words} kg" if piece else "", self)
            return True
        return super().event(event)
