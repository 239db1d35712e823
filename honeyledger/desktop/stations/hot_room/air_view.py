"""Humidity and temperature one above the other, each with its table behind it (T)."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QVBoxLayout, QWidget

from honeyledger.desktop import look
from honeyledger.desktop.stations.hot_room.air_charts import humidity_chart, temperature_chart
from honeyledger.desktop.widgets.chart_table import ChartBoth
from honeyledger.services.hot_room_page import HotRoomPage, RoomNow, WaitsRow


class AirCharts(QWidget):
    """The air of a room lately."""

    def __init__(self) -> None:
        super().__init__()
        self.humidity, self.temperature = ChartBoth(), ChartBoth()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(1)
        column.addWidget(self.humidity, 1)
        column.addWidget(self.temperature, 1)

    def show_air(self, page: HotRoomPage, room: RoomNow | None, row: WaitsRow | None) -> None:
        """Show the air of a room, and what it does to a pallet."""
        self.humidity.show_chart(humidity_chart(page, room, row))
        self.temperature.show_chart(temperature_chart(page, room))

    def take_focus(self) -> None:
        """Put the keyboard on the humidity, or on its table."""
        self.humidity.setFocus(Qt.FocusReason.OtherFocusReason)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setPen(QPen(look.colour("rule"), 1))
        y = self.temperature.y() - 1
        painter.drawLine(0, y, self.width(), y)
