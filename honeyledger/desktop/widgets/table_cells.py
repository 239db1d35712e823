"""How a cell of a table is measured and painted: its text, mark, swatch, note and ground."""

from dataclasses import dataclass
from functools import lru_cache

from PySide6.QtCore import QModelIndex, QObject, QPersistentModelIndex, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from honeyledger.desktop import honey_paint, lettering, look, marks, tokens
from honeyledger.desktop.lettering import Hand, Run, Side
from honeyledger.desktop.marks import COLOURS, Mark
from honeyledger.desktop.models.rows import CELL, Cell, ColumnKind, short_reading
from honeyledger.desktop.tokens import REGULAR, SEMIBOLD, Density, Type

_Index = QModelIndex | QPersistentModelIndex
_MARK_GAP = 8
_TWO_LINES_TOP = 9
_NOTE = Hand(Type.CAPTION, colour="ink2")


@dataclass(slots=True)
class RowState:
    """What the table knows of its rows and the delegate paints: hover and fresh arrivals."""

    hovered: int = -1
    arrived_row: int = -1
    arrived_share: float = 0.0


def cell_runs(cell: Cell, density: Density) -> list[Run]:
    """A cell's text in its type."""
    made = _text_runs(cell, density)
    if cell.estimated:
        made.insert(0, Hand(Type.BODY, density, colour="ink2").run("≈\u00a0"))
    if cell.aside:
        made.append(_NOTE.run("\u00a0\u00a0" + cell.aside))
    return made


def _text_runs(cell: Cell, density: Density) -> list[Run]:
    hand = Hand(Type.BODY, density)
    # A row without a code says in words what it is ("Cappings, barrel 4").
    if cell.kind is ColumnKind.CODE and " " not in cell.text:
        return lettering.code_runs(cell.text, hand)
    if cell.kind is ColumnKind.STATE and cell.mark is not None:
        weight = REGULAR if cell.mark in (Mark.READY, Mark.HEEL) else SEMIBOLD
        return [Hand(Type.BODY, density, weight, COLOURS[cell.mark]).run(cell.text)]
    if cell.strong:
        return [Hand(Type.BODY, density, SEMIBOLD).run(cell.text)]
    return lettering.runs(cell.text, hand)


def before_text(cell: Cell) -> float:
    """The room of a mark or a swatch before the text."""
    if cell.mark is not None or cell.kind is ColumnKind.COLOUR:
        return tokens.MARK_TABLE + _MARK_GAP
    return 0.0


@lru_cache(maxsize=20_000)
def cell_width(cell: Cell, density: Density, *, with_note: bool = True) -> float:
    """The room a cell wants, without its padding; kept, for tables are laid out often."""
    own = before_text(cell) + lettering.width(cell_runs(cell, density))
    return max(own, before_text(cell) + note_width(cell)) if with_note else own


def note_width(cell: Cell) -> float:
    """The room a cell's second line takes."""
    return _words_wide(cell.note) if cell.note else 0.0


@lru_cache(maxsize=20_000)
def _words_wide(note: str) -> float:
    return lettering.width(lettering.runs(note, _NOTE))


class RowDelegate(QStyledItemDelegate):
    """Paints cells; padding at the right differs by column, so the table tells it."""

    def __init__(self, density: Density, state: RowState, parent: QObject) -> None:
        super().__init__(parent)
        self._density = density
        self._state = state
        self.right_pads: list[int] = []
        self.pitch = tokens.row_height(density)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index) -> None:
        cell: Cell = index.data(CELL)
        rect = QRectF(option.rect)
        self._ground(painter, rect, option, index)
        inner = self._inner(rect, index.column(), cell)
        # In a row of two lines the first lines of all its cells stand level.
        if self._is_two_lines(rect):
            self._two_lines(painter, inner, cell)
        else:
            self._one_line(painter, inner, cell)

    def _inner(self, rect: QRectF, column: int, cell: Cell) -> QRectF:
        pad = self.right_pads[column] if column < len(self.right_pads) else tokens.CELL_PADDING
        return rect.adjusted(self._left_pad(column, cell), 0, -pad, -1)

    def _left_pad(self, column: int, cell: Cell) -> int:
        if cell.kind is ColumnKind.NUMBER:
            return 2  # A number stands at the right; the gap before it may have given way.
        return tokens.PANEL_SIDE - 1 if column == 0 else tokens.CELL_PADDING

    def _is_two_lines(self, rect: QRectF) -> bool:
        return rect.height() > self.pitch * 1.25

    def under(self, rect: QRectF, column: int, cell: Cell) -> QRectF:
        """Where a cell's second line stands."""
        return self._under(self._inner(rect, column, cell), cell)

    def before_under(self, column: int, cell: Cell) -> float:
        """How far inside its column a cell's second line begins."""
        return self._left_pad(column, cell) + before_text(cell)

    def _under(self, inner: QRectF, cell: Cell) -> QRectF:
        line = tokens.type_size(Type.BODY, self._density).line
        top = inner.top() + _TWO_LINES_TOP + line
        before = before_text(cell)
        return QRectF(inner.left() + before, top, inner.width() - before, _NOTE.line)

    def leaves_out(self, rect: QRectF, column: int, cell: Cell) -> bool:
        """Whether a cell's second line is longer than its column, and for the view to write."""
        if not self._is_two_lines(rect) or cell.kind is ColumnKind.NUMBER:
            return False
        return note_width(cell) > self.under(rect, column, cell).width()

    def note_line(self) -> int:
        """How high one line of a note is."""
        return _NOTE.line

    def note_runs(self, cell: Cell) -> list[Run]:
        """A cell's second line, as it is written."""
        return lettering.runs(cell.note, _NOTE)

    def padding(self, column: int) -> int:
        """What is kept free at both sides of a column's cells."""
        right = self.right_pads[column] if column < len(self.right_pads) else 0
        return right + (tokens.PANEL_SIDE - 1 if column == 0 else tokens.CELL_PADDING)

    def _ground(
        self, painter: QPainter, rect: QRectF, option: QStyleOptionViewItem, index: _Index
    ) -> None:
        selected = bool(option.state & QStyle.StateFlag.State_Selected)
        hovered = index.row() == self._state.hovered
        ground = "act_tint" if selected else "well" if hovered else "sheet"
        painter.fillRect(rect, look.colour(ground))
        if not selected and index.row() == self._state.arrived_row:
            tint = QColor(look.colour("act_tint"))
            tint.setAlphaF(self._state.arrived_share)
            painter.fillRect(rect, tint)
        painter.setPen(QPen(look.colour("rule"), 1))
        bottom = int(rect.bottom()) - 1
        painter.drawLine(int(rect.left()), bottom, int(rect.right()), bottom)
        if selected and index.column() == 0:
            bar = QRectF(rect.left(), rect.top(), tokens.SELECTION_BAR, rect.height() - 1)
            painter.fillRect(bar, look.colour("act"))

    def _one_line(self, painter: QPainter, rect: QRectF, cell: Cell) -> None:
        before = before_text(cell)
        middle = rect.center().y() - tokens.MARK_TABLE / 2
        if cell.kind is ColumnKind.COLOUR:
            square = QRectF(rect.left(), middle, tokens.MARK_TABLE, tokens.MARK_TABLE)
            honey_paint.draw_swatch(painter, square, cell.pfund_mm)
        elif cell.mark is not None:
            marks.draw(painter, cell.mark, rect.left(), middle, tokens.MARK_TABLE)
        words = rect.adjusted(before, 0, 0, 0)
        side = Side.RIGHT if cell.kind is ColumnKind.NUMBER else Side.LEFT
        lettering.draw(painter, words, self._fitted(cell, words.width()), side)

    def _two_lines(self, painter: QPainter, rect: QRectF, cell: Cell) -> None:
        line = tokens.type_size(Type.BODY, self._density).line
        top = rect.top() + _TWO_LINES_TOP
        self._one_line(painter, QRectF(rect.left(), top, rect.width(), line), cell)
        if not cell.note:
            return
        under = self._under(rect, cell)
        is_number = cell.kind is ColumnKind.NUMBER
        if is_number or note_width(cell) <= under.width():
            side = Side.RIGHT if is_number else Side.LEFT
            lettering.draw(painter, under, self.note_runs(cell), side)

    def _fitted(self, cell: Cell, room: float) -> list[Run]:
        """Codes and numbers are never cut; names are, in their middle."""
        made = cell_runs(cell, self._density)
        if cell.kind is ColumnKind.COLOUR and lettering.width(made) > room:
            return lettering.runs(short_reading(cell), Hand(Type.BODY, self._density))
        if len(made) == 1 and cell.kind in (ColumnKind.NAME, ColumnKind.TEXT):
            only = made[0]
            cut = lettering.middle_elided(only.text, only.font, room)
            return [Run(cut, only.font, only.colour)]
        return made


def least_width(cell: Cell, density: Density, *, with_note: bool = True) -> float:
    """The room a cell cannot do without: a reading may leave its unit to the head."""
    if cell.kind is ColumnKind.COLOUR:
        words = lettering.runs(short_reading(cell), Hand(Type.BODY, density))
        return before_text(cell) + lettering.width(words)
    return cell_width(cell, density, with_note=with_note)


def is_cell_cut(cell: Cell, room: float, density: Density, *, with_note: bool = True) -> bool:
    """Whether a cell of that room does not show all it says."""
    return least_width(cell, density, with_note=with_note) > room + 0.5


def draw_sort_arrow(painter: QPainter, left: float, middle: float, *, down: bool) -> None:
    """The small arrow in the head of the column a table is ordered by."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(look.colour("act"), 2, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap))
    tip = 3 if down else -3
    painter.drawPolyline(
        [
            QPointF(left, middle - tip),
            QPointF(left + 5, middle + tip),
            QPointF(left + 10, middle - tip),
        ]
    )
    painter.restore()
