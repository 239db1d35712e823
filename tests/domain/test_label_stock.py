"""Sizes of label stock: what fits on its sheet, and what is refused in words."""

from typing import Any

import pytest

from honeyledger.domain.label_stock import (
    check_stock,
    mm_text,
    page_um,
    parse_length,
    parse_shift,
    parse_um,
)
from honeyledger.domain.refusals import Refusal

SHEET = {
    "paper": "a4",
    "columns": 3,
    "rows": 8,
    "width_um": 63_500,
    "height_um": 33_900,
    "left_um": 7_250,
    "top_um": 12_900,
    "gap_x_um": 2_500,
}


def _refused(**changes: Any) -> Refusal:
    with pytest.raises(Refusal) as refused:
        check_stock({**SHEET, **changes})
    return refused.value


def test_measures_are_read_to_the_hundredth_of_a_millimetre_and_shown_as_typed() -> None:
    assert parse_um("84,67 mm", "height_um") == 84_670
    assert parse_um("70", "width_um") == 70_000
    assert (mm_text(84_670), mm_text(70_000), mm_text(500)) == ("84.67", "70", "0.5")
    with pytest.raises(Refusal) as refused:
        parse_um("wide", "width_um")
    assert refused.value.text == "wide is not a measure in mm: type it in digits, such as 63.5."
    assert refused.value.field == "width_um"


def test_a_correction_is_read_to_the_tenth_of_a_millimetre_either_way() -> None:
    assert parse_shift("0,3 mm", "shift_x_mm") == 0.3
    assert (parse_shift("-1.25", "shift_x_mm"), parse_shift("− 2", "x")) == (-1.3, -2.0)
    assert parse_length("99.74", "measured_x_mm") == 99.7
    with pytest.raises(Refusal) as refused:
        parse_shift("-11", "shift_y_mm")
    assert refused.value.field == "shift_y_mm"
    with pytest.raises(Refusal) as refused:
        parse_length("short", "measured_y_mm")
    assert refused.value.text == ("short is not a length in mm: type it in digits, such as 99.7.")


def test_a_stock_that_lies_on_its_sheet_is_taken() -> None:
    check_stock(SHEET)
    check_stock({"paper": "roll", "width_um": 70_000, "height_um": 40_000})
    check_stock({**SHEET, "paper": "sheet", "sheet_width_um": 203_000, "sheet_height_um": 290_000})
    assert page_um(SHEET) == (210_000, 297_000)
    assert page_um({"paper": "roll", "width_um": 70_000, "height_um": 40_000}) == (70_000, 40_000)


def test_columns_wider_than_the_sheet_are_refused() -> None:
    refused = _refused(columns=4)
    assert refused.field == "columns"
    assert refused.text == (
        "4 labels side by side take 268.75 mm with the left margin and the gaps, and the sheet is "
        "210 mm wide: measure again, or count the columns again."
    )


def test_rows_higher_than_the_sheet_are_refused() -> None:
    assert _refused(rows=9).text == (
        "9 labels one under another take 318 mm with the upper margin and the gaps, and the "
        "sheet is 297 mm high: measure again, or count the rows again."
    )


def test_what_was_not_measured_or_counted_is_asked_for() -> None:
    refused = _refused(width_um=0)
    assert refused.text == "Measure one label: type its width in millimetres."
    assert refused.field == "width_um"
    assert _refused(paper="sheet", sheet_width_um=200_000).text == (
        "Measure the sheet: type its height in millimetres."
    )
    assert _refused(columns=0).text == (
        "Count the labels side by side: there is at least one, and at most 99."
    )
    assert _refused(gap_x_um=-1).text == (
        "The gap between columns cannot be below zero: measure it again."
    )
    assert _refused(paper="a5").text == (
        "Labels come on A4, Letter, sheets of another size or a roll, not on a5: choose one of "
        "them."
    )
