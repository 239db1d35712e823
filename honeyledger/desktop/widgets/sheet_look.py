"""A sheet or roll of labels drawn to scale: how the labels lie, and which one is the first free.

Where a first label is asked for, arrows walk over the labels and a click takes one.
"""

from math import ceil

from PySide6.QtCore import QCoreApplication, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from honeyledger.desktop import lettering, look, rings, tokens
from honeyledger.desktop.lettering import Hand, Side
from honeyledger.desktop.tokens import Type
from honeyledger.documents.stock import Stock
from honeyledger.domain.label_stock import LETTER, ROLL, SHEET

_CAPTION = Hand(Type.CAPTION, colour="ink2")
_NUMBER = Hand(Type.CAPTION, colour="ink")
_GAP = 8.0
_LEAST = 80.0  # below that nothing of it can be made out


class SheetLook(QWidget):
    """The sheet, with its sizes in words above it.

    Signals:
        taken: a label was taken as the first, counted from 1.
    """

    taken = Signal(int)

    def __init__(self, *, asks: bool = False) -> None:
        super().__init__()
        self._asks = asks
        self._labels = 0
        self.stock: Stock | None = None
        self.first = 1
        policy = QSizePolicy.Policy.Expanding
        self.setSizePolicy(policy, policy)
        if asks:
            self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def show_stock(self, stock: Stock | None, first: int = 1, labels: int = 0) -> None:
        """Show this stock; None for none.

        Args:
            first: the first free label.
            labels: how many are to be printed from there.
        """
        self.stock, self.first, self._labels = stock, first, labels
        self.setAccessibleName(self.words())
        self.updateGeometry()
        self.update()

    def words(self) -> str:
        """What it is, in words."""
        stock = self.stock
        if stock is None:
            return ""
        if self._asks:
            words = _tr("First label: {n} of {of}")
            return words.format(n=self.first, of=stock.cells)
        size = f"{stock.width_mm:g} × {stock.height_mm:g} mm"
        if stock.paper == ROLL:
            return _tr("A roll, each label {size}").format(size=size)
        words = _tr("{of} labels of {size} on {sheet}")
        if stock.cells == 1:
            words = _tr("One label of {size} on {sheet}")
        return words.format(of=stock.cells, size=size, sheet=_sheet_words(stock))

    def sizeHint(self) -> QSize:
        return QSize(240, 260)

    def minimumSizeHint(self) -> QSize:
        """Where a label is taken each is a target for a glove: the sheet is as large as that."""
        stock = self.stock
        if not self._asks or stock is None or not all(stock.page_mm):
            return QSize(120, 120)
        # A pixel more, since what is rounded up elsewhere must not end below it.
        scale = (tokens.TARGET_LEAST + 1) / min(stock.width_mm, stock.height_mm)
        wide, high = (ceil(size * scale) for size in stock.page_mm)
        return QSize(wide + 2 * tokens.PANEL_SIDE, high + int(_CAPTION.line + 2 * _GAP))

    def sheet(self) -> QRectF:
        """Where the sheet is drawn."""
        if self.stock is None:
            return QRectF()
        top, side = _CAPTION.line + _GAP, float(tokens.PANEL_SIDE)
        room = QRectF(side, top, self.width() - 2 * side, self.height() - top - _GAP)
        wide, high = self.stock.page_mm
        if not wide or not high:
            return QRectF()
        scale = min(room.width() / wide, room.height() / high)
        return QRectF(room.left(), room.top(), wide * scale, high * scale)

    def cell(self, number: int) -> QRectF:
        """Where a label is drawn, counted from 1."""
        stock, sheet = self.stock, self.sheet()
        assert stock is not None
        scale = sheet.width() / stock.page_mm[0]
        row, column = divmod(number - 1, stock.columns)
        return QRectF(
            sheet.left() + (stock.left_mm + column * stock.pitch_x_mm) * scale,
            sheet.top() + (stock.top_mm + row * stock.pitch_y_mm) * scale,
            stock.width_mm * scale,
            stock.height_mm * scale,
        )

    def paintEvent(self, _event: QPaintEvent) -> None:
        sheet = self.sheet()
        if self.stock is None or sheet.isEmpty() or self.height() < _LEAST:
            return
        painter = QPainter(self)
        painter.fillRect(QRectF(self.rect()), look.colour("sheet"))
        side = tokens.PANEL_SIDE
        line = QRectF(side, 0, self.width() - 2 * side, _CAPTION.line)
        lettering.draw(painter, line, [_CAPTION.run(self.words())])
        painter.fillRect(sheet, look.colour("well"))
        painter.setPen(QPen(look.colour("edge"), 1))
        painter.drawRect(sheet)
        for number in range(1, self.stock.cells + 1):
            self._paint_cell(painter, number, sheet)
        if self.hasFocus():
            rings.draw_inset_ring(painter, self.cell(self.first).adjusted(-3, -3, 3, 3))

    def _paint_cell(self, painter: QPainter, number: int, sheet: QRectF) -> None:
        cell = self.cell(number)
        used = self._asks and number < self.first
        printed = self._asks and 0 <= number - self.first < self._labels
        painter.fillRect(cell, look.colour("act_tint" if printed else "well" if used else "sheet"))
        # A label over the sheet's edge is what is wrong with the sizes: it is seen at once.
        inside = sheet.adjusted(-0.5, -0.5, 0.5, 0.5).contains(cell)
        painter.setPen(QPen(look.colour("edge" if inside else "alert"), 1 if inside else 2))
        painter.drawRect(cell)
        if used:
            painter.drawLine(cell.topLeft(), cell.bottomRight())
        text = _NUMBER.run(str(number))
        if cell.height() > _NUMBER.line and cell.width() > text.width + 4 and not used:
            lettering.draw(painter, cell, [text], Side.CENTRE)

    # Taking the first label.

    def keyPressEvent(self, event: QKeyEvent) -> None:
        stock = self.stock
        columns = stock.columns if stock is not None else 1
        steps = {
            Qt.Key.Key_Left: -1,
            Qt.Key.Key_Right: 1,
            Qt.Key.Key_Up: -columns,
            Qt.Key.Key_Down: columns,
        }
        step = steps.get(Qt.Key(event.key()), 0)
        if not self._asks or stock is None or not step:
            super().keyPressEvent(event)
        elif 1 <= self.first + step <= stock.cells:
            self._take(self.first + step)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if not self._asks or self.stock is None:
            return
        for number in range(1, self.stock.cells + 1):
            if self.cell(number).contains(event.position()):
                self._take(number)

    def _take(self, number: int) -> None:
        self.show_stock(self.stock, number, self._labels)
        self.taken.emit(number)


def _sheet_words(stock: Stock) -> str:
    if stock.paper == SHEET:
        wide, high = stock.page_mm
        return f"{wide:g} × {high:g} mm"
    return "Letter" if stock.paper == LETTER else "A4"


def _tr(text: str) -> str:
    return QCoreApplication.translate("sheet", text)
