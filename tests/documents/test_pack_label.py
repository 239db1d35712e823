"""The label of a case or pallet: its three codes, its words, and what a low label is worth."""

from dataclasses import replace

import pytest
import zxingcpp

from honeyledger.documents import labels
from honeyledger.documents.pack_label import size_warning
from honeyledger.documents.stock import plain_printer
from honeyledger.services.pack_labels import PackLabel
from tests.support import printing

STOCKS = printing.stocks().fitting(labels.PACK_LABEL)


def _printed(pack: PackLabel, stock: str, dots: int = 300, unit: str = "kg") -> bytes:
    sheet = printing.stocks().named(stock)
    more = {"unit": unit}
    return labels.pack_labels(
        [pack],
        sheet,
        plain_printer(sheet, dots),
        printing.typefaces(),
        **more,  # type: ignore[arg-type]
    )


@pytest.mark.parametrize("stock", [stock.name for stock in STOCKS])
def test_all_three_codes_are_read_and_the_number_stands_in_type(stock: str) -> None:
    pack = printing.pack_label()
    pdf = _printed(pack, stock, 203)
    found = zxingcpp.read_barcodes(printing.raster(pdf, 203))
    assert {(one.symbology_identifier, one.text) for one in found} == {
        ("]Q1", pack.code),
        ("]C1", f"(00){pack.sscc}"),
        ("]d2", "".join(f"({ai}){value}" for ai, value in pack.elements.items())),
    }
    text = printing.text_of(pdf).replace("- ", "-")
    assert f"(00) {pack.sscc}" in text
    for words in ("Case: 12 jars", "Net 6.0 kg", "12 × Clover", pack.contents[0].lot):
        assert words in text


def test_without_a_number_a_pack_has_its_own_code_alone() -> None:
    pack = printing.pack_label(sscc="", elements={}, is_case=False, cases=40)
    pdf = _printed(pack, "roll-100x150")
    found = zxingcpp.read_barcodes(printing.raster(pdf, 300))
    assert [one.text for one in found] == [pack.code]
    assert "Shipping pallet: 40 cases, 12 jars" in printing.text_of(pdf)


def test_what_there_is_no_room_for_is_counted() -> None:
    (one,) = printing.pack_label().contents
    pack = printing.pack_label(contents=tuple(replace(one, pieces=n) for n in range(1, 10)))
    text = printing.text_of(_printed(pack, "a4-8-99.1x67.7"))
    shown = sum(f"{n} × Clover" in text for n in range(1, 10))
    assert shown in range(1, 9)
    assert f"and {9 - shown} more lots" in text
    assert "Case: 45 jars" in text


def test_a_low_label_is_warned_of() -> None:
    low = printing.stocks().named("a4-8-99.1x67.7")
    assert size_warning(low, plain_printer(low)) == (
        "The bars are 18 mm high on label stock a4-8-99.1x67.7, and 32 mm are due on what goes "
        "through warehouses: take a larger label, or agree on it with the customer."
    )
    high = printing.stocks().named("roll-100x150")
    assert size_warning(high, plain_printer(high)) is None
