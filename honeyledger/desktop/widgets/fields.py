"""Fields that are typed into: a label above, one edge, the unit inside at the right.

A field gives back the text as it was typed; what it means is for the parsers of the domain, so
that the window and the terminal refuse the same things in the same words. No field holds grams.
"""

from PySide6.QtCore import QEvent, QPoint, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QHelpEvent,
    QKeyEvent,
    QPainter,
    QPaintEvent,
    QPalette,
    QPen,
)
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLineEdit,
    QSizePolicy,
    QToolTip,
    QVBoxLayout,
    QWidget,
)

from honeyledger.desktop import lettering, look, marks, tokens
from honeyledger.desktop.lettering import Hand, Run, Side
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.tokens import Density, Type
from honeyledger.desktop.widgets.text import Text

_DOT = 10.0
# What Qt keeps free at both sides of what is typed.
_EDIT_SIDES = 4
_NOT_LEFT = (Qt.FocusReason.PopupFocusReason, Qt.FocusReason.ActiveWindowFocusReason)
_UNIT = Hand(Type.CAPTION, colour="ink2")


class FieldEdit(QLineEdit):
    """The line that is typed into, without an edge of its own."""

    def __init__(self, density: Density, *, mono: bool = False) -> None:
        super().__init__()
        self._left_at = 0
        self.setFrame(False)
        self.setFont(look.font(Type.ENTRY, density, mono=mono))
        self.setProperty("ring", "outer")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        palette = QPalette()
        palette.setColor(QPalette.ColorRole.Base, Qt.GlobalColor.transparent)
        self.setPalette(palette)

    def minimumSizeHint(self) -> QSize:
        return QSize(24, super().minimumSizeHint().height())

    def is_cut(self) -> bool:
        """Whether part of the text is not seen."""
        return self.fontMetrics().horizontalAdvance(self.text()) > self.width() - _EDIT_SIDES

    def tip_at(self, _point: QPoint) -> str:
        """The whole text where it is longer than the field."""
        return self.text() if self.is_cut() else self.toolTip()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """A text longer than the field shows how it begins; typing goes on where it was."""
        super().focusOutEvent(event)
        if self.is_cut() and event.reason() not in _NOT_LEFT:
            self._left_at = self.cursorPosition()
            self.setCursorPosition(0)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if self.is_cut() and event.reason() is Qt.FocusReason.OtherFocusReason:
            self.setCursorPosition(self._left_at)

    def event(self, event: QEvent) -> bool:
        if isinstance(event, QHelpEvent) and event.type() == QEvent.Type.ToolTip:
            QToolTip.showText(event.globalPos(), self.tip_at(event.pos()), self)
            return True
        return super().event(event)


class _Tail(QWidget):
    """What stands inside a field at its right: a dot and "scale", a note, the unit."""

    def __init__(self, unit: str) -> None:
        super().__init__()
        self.unit = unit
        self.source = ""
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Expanding)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)

    def words(self) -> list[Run]:
        """The text of the tail, without its dot."""
        return [_UNIT.run(" ".join(part for part in (self.source, self.unit) if part))]

    def sizeHint(self) -> QSize:
        width = lettering.width(self.words())
        if self.source:
            width += _DOT + 6
        return QSize(int(width) + 1 if width else 0, _UNIT.line)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        rect = QRectF(self.rect())
        drawn = lettering.draw(painter, rect, self.words(), Side.RIGHT)
        if self.source:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(look.colour("ink2"))
            top = rect.center().y() - _DOT / 2
            painter.drawEllipse(QRectF(drawn.left() - _DOT - 5, top, _DOT, _DOT))


class FieldBox(QWidget):
    """The edge of a field and what stands inside it."""

    def __init__(self, density: Density) -> None:
        super().__init__()
        self.read_only = False
        self.refused = False
        self.row = QHBoxLayout(self)
        self.row.setContentsMargins(12, 2, 12, 2)
        self.row.setSpacing(8)
        self.setFixedHeight(tokens.control_height(density))
        self.setProperty("ring", "here")

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        rect = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        painter.setBrush(look.colour("well" if self.read_only else "sheet"))
        edge = "alert" if self.refused else "edge"
        painter.setPen(
            Qt.PenStyle.NoPen if self.read_only else QPen(look.colour(edge), tokens.FIELD_EDGE)
        )
        painter.drawRoundedRect(rect, tokens.RADIUS_CONTROL, tokens.RADIUS_CONTROL)


class _Label(Text):
    """A field's label; the mark of a refusal stands before it, so colour is not alone."""

    def __init__(self, text: str) -> None:
        super().__init__(text, Hand(Type.CAPTION, colour="ink2"))
        self.refused = False

    def paintEvent(self, event: QPaintEvent) -> None:
        if not self.refused:
            super().paintEvent(event)
            return
        painter = QPainter(self)
        marks.draw(painter, Mark.REFUSED, 0, 2, tokens.MARK_BADGE)
        hand = Hand(Type.CAPTION, weight=tokens.SEMIBOLD, colour="alert")
        rect = QRectF(self.rect()).adjusted(tokens.MARK_BADGE + 6, 0, 0, 0)
        lettering.draw(painter, rect, [hand.run(self.text())])


class Field(QWidget):
    """A labelled field of text.

    Signals:
        edited: the person changed the text; not sent when the program sets it.
        submitted: Enter was pressed in it.
    """

    edited = Signal(str)
    submitted = Signal()

    def __init__(
        self,
        label: str,
        *,
        unit: str = "",
        density: Density = Density.FLOOR,
        mono: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.density = density
        self.label = _Label(label)
        self.box = FieldBox(density)
        self.editor = FieldEdit(density, mono=mono)
        self.tail = _Tail(unit)
        self.box.row.addWidget(self.editor, 1)
        self.box.row.addWidget(self.tail)
        self.tail.setVisible(bool(unit))
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(tokens.LABEL_GAP)
        self.label.setFixedHeight(tokens.LABEL_HEIGHT)
        column.addWidget(self.label)
        column.addWidget(self.box)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.label.setBuddy(self.editor)
        self.editor.textEdited.connect(self._typed)
        self.editor.returnPressed.connect(self.submitted)
        self._name()

    def _name(self) -> None:
        parts = [self.label.text(), self.tail.source, self.tail.unit]
        self.editor.setAccessibleName(", ".join(part for part in parts if part))

    def _typed(self, text: str) -> None:
        self.set_refused(False)
        self.edited.emit(text)

    def text(self) -> str:
        """What stands in the field, as it was typed."""
        return self.editor.text()

    def set_text(self, text: str) -> None:
        """Fill the field; `edited` is not sent."""
        self.editor.setText(text)
        self.editor.setCursorPosition(len(text) if self.editor.hasFocus() else 0)

    def clear(self) -> None:
        """Empty the field."""
        self.set_text("")
        self.set_refused(False)

    def set_label(self, label: str) -> None:
        """Change what stands above the field."""
        self.label.setText(label)
        self._name()

    def set_unit(self, unit: str) -> None:
        """Change the unit, or a note such as "56 colonies", at the field's right."""
        self.tail.unit = unit
        self._refresh_tail()

    def set_hint(self, hint: str) -> None:
        """Say in the empty field what it wants."""
        self.editor.setPlaceholderText(hint)

    def set_read_only(self, read_only: bool) -> None:
        """Show a value that is not to be typed over."""
        self.box.read_only = read_only
        self.editor.setReadOnly(read_only)
        self.box.update()

    def set_refused(self, refused: bool) -> None:
        """Mark the field whose value was refused; typing in it takes the mark away."""
        if refused == self.box.refused:
            return
        self.box.refused = refused
        self.label.refused = refused
        self.box.update()
        self.label.update()

    def take_focus(self) -> None:
        """Put the keyboard here with the text selected, so that typing replaces it."""
        self.editor.setFocus(Qt.FocusReason.OtherFocusReason)
        self.editor.selectAll()

    def _refresh_tail(self) -> None:
        self.tail.setVisible(bool(self.tail.unit or self.tail.source))
        self.tail.updateGeometry()
        self.tail.update()
        self._name()


class TextField(Field):
    """A field of words: a name, a reason."""


class MassField(Field):
    """A mass as typed or as a scale said it; typing over a scale's value takes its dot away."""

    def __init__(self, label: str, *, unit: str = "kg", density: Density = Density.FLOOR) -> None:
        super().__init__(label, unit=unit, density=density)

    def show_scale(self, text: str) -> None:
        """Take a reading from a scale."""
        self.set_text(text)
        self.tail.source = self.tr("scale")
        self._refresh_tail()
        self.edited.emit(text)

    def is_from_scale(self) -> bool:
        """Whether the value is a scale's, untouched."""
        return bool(self.tail.source)

    def set_text(self, text: str) -> None:
        super().set_text(text)
        self._by_hand()

    def _typed(self, text: str) -> None:
        self._by_hand()
        super()._typed(text)

    def _by_hand(self) -> None:
        self.tail.source = ""
        self._refresh_tail()


class CodeField(Field):
    """A code, in the companion for codes; letters are shown as capitals."""

    def __init__(self, label: str, *, density: Density = Density.FLOOR) -> None:
        super().__init__(label, density=density, mono=True)
        self.editor.installEventFilter(self)

    def text(self) -> str:
        return self.editor.text().strip().upper()

    def eventFilter(self, watched: object, event: QEvent) -> bool:
        if (
            isinstance(event, QKeyEvent)
            and event.type() == QEvent.Type.KeyPress
            and event.text().isalpha()
            and event.text() != event.text().upper()
            and not event.modifiers() & Qt.KeyboardModifier.ControlModifier
        ):
            self.editor.insert(event.text().upper())
            self._typed(self.editor.text())
            return True
        return False
