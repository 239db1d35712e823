"""Labels on a printer of the system: where their marks come out, and what is refused.

The printer is Qt's own that writes into a file; what it puts on paper is measured there.
"""

from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtWidgets import QLineEdit
from pytestqt.qtbot import QtBot

from honeyledger.assets import resource
from honeyledger.desktop import sending
from honeyledger.desktop.drawing import Plan, label_pages, label_pdf
from honeyledger.desktop.sending import (
    Sheets,
    check_size,
    paint,
    printers,
    send,
    through_dialog,
)
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
    pages = label_pages(_rows(plan, count), resource(), "kg", plan)
    dots = plan.printer.dots_per_inch
    return Sheets("Labels", plan.stock.name, plan.stock.page_mm, dots, pages)


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


@pytest.mark.parametrize("name", ["a4-24-70x37", "roll-100x150"])
def test_a_printer_gets_what_the_pdf_shows(name: str, tmp_path: Path) -> None:
    plan = _plan(name)
    pdf = label_pdf(_rows(plan, 2), resource(), "kg", plan=plan)
    printed = _printed(_sheets(plan, 2), tmp_path / "printed.pdf")
    assert printing.page_sizes_mm(printed) == [
        pytest.approx(size, abs=0.2) for size in printing.page_sizes_mm(pdf)
    ]
    dots = plan.printer.dots_per_inch
    assert printing.read(printing.raster(printed, dots)) == printing.read(
        printing.raster(pdf, dots)
    )
    page = printing.raster(pdf, 300), printing.raster(printed, 300)
    boxes = [image.point(lambda dot: 255 - dot).getbbox() for image in page]
    for here, there in zip(*boxes, strict=True):
        assert abs(here - there) / 300 * 25.4 <= 0.1


def test_each_page_of_a_sheet_has_its_labels(tmp_path: Path) -> None:
    plan = replace(_plan("a4-24-70x37"), first_cell=20)
    sheets = _sheets(plan, 8)
    assert [len(page) > 0 for page in sheets.pages] == [True, True]
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
    assert boxes[1][0] == boxes[0][0]


def test_a_printer_that_is_not_there_is_said(tmp_path: Path) -> None:
    name = "No printer of this name"
    assert name not in printers()
    with pytest.raises(Refusal) as refused:
        send(_sheets(_plan("roll-70x40"), 1), name)
    assert refused.value.text == (
        "This computer has no printer called No printer of this name: switch it on, or choose "
        "another one in Setup, under Printers. The PDF is written."
    )


def test_a_page_the_printer_does_not_take_is_refused() -> None:
    sheets = Sheets("Labels", "roll-70x40", (70, 40), 203, ())
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
    said: list[Refusal | str] = []
    dialog = through_dialog(_sheets(_plan("roll-70x40"), 2), None, said.append)
    dialog.printer().setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    line = next(one for one in dialog.findChildren(QLineEdit) if one.text().startswith("/"))
    line.setText(str(file))
    dialog.accept()
    assert said == [""], "printed into a file, by no printer"
    assert printing.page_sizes_mm(file.read_bytes()) == [pytest.approx((70, 40), abs=0.2)] * 2


@pytest.mark.qt_log_ignore("propagateSizeHints")
def test_who_thinks_better_of_it_prints_nothing(qtbot: QtBot) -> None:
    said: list[Refusal | str] = []
    through_dialog(_sheets(_plan("roll-70x40"), 1), None, said.append).reject()
    assert said == []
