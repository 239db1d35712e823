"""Pages of a PDF as dots, for screens and printers."""

import sys
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest
import zxingcpp
from PIL import Image

from honeyledger.documents import raster
from honeyledger.documents.raster import Box, Dots, page_sizes_mm, printed, seen
from honeyledger.documents.stock import plain_printer
from honeyledger.domain.refusals import Refusal
from tests.support import printing
from tests.support.reading import READ


def _pdf(kind: str = "jar label", stock_name: str = "", dots: int = 0, count: int = 1) -> bytes:
    draw, row = READ[kind]
    stock = printing.stocks().chosen(kind, stock_name)
    return draw([row] * count, stock, plain_printer(stock, dots), printing.typefaces())


def _grey(dots: Dots) -> Image.Image:
    return Image.frombytes(
        "L", (dots.width, dots.height), bytes(dots.data), "raw", "L", dots.stride
    )


@pytest.mark.parametrize("dots", [203, 300, 600])
@pytest.mark.parametrize("kind", ["drum label", "case or pallet label", "retail code"])
def test_what_a_printer_gets_is_black_or_white_and_is_read(kind: str, dots: int) -> None:
    pdf = _pdf(kind, "roll-70x40" if kind == "retail code" else "", dots)
    page = _grey(printed(pdf, 0, dots))
    assert {value for value, count in enumerate(page.histogram()) if count} == {0, 255}
    wide, high = page_sizes_mm(pdf)[0]
    assert page.width - 1 <= wide / 25.4 * dots <= page.width
    assert page.height - 1 <= high / 25.4 * dots <= page.height
    found = zxingcpp.read_barcodes(page)
    theirs = zxingcpp.read_barcodes(printing.raster(pdf, dots))
    assert found
    assert sorted(one.text for one in found) == sorted(one.text for one in theirs)


@pytest.mark.parametrize("dots", [203, 300, 600])
def test_every_module_is_as_many_whole_dots(dots: int) -> None:
    pdf = _pdf("drum label", dots=dots)
    page = _grey(printed(pdf, 0, dots))
    (placed,) = printing.placed_symbols(pdf)
    symbol = printing.cut_out(page, page_sizes_mm(pdf)[0][1] / 25.4 * 72, dots, placed)
    module = round(placed.module / 72 * dots)
    for row in range(4, placed.side - 4):
        for column in range(4, placed.side - 4):
            corner = column * module, row * module
            one = symbol.crop((*corner, corner[0] + module, corner[1] + module))
            assert len(one.getcolors()) == 1


def test_a_screen_gets_colour_and_a_part_is_what_stands_there_on_the_page() -> None:
    pdf = _pdf(stock_name="a4-24-70x37", count=3)
    page = seen(pdf, 0, 4.0)
    assert (page.width, page.height, page.stride) == (840, 1188, 4 * 840)
    part = seen(pdf, 0, 4.0, Box(70, 0, 70, 37))
    assert (part.width, part.height) == (280, 148)
    images = [
        Image.frombytes("RGBX", (one.width, one.height), bytes(one.data)).convert("L")
        for one in (page, part)
    ]
    there = images[0].crop((280, 0, 560, 148))
    off = sum(
        abs(here - other) > 64
        for here, other in zip(images[1].tobytes(), there.tobytes(), strict=True)
    )
    assert off < 0.01 * 280 * 148
    assert min(images[1].tobytes()) < 40


def test_threads_come_to_the_reader_one_at_a_time(monkeypatch: pytest.MonkeyPatch) -> None:
    """The reader is not made for threads: no call may begin while another is under way."""
    reader = raster._reader()
    inside: list[str] = []
    most: list[int] = []

    class Watched(reader.PdfDocument):  # type: ignore[misc, name-defined]
        def __init__(self, *args: Any) -> None:
            inside.append("open")
            most.append(len(inside))
            super().__init__(*args)

        def __exit__(self, *args: Any) -> None:
            super().__exit__(*args)
            inside.pop()

    monkeypatch.setattr(reader, "PdfDocument", Watched)
    pdf = _pdf("drum label", count=4)
    tasks: list[Callable[[], Any]] = [
        task
        for page in range(4)
        for task in (
            lambda page=page: bytes(printed(pdf, page, 203).data),
            lambda page=page: bytes(seen(pdf, page, 3.0).data),
            lambda: page_sizes_mm(pdf),
        )
    ]
    alone = [task() for task in tasks]
    with ThreadPoolExecutor(8) as threads:
        beside = list(threads.map(lambda task: task(), tasks * 3))
    assert beside == alone * 3
    assert max(most) == 1


@pytest.mark.parametrize("what", [page_sizes_mm, lambda pdf: printed(pdf, 0, 203)])
def test_without_a_reader_a_sentence_says_what_to_do(
    what: Callable[[bytes], object], monkeypatch: pytest.MonkeyPatch
) -> None:
    pdf = _pdf()
    monkeypatch.setitem(sys.modules, "pypdfium2", None)
    with pytest.raises(Refusal) as refused:
        what(pdf)
    assert refused.value.text == (
        "Papers can be neither shown nor sent to a printer here: what reads PDFs does not load "
        "(import of pypdfium2 halted; None in sys.modules). Install the program again. The PDF is "
        "written as ever: print it from another program."
    )
