"""Stickers with a retail code: read on every stock, their figures where they belong."""

import pytest
import zxingcpp

from honeyledger.documents import labels
from honeyledger.documents.stock import LEAST_MM, Stock, plain_printer, stock_of
from honeyledger.domain.refusals import Refusal
from honeyledger.services.retail_codes import RetailCode
from tests.support import printing

STOCKS = printing.stocks().fitting(labels.RETAIL_CODE)
NUMBERS = {
    "09521234543213": ("]E0", "9521234543213", ["9", "521234", "543213"]),
    "00614141000036": ("]E0", "0614141000036", ["6", "14141", "00003", "6"]),
    "00000073513537": ("]E4", "73513537", ["7351", "3537"]),
}


def _print(gtin: str, stock: Stock, dots_per_inch: int, product: str = "Clover") -> bytes:
    row = RetailCode(product, 500, gtin)
    printer = plain_printer(stock, dots_per_inch)
    return labels.retail_codes([row], stock, printer, printing.typefaces())


@pytest.mark.parametrize("dots_per_inch", [203, 300, 600])
@pytest.mark.parametrize("gtin", NUMBERS)
def test_every_kind_is_read_at_every_printer(gtin: str, dots_per_inch: int) -> None:
    identifier, text, _ = NUMBERS[gtin]
    stock = printing.stocks().named("roll-70x40")
    pdf = _print(gtin, stock, dots_per_inch)
    found = zxingcpp.read_barcodes(printing.raster(pdf, dots_per_inch))
    assert [(one.symbology_identifier, one.text) for one in found] == [(identifier, text)]


@pytest.mark.parametrize("stock", STOCKS, ids=lambda stock: stock.name)
@pytest.mark.parametrize("gtin", NUMBERS)
def test_figures_stand_between_the_guards_and_nothing_leaves_the_label(
    gtin: str, stock: Stock
) -> None:
    pdf = _print(gtin, stock, 203, "Clover and basswood honey from the river meadows, creamed")
    words = printing.text_of(pdf)
    for group in NUMBERS[gtin][2]:
        assert group in words
    assert "500 g" in words
    ((left, bottom, right, top),) = printing.placed_bars(pdf)
    ((_, high_mm),) = printing.page_sizes_mm(pdf)
    point = 72 / 25.4
    edge, upper = stock.left_mm * point, (high_mm - stock.top_mm) * point
    for box in [*printing.text_boxes(pdf), (left, bottom, right, top)]:
        assert edge < box[0] < box[2] < edge + stock.width_mm * point
        assert upper - stock.height_mm * point < box[1] < box[3] < upper
    figures = [box for box in printing.text_boxes(pdf) if box[1] < bottom + 3]
    assert figures
    assert all(left <= box[0] and box[2] <= right for box in figures), "white is kept around them"


def test_the_least_label_has_room_for_it_and_a_smaller_one_is_refused() -> None:
    wide, high = LEAST_MM[labels.RETAIL_CODE]
    record = {"paper": "roll", "width_um": wide * 1000, "height_um": high * 1000}
    least = stock_of("Own", record)
    for gtin in NUMBERS:
        for dots_per_inch in (203, 300, 600):
            assert len(printing.placed_bars(_print(gtin, least, dots_per_inch))) == 1
    assert labels.RETAIL_CODE not in stock_of("Own", record | {"width_um": 49_000}).kinds


def test_a_number_of_a_case_is_refused() -> None:
    with pytest.raises(Refusal) as refused:
        _print("19521234543210", STOCKS[0], 300)
    assert refused.value.field == "gtin"
