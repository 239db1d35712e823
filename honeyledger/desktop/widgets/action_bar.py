"""The buttons pinned to a panel's foot: one primary, then the others, the grave one last."""

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QWidget

from honeyledger.desktop import look, tokens
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.buttons import Button, Kind


class ActionBar(QWidget):
    """A panel's foot on `well`.

    Args:
        wide_primary: the primary button takes the full width, as in a form.
    """

    def __init__(self, *, density: Density = Density.FLOOR, wide_primary: bool = False) -> None:
        super().__init__()
        self._density = density
        self._wide_primary = wide_primary
        self.primary: Button | None = None
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(tokens.PANEL_SIDE, 0, tokens.PANEL_SIDE, 0)
        self._row.setSpacing(tokens.button_gap(density))
        if not wide_primary:
            self._row.addStretch(1)
        self.set_narrow(False)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def add_primary(self, text: str, *, icon: str = "") -> Button:
        """The one thing this panel is for; the last Enter of its form presses it."""
        self.primary = self._add(text, Kind.PRIMARY, icon)
        if self._wide_primary:
            self.primary.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
            self._row.setStretchFactor(self.primary, 1)
        return self.primary

    def add_secondary(self, text: str, *, icon: str = "") -> Button:
        """Print, add, repeat."""
        return self._add(text, Kind.SECONDARY, icon)

    def add_plain(self, text: str, *, icon: str = "") -> Button:
        """Open, show all."""
        return self._add(text, Kind.PLAIN, icon)

    def add_grave(self, text: str) -> Button:
        """What cannot be undone: it stands apart, and comes last."""
        extra = tokens.GRAVE_GAP - tokens.button_gap(self._density)
        self._row.insertSpacing(self._end(), max(0, extra))
        return self._add(text, Kind.GRAVE, "")

    def set_side(self, widget: QWidget, part: int = 1) -> None:
        """What stands at the bar's right end: the message slot of a trace, a note."""
        self._row.addWidget(widget, part)

    def _end(self) -> int:
        return self._row.count() - (0 if self._wide_primary else 1)

    def _add(self, text: str, kind: Kind, icon: str) -> Button:
        made = Button(text, kind, density=self._density, icon=icon)
        self._row.insertWidget(self._end(), made)
        return made

    def set_narrow(self, narrow: bool) -> None:
        """Be lower, and keep less room between the buttons, in a narrow window."""
        side = tokens.STEPS[2] if narrow and not self._wide_primary else tokens.PANEL_SIDE
        self._row.setContentsMargins(side, 0, side, 0)
        self._row.setSpacing(tokens.STEPS[1] if narrow else tokens.button_gap(self._density))
        # One pixel of the height is the panel's own outline.
        height = tokens.ACTION_BAR_NARROW_HEIGHT if narrow else tokens.ACTION_BAR_HEIGHT
        self.setFixedHeight(height - 1)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        # The corners follow the panel's, the top edge is straight.
        rect = QRectF(self.rect())
        path = QPainterPath()
        path.addRoundedRect(rect, tokens.RADIUS_PANEL - 1, tokens.RADIUS_PANEL - 1)
        path.addRect(rect.adjusted(0, 0, 0, -tokens.RADIUS_PANEL))
        path.setFillRule(Qt.FillRule.WindingFill)
        painter.fillPath(path, look.colour("well"))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        painter.setPen(QPen(look.colour("rule"), 1))
        painter.drawLine(0, 0, self.width(), 0)
