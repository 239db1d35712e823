"""The river of a trace with its scroll bars: laid out beside the window, zoomed, pulled about."""

from collections.abc import Callable

from PySide6.QtCore import QPointF, QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QFrame, QScrollArea

from honeyledger.desktop import lettering, style
from honeyledger.desktop.models.river_graph import RiverGraph
from honeyledger.desktop.models.river_layout import river_width
from honeyledger.desktop.models.river_plates import HEAD
from honeyledger.desktop.models.river_walk import LaidRiver, RiverRoom, laid_river
from honeyledger.desktop.widgets.river_canvas import RiverCanvas
from honeyledger.desktop.widgets.river_paint import plate_measure
from honeyledger.desktop.widgets.river_picture import Lane, at_once

_ZOOMS = (1.0, 1.5, 2.0, 3.0, 4.0)
_ASIDE = 40


class River(QScrollArea):
    """The river with its scroll bars and zoom.

    Args:
        lane: runs a task beside the window's thread, under a name that a newer one replaces.

    Signals:
        opened: a lot that was clicked, for its card.
        centred: a lot that Enter was pressed on, for a new trace.
        selected: a lot that was chosen, for the table's row.
    """

    opened = Signal(str)
    centred = Signal(str)
    selected = Signal(str)

    def __init__(self, lane: Lane = at_once) -> None:
        super().__init__()
        self._lane = lane
        self._zoom = 1.0
        self._graph: RiverGraph | None = None
        self._least_width = 0.0
        self._then: Callable[[], None] | None = None
        self._place = QSize()
        self._is_tall = False
        self.canvas = RiverCanvas(lane)
        self.setWidget(self.canvas)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        style.wear_bars(self)
        self.setMinimumHeight(120)
        self.canvas.opened.connect(self.opened)
        self.canvas.centred.connect(self.centred)
        self.canvas.selected.connect(self.selected)
        self.canvas.reshaped.connect(self._lay_out)
        self.canvas.zoomed.connect(self.zoom_by)
        self.canvas.walked.connect(self._bring)
        self.canvas.pulled.connect(self._pull)
        for bar in (self.horizontalScrollBar(), self.verticalScrollBar()):
            # Heads and scale stay in place while the water goes by under them.
            bar.valueChanged.connect(self.canvas.update)

    def show_graph(self, graph: RiverGraph) -> None:
        """Show another trace."""
        self._graph, self._least_width = graph, river_width(graph)
        self._zoom, self._is_tall = 1.0, False
        self.canvas.begin_anew()
        self._lay_out()
        self.show_beginning()

    def select(self, key: str) -> None:
        """Frame a lot and bring it into view."""
        self.canvas.select(key)
        self.once_laid(lambda: self._bring(self.canvas.stands_for(key)))

    def show_beginning(self) -> None:
        """Bring the first column into view."""
        self.once_laid(self._to_beginning)

    def _to_beginning(self) -> None:
        self.horizontalScrollBar().setValue(0)
        self.verticalScrollBar().setValue(0)

    def once_laid(self, then: Callable[[], None]) -> None:
        """Do it now, or as soon as the river lies there; of several the last counts."""
        if self.canvas.laid() is None:
            self._then = then
        else:
            then()

    def _bring(self, key: str) -> None:
        """Bring a lot into view, under the heads."""
        laid = self.canvas.laid()
        spine = laid.spine(key) if laid is not None else None
        if spine is None:
            return
        self.ensureVisible(int(spine.right), int(spine.middle), _ASIDE, 0)
        self.ensureVisible(int(spine.left), int(spine.middle), _ASIDE, 0)
        room = self.viewport().height()
        top, now = int(spine.middle), self.verticalScrollBar().value()
        if not now + HEAD + _ASIDE / 2 <= top <= now + room - _ASIDE:
            self.verticalScrollBar().setValue(top - int((room + HEAD) / 2))

    def _pull(self, right: int, down: int) -> None:
        across, along = self.horizontalScrollBar(), self.verticalScrollBar()
        across.setValue(across.value() - right)
        along.setValue(along.value() - down)

    # Larger and smaller.

    def set_zoom(self, zoom: float, about: QPointF | None = None) -> None:
        """Draw the river so many times larger than its place.

        Args:
            about: the point of the viewport that stays where it is; the middle, if none.
        """
        zoom = min(_ZOOMS[-1], max(_ZOOMS[0], zoom))
        grown, self._zoom = zoom / self._zoom, zoom
        middle = QPointF(self.viewport().width() / 2, self.viewport().height() / 2)
        at = about if about is not None else middle
        across, along = self.horizontalScrollBar(), self.verticalScrollBar()
        right = (across.value() + at.x()) * grown - at.x()
        down = (along.value() + at.y()) * grown - at.y()

        def scrolled() -> None:
            across.setValue(round(right))
            along.setValue(round(down))

        self._then = scrolled
        self._lay_out()

    def zoom_by(self, steps: int, about: QPointF | None = None) -> None:
        """Draw it larger or smaller by so many steps; 0 for as large as its place."""
        nearest = min(range(len(_ZOOMS)), key=lambda at: abs(_ZOOMS[at] - self._zoom))
        nearest = nearest + steps if steps else 0
        self.set_zoom(_ZOOMS[min(len(_ZOOMS) - 1, max(0, nearest))], about)

    def zoom(self) -> float:
        """How many times larger than its place it is drawn."""
        return self._zoom

    # Laying out.

    def _lay_out(self) -> None:
        """Have it laid out for the place it has now; what is shown stays until that is done."""
        graph = self._graph
        if graph is None:
            return
        room = self._room(self._least_width)
        words = (
            lettering.translated("{n} small ones"),
            lettering.translated("press to fold, or Esc"),
        )
        laid = self.canvas.laid()
        told = laid.words if laid is not None else ""
        self._lane(
            "layout", lambda: laid_river(graph, room, plate_measure, words, told), self._laid
        )

    def _room(self, least: float) -> RiverRoom:
        """What there is beside the scroll bars, which are decided here: else they come and go."""
        place, bar = self.contentsRect().size(), self.verticalScrollBar().sizeHint().width()
        is_large = self._zoom > 1 or self._is_tall or bool(self.canvas.unfolded())
        across = place.width() - (bar if is_large else 0)
        # Where the window is too narrow for every column's plates, the river scrolls sideways.
        width = max(float(across), least) * self._zoom
        high = place.height() - (bar if width > across else 0)
        on, off = Qt.ScrollBarPolicy.ScrollBarAlwaysOn, Qt.ScrollBarPolicy.ScrollBarAlwaysOff
        self.setVerticalScrollBarPolicy(on if is_large else off)
        self.setHorizontalScrollBarPolicy(on if width > across else off)
        return RiverRoom(float(int(width)), float(int(high * self._zoom)), self.canvas.unfolded())

    def _laid(self, laid: LaidRiver) -> None:
        if laid.whole is not self._graph:
            return
        if laid.geometry.height > laid.room.height and not self._is_tall:
            self._is_tall = True
            self._lay_out()
            return
        self.canvas.resize(int(laid.geometry.width), int(laid.geometry.height))
        self.canvas.show_laid(laid)
        then, self._then = self._then, None
        if then is not None:
            then()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        # A scroll bar that comes changes the viewport, not the place.
        if self.contentsRect().size() != self._place:
            self._place, self._is_tall = self.contentsRect().size(), False
            self._lay_out()

    def wheelEvent(self, event: QWheelEvent) -> None:
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.zoom_by(1 if event.angleDelta().y() > 0 else -1, event.position())
            event.accept()
            return
        super().wheelEvent(event)
