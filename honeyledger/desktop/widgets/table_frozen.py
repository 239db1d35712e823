"""The code column of a table that is too wide for its room: it stays while the rest scrolls.

Most tables are never scrolled sideways: the second view is made when one first is.
"""

from PySide6.QtCore import QEvent, QObject, QRect, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QFrame, QHeaderView, QTableView

from honeyledger.desktop.widgets.table_head import TableHead
from honeyledger.desktop.widgets.table_view import RowsView


class CodesView(QTableView):
    """A second view of the first column, laid over the first one while that scrolls sideways."""

    def __init__(self, view: RowsView) -> None:
        super().__init__(view)
        self._view = view
        self._head = TableHead(self)
        self.setHorizontalHeader(self._head)
        self.setModel(view.model())
        self.setSelectionModel(view.selectionModel())
        self.setItemDelegate(view.delegate)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setShowGrid(False)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.hide()
        view.verticalScrollBar().valueChanged.connect(self._follow)
        self.verticalScrollBar().valueChanged.connect(self._lead)
        self.doubleClicked.connect(view.doubleClicked)

    def _follow(self, value: int) -> None:
        if self.isHidden():
            return
        # The rows must be laid out, or there is nothing yet to scroll over.
        self.updateGeometries()
        self.verticalScrollBar().setValue(value)

    def _lead(self, value: int) -> None:
        if not self.isHidden():
            self._view.verticalScrollBar().setValue(value)

    def stand(self) -> None:
        """Stand over the first column, as it is now."""
        self.show()
        for place in range(1, self._view.model().columnCount()):
            self.setColumnHidden(place, True)
        width = self._view.columnWidth(0)
        self.setColumnWidth(0, width)
        self._head.right_pads = self._view.head.right_pads
        self._head.heading = self._view.head.heading
        self.verticalHeader().setDefaultSectionSize(
            self._view.verticalHeader().defaultSectionSize()
        )
        for place in range(min(self.model().rowCount(), 2000)):
            self.setRowHeight(place, self._view.rowHeight(place))
        height = self._view.viewport().height() + self._view.head.height()
        self.setGeometry(QRect(0, 0, width, height))
        self._follow(self._view.verticalScrollBar().value())
        self.raise_()


class FrozenCodes(QObject):
    """Shows the codes of a table as long as its first column is scrolled away."""

    def __init__(self, view: RowsView) -> None:
        super().__init__(view)
        self._view = view
        self.codes: CodesView | None = None
        bar = view.horizontalScrollBar()
        bar.rangeChanged.connect(self.refresh)
        bar.valueChanged.connect(self._slide)
        view.installEventFilter(self)

    def is_shown(self) -> bool:
        """Whether the codes stand over the first column."""
        return self.codes is not None and not self.codes.isHidden()

    def _slide(self) -> None:
        """Only the first and the last step sideways change anything here."""
        if self.is_shown() != (self._view.horizontalScrollBar().value() > 0):
            self.refresh()

    def refresh(self) -> None:
        """Let them stand there while the rest is scrolled away, and else not."""
        if self._view.horizontalScrollBar().value() > 0:
            if self.codes is None:
                self.codes = CodesView(self._view)
            self.codes.stand()
        elif self.codes is not None:
            self.codes.hide()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QResizeEvent):
            self.refresh()
        return super().eventFilter(watched, event)
