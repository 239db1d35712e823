"""Sends labels to a printer of the system: without a dialog, or through the system's own.

The marks are those of the PDF, painted in millimetres on a page of the stock's size. What this
computer has for printers is asked of the system each time; a printer may come and go.
"""

import importlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QMarginsF, QSizeF, Qt
from PySide6.QtGui import QPageLayout, QPageSize, QPainter
from PySide6.QtWidgets import QWidget

from honeyledger.desktop.ink_paint import draw_ink
from honeyledger.desktop.inks import Ink
from honeyledger.documents.stock import Stock
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


@dataclass(frozen=True, slots=True)
class Sheets:
    """Pages to be printed, all of one size.

    Args:
        title: how the print is called in the printer's queue.
        stock: the label stock's name.
        page_mm: width and height of each page.
        dots_per_inch: as the printer has them.
        pages: the marks of each page, in mm from its corner.
    """

    title: str
    stock: str
    page_mm: tuple[float, float]
    dots_per_inch: int
    pages: Sequence[Sequence[Ink]]


def printers() -> tuple[str, ...]:
    """The printers this computer has, by the system's names."""
    info = importlib.import_module(_SUPPORT).QPrinterInfo
    return tuple(str(name) for name in info.availablePrinterNames())


def send_pages(
    title: str,
    stock: Stock,
    dots_per_inch: int,
    pages: Sequence[Sequence[Ink]],
    name: str,
) -> None:
    """Print these pages of a label stock on the printer of that name. Refuses as `send` does."""
    send(Sheets(title, stock.name, stock.page_mm, dots_per_inch, pages), name)


def send(sheets: Sheets, name: str) -> None:
    """Print on the printer of that name, without asking.

    Raises:
        Refusal: there is no such printer, it takes no page of that size, or it takes nothing.
    """
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
    paint(sheets, printer)


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


def paint(sheets: Sheets, printer: "QPrinter") -> None:
    """Paint the pages on a printer that is chosen.

    Raises:
        Refusal: it does not take them.
    """
    prepare(sheets, printer)
    painter = QPainter()
    if not painter.begin(printer):
        raise Refusal(NOT_SENT, field="printer", printer=printer.printerName())
    dots_a_mm = printer.resolution() / 25.4
    for number, page in enumerate(sheets.pages):
        if number:
            printer.newPage()
        painter.save()
        painter.scale(dots_a_mm, dots_a_mm)
        for ink in page:
            draw_ink(painter, ink)
        painter.restore()
    painter.end()


def through_dialog(
    sheets: Sheets, parent: QWidget | None, then: Callable[[Refusal | str], None]
) -> "QPrintDialog":
    """Let the system's own dialog ask for the printer, then print there.

    Args:
        then: told why it was not printed, or the printer that took it; not told where the
            person thought better of it.
    """
    support = importlib.import_module(_SUPPORT)
    printer: QPrinter = support.QPrinter(support.QPrinter.PrinterMode.HighResolution)
    prepare(sheets, printer)
    dialog: QPrintDialog = support.QPrintDialog(printer, parent)

    def print_it() -> None:
        try:
            paint(sheets, printer)
        except Refusal as refusal:
            then(refusal)
        else:
            then(printer.printerName())

    dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    dialog.accepted.connect(print_it)
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
