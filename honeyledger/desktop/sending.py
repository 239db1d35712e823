"""Sends papers to a printer of the system: without a dialog, or through the system's own.

A printer gets the pages of the PDF, in its own dots, on a page of the stock's size. What this
computer has for printers is asked of the system each time; a printer may come and go.
"""

import importlib
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QMarginsF, QPoint, QSizeF, Qt
from PySide6.QtGui import QImage, QPageLayout, QPageSize, QPainter
from PySide6.QtWidgets import QWidget

from honeyledger.desktop.jobs import Report
from honeyledger.documents import raster
from honeyledger.documents.raster import Dots
from honeyledger.domain.refusals import Refusal, Sentence

if TYPE_CHECKING:  # it takes a while to load, and most windows never print by themselves
    from PySide6.QtPrintSupport import QPrintDialog, QPrinter, QPrinterInfo

NO_SUCH_PRINTER = Sentence(
    "no-such-printer",
    "This computer has no printer called {printer}: switch it on, or choose another one in Setup, "
    "under Printers. The PDF is written.",
)
WRONG_SIZE = Sentence(
    "wrong-page-size",
    "Printer {printer} takes no page of {width} × {height} mm, which label stock {stock} is: put "
    "in a stock that it takes, or set that size in the printer's own settings. The PDF is "
    "written.",
)
NOT_SENT = Sentence(
    "not-sent",
    "Printer {printer} did not take the paper: look at it, then print again. The PDF is written.",
)
# Printers round a page's size to points, drivers to a millimetre.
NEAR_MM = 1.0
_SUPPORT = "PySide6.QtPrintSupport"


# Dots of a page that are packed at once: the interpreter is held for some 15 ms meanwhile.
_MOST_DOTS = 6_000_000
_THIN_ROWS = 256
_BLACK_AND_WHITE = (0xFF000000, 0xFFFFFFFF)


@dataclass(frozen=True, slots=True)
class Sheets:
    """Pages to be printed, all of one size.

    Args:
        title: how the print is called in the printer's queue.
        stock: the label stock's name.
        page_mm: width and height of each page.
        dots_per_inch: as the printer has them.
        pdf: the paper as it was written.
        shift_mm: how far all is moved right and down, where the PDF does not do so itself.
        goes_to: the printer's name; `ASK_EACH_TIME` where the system's own dialog asks.
    """

    title: str
    stock: str
    page_mm: tuple[float, float]
    dots_per_inch: int
    pdf: bytes
    shift_mm: tuple[float, float] = (0.0, 0.0)
    goes_to: str = ""


def printers() -> tuple[str, ...]:
    """The printers this computer has, by the system's names."""
    info = importlib.import_module(_SUPPORT).QPrinterInfo
    return tuple(str(name) for name in info.availablePrinterNames())


def _tell_nobody(_done: int, _of: int) -> None:
    """Nobody waits for it."""


def send(sheets: Sheets, report: Report = _tell_nobody) -> str:
    """Print on the printer it goes to, without asking; answers its name.

    Raises:
        Refusal: there is no such printer, it takes no page of that size, or it takes nothing; or
            what reads PDFs does not load.
    """
    name = sheets.goes_to
    support = importlib.import_module(_SUPPORT)
    info: QPrinterInfo = support.QPrinterInfo.printerInfo(name)
    if info.isNull():
        raise Refusal(NO_SUCH_PRINTER, field="printer", printer=name)
    sizes = [size.size(QPageSize.Unit.Millimeter) for size in info.supportedPageSizes()]
    check_size(
        sheets,
        name,
        [(size.width(), size.height()) for size in sizes],
        takes_any=info.supportsCustomPageSizes(),
    )
    printer: QPrinter = support.QPrinter(info, support.QPrinter.PrinterMode.HighResolution)
    return paint(sheets, printer, report)


def check_size(
    sheets: Sheets, name: str, sizes: Sequence[tuple[float, float]], *, takes_any: bool
) -> None:
    """Whether a printer takes pages of this size, upright or lying.

    Raises:
        Refusal: it does not.
    """
    wide, high = sheets.page_mm
    for one in sizes:
        for width, height in (one, one[::-1]):
            if abs(width - wide) <= NEAR_MM and abs(height - high) <= NEAR_MM:
                return
    if not takes_any:
        raise Refusal(
            WRONG_SIZE,
            field="stock",
            printer=name,
            width=f"{wide:g}",
            height=f"{high:g}",
            stock=sheets.stock,
        )


def paint(sheets: Sheets, printer: "QPrinter", report: Report = _tell_nobody) -> str:
    """Print the pages on a printer that is chosen, one after another; answers its name.

    Raises:
        Refusal: it does not take them, or what reads PDFs does not load.
    """
    prepare(sheets, printer)
    wanted = _wanted(printer, len(raster.page_sizes_mm(sheets.pdf)))
    painter = QPainter()
    if not painter.begin(printer):
        raise Refusal(NOT_SENT, field="printer", printer=printer.printerName())
    dots_a_mm = printer.resolution() / 25.4
    left, top = (round(side * dots_a_mm) for side in sheets.shift_mm)
    for done, page in enumerate(wanted):
        if done:
            printer.newPage()
        report(done + 1, len(wanted))
        for row, image in in_dots(raster.printed(sheets.pdf, page, printer.resolution())):
            painter.drawImage(QPoint(left, top + row), image)
    painter.end()
    return printer.printerName()


def _wanted(printer: "QPrinter", pages: int) -> range:
    """Which pages, from 0 on: all, or those that the person chose in the system's dialog."""
    if printer.printRange() != printer.PrintRange.PageRange or not printer.fromPage():
        return range(pages)
    return range(min(printer.fromPage(), pages) - 1, min(printer.toPage(), pages))


def in_dots(page: Dots) -> Iterator[tuple[int, QImage]]:
    """A page in black and white, in pieces with the row each begins at.

    It is cut where rows are white: whoever prints may move a piece by a dot, and a symbol that is
    in two of them would have rows of two heights.
    """
    top = 0
    while top < page.height:
        end = _white_row(page, top, _MOST_DOTS // page.width)
        rows = [
            _mono(page, row, min(_THIN_ROWS, end - row)) for row in range(top, end, _THIN_ROWS)
        ]
        data = b"".join(bytes(one.constBits()) for one in rows)
        stride = rows[0].bytesPerLine()
        image = QImage(data, page.width, end - top, stride, QImage.Format.Format_Mono)
        image.setColorTable(_BLACK_AND_WHITE)
        yield top, image.copy()
        top = end


def _white_row(page: Dots, top: int, most: int) -> int:
    """The last white row that is so near; the farthest one where none is."""
    near = top + most
    if near >= page.height:
        return page.height
    white = b"\xff" * page.width
    for row in range(near, near - most // 2, -1):
        if page.data[row * page.stride : row * page.stride + page.width] == white:
            return row
    return near


def _mono(page: Dots, top: int, rows: int) -> QImage:
    """A few rows of a page, a bit a dot."""
    part = page.data[top * page.stride : (top + rows) * page.stride]
    grey = QImage(part, page.width, rows, page.stride, QImage.Format.Format_Grayscale8)
    mono = grey.convertToFormat(QImage.Format.Format_Mono, Qt.ImageConversionFlag.ThresholdDither)
    mono.invertPixels()  # in Qt's own table 0 is white, in the printers' black
    return mono


def through_dialog(
    sheets: Sheets, parent: QWidget | None, then: Callable[[Callable[[Report], str]], None]
) -> "QPrintDialog":
    """Let the system's own dialog ask for the printer.

    Args:
        then: given what prints there, for a lane; not where the person thought better of it.
    """
    support = importlib.import_module(_SUPPORT)
    printer: QPrinter = support.QPrinter(support.QPrinter.PrinterMode.HighResolution)
    prepare(sheets, printer)
    dialog: QPrintDialog = support.QPrintDialog(printer, parent)
    dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    dialog.accepted.connect(lambda: then(lambda report: paint(sheets, printer, report)))
    dialog.setModal(True)
    dialog.show()
    return dialog


def prepare(sheets: Sheets, printer: "QPrinter") -> None:
    """Set a printer to these pages: their size, no margin, nothing fitted."""
    match = QPageSize.SizeMatchPolicy.ExactMatch
    size = QPageSize(QSizeF(*sheets.page_mm), QPageSize.Unit.Millimeter, sheets.stock, match)
    printer.setDocName(sheets.title)
    printer.setResolution(sheets.dots_per_inch)
    printer.setFullPage(True)
    portrait = QPageLayout.Orientation.Portrait
    printer.setPageLayout(QPageLayout(size, portrait, QMarginsF(0, 0, 0, 0)))
