"""The frame of the window: mast, line, the open page, status bar.

Under 900 wide the mast and the line are one row and the status bar moves into More; F2 or a scan
then lays the scan field over the whole row.
"""

from PySide6.QtCore import QPoint, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QAction, QKeySequence, QPainter, QPaintEvent, QResizeEvent, QShortcut
from PySide6.QtWidgets import (
    QAbstractButton,
    QHBoxLayout,
    QMenu,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from honeyledger.desktop import lettering, look, style, tokens
from honeyledger.desktop.lettering import Hand
from honeyledger.desktop.models.frame_facts import MastFacts, StatusFacts
from honeyledger.desktop.models.line_figures import LineFigures
from honeyledger.desktop.tokens import SEMIBOLD, Density, Type
from honeyledger.desktop.widgets.buttons import Button, Kind
from honeyledger.desktop.widgets.line import MORE, SCAN, TOOLS, LineBar
from honeyledger.desktop.widgets.mast import Mast
from honeyledger.desktop.widgets.pad_strip import PadStrip
from honeyledger.desktop.widgets.scan_box import ScanBox
from honeyledger.desktop.widgets.status_bar import StatusBar

_MOST_WIDE = 16_777_215
# A screen of 1280 by 720 at 200 %, less a task bar, is hardly more.
_LEAST = (480, 320)


class AlertStrip(QWidget):
    """The strip under the mast while the ledger cannot be reached."""

    retry = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._words = ""
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 2, tokens.PANEL_SIDE, 2)
        row.addStretch(1)
        self.again = Button(self.tr("Try again"), Kind.SECONDARY, density=Density.DESK)
        self.again.clicked.connect(self.retry)
        row.addWidget(self.again)
        self.setFixedHeight(tokens.MAST_HEIGHT)
        self.hide()

    def say(self, words: str) -> None:
        """Show the strip with these words; "" takes it away."""
        self._words = words
        self.setAccessibleName(words)
        self.setToolTip(words)
        self.setVisible(bool(words))
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), look.colour("alert"))
        margin = tokens.grid(self.width()).margin
        room = QRectF(margin, 0, self.again.x() - margin - 16, self.height())
        hand = Hand(Type.BODY, Density.DESK, SEMIBOLD, "on_state")
        lettering.draw(painter, room, [hand.run(self._words)])


class _NarrowScan(QWidget):
    """The scan field over the whole row, where the mast is not shown."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.scan_box = ScanBox()
        row = QHBoxLayout(self)
        row.setContentsMargins(tokens.PANEL_GAP, 8, tokens.PANEL_GAP, 8)
        row.addWidget(self.scan_box)
        self.scan_box.finished.connect(self.hide)
        self.hide()

    def paintEvent(self, _event: QPaintEvent) -> None:
        QPainter(self).fillRect(self.rect(), look.colour("mast"))


class _Foot(QAbstractButton):
    """What answers to a press on the words at the foot, a finger's height; the bar paints them."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The status bar paints the words."""


class Shell(QWidget):
    """The window's content; a page is put in for each station.

    Signals:
        place_pressed: the key of a place or tool that was asked for.
        code_typed: a code from the scan box.
        aside_left: Esc was pressed in what stands beside the page.
        status_pressed: the words at the foot were pressed: how the house is kept.
    """

    place_pressed = Signal(str)
    code_typed = Signal(str)
    aside_left = Signal()
    status_pressed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.mast = Mast()
        self.strip = AlertStrip()
        self.pad_strip = PadStrip()
        self.line = LineBar()
        self.pages = QStackedWidget()
        self.status = StatusBar()
        self._keys: dict[str, int] = {}
        self._mast_facts = MastFacts("")
        self._status_facts = StatusFacts()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.mast)
        column.addWidget(self.strip)
        column.addWidget(self.pad_strip)
        column.addWidget(self.line)
        self._middle = QHBoxLayout()
        self._middle.setSpacing(0)
        self._middle.addWidget(self.pages, 1)
        column.addLayout(self._middle, 1)
        self._aside: QWidget | None = None
        self._beside = QWidget()
        self._beside_row = QHBoxLayout(self._beside)
        self._beside.hide()
        self._middle.addWidget(self._beside)
        column.addWidget(self.status)
        self.foot = _Foot(self)
        self.foot.clicked.connect(self.status_pressed)
        self._narrow_scan = _NarrowScan(self)
        self.line.pressed.connect(self._pressed)
        self.mast.scan_box.entered.connect(self.code_typed)
        self._narrow_scan.scan_box.entered.connect(self.code_typed)

    def add_page(self, key: str, page: QWidget) -> None:
        """A station's page, by its key."""
        self._keys[key] = self.pages.addWidget(page)

    def open_page(self, key: str) -> None:
        """Show a station and open its place on the line."""
        self.pages.setCurrentIndex(self._keys[key])
        self.line.open_place(key)

    def open_key(self) -> str:
        """The key of the station shown."""
        return self.line.opened()

    def set_aside(self, widget: QWidget) -> None:
        """What may stand at the right of the page: a lot's card."""
        self._aside = widget
        self._beside_row.addWidget(widget)
        escape = QShortcut(QKeySequence(Qt.Key.Key_Escape), widget)
        escape.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        escape.activated.connect(self.aside_left)

    def show_aside(self, shown: bool) -> None:
        """Push the page aside for it, or cover the page where there is no room for both."""
        if self._aside is None:
            return
        self._aside.setVisible(shown)
        self._beside.setVisible(shown)
        self._place_aside()

    def is_aside_shown(self) -> bool:
        """Whether the card stands beside the page."""
        return not self._beside.isHidden()

    def are_pages_shown(self) -> bool:
        """Whether the card, where it is shown, leaves room for the page."""
        return not self.is_aside_shown() or self.pages.isVisibleTo(self)

    def _place_aside(self) -> None:
        shown = self.is_aside_shown()
        beside = self.width() >= tokens.USUAL_FROM
        self.pages.setVisible(beside or not shown)
        if not shown:
            return
        grid = tokens.grid(self.width())
        gap = tokens.PANEL_GAP
        self._beside_row.setContentsMargins(0 if beside else grid.margin, gap, grid.margin, gap)
        if beside:
            self._beside.setFixedWidth(round(grid.span(4)) + grid.margin)
        else:
            self._beside.setMinimumWidth(0)
            self._beside.setMaximumWidth(_MOST_WIDE)

    def show_line(self, figures: LineFigures) -> None:
        """Show the line's figures."""
        self.line.show_figures(figures)

    def show_mast(self, facts: MastFacts) -> None:
        """Say whose house it is and who works where."""
        self._mast_facts = facts
        self.mast.show_facts(facts)

    def show_status(self, facts: StatusFacts) -> None:
        """Say how the ledger is."""
        self._status_facts = facts
        self.status.show_facts(facts)
        words = self.tr("How this house is kept: {words}")
        self.foot.setAccessibleName(words.format(words=self.status.accessibleName()))
        self.foot.setToolTip(self.status.toolTip())

    def is_narrow(self) -> bool:
        """Whether the mast and the line are one row."""
        return self.width() < tokens.MIDDLE_FROM

    def scan_box(self) -> ScanBox:
        """The scan box in use at this width."""
        return self._narrow_scan.scan_box if self.is_narrow() else self.mast.scan_box

    def begin_scan(self) -> None:
        """F2: type a code."""
        self._lay_scan()
        self.scan_box().begin()

    def show_scanned(self, code: str, *, refused: bool = False) -> None:
        """Show a code that was just read."""
        self._lay_scan()
        self.scan_box().show_scanned(code, refused=refused)

    def _lay_scan(self) -> None:
        if self.is_narrow():
            self._narrow_scan.setGeometry(self.line.geometry())
            self._narrow_scan.show()
            self._narrow_scan.raise_()

    def _pressed(self, key: str) -> None:
        if key == SCAN:
            self.begin_scan()
        elif key == MORE:
            self.more_menu().popup(self._under_more())
        else:
            self.place_pressed.emit(key)

    def _under_more(self) -> QPoint:
        spot = self.line.spot(MORE)
        return spot.mapToGlobal(QPoint(0, spot.height()))

    def more_menu(self) -> QMenu:
        """What moved out of the frame for want of room: tools, the house, the ledger."""
        menu = QMenu(self)
        menu.setStyle(style.measured())
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        names = dict(zip(TOOLS, self.line.tool_names(), strict=True))
        for key, name in names.items():
            action = QAction(name, menu)
            action.triggered.connect(lambda _checked=False, key=key: self.place_pressed.emit(key))
            menu.addAction(action)
        kept = QAction(self.tr("Entries, and how this house is kept"), menu)
        kept.triggered.connect(self.status_pressed)
        menu.addAction(kept)
        menu.addSeparator()
        facts, status = self._mast_facts, self._status_facts
        said = [status.alert, facts.house, facts.operator, facts.season, *status.parts]
        for words in said:
            if words:
                menu.addAction(QAction(words, menu))
        return menu

    def minimumSizeHint(self) -> QSize:
        """One for all widths, so that what a wide layout needs does not keep the window wide."""
        return QSize(*_LEAST)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        narrow = self.is_narrow()
        self.mast.setVisible(not narrow)
        self.status.setVisible(not narrow)
        self.foot.setVisible(not narrow)
        high = tokens.TARGET_LEAST
        self.foot.setGeometry(0, self.height() - high, self.width(), high)
        self.foot.raise_()
        if not narrow:
            self._narrow_scan.hide()
        self._place_aside()

    def paintEvent(self, _event: QPaintEvent) -> None:
        QPainter(self).fillRect(self.rect(), look.colour("ground"))
