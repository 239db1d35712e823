"""The river over the table that lists it; where the window is too low for both, one of them."""

from collections.abc import Mapping, Sequence

from PySide6.QtCore import Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QApplication, QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from honeyledger.desktop.models.river_graph import RiverGraph
from honeyledger.desktop.models.rows import Total
from honeyledger.desktop.models.yard_places import Spot
from honeyledger.desktop.stations.trace.columns import (
    ReachedRow,
    YardRow,
    reached_columns,
    yard_columns,
)
from honeyledger.desktop.stations.trace.river_rows import code_of, is_end
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.divider import Divider
from honeyledger.desktop.widgets.river import River
from honeyledger.desktop.widgets.river_picture import Lane
from honeyledger.desktop.widgets.table import Table
from honeyledger.desktop.widgets.yard_map import YardsMap

# Under it neither a river of 180 nor three rows are left to look at.
BOTH_LEAST = 300
# From this width on the map is there unasked; under the other it takes the table's place.
MAP_FROM, BESIDE_FROM = 1500, 760
_MAP_SHARE, _NO_LIMIT = 0.34, 16_777_215


class Bodies(QWidget):
    """What a trace shows, back or forward.

    Signals:
        card_asked: the code of a lot or yard whose card is wanted.
        centred: the code that goes into the middle of a new trace.
        turned: whether there is room for one of the two only.
    """

    card_asked = Signal(str)
    centred = Signal(str)
    turned = Signal(bool)

    def __init__(self, lane: Lane) -> None:
        super().__init__()
        tr = self.tr
        self.river = River(lane)
        self.yards = Table(
            yard_columns(),
            lambda row: row.code,
            density=Density.DESK,
            sorts_itself=True,
            empty=tr("Scan a jar, a drum or a tank fill, or press F2 and type its code."),
        )
        self.reached = Table(
            reached_columns(),
            lambda row: f"{row.code} {row.where}",
            density=Density.DESK,
            empty=tr("Nothing of it has gone anywhere yet."),
        )
        self.map = YardsMap(tr("None of these yards has its latitude and longitude on record."))
        self.tables = QStackedWidget()
        self.tables.addWidget(self._beside_map())
        self.tables.addWidget(self.reached)
        self._wants_map: bool | None = None
        self._has_map = False
        self.divider = Divider(self.river, self.tables, upper_least=180)
        self.is_low = False
        self._river_in_front = True
        self._has_river = False
        self._keys: dict[str, str] = {}
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.divider)
        self.yards.selected.connect(self._row_chosen)
        self.yards.opened.connect(self.card_asked)
        self.map.selected.connect(self.yards.select)
        self.map.opened.connect(self.card_asked)
        self.reached.selected.connect(self._row_chosen)
        self.reached.opened.connect(self._reached_opened)
        self.river.selected.connect(self._lot_chosen)
        self.river.opened.connect(self._lot_opened)
        self.river.centred.connect(self._lot_centred)

    def _beside_map(self) -> QWidget:
        """The yards as rows and as marks."""
        both = self._both = QWidget()
        row = QHBoxLayout(both)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        row.addWidget(self.yards, 1)
        row.addWidget(self.map)
        self.map.hide()
        return both

    # What is shown.

    def show_back(
        self, graph: RiverGraph | None, rows: Sequence[YardRow], lead: str, grams: str
    ) -> None:
        """Where something comes from."""
        self.tables.setCurrentWidget(self._both)
        self._show_river(graph)
        self.yards.show_rows(rows)
        self.yards.show_totals(lead, {"share": Total("100.0", "%"), "grams": Total(grams, "g")})
        self.yards.say_rows()
        if rows:
            self.yards.select(rows[0].code)

    def show_forward(self, graph: RiverGraph | None) -> None:
        """Where something went; its table comes with `list_reached`."""
        self.tables.setCurrentWidget(self.reached)
        self._show_river(graph)
        self.river.show_beginning()

    def list_reached(self, rows: Sequence[ReachedRow]) -> None:
        """The table of where it went."""
        self.reached.show_rows(rows)
        self.reached.say_rows()
        if rows:
            self.reached.select(f"{rows[0].code} {rows[0].where}")

    def show_map(self, spots: Sequence[Spot], note: str) -> None:
        """The yards of the trace by their coordinates; none of them on a trace forward."""
        self._has_map = bool(spots)
        self.map.show_spots(spots, note)
        self.map.choose(self.yards.selected_key())
        self._share_room()

    def has_map(self) -> bool:
        """Whether there is a map to be shown."""
        return self._has_map and self.table() is self.yards

    def is_map_shown(self) -> bool:
        """Whether it is shown: in a wide window unless it was put away, else as it is asked."""
        wanted = self.width() >= MAP_FROM if self._wants_map is None else self._wants_map
        return self.has_map() and wanted

    def turn_map(self) -> None:
        """Show the map beside the rows, or put it away."""
        self.want_map(not self.is_map_shown())
        self.turned.emit(self.is_low)
        shown = self.map if self.is_map_shown() else self.yards.view
        shown.setFocus()

    def want_map(self, wanted: bool | None) -> None:
        """Have the map or not, however wide the window is; None for as the width says."""
        self._wants_map = wanted
        self._share_room()

    def show_nothing(self) -> None:
        """Nothing is traced yet."""
        self.yards.show_rows(())
        self._show_river(None)

    def _show_river(self, graph: RiverGraph | None) -> None:
        self._has_river = graph is not None and bool(graph.nodes)
        self._keys = {}
        if graph is not None and self._has_river:
            # A yard stands before a lot of its code, which an unknown source has.
            self._keys = {code_of(node.key): node.key for node in reversed(graph.nodes)}
            self.river.show_graph(graph)
        self._share_room()

    def table(self) -> Table:
        """The table in use."""
        return self.reached if self.tables.currentWidget() is self.reached else self.yards

    def name_table(self, heading: str) -> None:
        """Tell a screen reader what the table lists."""
        self.table().view.setAccessibleName(heading)

    def totals(self) -> Mapping[str, Total]:
        """What stands under the rows of the table in use."""
        return self.yards.foot.totals() if self.table() is self.yards else {}

    def chosen(self) -> str:
        """The code of the row that is chosen; "" for none."""
        return self.table().selected_key().split(" ")[0]

    # Room for both, or for one.

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._share_room()

    def _share_room(self) -> None:
        self._share_lower()
        low = self.height() < BOTH_LEAST
        self.river.setVisible(self._has_river and (not low or self._river_in_front))
        self.tables.setVisible(not self._has_river or not low or not self._river_in_front)
        if low != self.is_low:
            self.is_low = low
            self.turned.emit(low)

    def _share_lower(self) -> None:
        """The map beside the rows; where there is no room beside them, in their place."""
        shown, alone = self.is_map_shown(), self.width() < BESIDE_FROM
        self.map.setVisible(shown)
        self.yards.setVisible(not (shown and alone))
        self.map.setMinimumWidth(240)
        self.map.setMaximumWidth(_NO_LIMIT if alone else max(320, int(self.width() * _MAP_SHARE)))
        self.map.setMinimumWidth(240 if alone else self.map.maximumWidth())

    def shows_river(self) -> bool:
        """Whether the river is the one in front, where there is room for one."""
        return self._has_river and self._river_in_front

    def turn_over(self) -> None:
        """Show the other of the two."""
        self._river_in_front = not self._river_in_front
        self._share_room()
        self.turned.emit(self.is_low)
        self.take_focus()

    def take_focus(self) -> None:
        """Put the keyboard in the table, or in the river where the table is not seen."""
        if self.tables.isVisibleTo(self):
            self.table().take_focus()
        else:
            self.river.canvas.setFocus()

    def river_has_focus(self) -> bool:
        """Whether the keyboard is in the river."""
        return QApplication.focusWidget() is self.river.canvas

    # River and table follow each other.

    def _row_chosen(self, key: str) -> None:
        """River and map follow the table; a lot chosen in the river may have no row, and stays."""
        self.map.choose(key)
        found = self._keys.get(key.split(" ")[0])
        if found is not None:
            self.river.select(found)

    def _lot_chosen(self, key: str) -> None:
        if self.table() is self.yards:
            self.yards.select(code_of(key))
            return
        rows = self.reached.model.rows()
        found = [f"{row.code} {row.where}" for row in rows if row.code == code_of(key)]
        self.reached.select(found[0] if found else "")

    def _lot_opened(self, key: str) -> None:
        if not is_end(key):
            self.card_asked.emit(code_of(key))

    def _lot_centred(self, key: str) -> None:
        if not is_end(key):
            self.centred.emit(code_of(key))

    def _reached_opened(self, _key: str) -> None:
        self.card_asked.emit(self.chosen())
