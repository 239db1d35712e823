"""The air charts: one above the other, each walked and turned by keys."""

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.hot_room.air_view import AirCharts
from tests.desktop.stations.hot_room.pages import PAGE, ROOM
from tests.desktop.stations.hot_room.test_air_charts import READ


@pytest.fixture
def air(qtbot: QtBot) -> AirCharts:
    made = AirCharts()
    qtbot.addWidget(made)
    made.resize(700, 480)
    made.show_air(replace(PAGE, air={"hot-room": READ}), ROOM, None)
    with qtbot.waitExposed(made):
        made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    made.take_focus()
    return made


def test_humidity_has_the_keyboard_first_and_says_its_readings(air: AirCharts) -> None:
    assert QApplication.focusWidget() is air.humidity.chart
    QTest.keyClick(air.humidity.chart, Qt.Key.Key_End)
    assert air.humidity.chart.accessibleName() == "Humidity in Hot room: 23 Jul 08:40: 47.0 %"


def test_each_has_its_table(air: AirCharts) -> None:
    QTest.keyClick(air.humidity.chart, Qt.Key.Key_T)
    assert air.humidity.shows_table()
    assert not air.temperature.shows_table()
    rows = air.temperature.table.model
    assert [rows.cell(at, 1).text for at in range(rows.rowCount())] == ["33.0", "34.5"]
