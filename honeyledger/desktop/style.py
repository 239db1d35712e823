"""The one style of every widget: palette, scroll bars, and the focus ring.

`wear` puts a theme on the application; `FocusFollower` keeps the ring around whatever has the
keyboard, always, whether it got there by mouse or by key. A widget says by a property how it is
ringed: `ring` is "none" (it draws its own, inset) or "outer" (the ring goes round the nearest
ancestor whose `ring` is "here"). `on_mast` on an ancestor chooses the ring's colour on the mast.
"""

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, QRect, QRectF, QSize, Qt, QTimer
from PySide6.QtGui import QGuiApplication, QPainter, QPalette
from PySide6.QtWidgets import (
    QAbstractScrollArea,
    QApplication,
    QFocusFrame,
    QProxyStyle,
    QStyle,
    QStyleHintReturn,
    QStyleOption,
    QStyleOptionComplex,
    QStyleOptionSlider,
    QWidget,
)
from shiboken6 import isValid

from honeyledger import assets
from honeyledger.desktop import look, rings, system_looks, tokens
from honeyledger.desktop.tokens import Density, Theme, Type

_RING_MARGIN = tokens.FOCUS_GAP + tokens.FOCUS_WIDTH


class HoneyStyle(QProxyStyle):
    """Fusion's behaviour with this project's scroll bars and focus ring, painted.

    Qt asks a style for measures thousands of times while a page is made, and each time would call
    into Python: those it has differently are in `Measured`, for the few widgets they are about.
    """

    def __init__(self) -> None:
        super().__init__("Fusion")

    def drawPrimitive(
        self,
        element: QStyle.PrimitiveElement,
        option: QStyleOption,
        painter: QPainter,
        widget: QWidget | None = None,
    ) -> None:
        if element == QStyle.PrimitiveElement.PE_FrameFocusRect:
            return  # The ring is drawn once, by the focus frame.
        super().drawPrimitive(element, option, painter, widget)

    def drawControl(
        self,
        element: QStyle.ControlElement,
        option: QStyleOption,
        painter: QPainter,
        widget: QWidget | None = None,
    ) -> None:
        if element == QStyle.ControlElement.CE_FocusFrame and isinstance(widget, QFocusFrame):
            ringed = widget.widget()
            on_mast = _is_on_mast(ringed)
            radius = _radius_of(ringed) + 4
            colour = "focus_mast" if on_mast else "focus"
            rings.draw_focus_ring(painter, QRectF(widget.rect()), colour=colour, radius=radius)
            return
        super().drawControl(element, option, painter, widget)

    def drawComplexControl(
        self,
        control: QStyle.ComplexControl,
        option: QStyleOptionComplex,
        painter: QPainter,
        widget: QWidget | None = None,
    ) -> None:
        if control == QStyle.ComplexControl.CC_ScrollBar and isinstance(
            option, QStyleOptionSlider
        ):
            self._draw_scroll_bar(option, painter, widget)
            return
        super().drawComplexControl(control, option, painter, widget)

    def subControlRect(
        self,
        control: QStyle.ComplexControl,
        option: QStyleOptionComplex,
        part: QStyle.SubControl,
        widget: QWidget | None = None,
    ) -> QRect:
        if control == QStyle.ComplexControl.CC_ScrollBar and isinstance(
            option, QStyleOptionSlider
        ):
            return _scroll_bar_part(option, part)
        return super().subControlRect(control, option, part, widget)  # type: ignore[arg-type]

    def _draw_scroll_bar(
        self, option: QStyleOptionSlider, painter: QPainter, widget: QWidget | None
    ) -> None:
        rect: QRect = option.rect
        painter.fillRect(rect, look.colour("well"))
        handle = QRectF(_scroll_bar_part(option, QStyle.SubControl.SC_ScrollBarSlider))
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(look.colour("edge"))
        inner = handle.adjusted(5, 5, -5, -5)
        painter.drawRoundedRect(inner, tokens.RADIUS_CONTROL, tokens.RADIUS_CONTROL)
        painter.restore()


class Measured(HoneyStyle):
    """The same with measures of its own, for scroll bars, menus and the focus ring."""

    def pixelMetric(
        self,
        metric: QStyle.PixelMetric,
        option: QStyleOption | None = None,
        widget: QWidget | None = None,
    ) -> int:
        if metric == QStyle.PixelMetric.PM_ScrollBarExtent:
            return tokens.SCROLL_BAR
        if metric in (
            QStyle.PixelMetric.PM_FocusFrameHMargin,
            QStyle.PixelMetric.PM_FocusFrameVMargin,
        ):
            return _RING_MARGIN
        if metric == QStyle.PixelMetric.PM_ScrollView_ScrollBarOverlap:
            return 0
        return super().pixelMetric(metric, option, widget)

    def styleHint(
        self,
        hint: QStyle.StyleHint,
        option: QStyleOption | None = None,
        widget: QWidget | None = None,
        returnData: QStyleHintReturn | None = None,
    ) -> int:
        if hint == QStyle.StyleHint.SH_FocusFrame_AboveWidget:
            return 1
        if hint == QStyle.StyleHint.SH_FocusFrame_Mask:
            return 0
        if hint == QStyle.StyleHint.SH_UnderlineShortcut:
            return 0
        return super().styleHint(hint, option, widget, returnData)

    def sizeFromContents(
        self,
        kind: QStyle.ContentsType,
        option: QStyleOption,
        size: QSize,
        widget: QWidget | None = None,
    ) -> QSize:
        made = super().sizeFromContents(kind, option, size, widget)  # type: ignore[arg-type]
        if kind == QStyle.ContentsType.CT_MenuItem and made.height() > tokens.STEPS[2]:
            made.setHeight(max(made.height(), tokens.TARGET_LEAST))
        return made


def measured() -> Measured:
    """The one style of scroll bars, menus and the focus ring; a widget does not keep its style."""
    app = QApplication.instance()
    made: Measured | None = app.findChild(Measured) if app is not None else None
    if made is None:
        made = Measured()
        made.setParent(app)
    return made


def wear_bars(area: QAbstractScrollArea) -> None:
    """Give an area scroll bars that a glove can take hold of."""
    for bar in (area.verticalScrollBar(), area.horizontalScrollBar()):
        bar.setStyle(measured())


def _scroll_bar_part(option: QStyleOptionSlider, part: QStyle.SubControl) -> QRect:
    """No arrow buttons: the groove is the whole bar, the handle at least a target high."""
    rect: QRect = option.rect
    upright = option.orientation == Qt.Orientation.Vertical
    length = rect.height() if upright else rect.width()
    least: int = option.minimum
    most: int = option.maximum
    page: int = option.pageStep
    at: int = option.sliderPosition
    size = max(tokens.TARGET_LEAST, length * page // max(1, most - least + page))
    size = min(size, length)
    start = QStyle.sliderPositionFromValue(least, most, at, length - size)
    spans = {
        QStyle.SubControl.SC_ScrollBarSlider: (start, size),
        QStyle.SubControl.SC_ScrollBarSubPage: (0, start),
        QStyle.SubControl.SC_ScrollBarAddPage: (start + size, length - start - size),
        QStyle.SubControl.SC_ScrollBarGroove: (0, length),
    }
    if part not in spans:
        return QRect()
    begin, extent = spans[part]
    if upright:
        return QRect(rect.left(), rect.top() + begin, rect.width(), extent)
    return QRect(rect.left() + begin, rect.top(), extent, rect.height())


def _radius_of(widget: QWidget | None) -> float:
    kept = widget.property("radius") if widget is not None else None
    return float(kept) if isinstance(kept, int | float) else float(tokens.RADIUS_CONTROL)


def _is_on_mast(widget: QWidget) -> bool:
    at: QWidget | None = widget
    while at is not None:
        if at.property("on_mast"):
            return True
        at = at.parentWidget()
    return False


def ringed_widget(focused: QWidget | None) -> QWidget | None:
    """The widget the ring goes round when this one has the keyboard, or None."""
    at = focused
    how = at.property("ring") if at is not None else None
    if how == "none":
        return None
    if how != "outer":
        return at
    while at is not None and at.property("ring") != "here":
        at = at.parentWidget()
    return at


class FocusFollower(QObject):
    """Keeps one focus frame round whatever has the keyboard."""

    def __init__(self, app: QApplication) -> None:
        super().__init__(app)
        self._frame: QFocusFrame | None = None
        self._watched: QWidget | None = None
        self._is_late = False
        app.focusChanged.connect(self._follow)

    def _follow(self, _old: QWidget | None, new: QWidget | None) -> None:
        target = ringed_widget(new)
        if target is not None and target.isWindow():
            target = None
        if self._frame is None:
            if target is None:
                return
            self._frame = QFocusFrame(target)
            self._frame.setStyle(measured())
            self._frame.destroyed.connect(self._forget)
        if self._watched is not None and isValid(self._watched):
            self._watched.removeEventFilter(self)
        self._watched = target
        if target is not None:
            target.installEventFilter(self)
        self._frame.setWidget(target)  # type: ignore[arg-type]

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Qt hides the ring of what is out of sight, and does not show it when that comes back.

        What is painted is in sight.
        """
        is_hidden = self._frame is not None and self._frame.isHidden()
        if is_hidden and not self._is_late and event.type() == QEvent.Type.Paint:
            self._is_late = True
            QTimer.singleShot(0, self, self._show_again)
        return False

    def _show_again(self) -> None:
        self._is_late = False
        frame = self._frame
        if frame is None or not frame.isHidden():
            return
        ringed = ringed_widget(QApplication.focusWidget())
        if ringed is not None and frame.widget() is ringed and ringed.isVisible():
            frame.show()
            frame.raise_()

    def _forget(self) -> None:
        self._frame = None


def qpalette(theme: Theme) -> QPalette:
    """The theme in Qt's own roles, for the widgets Qt draws itself."""
    made = QPalette()
    pairs = {
        QPalette.ColorRole.Window: theme.ground,
        QPalette.ColorRole.WindowText: theme.ink,
        QPalette.ColorRole.Base: theme.sheet,
        QPalette.ColorRole.AlternateBase: theme.well,
        QPalette.ColorRole.Text: theme.ink,
        QPalette.ColorRole.PlaceholderText: theme.ink2,
        QPalette.ColorRole.Button: theme.well,
        QPalette.ColorRole.ButtonText: theme.ink,
        QPalette.ColorRole.Highlight: theme.act,
        QPalette.ColorRole.HighlightedText: theme.on_act,
        QPalette.ColorRole.Link: theme.act,
        QPalette.ColorRole.ToolTipBase: theme.sheet,
        QPalette.ColorRole.ToolTipText: theme.ink,
        QPalette.ColorRole.Light: theme.sheet,
        QPalette.ColorRole.Midlight: theme.well,
        QPalette.ColorRole.Mid: theme.rule,
        QPalette.ColorRole.Dark: theme.edge,
        QPalette.ColorRole.Shadow: theme.edge,
    }
    for role, value in pairs.items():
        made.setColor(role, look.colour(value))
    return made


class SystemFollower(QObject):
    """Changes the theme when the system turns dark, light or to high contrast while one works.

    Args:
        choice: the look the settings ask for.
        parent: as long as this lives.
    """

    def __init__(self, choice: Callable[[], str], parent: QObject) -> None:
        super().__init__(parent)
        self._choice = choice
        hints = QGuiApplication.styleHints()
        asked = getattr(hints, "accessibility", None)
        told = getattr(asked(), "contrastPreferenceChanged", None) if asked is not None else None
        for changed in (hints.colorSchemeChanged, told):
            if changed is not None:
                changed.connect(self._follow)

    def _follow(self) -> None:
        app = QApplication.instance()
        if isinstance(app, QApplication):
            wear(app, system_looks.theme_for(self._choice()))


def wear(app: QApplication, theme: Theme, *, moving: bool | None = None) -> None:
    """Put a theme on every widget, now and from now on.

    A widget with colours that Qt's palette does not carry takes them when told of another palette.
    """
    look.change(to=theme, moving=moving)
    app.setPalette(qpalette(theme))
    # Else each widget would be told in the turn in which they are painted: half as long again.
    app.sendPostedEvents(None, QEvent.Type.ApplicationPaletteChange.value)
    # A window is painted with all that is seen in it: to go through each of thousands took longer.
    for window in app.topLevelWidgets():
        window.update()


def install(app: QApplication, theme: Theme = tokens.LIGHT) -> None:
    """Set the application up once: typefaces, style, ring, theme.

    Raises:
        FileNotFoundError: a typeface of the program is missing.
    """
    look.load_typefaces(assets.resource("fonts"))
    made = HoneyStyle()
    app.setStyle(made)
    app.setFont(look.font(Type.BODY, Density.DESK))
    if app.findChild(FocusFollower) is None:
        FocusFollower(app)
    wear(app, theme, moving=system_looks.wants_motion())
