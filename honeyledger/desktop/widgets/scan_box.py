"""The one box that takes every code, typed after F2 or shown for a moment after a scan."""

from PySide6.QtCore import QEvent, QObject, QRectF, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QPainter, QPaintEvent, QPalette, QPen
from PySide6.QtWidgets import QApplication, QHBoxLayout, QSizePolicy, QWidget
from shiboken6 import isValid

from honeyledger.desktop import lettering, look, marks, rings, tokens
from honeyledger.desktop.lettering import Hand, Side
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.tokens import BOLD, Density, Type
from honeyledger.desktop.widgets.fields import FieldEdit


class ScanBox(QWidget):
    """A code to look up or to work with.

    Signals:
        entered: a code that was typed and ended with Enter.
        finished: the person is done here, or a scanned code was shown long enough; the keyboard
            is where it was.
    """

    entered = Signal(str)
    finished = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._back: QWidget | None = None
        self._shown = ""
        self._refused = False
        self.setProperty("on_mast", True)
        self.setFixedHeight(tokens.TARGET_LEAST)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.editor = FieldEdit(Density.DESK)
        self.editor.setFont(look.font(Type.BODY, Density.DESK))
        self.editor.setAccessibleName(self.tr("Scan or type any code"))
        self.editor.setPlaceholderText(self.tr("Scan or type any code"))
        # The mast leaves no room round the box, so it draws the ring inside its edge.
        self.editor.setProperty("ring", "none")
        row = QHBoxLayout(self)
        row.setContentsMargins(14, 2, 48, 2)
        row.addWidget(self.editor)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._shown_long_enough)
        self.editor.returnPressed.connect(self._enter)
        self.editor.installEventFilter(self)
        self._dress()

    def begin(self) -> None:
        """Take the keyboard, and remember where it was."""
        focused = QApplication.focusWidget()
        if focused is not self.editor:
            self._back = focused
        self._show_editor()
        self.editor.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.editor.selectAll()

    def show_scanned(self, code: str, *, refused: bool = False) -> None:
        """Show a code that was read, large, for two seconds."""
        self._shown, self._refused = code, refused
        self.editor.hide()
        self.setAccessibleDescription(code)
        self._timer.start(tokens.SCANNED_MS)
        self.update()

    def scanned_code(self) -> str:
        """The code shown large at this moment, or ""."""
        return self._shown

    def _shown_long_enough(self) -> None:
        self._show_editor()
        if not self.editor.hasFocus():
            self.finished.emit()

    def _show_editor(self) -> None:
        self._timer.stop()
        self._shown = ""
        self.editor.show()
        self.update()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QFocusEvent):
            self.update()
        return super().eventFilter(watched, event)

    def _enter(self) -> None:
        code = self.editor.text().strip()
        self.editor.clear()
        self._give_back()
        if code:
            self.entered.emit(code)

    def _give_back(self) -> None:
        if self._back is not None and isValid(self._back) and self._back.isVisible():
            self._back.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.editor.clearFocus()
        self._back = None
        self.finished.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.editor.clear()
            self._give_back()
            return
        super().keyPressEvent(event)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self._dress()

    def _dress(self) -> None:
        """Take the mast's colours, which Qt's own palette does not carry, from the theme."""
        palette = QPalette()
        palette.setColor(QPalette.ColorRole.Base, Qt.GlobalColor.transparent)
        palette.setColor(QPalette.ColorRole.Text, look.colour("on_mast"))
        palette.setColor(QPalette.ColorRole.PlaceholderText, look.colour("on_mast2"))
        self.editor.setPalette(palette)

    def sizeHint(self) -> QSize:
        return QSize(424, tokens.TARGET_LEAST)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        rect = QRectF(self.rect())
        painter.setPen(QPen(look.colour("mast_edge"), tokens.FIELD_EDGE))
        painter.setBrush(look.colour("mast"))
        edge = rect.adjusted(1, 1, -1, -1)
        painter.drawRoundedRect(edge, tokens.RADIUS_CONTROL, tokens.RADIUS_CONTROL)
        if self.editor.hasFocus():
            rings.draw_focus_ring(painter, rect, colour="focus_mast", radius=tokens.RADIUS_CONTROL)
        if self._shown:
            self._paint_code(painter, rect)
            return
        hand = Hand(Type.CAPTION, colour="on_mast2")
        inner = rect.adjusted(0, 0, -12, 0)
        lettering.draw(painter, inner, [hand.run("F2")], Side.RIGHT)

    def _paint_code(self, painter: QPainter, rect: QRectF) -> None:
        left = 12.0
        if self._refused:
            marks.draw(painter, Mark.REFUSED, left, 8, tokens.MARK_MESSAGE, "on_mast")
            left += tokens.MARK_MESSAGE + 10
        room = rect.adjusted(left, 0, -10, 0)
        hand = Hand(Type.LIVE, weight=BOLD, colour="on_mast")
        line = lettering.code_runs(self._shown, hand)
        if lettering.width(line) > room.width():
            hand = Hand(Type.ENTRY, weight=BOLD, colour="on_mast")
            line = lettering.code_runs(self._shown, hand)
        lettering.draw(painter, room, line)
