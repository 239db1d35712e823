"""What there is to do as it is drawn and said."""

from dataclasses import replace
from datetime import date

from honeyledger.desktop.stations.season.todo_charts import (
    nothing_to_do,
    todo_answer,
    todo_chart,
    todo_figures,
)
from honeyledger.services.day_sheet import CHECKS, DRUMS, DaySheet, ToDo
from honeyledger.services.season_page import SeasonPage

DRUM = ToDo(DRUMS, 1, "sample it", ("D1", "D2", "D3", "D4"))
PESTS = ToDo(CHECKS, 0, "Pests: overdue")


def _with(page: SeasonPage, *rows: ToDo) -> SeasonPage:
    return replace(page, today_sheet=DaySheet(date(2027, 7, 24), "House", "9 AB", "kg", rows))


def test_each_thing_with_what_it_is_of(page: SeasonPage) -> None:
    told = _with(page, DRUM, PESTS)
    chart = todo_chart(told)
    assert [item.cells for item in chart.items] == [
        ("sample it", "Drums", "today", "D1, D2, D3 and 1 more"),
        ("Pests: overdue", "Checks", "overdue", ""),
    ]
    assert [(part.series, part.value) for item in chart.items for part in item.parts] == [
        (1, 1.0),
        (0, 1.0),
    ]
    assert not chart.counted
    assert chart.items[0].spoken == "Drums, today: sample it (D1, D2, D3 and 1 more)"
    assert (chart.items[0].opens, chart.items[1].opens) == ("D1", "")
    assert chart.title == "To do, 24 Jul 2027"
    assert todo_answer(told) == "2 things to do today, 1 of them overdue."
    assert [(one.figure, one.meaning) for one in todo_figures(told)] == [
        ("1", "overdue"),
        ("1", "today"),
    ]


def test_nothing_overdue_and_nothing_at_all(page: SeasonPage) -> None:
    assert todo_answer(_with(page, DRUM)) == "One thing to do today, none of them overdue."
    assert todo_answer(page) == todo_answer(_with(page)) == nothing_to_do()
    assert todo_figures(page) == []
