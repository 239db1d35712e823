"""A chart is pointed at, walked by key, copied, and says what is in hand."""

from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.charts import Chart, ChartForm, ChartHead, ChartItem, Part
from honeyledger.desktop.widgets.chart import ChartView, wanted_height

LEFT, NONE = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier


def bars(count: int, form: ChartForm = ChartForm.BARS) -> Chart:
    items = tuple(
        ChartItem(
            f"Y{at}",
            f"Yard {at}",
            f"Yard {at}: {count - at} kg",
            (f"Yard {at}", str(count - at)),
            (Part(0, float(count - at)),),
            words=f"{count - at} kg",
            opens=f"Y26-{at:04}" if at else "",
        )
        for at in range(count)
    )
    heads = (ChartHead("Yard", is_number=False), ChartHead("Honey", "kg"))
    return Chart(form, "Honey by yard", "Honey", "kg", heads, items, empty="Nothing yet.")


@pytest.fixture
def shown(qtbot: QtBot) -> ChartView:
    made = ChartView()
    qtbot.addWidget(made)
    made.resize(600, 360)
    made.show_chart(bars(30))
    with qtbot.waitExposed(made):
        made.show()
    made.setFocus()
    return made


def press(shown: ChartView, *keys: Qt.Key) -> list[str]:
    walked = []
    for key in keys:
        QTest.keyClick(shown, key)
        walked.append(shown.current())
    return walked


def test_arrows_walk_and_the_value_is_spoken(shown: ChartView) -> None:
    told: list[str] = []
    shown.selected.connect(told.append)
    assert shown.accessibleName() == "Honey by yard"
    key = Qt.Key
    walked = press(
        shown, key.Key_Down, key.Key_Down, key.Key_Up, key.Key_Up, key.Key_PageDown, key.Key_End
    )
    assert walked == ["Y0", "Y1", "Y0", "Y0", "Y5", "Y29"]
    assert told == ["Y0", "Y1", "Y0", "Y5", "Y29"], "nothing is told where nothing changes"
    assert shown.accessibleName() == "Honey by yard: Yard 29: 1 kg"
    assert shown.said() == "Yard 29: 1 kg"
    bar = shown.verticalScrollBar()
    assert bar.value() == bar.maximum() > 0, "what is in hand is in view"
    assert press(shown, key.Key_Home) == ["Y0"]
    assert bar.value() == 0
    shown.select("")
    assert press(shown, key.Key_Left) == ["Y29"], "from the end, where nothing is in hand"


def test_enter_opens_what_has_a_card(shown: ChartView) -> None:
    opened: list[str] = []
    shown.opened.connect(opened.append)
    press(shown, Qt.Key.Key_Return, Qt.Key.Key_Down, Qt.Key.Key_Return)
    assert opened == [], "nothing in hand, then one without a card"
    press(shown, Qt.Key.Key_Down, Qt.Key.Key_Return)
    assert opened == ["Y26-0001"]


def test_the_figures_are_copied_as_a_table(shown: ChartView) -> None:
    shown.show_chart(bars(2))
    QTest.keyClick(shown, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    assert QGuiApplication.clipboard().text() == "Yard\tHoney kg\nYard 0\t2\nYard 1\t1\n"


def test_a_press_takes_in_hand_and_two_open(shown: ChartView) -> None:
    told: list[str] = []
    shown.opened.connect(told.append)
    room = shown.place().items[2].room
    spot = QPoint(round(room.left + 300), round(room.top + 6))
    QTest.mouseClick(shown.viewport(), LEFT, NONE, spot)
    assert shown.current() == "Y2"
    QTest.mouseDClick(shown.viewport(), LEFT, NONE, spot)
    assert told == ["Y26-0002"]
    assert shown.tip_at(spot) == "Yard 2: 28 kg"
    QTest.mouseMove(shown.viewport(), QPoint(round(room.left + 300), round(room.bottom + 6)))
    assert shown.said() == "Yard 3: 27 kg", "the line says what is under the mouse"
    QTest.mouseClick(shown.viewport(), LEFT, NONE, QPoint(300, 4))
    assert shown.current() == "Y2", "nothing is above the plot"


def test_after_a_scroll_a_press_means_what_is_seen(shown: ChartView) -> None:
    bar = shown.verticalScrollBar()
    bar.setValue(bar.maximum())
    last = shown.place().items[-1].room
    QTest.mouseClick(shown.viewport(), LEFT, NONE, QPoint(200, round(last.top - bar.value() + 10)))
    assert shown.current() == "Y29"


def test_columns_show_the_newest_first_and_are_walked_across(shown: ChartView) -> None:
    many = bars(200, ChartForm.COLUMNS)
    shown.show_chart(replace(many, title="Supers a day"))
    bar = shown.horizontalScrollBar()
    assert bar.value() == bar.maximum() > 0
    assert press(shown, Qt.Key.Key_Right) == ["Y0"]
    assert bar.value() == 0
    assert shown.verticalScrollBar().maximum() == 0


def test_what_is_in_hand_stays_while_it_is_there(shown: ChartView) -> None:
    shown.select("Y3")
    shown.show_chart(bars(20))
    assert shown.current() == "Y3"
    shown.show_chart(bars(2))
    assert shown.current() == ""
    shown.select("Y1")
    shown.select("no such")
    assert shown.current() == "Y1"


def test_an_empty_chart_says_so(shown: ChartView) -> None:
    shown.show_chart(bars(0))
    assert shown.accessibleName() == "Honey by yard: Nothing yet."
    assert press(shown, Qt.Key.Key_Down) == [""]


def test_keys_that_are_the_pages_own_are_left_to_it(shown: ChartView) -> None:
    control = Qt.KeyboardModifier.ControlModifier
    QTest.keyClick(shown, Qt.Key.Key_Down, control)
    assert shown.current() == ""


def test_the_line_under_a_low_chart_gives_way(shown: ChartView) -> None:
    high = shown.place().window.height
    shown.resize(600, 150)
    assert shown.place().window.height < high
    bottom = QPoint(300, 140)
    assert "kg" in shown.tip_at(bottom), "the plot reaches to the foot"


def test_a_height_is_wanted_for_a_few_bars() -> None:
    few, many = wanted_height(bars(2), rows=4), wanted_height(bars(9), rows=4)
    assert few < many == wanted_height(bars(4), rows=4)
