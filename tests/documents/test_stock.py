"""Label stocks and printers: places on the sheet, corrections, refusals."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from honeyledger.documents.stock import (
    PAPERS,
    Printer,
    Stock,
    Stocks,
    check_contrast,
    kinds_for,
    plain_printer,
)
from honeyledger.domain.refusals import BrokenRule, Refusal
from tests.support import printing

KINDS = {
    *("pallet tag", "drum label", "jar label", "yard sheet code", "badge"),
    *("case or pallet label", "retail code"),
    "vessel label",
    "equipment tag",
    "sample pot label",
    "drum sticker",
    "jar front",
    "jar back",
    "lid seal",
}


def _all() -> list[Stock]:
    return [printing.stocks().named(name) for name in printing.stocks().names]


@pytest.mark.parametrize("stock", _all(), ids=lambda stock: stock.name)
def test_every_shipped_stock_lies_on_its_paper_without_overlap(stock: Stock) -> None:
    width, height = stock.page_mm
    assert stock.left_mm + (stock.columns - 1) * stock.pitch_x_mm + stock.width_mm <= width + 0.01
    assert stock.top_mm + (stock.rows - 1) * stock.pitch_y_mm + stock.height_mm <= height + 0.01
    assert stock.columns == 1 or stock.pitch_x_mm >= stock.width_mm
    assert stock.rows == 1 or stock.pitch_y_mm >= stock.height_mm
    assert set(stock.kinds) <= KINDS
    if stock.paper in PAPERS:
        assert stock.name.startswith(f"{stock.paper}-{stock.cells}-")
    else:
        assert (stock.paper, stock.cells) == ("roll", 1)


@pytest.mark.parametrize("kind", sorted(KINDS))
@pytest.mark.parametrize("paper", ["a4", "letter", "roll"])
def test_every_kind_has_a_stock_on_every_paper(kind: str, paper: str) -> None:
    stock = printing.stocks().chosen(kind, paper=paper)
    assert (stock.paper, kind in stock.kinds) == (paper, True)


def test_without_a_name_the_first_stock_of_a_kind_is_taken() -> None:
    assert printing.stocks().chosen("pallet tag").name == "roll-100x150"
    assert printing.stocks().chosen("jar label").name == "a4-24-70x37"
    assert printing.stocks().chosen("jar label", "roll-70x40").name == "roll-70x40"


def test_places_run_by_rows_and_begin_a_page_when_one_is_full() -> None:
    stock = printing.stocks().named("a4-24-70x37")
    places = stock.places(plain_printer(stock))
    taken = [next(places) for _ in range(26)]
    assert taken[0] == (True, 0.0, 0.5)
    assert taken[1] == (False, 70.0, 0.5)
    assert taken[3] == (False, 0.0, 37.5)
    assert taken[23] == (False, 140.0, 0.5 + 7 * 37)
    assert taken[24:] == [(True, 0.0, 0.5), (False, 70.0, 0.5)]


def test_a_measured_printer_is_corrected_in_shift_and_pitch() -> None:
    """What a printer draws 1 % too long must be asked for 1 % shorter."""
    stock = printing.stocks().named("a4-24-70x37")
    printer = Printer("Office", "a4", 300, 0.4, -0.3, measured_x_mm=101.0, measured_y_mm=99.0)
    x, y = stock.corner_mm(23, printer)
    assert (x - 0.4) * 1.01 == pytest.approx(140)
    assert (y + 0.3) * 0.99 == pytest.approx(259.5)


def test_the_plain_printer_has_the_stocks_paper() -> None:
    sheet, roll = (printing.stocks().named(name) for name in ("a4-24-70x37", "roll-70x40"))
    assert plain_printer(sheet) == Printer("not measured", "a4", 300)
    assert plain_printer(roll) == Printer("not measured", "roll", 203)
    assert plain_printer(roll, 300).dots_per_inch == 300


def _refused(**changes: Any) -> Refusal:
    with pytest.raises(Refusal) as refused:
        Printer(**{"name": "Office", "paper": "a4", "dots_per_inch": 300, **changes})
    return refused.value


def test_a_printer_beyond_fine_correction_is_refused() -> None:
    assert _refused(dots_per_inch=180).text == (
        "180 dots an inch is no printer's: choose 203, 300 or 600."
    )
    shift = _refused(shift_y_mm=12.5)
    assert shift.text == "A shift of 12.5 mm puts labels off the sheet: give at most 10 mm."
    assert shift.field == "shift_y_mm"
    # 94 % is what "fit to page" was seen to give.
    assert _refused(measured_x_mm=94.0).text == (
        "A length of 94.0 mm for the 100 mm line is no fine correction: print at 100 %, then "
        "measure again (97 to 103 mm)."
    )
    assert _refused(shift_x_mm=float("nan")).field == "shift_x_mm"


def test_an_unknown_stock_is_refused_with_the_names_there_are() -> None:
    with pytest.raises(Refusal) as refused:
        printing.stocks().named("a5-1")
    assert refused.value.text == (
        "There is no label stock a5-1: choose one of " + ", ".join(printing.stocks().names) + "."
    )


def test_a_paper_has_its_first_stock_or_is_refused() -> None:
    assert printing.stocks().on_paper("letter").name == "letter-4-101.6x127"
    with pytest.raises(Refusal) as refused:
        printing.stocks().on_paper("sheet")
    assert refused.value.text == (
        "No label stock is on sheets of their own size: add yours in Setup, under Label stock, or "
        "say what the printer has."
    )


def test_a_houses_own_stock_comes_last_or_in_the_place_of_one_shipped() -> None:
    roll = {"paper": "roll", "width_um": 105_000, "height_um": 148_500}
    own = printing.stocks().with_own({"Drum roll": roll, "roll-70x40": roll})
    assert own.names == (*printing.stocks().names, "Drum roll")
    assert own.named("Drum roll").page_mm == own.named("roll-70x40").page_mm == (105, 148.5)
    assert own.chosen("pallet tag").name == "roll-100x150"
    assert "jar label" in own.named("Drum roll").kinds
    sheet = {**roll, "paper": "sheet", "sheet_width_um": 220_000, "sheet_height_um": 310_000}
    of_two = own.with_own({"Two": {**sheet, "columns": 2, "left_um": 4_000, "gap_x_um": 2_000}})
    two = of_two.named("Two")
    assert (two.page_mm, two.cells) == ((220, 310), 2)
    assert two.corner_mm(1, plain_printer(two)) == (111, 0)


@pytest.mark.parametrize("stock", _all(), ids=lambda stock: stock.name)
def test_what_a_size_is_said_to_carry_it_is_shipped_for_or_has_room_for(stock: Stock) -> None:
    assert set(stock.kinds) <= set(kinds_for(stock.width_mm, stock.height_mm))


def test_a_stock_of_another_kind_is_refused() -> None:
    with pytest.raises(Refusal) as refused:
        printing.stocks().chosen("jar label", "roll-100x150")
    assert refused.value.text == (
        "Label stock roll-100x150 does not carry a jar label: choose a stock that does."
    )


def test_a_stock_too_small_for_a_kind_is_refused_with_what_it_needs() -> None:
    with pytest.raises(Refusal) as refused:
        printing.stocks().chosen("drum label", "a4-24-70x37")
    assert refused.value.text == (
        "Label stock a4-24-70x37 is 70 × 37 mm, and a drum label needs 100 × 127 mm: take a "
        "larger label."
    )


def test_a_kind_without_stock_on_the_paper_is_refused() -> None:
    roll = printing.stocks().named("roll-70x40")
    with pytest.raises(Refusal) as refused:
        Stocks({roll.name: roll}).chosen("jar label", paper="letter")
    assert refused.value.text == (
        "No label stock on Letter paper carries a jar label: choose one of roll-70x40."
    )


@pytest.mark.parametrize("first", [0, 25])
def test_a_first_label_the_sheet_has_not_is_refused(first: int) -> None:
    stock = printing.stocks().named("a4-24-70x37")
    with pytest.raises(Refusal) as refused:
        stock.places(plain_printer(stock), first)
    assert refused.value.text == (
        f"Label stock a4-24-70x37 has labels 1 to 24: begin with one of them, not {first}."
    )


@pytest.mark.parametrize(
    "line", ['kinds = "jar label"\nwidth_mm = 70', 'kinds = []\nwidth_mm = "70"']
)
def test_a_stock_file_written_wrongly_is_our_own_mistake(tmp_path: Path, line: str) -> None:
    file = tmp_path / "stocks.toml"
    file.write_text(f'[odd]\npaper = "roll"\nheight_mm = 40\n{line}\n', "utf-8")
    with pytest.raises(BrokenRule, match="label stock odd"):
        Stocks.load(file)


def test_a_stock_knows_the_colour_of_its_paper(tmp_path: Path) -> None:
    roll = {"paper": "roll", "width_um": 100_000, "height_um": 60_000}
    own = printing.stocks().with_own({"A": roll, "B": {**roll, "colour": " Kraft "}})
    assert [own.named(name).colour for name in ("A", "B")] == ["white", "kraft"]
    assert all(one.colour == "white" for one in _all())
    file = tmp_path / "stocks.toml"
    table = '[a]\npaper = "roll"\nkinds = []\nwidth_mm = 70\nheight_mm = 40\ncolour = "pink"\n'
    file.write_text(table)
    assert Stocks.load(file).named("a").colour == "pink"


def test_black_is_not_printed_where_it_does_not_stand_out() -> None:
    stock = printing.stocks().named("roll-100x60")
    for colour in ("white", "grey", "kraft"):
        check_contrast(replace(stock, colour=colour))
    with pytest.raises(Refusal) as refused:
        check_contrast(replace(stock, colour="#0000FF"))
    assert refused.value.text == (
        "Label stock roll-100x60 is #0000FF: black stands out on it by 0 %, and below 20 % no "
        "scanner reads a code. Take white or light labels."
    )
