"""A chart's figures as a table, and a chart with its table behind it."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.charts import Chart, ChartForm, ChartHead, ChartItem, Part
from honeyledger.desktop.models.rows import Total
from honeyledger.desktop.widgets.chart_table import ChartBoth, ChartTable


def chart(*names: str, title: str = "Honey by yard", totals: tuple[str, ...] = ()) -> Chart:
    items = tuple(
        ChartItem(
            name, name, f"{name}: {at} kg", (name, str(at)), (Part(0, at),), opens=f"{name}!"
        )
        for at, name in enumerate(names, 1)
    )
    heads = (ChartHead("Yard", is_number=False), ChartHead("Honey", "kg", estimated=True))
    made = Chart(ChartForm.BARS, title, "Honey", "kg", heads, items, empty="Nothing yet.")
    return (
        made
        if not totals
        else Chart(ChartForm.BARS, title, "Honey", "kg", heads, items, totals=totals)
    )


def test_rows_and_totals_are_the_charts(qtbot: QtBot) -> None:
    table = ChartTable()
    qtbot.addWidget(table)
    table.show_chart(chart("Ash", "Birch", totals=("All", "3")))
    assert [column.title for column in table.model.columns] == ["Yard", "Honey"]
    assert [table.model.cell(at, 1).text for at in range(2)] == ["1", "2"]
    assert table.foot.totals() == {"1 Honey": Total("3", estimated=True)}
    assert not table.foot.isHidden()
    table.show_chart(chart("Ash"))
    assert table.foot.isHidden()


def test_another_charts_heads_come_with_its_rows(qtbot: QtBot) -> None:
    table = ChartTable()
    qtbot.addWidget(table)
    table.show_chart(chart("Ash", "Birch"))
    one = ChartItem("x", "x", "x", ("x",))
    other = Chart(ChartForm.BARS, "Other", "Honey", "kg", (ChartHead("Only"),), (one,))
    table.show_chart(other)
    assert [column.title for column in table.model.columns] == ["Only"]
    assert table.view.accessibleName() == "Other"


@pytest.fixture
def both(qtbot: QtBot) -> ChartBoth:
    made = ChartBoth()
    qtbot.addWidget(made)
    made.resize(600, 400)
    made.show_chart(chart("Ash", "Birch", "Cedar"))
    with qtbot.waitExposed(made):
        made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    made.chart.setFocus()
    return made


def test_t_turns_over_with_the_keyboard_and_the_item_in_hand(both: ChartBoth) -> None:
    told: list[bool] = []
    both.turned.connect(told.append)
    QTest.keyClick(both.chart, Qt.Key.Key_Down)
    QTest.keyClick(both.chart, Qt.Key.Key_Down)
    assert both.table.selected_key() == "Birch"
    QTest.keyClick(both.chart, Qt.Key.Key_T)
    assert both.shows_table()
    assert QApplication.focusWidget() is both.table.view
    QTest.keyClick(both.table.view, Qt.Key.Key_Down)
    assert both.chart.current() == "Cedar"
    QTest.keyClick(both.table.view, Qt.Key.Key_T)
    assert QApplication.focusWidget() is both.chart
    assert told == [True, False]


def test_both_sides_open_the_same(both: ChartBoth) -> None:
    opened: list[str] = []
    both.opened.connect(opened.append)
    both.chart.select("Ash")
    QTest.keyClick(both.chart, Qt.Key.Key_Return)
    both.turn()
    both.table.select("Cedar")
    QTest.keyClick(both.table.view, Qt.Key.Key_Return)
    assert opened == ["Ash!", "Cedar!"]
