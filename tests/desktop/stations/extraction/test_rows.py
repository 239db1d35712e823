"""A run's sheet as rows, bars and sentences: what is shown adds up to what is said."""

from dataclasses import replace

import pytest

from honeyledger.desktop.models.balance_bars import PieceKind
from honeyledger.desktop.stations.extraction import rows
from honeyledger.desktop.stations.extraction.typed import HeelTyped
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.drums import Fill, Skim
from honeyledger.ledger.verbs.floor import Cappings, Load, OpenRun
from honeyledger.services.exposure import Called
from honeyledger.services.floor import RunSheet, Tie, run_sheet
from honeyledger.services.pull_sheets import AgainstSheets
from tests.support.houses import BuiltHouse

HEEL = HeelTyped("E26-0002-U", "Tank 1", 40_000, "dip")


@pytest.fixture(scope="module")
def sheet() -> RunSheet:
    """Two yards, a heel before, a drum by scale and one to follow, cappings, foam."""
    built = BuiltHouse()
    line = built.vessel("Line A", sort="line")
    tank = built.vessel("Tank 1", fed_by=line)
    old = built.yard("Long Field")
    built.load(old, 50_000, line)
    built.drum(tank, 20_000)
    run = built.do(OpenRun(line)).given[0]
    for name, grams in (("Mill Lane", 400_000), ("Coulee", 200_000)):
        _, tag = built.pull(built.yard(name), grams)
        built.do(Load(tag, line), run=run)
    built.do(Fill(tank, Weight(net_g=280_000)), run=run)
    built.do(Fill(tank, pending=True), run=run)
    built.do(Cappings(line, 31_000), run=run)
    built.do(Skim(tank, 3_000), run=run)
    made = built.house.ask(lambda view: run_sheet(view, run, built.now_ms))
    assert made is not None
    return made


def test_what_went_in_ends_with_the_heel(sheet: RunSheet) -> None:
    went_in = rows.in_rows(sheet)
    assert [(row.yard, row.supers, row.note) for row in went_in] == [
        ("Mill Lane", "10", ""),
        ("Coulee", "10", ""),
        ("Tank 1", "", "heel"),
    ]
    assert sum(row.grams for row in went_in) == sheet.balance.in_g


def test_what_came_out_is_what_the_answer_says(sheet: RunSheet) -> None:
    out = rows.out_rows(sheet, [HEEL], cappings_pending=False)
    assert [(row.code[:3], row.aside) for row in out] == [
        ("D26", ""),
        ("D26", "to follow"),
        ("W26", "cappings"),
        ("Foa", "skimmed"),
        ("Hee", "by dip"),
    ]
    total = rows.bare(sum(row.grams for row in out), "kg")
    said = rows.answer(sheet, [HEEL], "kg", cappings_pending=False)
    assert f"out by scale and dip {total} kg." in said
    assert said.startswith("In by estimate 630 kg, ")


def test_what_is_not_weighed_makes_the_sum_an_estimate(sheet: RunSheet) -> None:
    guessed = replace(HEEL, how="guess")
    said = rows.answer(sheet, [guessed], "kg", cappings_pending=False)
    assert "out by scale and dip ≈ " in said
    later = rows.out_rows(sheet, (), cappings_pending=True)
    assert [(row.code, row.aside) for row in later if row.grams == 0] == [
        ("Cappings", "weighed later")
    ]


def test_the_bars_hold_what_the_rows_hold(sheet: RunSheet) -> None:
    bars = rows.bars(sheet, [HEEL], "kg")
    assert bars.in_g == sheet.balance.in_g
    out = rows.out_rows(sheet, [HEEL], cappings_pending=False)
    assert bars.out_g == sum(row.grams for row in out)
    kinds = [piece.kind for piece in bars.came_out]
    assert kinds.count(PieceKind.HEEL) == 1
    assert kinds.count(PieceKind.CAPPINGS) == 1
    gap = rows.gap_g(sheet, HEEL.grams)
    side = "high" if gap > 0 else "low"
    assert bars.verdict == f"Estimates ran {side} by {rows.bare(abs(gap), 'kg')} kg"
    assert bars.under == "Lost between weighed points: 0.0 kg"


def test_pounds_stand_in_heads_and_cells(sheet: RunSheet) -> None:
    honey = next(one for one in rows.in_columns("lb") if one.key == "honey")
    assert (honey.unit, honey.text(rows.in_rows(sheet)[0])) == ("lb", "882")
    net = next(one for one in rows.out_columns("lb") if one.key == "net")
    out = rows.out_rows(sheet, (), cappings_pending=False)
    assert (net.unit, net.text(out[0])) == ("lb", "617.3")


def test_ties_name_who_is_here_through_a_heel_alone(sheet: RunSheet) -> None:
    assert rows.ties_sentence(sheet).startswith("Long Field: here only through the heel.")
    heels = [row.yard for row in rows.tie_rows(sheet) if row.note == "through a heel only"]
    assert heels == ["Long Field"]
    none = replace(sheet, ties=())
    assert rows.ties_sentence(none) == "No yard is here through a heel alone."


def test_how_large_a_recall_of_the_run_would_be_before_it_is_signed() -> None:
    called = Called("R26-0001-X", 4, 250_000, 50_000, 100, 2)
    assert rows.exposure_sentence(called, "kg") == (
        "Were it called back now, 300 kg in 4 lots would go, from 2 customers."
    )
    assert rows.exposure_sentence(None, "kg") == ""
    assert rows.exposure_sentence(Called("R26-0001-X", 0, 0, 0, 0, 0), "kg") == ""


def test_a_tie_counts_drums_here_and_elsewhere(sheet: RunSheet) -> None:
    tie = Tie("Y26-0001-P", "Mill Lane", 0.5, 1, False, drums=6, others=11)
    third = replace(tie, share=1 / 3, others=0)
    shown = rows.tie_rows(replace(sheet, ties=(third,) * 3))
    assert [row.share for row in shown] == ["33.4", "33.3", "33.3"], "they add up to the whole"
    assert shown[0].recall == "6"
    (row,) = rows.tie_rows(replace(sheet, ties=(replace(tie, share=1.0),)))
    assert (row.recall, row.share) == ("6 + 11", "100.0")


def test_a_count_has_its_noun() -> None:
    assert rows.counted(1, "1 pallet", "{n} pallets") == "1 pallet"
    assert rows.counted(2, "1 pallet", "{n} pallets") == "2 pallets"


def test_the_pull_sheets_are_told_in_figures_or_in_one_line() -> None:
    against = AgainstSheets(82, 84, 3, (), 0)
    assert rows.against_heading(against) == "Against the pull sheets"
    assert rows.against_sentence(against) == (
        "Against the pull sheets: 82 of 84 supers, 3 of 3 pallets empty, 0 scans at a time not "
        "sure"
    )
    left = AgainstSheets(20, 32, 1, ("G26-0007-X",), 1)
    assert rows.against_heading(left) == "Against the pull sheets; not empty: G26-0007-X"
    assert [(one.figure, one.meaning) for one in rows.against_figures(left)] == [
        ("20", "of 32 supers"),
        ("0", "of 1 pallet empty"),
        ("1", "scan at a time not sure"),
    ]
    assert rows.against_sentence(left).endswith("not sure; not empty: G26-0007-X")
