"""What a code's paper says, and how it is drawn: each kind on the stock this station has for it.

Only the lanes come here, by name: what draws a paper takes a while to load.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from honeyledger.assets import resource
from honeyledger.desktop.inks import Ink, SeenLabel
from honeyledger.desktop.jobs import Report
from honeyledger.desktop.seen_page import SeenPage, shifted
from honeyledger.documents import labels
from honeyledger.documents.code_size import size_notes
from honeyledger.documents.dispatch_note import dispatch_notes, usual_paper
from honeyledger.documents.floor_pad import floor_pad
from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.page import Page, drawn_on
from honeyledger.documents.printers import StationPapers
from honeyledger.documents.report_paper import report_pdf
from honeyledger.documents.stock import PAPERS, Printer, Stock, Stocks, plain_printer
from honeyledger.domain.label_stock import SHEET
from honeyledger.domain.phrases import Phrase
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit
from honeyledger.exchange.label_content import shipped_markets
from honeyledger.services.dispatch_paper import DispatchNote, note_paper
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
from honeyledger.services.report_tables import Report as ReportRows
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


def paper_rows(
    view: View, code: str, serials: Serials, *, is_note: bool
) -> list[PaperRow | DispatchNote]:
    """What the paper of a code says, and of a tag which print of it this is.

    Args:
        serials: of a jar lot, which jars.
        is_note: whether it is a dispatch note's code.

    Raises:
        Refusal: there is nothing to print.
    """
    if serials.form == labels.RETAIL_CODE:
        return list(retail_rows(view, code, serials))
    markets = shipped_markets(resource("labels", "content"))
    return (
        [note_paper(view, code)]
        if is_note
        else marked(view, in_form(label_rows(view, code, serials, markets), serials.form))
    )


def stocks_of(assets: Path, own: OwnStocks) -> Stocks:
    """The stocks shipped, and the house's own."""
    return Stocks.load(assets / "labels" / "stocks.toml").with_own(own)


def own_stocks(view: View) -> OwnStocks:
    """The house's own label stocks, as they are on record."""
    return house_stocks(view)


def plan_of(
    rows: Sequence[PaperRow | DispatchNote],
    assets: Path,
    own: OwnStocks,
    papers: StationPapers = _AS_USUAL,
) -> Plan | None:
    """How the labels of these rows are printed here; None for what is no label.

    Raises:
        Refusal: there are none, or the stock chosen for them is not to be had.
    """
    if any(isinstance(row, DispatchNote) for row in rows):
        return None
    kind = _kind_of(rows)
    stock = papers.stock_for(kind, stocks_of(assets, own))
    goes_to = papers.way_of(kind).printer
    return Plan(kind, stock, papers.printer_for(kind, stock), goes_to)


def worth_knowing(
    view: View, rows: Sequence[PaperRow | DispatchNote], plan: Plan, assets: Path
) -> tuple[Phrase, ...]:
    """What is worth knowing before labels are printed: of their size, their code, earlier ones."""
    small = size_notes(rows, plan.stock, plan.printer, Typefaces(assets / "fonts"))
    found = (*small, told_of_code(view, rows), told_before(view, rows))
    return tuple(one for one in found if one is not None)


def with_copies(
    notes: Sequence[Phrase], rows: Sequence[PaperRow | DispatchNote], copies: int
) -> tuple[Phrase, ...]:
    """The same, and what is worth knowing of so many copies."""
    more = told_of_copies(rows, copies)
    return (*notes, more) if more is not None else tuple(notes)


def seen_rows(
    view: View, code: str, serials: Serials
) -> tuple[list[PaperRow | DispatchNote], OwnStocks, tuple[Phrase, ...]]:
    """What is shown of a label before it is printed: its row, the house's stocks, where its code
    is that has none.
    """
    rows = paper_rows(view, code, serials, is_note=False)
    told = told_of_code(view, rows)
    return rows, own_stocks(view), () if told is None else (told,)


def label_pdf(
    rows: Sequence[PaperRow | DispatchNote],
    assets: Path,
    unit: MassUnit,
    report: Report = _tell_nobody,
    plan: Plan | None = None,
) -> bytes:
    """Labels of one kind as planned, else on the stock usual for it; notes on the paper usual.

    Raises:
        Refusal: there are none, or a sign in them cannot be printed.
    """
    plan = plan or plan_of(rows, assets, {})
    if plan is None:
        notes = [row for row in rows if isinstance(row, DispatchNote)]
        faces = Typefaces(assets / "fonts")
        return dispatch_notes(notes, faces, paper=usual_paper(unit), unit=unit)
    return _drawn(rows, assets, unit, plan, report)


def label_pages(
    rows: Sequence[PaperRow | DispatchNote], assets: Path, unit: MassUnit, plan: Plan
) -> tuple[tuple[Ink, ...], ...]:
    """The same labels as marks, page by page: what a printer is sent without a dialog.

    Raises:
        Refusal: as `label_pdf`.
    """
    return kept_pages(lambda: _drawn(rows, assets, unit, plan))


def kept_pages(draw: Callable[[], object]) -> tuple[tuple[Ink, ...], ...]:
    """What a paper's drawing puts on each of its pages."""
    made: list[SeenPage] = []

    def page(_title: str, size: tuple[float, float], faces: Typefaces) -> Page:
        made.append(SeenPage(size, faces))
        return made[-1]

    with drawn_on(page):
        draw()
    return tuple(tuple(inks) for one in made for inks in one.pages)


def _drawn(
    rows: Sequence[PaperRow | DispatchNote],
    assets: Path,
    unit: MassUnit,
    plan: Plan,
    report: Report = _tell_nobody,
) -> bytes:
    return labels.labels_of(
        plan.kind,
        _told([row for row in rows if not isinstance(row, DispatchNote)], report),
        plan.stock,
        plan.printer,
        Typefaces(assets / "fonts"),
        unit=unit,
        first_cell=plan.first_cell,
    )


def _kind_of(rows: Sequence[PaperRow | DispatchNote]) -> str:
    for row in rows:
        if not isinstance(row, DispatchNote):
            return row.label
    raise Refusal(labels.NOTHING_TO_PRINT)


def seen_label(
    rows: Sequence[PaperRow | DispatchNote],
    assets: Path,
    own: OwnStocks,
    papers: StationPapers = _AS_USUAL,
    unit: MassUnit = "kg",
) -> SeenLabel | None:
    """The first label as it will print here, of whatever kind; None where it is none.

    Raises:
        Refusal: something in it cannot be printed.
    """
    row = next((row for row in rows if not isinstance(row, DispatchNote)), None)
    if row is None:
        return None
    stock = papers.stock_for(row.label, stocks_of(assets, own))
    size = stock.width_mm, stock.height_mm
    alone = replace(stock, paper=SHEET, sheet_mm=size, columns=1, rows=1, left_mm=0.0, top_mm=0.0)
    dots = papers.printer_for(row.label, stock).dots_per_inch
    faces, printer = Typefaces(assets / "fonts"), plain_printer(alone, dots)
    pages = kept_pages(
        lambda: labels.labels_of(row.label, [row], alone, printer, faces, unit=unit)
    )
    return SeenLabel(row.code, *size, pages[0])


def sheets_of(
    name: str, draw: Callable[[], object], unit: MassUnit, printer: Printer | None
) -> tuple[Any, ...]:
    """What a note or a list takes to be printed: title, paper, its size, dots and pages.

    Args:
        printer: as it was measured, where it was: all is moved as it needs.
    """
    paper = usual_paper(unit)
    pages = kept_pages(draw)
    if printer is not None:
        x, y = printer.shift_x_mm, printer.shift_y_mm
        pages = tuple(tuple(shifted(ink, x, y) for ink in inks) for inks in pages)
    dots = printer.dots_per_inch if printer is not None else OFFICE_DOTS
    return name, paper, PAPERS[paper], dots, pages


def alignment_pdf(assets: Path, stock: Stock, printer: Printer) -> bytes:
    """The page that shows what a printer needs to be told to print true to size.

    Raises:
        Refusal: the printer holds other paper than the stock's.
    """
    return labels.alignment_page(stock, printer, Typefaces(assets / "fonts"))


def alignment_pages(assets: Path, stock: Stock, printer: Printer) -> tuple[tuple[Ink, ...], ...]:
    """The same page as marks, for a printer without a dialog."""
    return kept_pages(lambda: alignment_pdf(assets, stock, printer))


def pad_pdf(house: str, assets: Path, unit: MassUnit) -> bytes:
    """The paper pad, a sheet of each kind, on the paper usual in the house's office.

    Raises:
        Refusal: a sign in the house's name cannot be printed.
    """
    return floor_pad(house, Typefaces(assets / "fonts"), paper=usual_paper(unit), unit=unit)


def _told(rows: Sequence[Any], report: Report) -> Iterator[Any]:
    """The rows one by one, telling now and then how far they are."""
    for done, row in enumerate(rows):
        if done % _TOLD_EACH == 0:
            report(done, len(rows))
        yield row


def report_sheet(report: ReportRows, assets: Path, unit: MassUnit) -> bytes:
    """A report on the paper that is usual where weights are in this unit."""
    return report_pdf(report, Typefaces(assets / "fonts"), paper=usual_paper(unit))
