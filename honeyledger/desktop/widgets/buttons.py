"""The four kinds of button: primary, secondary, plain, grave.

None is ever greyed out: what cannot be done yet stays pressable and says what is missing. While
its job runs a button shows three dots and takes no second press.
"""

from enum import Enum

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, QVariantAnimation
from PySide6.QtGui import QEnterEvent, QKeyEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QPushButton, QSizePolicy, QWidget

from honeyledger.desktop import colouring, icons, lettering, look, marks, tokens
from honeyledger.desktop.lettering import Hand, Side
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.tokens import SEMIBOLD, Density, Type


class Kind(Enum):
    """What a button is for, which decides how it looks."""

    PRIMARY = "primary"
    SECONDARY = "secondary"
    PLAIN = "plain"
    GRAVE = "grave"


_INKS = {
    Kind.PRIMARY: "on_act",
    Kind.SECONDARY: "act",
    Kind.PLAIN: "act",
    Kind.GRAVE: "alert",
}
_PADDING = {Kind.PLAIN: 12}


class _Pressed(QPushButton):
    """A button that Enter presses as the space bar does; Qt leaves Enter to dialogs."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
            return
        super().keyPressEvent(event)


class Button(_Pressed):
    """A button of one kind; its text is its name for a screen reader."""

    def __init__(
        self,
        text: str,
        kind: Kind = Kind.SECONDARY,
        *,
        density: Density = Density.FLOOR,
        icon: str = "",
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(text, parent)
        self.kind = kind
        self._density = density
        self._icon_name = icon
        self._ink = ""
        self._working = False
        self._warmth = QVariantAnimation(self)
        self._warmth.setStartValue(0.0)
        self._warmth.setEndValue(1.0)
        self._warmth.valueChanged.connect(self.update)
        self.setAutoDefault(False)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)

    @property
    def hand(self) -> Hand:
        """How its text is written."""
        return Hand(Type.ENTRY, self._density, SEMIBOLD, self._ink or _INKS[self.kind])

    def set_ink(self, ink: str) -> None:
        """Write its text in another colour, where it stands on a filled ground; "" for its own."""
        self._ink = ink
        self.update()

    def set_working(self, working: bool) -> None:
        """Show that its job runs; presses are ignored meanwhile, so nothing is done twice."""
        self._working = working
        self.update()

    def is_working(self) -> bool:
        """Whether its job still runs."""
        return self._working

    def nextCheckState(self) -> None:
        if not self._working:
            super().nextCheckState()

    def event(self, event: QEvent) -> bool:
        if self._working and event.type() in (
            QEvent.Type.MouseButtonPress,
            QEvent.Type.MouseButtonDblClick,
            QEvent.Type.KeyPress,
            QEvent.Type.Shortcut,
        ):
            key = getattr(event, "key", None)
            if key is None or key() in (Qt.Key.Key_Space, Qt.Key.Key_Return, Qt.Key.Key_Enter):
                event.accept()
                return True
        return super().event(event)

    def _mark_width(self) -> float:
        if self._working or self.kind is Kind.GRAVE or self._icon_name:
            return tokens.MARK_TABLE + 8.0
        return 0.0

    def sizeHint(self) -> QSize:
        text = lettering.width([self.hand.run(self.text())])
        padding = _PADDING.get(self.kind, 24)
        least = 0 if self.kind is Kind.PLAIN else tokens.BUTTON_LEAST_WIDTH
        width = max(least, int(text + self._mark_width()) + 2 * padding + 2)
        return QSize(width, tokens.control_height(self._density))

    def minimumSizeHint(self) -> QSize:
        return QSize(tokens.TARGET_LEAST, tokens.control_height(self._density))

    def is_cut(self) -> bool:
        """Whether part of its text is not seen."""
        room = self.width() - self._mark_width() - 16
        return lettering.width([self.hand.run(self.text())]) > room + 0.5

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.setToolTip(self.text() if self.is_cut() else "")

    def enterEvent(self, event: QEnterEvent) -> None:
        super().enterEvent(event)
        self._warm(QVariantAnimation.Direction.Forward)

    def leaveEvent(self, event: QEvent) -> None:
        super().leaveEvent(event)
        self._warm(QVariantAnimation.Direction.Backward)

    def _warm(self, direction: QVariantAnimation.Direction) -> None:
        self._warmth.setDirection(direction)
        self._warmth.setDuration(look.duration(tokens.QUICK_MS))
        self._warmth.start()

    def _warm_share(self) -> float:
        if self.isDown():
            return 1.0
        if not self.underMouse() and self._warmth.state() == QVariantAnimation.State.Stopped:
            return 0.0
        share: float = self._warmth.currentValue()
        return share

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        warm = self._warm_share()
        theme = look.theme()
        rect = QRectF(self.rect())
        if self.kind is Kind.PRIMARY:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(look.colour(colouring.mixed(theme.act, theme.act_down, warm)))
            painter.drawRoundedRect(rect, tokens.RADIUS_CONTROL, tokens.RADIUS_CONTROL)
        elif self.kind is not Kind.PLAIN:
            tint = theme.alert_tint if self.kind is Kind.GRAVE else theme.act_tint
            painter.setPen(QPen(look.colour(_INKS[self.kind]), 2))
            painter.setBrush(look.colour(colouring.mixed(theme.sheet, tint, warm)))
            inner = rect.adjusted(1, 1, -1, -1)
            painter.drawRoundedRect(inner, tokens.RADIUS_CONTROL, tokens.RADIUS_CONTROL)
        self._paint_words(painter, rect, underlined=warm > 0.5)

    def _paint_words(self, painter: QPainter, rect: QRectF, *, underlined: bool) -> None:
        run = self.hand.run(self.text())
        before = self._mark_width()
        room = QRectF(rect).adjusted(8, 0, -8, 0)
        total = min(room.width(), run.width + before)
        left = room.center().x() - total / 2
        if self.kind is Kind.PLAIN and total < room.width():
            left = rect.left() + _PADDING[Kind.PLAIN]
        middle = rect.center().y() - tokens.MARK_TABLE / 2
        if self._working:
            marks.draw(painter, Mark.WORKING, left, middle, tokens.MARK_TABLE, run.colour)
        elif self.kind is Kind.GRAVE:
            marks.draw(painter, Mark.REFUSED, left, middle, tokens.MARK_TABLE)
        elif self._icon_name:
            icons.draw(painter, self._icon_name, left, middle, tokens.MARK_TABLE, run.colour)
        words = QRectF(left + before, rect.top(), room.right() - left - before, rect.height())
        drawn = lettering.draw(painter, words, [run], Side.LEFT)
        if underlined and self.kind is Kind.PLAIN:
            under = drawn.center().y() + self.hand.line / 2 - 2
            painter.setPen(QPen(look.colour(self._ink or "act"), 2))
            painter.drawLine(QPointF(drawn.left(), under), QPointF(drawn.right(), under))


class IconButton(_Pressed):
    """A square button that shows one icon; its name stands in its tip."""

    def __init__(
        self, icon: str, name: str, *, size: int = tokens.TARGET_LEAST, colour: str = "ink"
    ) -> None:
        super().__init__()
        self._icon_name = icon
        self._colour = colour
        self.setFixedSize(size, size)
        self.setAccessibleName(name)
        self.setToolTip(name)
        self.setAutoDefault(False)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)

    def set_ink(self, ink: str) -> None:
        """Draw its icon in another colour, where it stands on a filled ground."""
        self._colour = ink
        self.update()

    def set_icon(self, icon: str) -> None:
        """Show another icon."""
        self._icon_name = icon
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self.underMouse() or self.isDown():
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(look.colour("act_tint" if self.isDown() else "well"))
            painter.drawRoundedRect(
                QRectF(self.rect()), tokens.RADIUS_CONTROL, tokens.RADIUS_CONTROL
            )
        middle = QPointF(self.rect().center()) - QPointF(11, 11)
        icons.draw(painter, self._icon_name, middle.x(), middle.y(), 24, self._colour)
