"""One ring round whatever has the keyboard, one palette for what Qt draws itself."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QPaintEvent, QPalette
from PySide6.QtWidgets import (
    QApplication,
    QFocusFrame,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QStackedWidget,
    QStyle,
    QVBoxLayout,
    QWidget,
)
from pytestqt.qtbot import QtBot

from honeyledger.desktop import look, style, tokens


def _page(*widgets: QWidget) -> QWidget:
    page = QWidget()
    column = QVBoxLayout(page)
    column.setContentsMargins(20, 20, 20, 20)
    for widget in widgets:
        column.addWidget(widget)
    return page


def test_a_theme_reaches_the_widgets_that_qt_draws(dressed: QApplication) -> None:
    style.wear(dressed, tokens.DARK)
    colour = dressed.palette().color(QPalette.ColorRole.Base)
    assert colour.name().upper() == tokens.DARK.sheet


class _Painted(QWidget):
    """It covers its ground itself, has colours of its own, and counts how often it is painted."""

    def __init__(self) -> None:
        super().__init__()
        self.count = 0
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setPalette(QPalette(look.colour("act")))

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        self.count += 1


def test_all_that_is_seen_is_painted_in_another_theme(qtbot: QtBot, dressed: QApplication) -> None:
    seen, turned = _Painted(), _Painted()
    stack = QStackedWidget()
    stack.addWidget(seen)
    stack.addWidget(turned)
    page = _page(stack)
    qtbot.addWidget(page)
    with qtbot.waitExposed(page):
        page.show()
    qtbot.waitUntil(lambda: seen.count > 0)
    before = seen.count
    style.wear(dressed, tokens.DARK)
    qtbot.waitUntil(lambda: seen.count > before)
    assert turned.count == 0
    stack.setCurrentWidget(turned)
    qtbot.waitUntil(lambda: turned.count > 0)


def test_the_ring_follows_the_keyboard(qtbot: QtBot) -> None:
    one, other = QPushButton("one"), QPushButton("other")
    page = _page(one, other)
    qtbot.addWidget(page)
    with qtbot.waitExposed(page):
        page.show()
    page.activateWindow()
    for button in (one, other):
        button.setFocus()
        frames = page.findChildren(QFocusFrame)
        qtbot.waitUntil(lambda: bool(page.findChildren(QFocusFrame)))
        frames = page.findChildren(QFocusFrame)
        assert [frame.widget() for frame in frames] == [button]
        ring = frames[0].geometry()
        assert ring.width() == button.width() + 2 * (tokens.FOCUS_GAP + tokens.FOCUS_WIDTH)


def test_a_ring_stands_as_soon_as_its_widget_has_a_place(qtbot: QtBot) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    page = QWidget(window)
    field = QLineEdit(page)
    window.resize(400, 300)
    with qtbot.waitExposed(window):
        window.show()
    window.activateWindow()
    # Before it is laid out a page is small, and the field stands beyond its edge.
    page.resize(10, 10)
    field.setGeometry(100, 100, 200, 44)
    page.show()
    field.setFocus()
    qtbot.waitUntil(field.hasFocus)
    page.resize(400, 300)
    field.move(100, 120)
    qtbot.waitUntil(lambda: any(ring.isVisible() for ring in _rings(window)))
    (ring,) = _rings(window)
    assert ring.geometry().center() == field.geometry().center()


def _rings(window: QWidget) -> list[QFocusFrame]:
    return window.findChildren(QFocusFrame)


def test_a_widget_says_how_it_is_ringed() -> None:
    box, inner, plain, own = QWidget(), QWidget(), QWidget(), QWidget()
    inner.setParent(box)
    box.setProperty("ring", "here")
    inner.setProperty("ring", "outer")
    own.setProperty("ring", "none")
    assert style.ringed_widget(inner) is box
    assert style.ringed_widget(plain) is plain
    assert style.ringed_widget(own) is None
    assert style.ringed_widget(None) is None


def test_scroll_bars_are_wide_and_have_no_arrows(qtbot: QtBot) -> None:
    area = QScrollArea()
    qtbot.addWidget(area)
    style.wear_bars(area)
    assert area.horizontalScrollBar().sizeHint().height() == tokens.SCROLL_BAR
    bar = area.verticalScrollBar()
    bar.setParent(None)
    bar.setRange(0, 10_000)
    bar.resize(bar.sizeHint().width(), 400)
    assert bar.sizeHint().width() == tokens.SCROLL_BAR
    bar.grab()
    qtbot.mouseClick(bar, Qt.MouseButton.LeftButton, pos=bar.rect().center())
    assert bar.value() > 0, "a press in the groove scrolls a page"
    metric = QStyle.PixelMetric.PM_ScrollBarExtent
    assert bar.style().pixelMetric(metric, None, bar) == tokens.SCROLL_BAR


def test_a_system_that_turns_dark_meanwhile_is_followed_where_that_was_chosen(
    dressed: QApplication,
) -> None:
    chosen = ["dark"]
    follower = style.SystemFollower(lambda: chosen[0], dressed)
    dressed.styleHints().colorSchemeChanged.emit(Qt.ColorScheme.Dark)
    assert look.theme() is tokens.DARK
    chosen[0] = "light"
    dressed.styleHints().colorSchemeChanged.emit(Qt.ColorScheme.Light)
    assert look.theme() is tokens.LIGHT
    follower.deleteLater()
