"""Papers on a printer of the system: where their marks come out, and what is refused.

The printer is Qt's own that writes into a file; what it puts on paper is measured there.
"""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pypdfium2
import pytest
from PIL import Image
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtWidgets import QLineEdit
from pytestqt.qtbot import QtBot

from honeyledger.assets import resource
from honeyledger.desktop import sending
from honeyledger.desktop.drawing import Plan, label_pdf
from honeyledger.desktop.jobs import Report
from honeyledger.desktop.sending import (
    Sheets,
    check_size,
    paint,
    printers,
    send,
    through_dialog,
)
from honeyledger.documents.raster import printed
from honeyledger.documents.stock import plain_printer
from honeyledger.domain.refusals import Refusal
from tests.support import printing

pytestmark = pytest.mark.usefixtures("qapp")


def _plan(name: str, **measured: float) -> Plan:
    stock = printing.stocks().named(name)
    kind = "jar label" if "jar label" in stock.kinds else "drum label"
    return Plan(kind, stock, replace(plain_printer(stock), **measured))


def _rows(plan: Plan, count: int) -> list[object]:
    make = printing.jar_label if plan.kind == "jar label" else lambda _n: printing.drum_label()
    return [make(number) for number in range(count)]


def _sheets(plan: Plan, count: int) -> Sheets:
    pdf = label_pdf(_rows(plan, count), resource(), "kg", plan=plan)
    dots = plan.printer.dots_per_inch
    return Sheets("Labels", plan.stock.name, plan.stock.page_mm, dots, pdf)


def _printed(sheets: Sheets, file: Path) -> bytes:
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(file))
    paint(sheets, printer)
    return file.read_bytes()


def _lines_mm(pdf: bytes) -> list[float]:
    """The upper edge of each line of text, from the top of the page, in mm."""
    high = printing.page_sizes_mm(pdf)[0][1]
    return sorted(high - box[3] / 72 * 25.4 for box in printing.text_boxes(pdf))


@pytest.mark.parametrize(
    ("name", "dots"),
    [("roll-70x40", 203), ("roll-100x150", 203), ("a4-24-70x37", 300), ("a4-24-70x37", 600)],
)
def test_a_printer_gets_the_pdf_dot_for_dot(name: str, dots: int, tmp_path: Path) -> None:
    stock = printing.stocks().named(name)
    plan = replace(_plan(name), printer=plain_printer(stock, dots))
    sheets = _sheets(plan, 2)
    on_paper = _printed(sheets, tmp_path / "printed.pdf")
    whole = Image.new("L", [round(side / 25.4 * dots) + 1 for side in stock.page_mm], 255)
    assert printing.page_sizes_mm(on_paper) == [
        pytest.approx(size, abs=0.2) for size in printing.page_sizes_mm(sheets.pdf)
    ]
    with pypdfium2.PdfDocument(on_paper) as document:
        high = document[0].get_height()
        for piece in document[0].get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_IMAGE]):
            left, bottom, right, top = (side / 72 * 25.4 for side in piece.get_bounds())
            picture = piece.get_bitmap(render=False).to_pil().convert("L")
            row = round((high / 72 * 25.4 - top) / 25.4 * dots)
            from_top = high / 72 * 25.4 - top
            assert (left, from_top) == pytest.approx((0, row / dots * 25.4), abs=0.01)
            assert (right - left) / picture.width == pytest.approx(25.4 / dots)
            assert (top - bottom) / picture.height == pytest.approx(25.4 / dots)
            whole.paste(picture, (0, row))
    theirs = printing.raster(sheets.pdf, dots)
    assert printing.read(whole) == printing.read(theirs)
    assert printing.read(whole)
    for here, there in zip(_inked(whole), _inked(theirs), strict=True):
        # A dot of 203 an inch is 0.125 mm.
        assert abs(here - there) <= max(0.1 / 25.4 * dots, 1)


def _inked(image: Image.Image) -> tuple[int, int, int, int]:
    box = image.point(lambda dot: 255 - dot).getbbox()
    assert box is not None
    return box


def test_a_page_is_cut_where_it_is_white_and_comes_out_whole() -> None:
    """At 600 dots an inch a page is packed in pieces, none of which holds the window for long."""
    plan = _plan("a4-24-70x37")
    plan = replace(plan, printer=plain_printer(plan.stock, 600))
    page = printed(_sheets(plan, 24).pdf, 0, 600)
    pieces = list(sending.in_dots(page))
    assert len(pieces) > 1
    assert max(image.height() for _, image in pieces) * page.width <= 6_000_000
    assert sum(image.height() for _, image in pieces) == page.height
    for top, image in pieces:
        for row in range(0, image.height(), 97):
            for column in range(0, page.width, 31):
                is_black = page.data[(top + row) * page.stride + column] == 0
                assert (image.pixelColor(column, row).lightness() == 0) is is_black
        begins = page.data[top * page.stride : top * page.stride + page.width]
        assert not top or begins == b"\xff" * page.width


def test_all_is_moved_where_its_pdf_is_not(tmp_path: Path) -> None:
    sheets = _sheets(_plan("roll-70x40"), 1)
    moved = replace(sheets, shift_mm=(1.0, 0.5))
    files = [
        _printed(one, tmp_path / f"{number}.pdf") for number, one in enumerate((sheets, moved))
    ]
    plain, there = (
        printing.raster(pdf, 300).point(lambda dot: 255 - dot).getbbox() for pdf in files
    )
    assert (there[0] - plain[0]) / 300 * 25.4 == pytest.approx(1.0, abs=0.15)
    assert (there[1] - plain[1]) / 300 * 25.4 == pytest.approx(0.5, abs=0.15)


def test_each_page_of_a_sheet_has_its_labels(tmp_path: Path) -> None:
    plan = replace(_plan("a4-24-70x37"), first_cell=20)
    sheets = _sheets(plan, 8)
    assert len(printing.page_sizes_mm(_printed(sheets, tmp_path / "printed.pdf"))) == 2


def test_a_correction_moves_the_print_by_just_that(tmp_path: Path) -> None:
    plain, moved = (
        _printed(_sheets(_plan("roll-70x40", shift_y_mm=down), 1), tmp_path / f"{down}.pdf")
        for down in (0.0, 1.5)
    )
    boxes = [
        printing.raster(pdf, 300).point(lambda dot: 255 - dot).getbbox() for pdf in (plain, moved)
    ]
    assert (boxes[1][1] - boxes[0][1]) / 300 * 25.4 == pytest.approx(1.5, abs=0.1)
    assert abs(boxes[1][0] - boxes[0][0]) <= 1


def test_a_printer_that_is_not_there_is_said(tmp_path: Path) -> None:
    name = "No printer of this name"
    assert name not in printers()
    with pytest.raises(Refusal) as refused:
        send(replace(_sheets(_plan("roll-70x40"), 1), goes_to=name))
    assert refused.value.text == (
        "This computer has no printer called No printer of this name: switch it on, or choose "
        "another one in Setup, under Printers. The PDF is written."
    )


def test_a_page_the_printer_does_not_take_is_refused() -> None:
    sheets = Sheets("Labels", "roll-70x40", (70, 40), 203, b"")
    check_size(sheets, "Roll", [(101.6, 152.4), (40.3, 69.8)], takes_any=False)
    check_size(sheets, "Roll", [], takes_any=True)
    with pytest.raises(Refusal) as refused:
        check_size(sheets, "Office", [(210, 297)], takes_any=False)
    assert refused.value.text == (
        "Printer Office takes no page of 70 × 40 mm, which label stock roll-70x40 is: put in a "
        "stock that it takes, or set that size in the printer's own settings. The PDF is written."
    )


@pytest.mark.qt_log_ignore("Returned false")
def test_a_printer_that_takes_nothing_is_said(tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("")
    with pytest.raises(Refusal) as refused:
        _printed(_sheets(_plan("roll-70x40"), 1), tmp_path / "taken" / "printed.pdf")
    assert refused.value.sentence is sending.NOT_SENT
    assert refused.value.text.endswith(
        " did not take the paper: look at it, then print again. The PDF is written."
    )


@pytest.mark.qt_log_ignore("propagateSizeHints")
def test_the_systems_own_dialog_prints_where_the_person_says(qtbot: QtBot, tmp_path: Path) -> None:
    """Where this computer has no printer, the dialog offers a file; it is the system's own."""
    file = tmp_path / "chosen.pdf"
    said: list[Callable[[Report], str]] = []
    dialog = through_dialog(_sheets(_plan("roll-70x40"), 2), None, said.append)
    dialog.printer().setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    line = next(one for one in dialog.findChildren(QLineEdit) if one.text().startswith("/"))
    line.setText(str(file))
    dialog.accept()
    assert not file.exists(), "pages are made in a lane"
    told: list[tuple[int, int]] = []
    assert said[0](lambda page, of: told.append((page, of))) == "", "into a file, by no printer"
    assert told == [(1, 2), (2, 2)]
    assert printing.page_sizes_mm(file.read_bytes()) == [pytest.approx((70, 40), abs=0.2)] * 2


@pytest.mark.qt_log_ignore("propagateSizeHints")
def test_who_thinks_better_of_it_prints_nothing(qtbot: QtBot) -> None:
    said: list[Callable[[Report], str]] = []
    through_dialog(_sheets(_plan("roll-70x40"), 1), None, said.append).reject()
    assert said == []


def test_only_the_pages_that_were_chosen_are_printed(tmp_path: Path) -> None:
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "some.pdf"))
    printer.setPrintRange(QPrinter.PrintRange.PageRange)
    printer.setFromTo(2, 9)
    paint(_sheets(_plan("roll-70x40"), 4), printer)
    assert len(printing.page_sizes_mm((tmp_path / "some.pdf").read_bytes())) == 3
