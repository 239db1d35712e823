"""The tools beside the answer: larger, smaller, the map."""

from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.trace.tools_view import AnswerRow
from honeyledger.desktop.widgets.figures import Answer


def test_what_there_is_nothing_to_do_with_is_not_there(qtbot: QtBot) -> None:
    row = AnswerRow(Answer())
    qtbot.addWidget(row)
    row.resize(900, 64)
    row.show()
    row.show_tools(river=False, with_map=True, map_shown=False)
    assert [b.isVisible() for b in (row.smaller, row.larger, row.map)] == [False, False, True]
    assert row.map.text() == "Map"
    row.show_tools(river=True, with_map=False, map_shown=False)
    assert [b.isVisible() for b in (row.smaller, row.larger, row.map)] == [True, True, False]
    row.show_tools(river=True, with_map=True, map_shown=True)
    assert row.map.text() == "Hide map"


def test_each_says_what_it_does(qtbot: QtBot) -> None:
    row = AnswerRow(Answer())
    qtbot.addWidget(row)
    told: list[object] = []
    row.zoomed.connect(told.append)
    row.map_wanted.connect(lambda: told.append("map"))
    for button in (row.smaller, row.larger, row.map):
        button.click()
    assert told == [-1, 1, "map"]
    assert row.larger.accessibleName() == "Draw the river larger"
    row.show()
    assert row.larger.toolTip() == "Draw the river larger"
    assert min(row.larger.sizeHint().width(), row.larger.sizeHint().height()) >= 40
