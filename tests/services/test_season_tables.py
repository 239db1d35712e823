"""Yields and losses of the sample season as the terminal and papers show them."""

import pytest

from honeyledger.domain.units import THOUSANDS
from honeyledger.services.season_page import SeasonPage
from honeyledger.services.season_tables import (
    loss_report,
    loss_tables,
    wax_words,
    yield_report,
    yield_tables,
)
from honeyledger.services.season_wax import Wax
from tests.support.sample_page import sample_page


@pytest.fixture(scope="module")
def page() -> SeasonPage:
    return sample_page()


def test_every_row_has_a_cell_for_each_column(page: SeasonPage) -> None:
    for table in (*yield_tables(page), *loss_tables(page)):
        for row in (*table.rows, *([table.total] if table.total else [])):
            assert len(row) == len(table.columns), table.key
        assert table.rows or table.none


def test_what_each_table_says(page: SeasonPage) -> None:
    tables = {table.key: table for table in (*yield_tables(page), *loss_tables(page))}
    assert tables["yards"].rows[0][:4] == ("Mosswick Bend", "clover, goldenrod", "24", "90")
    assert tables["yards"].total[0] == "all that were pulled"
    assert tables["crews"].rows[0][0] == "Anselm, Cass, Petra"
    assert tables["crews"].rows[-1][0] == "not said"
    assert tables["forages"].rows[0][:2] == ("clover, goldenrod", "23")
    shown = " ".join(tables["seasons"].rows[0]).replace(THOUSANDS, "")
    assert shown == "2026 1162 3100 48898.1 kg 42.1 kg"
    assert [row[-1] for row in tables["slips"].rows] == [
        "weighed with its pallet: the usual tare was not taken off"
    ] * 2
    assert tables["weather"].none.startswith("Nothing was noted of the weather.")
    assert tables["out"].rows[0][1:4] == ("R26-0023-L", "Line A", "left in combs")
    assert tables["machines"].rows[0][:2] == ("Line A", "25")
    assert tables["limits"].rows[1][2] == "0.00 %"
    assert tables["limits"].rows[4][-1] == "25 runs: too few to say, or all the same"
    assert dict(tables["wax"].rows)["wax of the honey"] == "1.27 %"


def test_reports_say_where_their_figures_are_from(page: SeasonPage) -> None:
    given, lost = yield_report(page), loss_report(page)
    assert (given.title, given.house) == ("Yields 2026", "Larkslough Honey House")
    assert "Iglewicz and Hoaglin" in given.says[1]
    assert "NIST/SEMATECH" in lost.says[0]
    assert given.head == lost.head


@pytest.mark.parametrize(
    ("wax", "words"),
    [
        (Wax(0, 100, 0, 0, 0), "No wax was melted yet."),
        (
            Wax(500, 100_000, 0, 0, 0),
            "Less wax than usual: cappings may wait to be melted, or the cut is thin.",
        ),
        (
            Wax(1_500, 100_000, 0, 0, 0),
            "Wax is as usual: 1 to 2 in 100 of the honey (common practice, no source).",
        ),
        (
            Wax(2_500, 100_000, 0, 0, 0),
            "More wax than usual: old comb was melted too, or the cut is deep.",
        ),
    ],
)
def test_wax_in_sentences(wax: Wax, words: str) -> None:
    assert wax_words(wax, "kg") == (
        words,
        "Bees use 7 to 10 kg of honey to make 1 kg of comb again (common practice, no source).",
    )


def test_scrapped_comb_in_sentences() -> None:
    assert wax_words(Wax(0, 0, 0, 0, 20), "kg")[1] == (
        "20 frames of comb were scrapped: building them again costs bees some 14.0 kg to 20.0 kg "
        "of honey (7 to 10 kg of honey a kg of wax; common practice, no source)."
    )
