"""Symbols of GS1: what they hold, how large they are, and what is refused."""

from datetime import date
from decimal import Decimal
from math import ceil

import pytest
import zxingcpp
from biip import parse
from PIL import Image
from stdnum import ean

from honeyledger.documents.gs1_symbols import (
    EAN_8,
    EAN_13,
    GS1_128,
    MEASURES,
    UPC_A,
    Bars,
    fitted,
    gs1_128,
    gs1_data_matrix,
    retail_code,
)
from honeyledger.domain.refusals import Refusal

SSCC = "106141411234567897"  # source: bwipp wiki
GTIN = "9521234543213"  # of the prefix that GS1 keeps for examples


def _picture(bars: Bars) -> Image.Image:
    picture = Image.new("L", (bars.modules_with_quiet, 40), 255)
    for begin, width in bars.bars:
        left = begin + bars.measures.quiet[0]
        picture.paste(0, (left, 0, left + width, 40))
    return picture.resize((picture.width * 4, 160), 0)


def _read(picture: Image.Image) -> list[tuple[str, str, str]]:
    found = zxingcpp.read_barcodes(picture)
    return [(one.format.name, one.symbology_identifier, one.text) for one in found]


@pytest.mark.parametrize(
    ("number", "kind", "text", "read"),
    [
        (GTIN, EAN_13, GTIN, ("EAN13", "]E0", GTIN)),
        ("0" + GTIN, EAN_13, GTIN, ("EAN13", "]E0", GTIN)),
        # A UPC-A is told as the EAN-13 it is a part of, or by its own name.
        ("614141000036", UPC_A, "614141000036", ("EAN13", "]E0", "0614141000036")),
        ("73513537", EAN_8, "73513537", ("EAN8", "]E4", "73513537")),
    ],
)
def test_a_retail_code_is_the_symbol_of_its_digits(
    number: str, kind: str, text: str, read: tuple[str, str, str]
) -> None:
    assert ean.is_valid(number)
    bars = retail_code(number)
    assert (bars.kind, bars.text) == (kind, text)
    ((_, identifier, found),) = _read(_picture(bars))
    assert (identifier, found.zfill(len(read[2]))) == read[1:]
    # ISO/IEC 15420: 95 modules, 67 of an EAN-8.
    assert bars.modules == (67 if kind == EAN_8 else 95)
    # Two bars at either end and two in the middle; a UPC-A has its outer figures' bars besides.
    assert len(bars.guards) == (10 if kind == UPC_A else 6)


def test_a_number_that_no_till_reads_or_is_misread_is_refused() -> None:
    with pytest.raises(Refusal) as refused:
        retail_code("19521234543210")
    assert refused.value.text == (
        "19521234543210 is the number of a case, which a till does not read: register the jar's "
        "own GTIN of 8, 12 or 13 digits."
    )
    with pytest.raises(Refusal) as refused:
        retail_code("9521234543214")
    assert refused.value.text.startswith("9521234543214 is misread")


def test_a_unit_s_number_is_a_gs1_128_and_content_a_gs1_data_matrix() -> None:
    bars = gs1_128({"00": SSCC})
    assert _read(_picture(bars)) == [("Code128", "]C1", f"(00){SSCC}")]
    # Start, FNC1, ten pairs of figures and the check of 11 modules each, the stop of 13.
    assert bars.modules == 13 * 11 + 13
    elements = {"00": SSCC, "02": f"0{GTIN}", "15": "281231", "37": "12", "10": "J26-0147-M"}
    matrix = gs1_data_matrix(elements)
    side = matrix.modules_with_quiet
    picture = Image.new("L", (side, side), 255)
    for column, row, length in matrix.runs:
        picture.paste(0, (column + 4, row + 4, column + 4 + length, row + 5))
    read = _read(picture.resize((side * 4, side * 4), 0))
    assert read == [("DataMatrix", "]d2", matrix.text)]
    assert matrix.text == "".join(f"({ai}){value}" for ai, value in elements.items())
    assert matrix.modules == 24


def test_what_a_jar_or_drum_may_carry_is_parsed_by_others_as_it_was_meant() -> None:
    """Source of the weight's form: python-stdnum, (3103)000035 for 0.035 kg."""
    elements = {
        "01": f"0{GTIN}",
        "15": "281200",
        "3103": "293200",
        "10": "D26-0611-Y",
        "21": "00382",
    }
    matrix = gs1_data_matrix(elements)
    side = matrix.modules_with_quiet
    picture = Image.new("L", (side, side), 255)
    for column, row, length in matrix.runs:
        picture.paste(0, (column + 4, row + 4, column + 4 + length, row + 5))
    (found,) = zxingcpp.read_barcodes(picture.resize((side * 4, side * 4), 0))
    message = parse(found.symbology_identifier + found.bytes.decode()).gs1_message
    assert message is not None
    assert {one.ai.ai: one.value for one in message.element_strings} == elements
    weight = message.element_strings.get(ai="3103")
    assert weight is not None
    assert weight.decimal == Decimal("293.200")
    day = message.element_strings.get(ai="15")
    assert day is not None
    assert day.date == date(2028, 12, 31), "day 00 is the last of its month"


@pytest.mark.parametrize("dots_per_inch", [203, 300, 600])
@pytest.mark.parametrize("kind", MEASURES)
def test_modules_are_whole_dots_within_the_rules(kind: str, dots_per_inch: int) -> None:
    bars = {
        GS1_128: gs1_128({"00": SSCC}),
        EAN_13: retail_code(GTIN),
        UPC_A: retail_code("614141000036"),
        EAN_8: retail_code("73513537"),
    }[kind]
    rules = MEASURES[kind]
    size = fitted(bars, (200, 200), dots_per_inch)
    module_mm = size.dots * 25.4 / dots_per_inch
    assert rules.module_mm - 1e-6 <= module_mm < rules.module_mm + 25.4 / dots_per_inch
    assert size.width_mm == pytest.approx(bars.modules_with_quiet * module_mm)
    assert (size.high_mm, size.is_low) == (rules.high_mm, False)
    fewest = ceil(rules.least_mm * dots_per_inch / 25.4)
    tight = bars.modules_with_quiet * fewest * 25.4 / dots_per_inch + 0.01
    least = fitted(bars, (tight, 20), dots_per_inch)
    assert (least.dots, least.is_low) == (fewest, rules.high_mm > 20)
    with pytest.raises(Refusal):
        fitted(bars, (tight - 0.1, 20), dots_per_inch)


def test_a_room_too_small_is_refused_never_a_smaller_symbol_made() -> None:
    with pytest.raises(Refusal) as refused:
        fitted(retail_code(GTIN), (25, 20), 300)
    assert refused.value.text == (
        "The EAN-13 of 9521234543213 needs 38.3 x 11.4 mm and the label has 25.0 x 20.0 mm for "
        "it: take a larger label."
    )
    with pytest.raises(Refusal) as refused:
        fitted(gs1_128({"00": SSCC}), (100, 9), 203)
    assert refused.value.text == (
        "The GS1-128 of (00)106141411234567897 needs 88.1 x 15.0 mm and the label has 100.0 x 9.0 "
        "mm for it: take a larger label."
    )
