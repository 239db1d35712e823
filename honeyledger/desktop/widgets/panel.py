"""A panel: a heading, a message slot where it has one, a body, and a foot pinned below."""

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QFrame, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from honeyledger.desktop import look, style, tokens
from honeyledger.desktop.lettering import Hand
from honeyledger.desktop.tokens import Density, Type
from honeyledger.desktop.widgets.action_bar import ActionBar
from honeyledger.desktop.widgets.message_slot import MessageSlot
from honeyledger.desktop.widgets.text import Text


class _Sheet(QWidget):
    def paintEvent(self, _event: QPaintEvent) -> None:
        QPainter(self).fillRect(QRectF(self.rect()), look.colour("sheet"))


class Panel(QWidget):
    """A sheet on the ground, outlined, without a shadow.

    Put the parts in from the top down: `add_slot`, `set_body`, `add_bar`. Heading, slot and bar
    stay; what is between them scrolls where the window is too low for it.
    """

    def __init__(self, heading: str = "", *, density: Density = Density.FLOOR) -> None:
        super().__init__()
        self.density = density
        self.slot: MessageSlot | None = None
        self.bar: ActionBar | None = None
        self._narrow = False
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(1, 1, 1, 1)
        self._column.setSpacing(0)
        self.heading = Text(heading, Hand(Type.TITLE, density))
        self._head = QWidget()
        self._head.setFixedHeight(tokens.HEADING_HEIGHT - 1)
        row = QHBoxLayout(self._head)
        row.setContentsMargins(tokens.PANEL_SIDE - 1, 0, 4, 0)
        row.addWidget(self.heading, 1)
        self._head_row = row
        self._column.addWidget(self._head)
        self._head.setVisible(bool(heading))
        self._sheet = _Sheet()
        self._parts = QVBoxLayout(self._sheet)
        self._parts.setContentsMargins(0, 0, 0, 0)
        self._parts.setSpacing(0)
        self._middle = QScrollArea()
        self._middle.setFrameShape(QFrame.Shape.NoFrame)
        style.wear_bars(self._middle)
        self._middle.setWidgetResizable(True)
        self._middle.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._middle.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._middle.setWidget(self._sheet)
        self._column.addWidget(self._middle, 1)
        self.setAccessibleName(heading)

    def set_heading(self, heading: str) -> None:
        """Change the heading."""
        self.heading.setText(heading)
        self._head.setVisible(self._is_headed())
        self.setAccessibleName(heading)

    def _is_headed(self) -> bool:
        return bool(self.heading.text()) and not self._narrow

    def set_narrow(self, narrow: bool) -> None:
        """Give the heading's room to a tab, and be lower at the foot, in a narrow window."""
        self._narrow = narrow
        self._head.setVisible(self._is_headed())
        if self.bar is not None:
            self.bar.set_narrow(narrow)

    def add_to_heading(self, widget: QWidget) -> None:
        """Something at the heading's right end."""
        self._head_row.addWidget(widget)

    def add_slot(self, next_step: str = "", *, tall: bool = False) -> MessageSlot:
        """The panel's message slot."""
        self.slot = MessageSlot(next_step, density=self.density, tall=tall)
        self._column.insertWidget(self._column.indexOf(self._middle), self.slot)
        return self.slot

    def set_body(self, body: QWidget, *, padded: bool = False) -> None:
        """What the panel is about; it takes all the height that is left."""
        if padded:
            body = _padded(body)
        self._parts.addWidget(body, 1)

    def set_bodies(self, *bodies: tuple[QWidget, int]) -> None:
        """Several, one under another; each takes so much of the height, none what it asks for."""
        for body, share in bodies:
            self._parts.addWidget(body, share)

    def add_part(self, part: QWidget, *, padded: bool = False) -> None:
        """A part as high as it asks for, under what is there already."""
        self._parts.addWidget(_padded(part) if padded else part)

    def keep_in_view(self, part: QWidget) -> None:
        """Scroll to a part of the panel, where the window is too low for all of them."""
        self._middle.ensureWidgetVisible(part, 0, tokens.STEPS[1])

    def add_bar(self, *, wide_primary: bool = False) -> ActionBar:
        """The panel's action bar, at its foot."""
        self.bar = ActionBar(density=self.density, wide_primary=wide_primary)
        self._column.addWidget(self.bar)
        return self.bar

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(look.colour("rule"), 1))
        painter.setBrush(look.colour("sheet"))
        edge = QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5)
        painter.drawRoundedRect(edge, tokens.RADIUS_PANEL, tokens.RADIUS_PANEL)


def _padded(widget: QWidget) -> QWidget:
    holder = QWidget()
    column = QVBoxLayout(holder)
    side = tokens.PANEL_SIDE - 1
    column.setContentsMargins(side, 0, side, 0)
    column.addWidget(widget)
    return holder
