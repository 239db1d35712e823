"""What a code's paper says, and how it is drawn: each kind on the stock this station has for it.

Only the lanes come here, by name: what draws a paper takes a while to load.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from honeyledger.assets import resource
from honeyledger.desktop.jobs import Report
from honeyledger.desktop.seen import SeenPaper
from honeyledger.documents import labels
from honeyledger.documents.code_size import size_notes
from honeyledger.documents.dispatch_note import usual_paper
from honeyledger.documents.floor_pad import floor_pad
from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.printers import StationPapers
from honeyledger.documents.raster import Box
from honeyledger.documents.stock import PAPERS, Printer, Stock, Stocks
from honeyledger.domain.phrases import Phrase
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit
from honeyledger.exchange.label_content import shipped_markets
from honeyledger.services.label_forms import in_form
from honeyledger.services.label_log import (
    marked,
    put_on_record,
    told_before,
    told_of_code,
    told_of_copies,
)
from honeyledger.services.labelling import PaperRow, house_stocks, label_rows, retail_rows
from honeyledger.services.papers import Serials
from honeyledger.services.store import View

_TOLD_EACH = 25
OFFICE_DOTS = 300
_AS_USUAL = StationPapers()
OwnStocks = Mapping[str, Mapping[str, object]]


@dataclass(frozen=True, slots=True)
class Plan:
    """How labels are printed here.

    Args:
        kind: the kind of label.
        stock: what they are printed on.
        printer: how the printer prints, as measured.
        goes_to: the system's name of the printer; "" for a PDF only.
        first_cell: the first free label of a sheet already begun.
    """

    kind: str
    stock: Stock
    printer: Printer
    goes_to: str = ""
    first_cell: int = 1


__all__ = ("put_on_record",)  # for whoever has only this by name


def _tell_nobody(_done: int, _of: int) -> None:
    """Nobody waits for it."""


def paper_rows(view: View, code: str, serials: Serials) -> list[PaperRow]:
    """What the paper of a code says, and of a tag which print of it this is.

    Args:
        serials: of a jar lot, which jars.

    Raises:
        Refusal: there is nothing to print.
    """
    if serials.form == labels.RETAIL_CODE:
        return list(retail_rows(view, code, serials))
    markets = shipped_markets(resource("labels", "content"))
    return list(marked(view, in_form(label_rows(view, code, serials, markets), serials.form)))


def stocks_of(assets: Path, own: OwnStocks) -> Stocks:
    """The stocks shipped, and the house's own."""
    return Stocks.load(assets / "labels" / "stocks.toml").with_own(own)


def own_stocks(view: View) -> OwnStocks:
    """The house's own label stocks, as they are on record."""
    return house_stocks(view)


def plan_of(
    rows: Sequence[PaperRow],
    assets: Path,
    own: OwnStocks,
    papers: StationPapers = _AS_USUAL,
) -> Plan:
    """How the labels of these rows are printed here.

    Raises:
        Refusal: there are none, or the stock chosen for them is not to be had.
    """
    if not rows:
        raise Refusal(labels.NOTHING_TO_PRINT)
    kind = rows[0].label
    stock = papers.stock_for(kind, stocks_of(assets, own))
    goes_to = papers.way_of(kind).printer
    return Plan(kind, stock, papers.printer_for(kind, stock), goes_to)


def worth_knowing(
    view: View, rows: Sequence[PaperRow], plan: Plan, assets: Path
) -> tuple[Phrase, ...]:
    """What is worth knowing before labels are printed: of their size, their code, earlier ones."""
    small = size_notes(rows, plan.stock, plan.printer, Typefaces(assets / "fonts"))
    found = (*small, told_of_code(view, rows), told_before(view, rows))
    return tuple(one for one in found if one is not None)


def with_copies(
    notes: Sequence[Phrase], rows: Sequence[PaperRow], copies: int
) -> tuple[Phrase, ...]:
    """The same, and what is worth knowing of so many copies."""
    more = told_of_copies(rows, copies)
    return (*notes, more) if more is not None else tuple(notes)


def seen_rows(
    view: View, code: str, serials: Serials
) -> tuple[list[PaperRow], OwnStocks, tuple[Phrase, ...]]:
    """What is shown of a label before it is printed: its row, the house's stocks, where its code
    is that has none.
    """
    rows = paper_rows(view, code, serials)
    told = told_of_code(view, rows)
    return rows, own_stocks(view), () if told is None else (told,)


def label_pdf(
    rows: Sequence[PaperRow],
    assets: Path,
    unit: MassUnit,
    report: Report = _tell_nobody,
    plan: Plan | None = None,
) -> bytes:
    """Labels of one kind as planned, else on the stock usual for it.

    Raises:
        Refusal: there are none, or a sign in them cannot be printed.
    """
    plan = plan or plan_of(rows, assets, {})
    return labels.labels_of(
        plan.kind,
        _told(rows, report),
        plan.stock,
        plan.printer,
        Typefaces(assets / "fonts"),
        unit=unit,
        first_cell=plan.first_cell,
    )


def seen_labels(
    rows: Sequence[PaperRow], plan: Plan, pdf: bytes, notes: tuple[Phrase, ...] = ()
) -> SeenPaper:
    """The PDF of these labels, as they are looked at: one after another, as large as they are."""
    stock = plan.stock
    size = stock.width_mm, stock.height_mm
    corners = [stock.corner_mm(cell, plan.printer) for cell in range(stock.cells)]
    boxes = tuple(Box(*corner, *size) for corner in corners) if stock.cells > 1 else ()
    return SeenPaper(rows[0].code, pdf, len(rows), size, boxes, plan.first_cell, notes)


def first_label(
    rows: Sequence[PaperRow],
    assets: Path,
    own: OwnStocks,
    papers: StationPapers = _AS_USUAL,
    unit: MassUnit = "kg",
    notes: tuple[Phrase, ...] = (),
) -> SeenPaper:
    """The first label as it will print here, of whatever kind.

    Raises:
        Refusal: something in it cannot be printed.
    """
    plan = plan_of(rows[:1], assets, own, papers)
    return seen_labels(rows[:1], plan, label_pdf(rows[:1], assets, unit, plan=plan), notes)


def sheets_of(
    name: str, pdf: bytes, unit: MassUnit, printer: Printer | None
) -> tuple[str, str, tuple[float, float], int, bytes, tuple[float, float]]:
    """What a note or a list takes to be printed: title, paper, its size, dots, pages and shift.

    Args:
        printer: as it was measured, where it was: all is moved as it needs.
    """
    paper = usual_paper(unit)
    dots, shift = OFFICE_DOTS, (0.0, 0.0)
    if printer is not None:
        dots, shift = printer.dots_per_inch, (printer.shift_x_mm, printer.shift_y_mm)
    return name, paper, PAPERS[paper], dots, pdf, shift


def alignment_pdf(assets: Path, stock: Stock, printer: Printer) -> bytes:
    """The page that shows what a printer needs to be told to print true to size.

    Raises:
        Refusal: the printer holds other paper than the stock's.
    """
    return labels.alignment_page(stock, printer, Typefaces(assets / "fonts"))


def pad_pdf(house: str, assets: Path, unit: MassUnit) -> bytes:
    """The paper pad, a sheet of each kind, on the paper usual in the house's office.

    Raises:
        Refusal: a sign in the house's name cannot be printed.
    """
    return floor_pad(house, Typefaces(assets / "fonts"), paper=usual_paper(unit), unit=unit)


def _told(rows: Sequence[PaperRow], report: Report) -> Iterator[PaperRow]:
    """The rows one by one, telling now and then how far they are."""
    for done, row in enumerate(rows):
        if done % _TOLD_EACH == 0:
            report(done, len(rows))
        yield row
