"""Retail codes from the terminal."""

import zxingcpp

from tests.support import printing
from tests.support.terminal import Terminal


def _product(terminal: Terminal, *more: str) -> None:
    terminal.do("register", "product", "add", "Clover", "--net", "500 g", *more)


def test_as_many_as_asked_for_are_printed_and_read(terminal: Terminal) -> None:
    _product(terminal, "--gtin", "9521234543213")
    file = terminal.folder / "codes.pdf"
    said = terminal.do(
        *("retail-codes", "Clover", "--count", "3", "-o", str(file)),
        *("--stock", "roll-70x40", "--dpi", "203"),
    )
    assert said == f"3 retail codes on roll-70x40: {file}\n"
    pdf = file.read_bytes()
    assert len(printing.page_sizes_mm(pdf)) == 3
    found = zxingcpp.read_barcodes(printing.raster(pdf, 203, page=2))
    assert [(one.symbology_identifier, one.text) for one in found] == [("]E0", "9521234543213")]
    answer = terminal.json("retail-codes", "Clover", "-o", str(file))
    assert answer == {
        "file": str(file),
        "kind": "retail code",
        "labels": 1,
        "stock": "a4-24-70x37",
        "entries": answer["entries"],
    }
    told = terminal.json("entries")["entries"]
    assert [one["entry"] for one in told if one["kind"] == "printed"] == [
        *answer["entries"],
        answer["entries"][0] - 1,
    ]


def test_a_product_without_a_number_is_refused(terminal: Terminal) -> None:
    _product(terminal)
    file = terminal.folder / "codes.pdf"
    assert terminal.refused("retail-codes", "Clover", "-o", str(file)) == (
        "Clover has no GTIN on record: GS1 gives you one for each product, then register it in "
        "Setup, under Products."
    )
    assert not file.exists()
