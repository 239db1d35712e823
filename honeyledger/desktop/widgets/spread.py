"""A page of panels side by side on the grid; in a narrow window one at a time, with tabs."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from PySide6.QtCore import QEvent, QObject, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import (
    QButtonGroup,
    QHBoxLayout,
    QRadioButton,
    QSizePolicy,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from honeyledger.desktop import lettering, look, tokens
from honeyledger.desktop.lettering import Hand, Side
from honeyledger.desktop.tokens import BOLD, SEMIBOLD, Density, Type
from honeyledger.desktop.widgets.panel import Panel

# Below it half of eight columns is less than a form for gloves needs.
BESIDE_LEAST = 1000


class Leaves(QStackedWidget):
    """Panels of which one is shown, all in the same place."""

    def __init__(self, *panels: Panel) -> None:
        super().__init__()
        self._panels: list[Panel] = []
        self._narrow = False
        for panel in panels:
            self.add(panel)

    def add(self, panel: Panel) -> None:
        """One more; it is not shown yet."""
        panel.set_narrow(self._narrow)
        self.addWidget(panel)
        if self._panels:
            _follow(self._panels[-1], panel)
        self._panels.append(panel)

    def set_narrow(self, narrow: bool) -> None:
        """Give the heading's room to a tab, in a narrow window."""
        self._narrow = narrow
        for panel in self._panels:
            panel.set_narrow(narrow)


def _follow(first: Panel, after: Panel) -> None:
    """Let Tab come to a panel that is made late where it stands: behind the first one."""
    for before, widget in pairwise([*[*_tab_chain(first)][-1:], *_tab_chain(after)]):
        QWidget.setTabOrder(before, widget)


def _tab_chain(panel: Panel) -> Iterator[QWidget]:
    """What stands in a panel, in the order in which Tab comes to it."""
    widget: QWidget | None = panel.nextInFocusChain()
    while widget is not None and widget is not panel:
        if panel.isAncestorOf(widget):
            yield widget
        widget = widget.nextInFocusChain()


@dataclass(frozen=True, slots=True)
class Part:
    """A panel, how it is called on its tab, and its columns at 1200 and more and at 900.

    Where the columns at 900 are more than eight together, the panels are shown one at a time there
    too. One of no columns stands nowhere but behind its tab, while it is offered.
    """

    panel: Panel | Leaves
    tab: str
    of_twelve: int
    of_eight: int


class _Tab(QRadioButton):
    def __init__(self, text: str) -> None:
        super().__init__(text)
        self.setFixedHeight(tokens.HEADING_HEIGHT)
        self.setProperty("ring", "none")

    def hitButton(self, _position: object) -> bool:
        return True

    def sizeHint(self) -> QSize:
        hand = Hand(Type.BODY, Density.DESK, BOLD)
        return QSize(int(lettering.width([hand.run(self.text())])) + 32, self.height())

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        rect = QRectF(self.rect())
        weight = BOLD if self.isChecked() else SEMIBOLD
        colour = "ink" if self.isChecked() else "ink2"
        hand = Hand(Type.BODY, Density.DESK, weight, colour)
        lettering.draw(painter, rect.adjusted(8, 0, -8, 0), [hand.run(self.text())], Side.CENTRE)
        if self.isChecked():
            bar = QRectF(0, rect.bottom() - 4, rect.width(), 4)
            painter.fillRect(bar, look.colour("act"))
        if self.hasFocus():
            painter.setPen(Qt.PenStyle.NoPen)
            painter.fillRect(QRectF(0, 0, rect.width(), 3), look.colour("focus"))


class Spread(QWidget):
    """Panels on the page's grid.

    Args:
        parts: the panels from left to right.
        above: what stands over all columns, such as the answer.
    """

    def __init__(self, parts: Sequence[Part], *, above: QWidget | None = None) -> None:
        super().__init__()
        self._parts = tuple(parts)
        self._beside = tuple(part for part in parts if part.of_twelve)
        self._above = above
        self._column = QVBoxLayout(self)
        self._column.setSpacing(0)
        self._tabs = QWidget()
        tab_row = QHBoxLayout(self._tabs)
        tab_row.setContentsMargins(0, 0, 0, 0)
        tab_row.setSpacing(0)
        self._group = QButtonGroup(self)
        for number, part in enumerate(self._parts):
            tab = _Tab(part.tab)
            if part not in self._beside:
                tab.hide()
            self._group.addButton(tab, number)
            tab_row.addWidget(tab, 1)
        if above is not None:
            self._column.addWidget(above)
        self._column.addWidget(self._tabs)
        self._stage = QWidget()
        # The stage never asks for room: panels give way, a window is never forced to grow.
        self._stage.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Ignored)
        self._stage.installEventFilter(self)
        self._column.addWidget(self._stage, 1)
        for part in self._parts:
            part.panel.setParent(self._stage)
        self._group.idToggled.connect(lambda _number, on: self._arrange() if on else None)
        self._group.button(0).setChecked(True)

    def fill(self, page: QWidget) -> None:
        """Be all there is on a page."""
        column = QVBoxLayout(page)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self)

    def show_part(self, number: int) -> None:
        """Bring a panel to the front where only one is shown."""
        self._group.button(number).setChecked(True)

    def offered(self) -> list[int]:
        """The panels that have a tab now."""
        tabs = [self._group.button(number) for number in range(len(self._parts))]
        return [number for number, tab in enumerate(tabs) if not tab.isHidden()]

    def name_part(self, number: int, tab: str) -> None:
        """Call a panel otherwise on its tab."""
        self._group.button(number).setText(tab)

    def offer_part(self, number: int, offered: bool) -> None:
        """Let a panel be turned to where panels take turns, or no more."""
        tab = self._group.button(number)
        tab.setVisible(offered)
        if not offered and tab.isChecked():
            self.show_part(0)

    def is_tabbed(self) -> bool:
        """Whether the panels are shown one at a time."""
        columns = tokens.grid(self.width()).columns
        if columns == 8:
            wanted = sum(part.of_eight for part in self._parts)
            return wanted > columns or (len(self._beside) > 1 and self.width() < BESIDE_LEAST)
        return columns == 1

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    def _arrange(self) -> None:
        tabbed = self.is_tabbed()
        top = 0 if self._above is not None else tokens.PANEL_GAP
        bottom = tokens.PANEL_GAP
        if tabbed:
            top = 0
            if tokens.grid(self.window().width()).columns == 1:
                bottom = tokens.STEPS[1]
        # The margin is the window's, so that a card beside the page moves nothing sideways.
        margin = tokens.grid(self.window().width()).margin
        self._column.setContentsMargins(margin, top, margin, bottom)
        self._tabs.setVisible(tabbed and len(self._parts) > 1)
        shown = self._group.checkedId()
        for number, part in enumerate(self._parts):
            part.panel.set_narrow(tabbed and len(self._parts) > 1)
            beside = part in self._beside and not tabbed
            part.panel.setVisible(beside or (tabbed and number == shown))
        # Now, not when the event loop comes round to it, or the page is seen to jump.
        self._column.activate()
        self._place_panels()

    def _place_panels(self) -> None:
        """The last panel ends with the stage, so that rounding leaves no seam at the edge."""
        grid = tokens.grid(self.width())
        room, high = self._stage.width(), self._stage.height()
        if self.is_tabbed():
            for part in self._parts:
                part.panel.setGeometry(0, 0, room, high)
            return
        left = 0.0
        for part in self._beside:
            columns = part.of_eight if grid.columns == 8 else part.of_twelve
            width = grid.span(columns)
            right = room if part is self._beside[-1] else round(left + width)
            part.panel.setGeometry(round(left), 0, right - round(left), high)
            left += width + grid.gutter

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QResizeEvent):
            self._place_panels()
        return super().eventFilter(watched, event)
