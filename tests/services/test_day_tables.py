"""The day's sheet as a table and as a paper."""

from datetime import date

from honeyledger.services.day_sheet import DRUMS, YARDS, DaySheet, ToDo
from honeyledger.services.day_tables import NOTHING, day_report, day_table, to_do_cells

MANY = tuple(f"D{at}" for at in range(9))
ROWS = (ToDo(YARDS, 2, "Ash is clear", ("Y1",)), ToDo(DRUMS, 0, "sample it", MANY))


def _sheet(*rows: ToDo) -> DaySheet:
    return DaySheet(date(2026, 7, 24), "Test House", "9 AB", "kg", rows)


def test_few_codes_and_how_many_more() -> None:
    assert to_do_cells(ROWS[0]) == ("soon", "Ash is clear", "Y1")
    assert to_do_cells(ROWS[1]) == ("overdue", "sample it", "D0, D1, D2, D3, D4, D5 and 3 more")


def test_one_table_on_screen_and_one_a_station_on_paper() -> None:
    table = day_table(_sheet(*ROWS))
    assert [row[0] for row in table.rows] == ["Yards", "Drums"]
    paper = day_report(_sheet(*ROWS))
    assert [one.title for one in paper.tables] == ["Yards", "Drums"]
    assert dict(paper.facts)["Overdue"] == "1"
    assert paper.ticks


def test_nothing_to_do_is_a_sentence() -> None:
    assert (day_table(_sheet()).rows, day_table(_sheet()).none) == ((), NOTHING)
    assert day_report(_sheet()).says == (NOTHING,)
