"""A colony of each yard as it is drawn."""

from dataclasses import replace

from honeyledger.desktop.models.charts import Level, Part
from honeyledger.desktop.stations.yards.yield_chart import yield_chart
from honeyledger.services.yards_page import YardRow
from tests.desktop.stations.yards.test_rows import BANK, MILL, PAGE


def _with_colonies(row: YardRow, colonies: int) -> YardRow:
    return replace(row, record={**row.record, "colonies": colonies})


def test_the_best_yard_first_with_seasons_past_behind() -> None:
    page = replace(PAGE, rows=(_with_colonies(BANK, 12), MILL))
    chart = yield_chart(page)
    mill, bank = chart.items
    assert (mill.key, mill.words, mill.parts) == (MILL.code, "≈\u202f30.0 kg", (Part(0, 30.0),))
    assert mill.behind == (20.0, 20.0)
    assert mill.spoken == (
        "Mill Lane: about 30.0 kg a colony, 30 colonies; 2025: 20.0 kg; 2024: 20.0 kg"
    )
    assert mill.cells == ("Mill Lane", "30.0", "30")
    assert (bank.words, bank.parts, bank.cells) == ("nothing yet", (), ("Willow Bank", "", "12"))
    assert bank.spoken == "Willow Bank: nothing yet, 12 colonies"
    assert chart.levels == (Level(30.0, "all yards ≈\u202f30.0 kg"),)
    assert chart.behind == "seasons past"


def test_yards_without_colonies_have_no_bar_and_an_empty_chart_says_so() -> None:
    assert [item.key for item in yield_chart(PAGE).items] == [MILL.code]
    empty = yield_chart(replace(PAGE, rows=(BANK,), a_colony=None))
    assert (empty.items, empty.levels) == ((), ())
    assert empty.empty == "No yard with its colonies on record was pulled this season yet."


def test_it_is_in_the_houses_unit() -> None:
    chart = yield_chart(replace(PAGE, unit="lb"))
    assert chart.unit == "lb"
    assert chart.items[0].words == "≈\u202f66.1 lb"
    assert round(chart.items[0].parts[0].value, 1) == 66.1
