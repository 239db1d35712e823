"""What the yards' station shows of its page."""

from datetime import date

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.yards.rows import (
    bars_heading,
    heading,
    state_word,
    totals,
    yard_bars,
    yard_columns,
    yard_spots,
)
from honeyledger.services.yards_page import SeasonGiven, YardRow, YardsPage

NOW = SeasonGiven(2026, 2, 60, 900_000)
PAST = tuple(SeasonGiven(year, 2, 40, 600_000) for year in (2025, 2024, 2023))
PLACED = {"latitude": 494_000_000, "longitude": -988_000_000}
MILL = YardRow(
    *("Y26-0001-P", {"name": "Mill Lane", "colonies": 30, "forage": "clover", **PLACED}),
    *("pulled", "", (NOW, *PAST), "2026-07-24"),
)
BANK = YardRow(
    *("Y26-0002-M", {"name": "Willow Bank"}, "not clear", "treated with X, not clear until 1 Aug"),
    *((SeasonGiven(2026, 0, 0, 0),), ""),
)
PAGE = YardsPage("ledger-1", "kg", "UTC", date(2026, 7, 24), (BANK, MILL), (), 30_000)


def test_a_row_says_what_is_due_and_what_a_colony_gave() -> None:
    columns = {column.key: column for column in yard_columns("kg")}
    mill = {key: column.cell(MILL) for key, column in columns.items()}
    assert (mill["a_colony"].text, mill["grams"].text, mill["supers"].text) == (
        "30.0",
        "900",
        "60",
    )
    assert mill["grams"].estimated
    assert mill["state"].mark is Mark.READY
    bank = {key: column.cell(BANK) for key, column in columns.items()}
    assert (bank["state"].mark, bank["name"].note) == (Mark.HOLD, BANK.due)
    assert (bank["a_colony"].text, bank["grams"].text, bank["colonies"].text) == ("", "", "")
    for key in ("code", "state", "name", "colonies", "supers", "a_colony", "grams"):
        sort_key = columns[key].sort_key
        assert sort_key is not None
        assert sort_key(MILL) is not None
    assert state_word(BANK) == "not clear"


def test_the_heading_counts_yards_not_yet_pulled() -> None:
    assert heading(PAGE) == "2 yards, 1 not yet pulled this season"
    alone = YardsPage("ledger-1", "kg", "UTC", PAGE.today, (MILL,), (), 30_000)
    assert heading(alone) == "One yard, all pulled this season"
    lead, sums = totals(PAGE)
    assert lead == "This season"
    assert (sums["colonies"].text, sums["a_colony"].text, sums["grams"].text) == (
        *("30", "30.0", "900"),
    )


def test_bars_set_a_yard_against_the_others_and_its_own_past() -> None:
    assert [(row.name, row.words) for row in yard_bars(MILL, PAGE)] == [
        ("This season", "30.0 kg"),
        ("All yards pulled", "30.0 kg"),
        ("2025", "20.0 kg"),
        ("2024", "20.0 kg"),
    ]
    assert yard_bars(BANK, PAGE) == []
    assert bars_heading(MILL) == "Mill Lane: a colony, by the colonies there now"
    assert bars_heading(BANK) == "Willow Bank: treated with X, not clear until 1 Aug"
    bare = YardRow("Y26-0003-K", {"name": "Hill"}, "pulled", "", (NOW,), "")
    assert bars_heading(bare) == "Hill: say how many colonies stand there"


def test_only_yards_with_coordinates_are_on_the_map() -> None:
    (spot,) = yard_spots(PAGE.rows)
    assert (spot.key, spot.name, spot.is_strong) == ("Y26-0001-P", "Mill Lane", True)
