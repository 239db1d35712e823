"""Labels as PDF: pallet tags, drum and jar labels, yard codes and badges, on sheets or rolls.

Every label has its code in type beside a QR code of it. Rows may come one by one: nothing but the
document itself is kept. A refusal leaves nothing behind, since bytes are given at the end only.
"""

from collections.abc import Callable, Iterable
from functools import partial
from typing import Any, TypeVar

from honeyledger.documents.badge import draw_badge
from honeyledger.documents.drum_label import draw_drum_label
from honeyledger.documents.drum_sticker import draw_drum_sticker
from honeyledger.documents.fonts import HEAVY, STRONG, TEXT, Typefaces
from honeyledger.documents.jar_label import JarLabels
from honeyledger.documents.jar_parts import draw_jar_back, draw_jar_front, draw_lid_seal
from honeyledger.documents.pack_label import draw_pack_label
from honeyledger.documents.page import Page, new_page
from honeyledger.documents.pallet_tag import draw_pallet_tag
from honeyledger.documents.parts import Job
from honeyledger.documents.plain_tag import draw_plain_tag
from honeyledger.documents.retail_code import draw_retail_code
from honeyledger.documents.stock import NOT_FOR_KIND, Printer, Stock
from honeyledger.documents.yard_code import draw_yard_code
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import MassUnit
from honeyledger.services.label_forms import DRUM_STICKER, JAR_BACK, JAR_FRONT, LID_SEAL
from honeyledger.services.pack_labels import PackLabel
from honeyledger.services.papers import Badge, DrumLabel, JarLabel, PalletTag, YardSheetTag
from honeyledger.services.retail_codes import RetailCode

NOTHING_TO_PRINT = Sentence(
    "nothing-to-print", "There is nothing to print: name at least one code."
)

PALLET_TAG = "pallet tag"
DRUM_LABEL = "drum label"
JAR_LABEL = "jar label"
YARD_CODE = "yard sheet code"
BADGE = "badge"
PACK_LABEL = "case or pallet label"
VESSEL_LABEL, EQUIPMENT_TAG, SAMPLE_LABEL = "vessel label", "equipment tag", "sample pot label"
_MORE: dict[str, tuple[str, Callable[[Job, Any], None]]] = {
    VESSEL_LABEL: ("Vessel labels", draw_plain_tag),
    EQUIPMENT_TAG: ("Equipment tags", draw_plain_tag),
    SAMPLE_LABEL: ("Sample pot labels", draw_plain_tag),
    DRUM_STICKER: ("Drum stickers", draw_drum_sticker),
    JAR_FRONT: ("Jar fronts", draw_jar_front),
    JAR_BACK: ("Jar backs", draw_jar_back),
    LID_SEAL: ("Lid seals", draw_lid_seal),
}
"""Kinds whose labels are drawn one by one, by title of the document and what draws one."""
RETAIL_CODE = "retail code"

_Row = TypeVar("_Row")


def pallet_tags(
    rows: Iterable[PalletTag],
    stock: Stock,
    printer: Printer,
    typefaces: Typefaces,
    *,
    unit: MassUnit = "kg",
    first_cell: int = 1,
) -> bytes:
    """Print the tags of pallets.

    Args:
        first_cell: the first free label of a sheet already begun.

    Raises:
        Refusal: wrong stock or paper, nothing to print, no room, or a sign that cannot be printed.
    """
    _check_kind(PALLET_TAG, stock)
    job = Job(new_page("Pallet tags", stock.page_mm, typefaces), stock, printer, unit)
    return _print(job, rows, lambda row: draw_pallet_tag(job, row), first_cell)


def drum_labels(
    rows: Iterable[DrumLabel],
    stock: Stock,
    printer: Printer,
    typefaces: Typefaces,
    *,
    unit: MassUnit = "kg",
    first_cell: int = 1,
) -> bytes:
    """Print the labels of drums, totes and pails. Refuses as `pallet_tags` does."""
    _check_kind(DRUM_LABEL, stock)
    job = Job(new_page("Drum labels", stock.page_mm, typefaces), stock, printer, unit)
    return _print(job, rows, lambda row: draw_drum_label(job, row), first_cell)


def jar_labels(
    rows: Iterable[JarLabel],
    stock: Stock,
    printer: Printer,
    typefaces: Typefaces,
    *,
    first_cell: int = 1,
) -> bytes:
    """Print the labels of jars, many to a sheet or one after another on a roll.

    Refuses as `pallet_tags` does, and a label without the caution about infants.
    """
    _check_kind(JAR_LABEL, stock)
    job = Job(new_page("Jar labels", stock.page_mm, typefaces), stock, printer, "kg")
    return _print(job, rows, JarLabels(job).draw, first_cell)


def yard_codes(
    rows: Iterable[YardSheetTag],
    stock: Stock,
    printer: Printer,
    typefaces: Typefaces,
    *,
    first_cell: int = 1,
) -> bytes:
    """Print the codes of yards. Refuses as `pallet_tags` does."""
    _check_kind(YARD_CODE, stock)
    job = Job(new_page("Yard codes", stock.page_mm, typefaces), stock, printer, "kg")
    return _print(job, rows, lambda row: draw_yard_code(job, row), first_cell)


def badges(
    rows: Iterable[Badge],
    stock: Stock,
    printer: Printer,
    typefaces: Typefaces,
    *,
    first_cell: int = 1,
) -> bytes:
    """Print the badges of people. Refuses as `pallet_tags` does."""
    _check_kind(BADGE, stock)
    job = Job(new_page("Badges", stock.page_mm, typefaces), stock, printer, "kg")
    return _print(job, rows, lambda row: draw_badge(job, row), first_cell)


def pack_labels(
    rows: Iterable[PackLabel],
    stock: Stock,
    printer: Printer,
    typefaces: Typefaces,
    *,
    unit: MassUnit = "kg",
    first_cell: int = 1,
) -> bytes:
    """Print the labels of cases and shipping pallets. Refuses as `pallet_tags` does."""
    _check_kind(PACK_LABEL, stock)
    job = Job(new_page("Case and pallet labels", stock.page_mm, typefaces), stock, printer, unit)
    return _print(job, rows, lambda row: draw_pack_label(job, row), first_cell)


def retail_codes(
    rows: Iterable[RetailCode],
    stock: Stock,
    printer: Printer,
    typefaces: Typefaces,
    *,
    first_cell: int = 1,
) -> bytes:
    """Print the retail codes of jars. Refuses as `pallet_tags` does, and what no till reads."""
    _check_kind(RETAIL_CODE, stock)
    job = Job(new_page("Retail codes", stock.page_mm, typefaces), stock, printer, "kg")
    return _print(job, rows, lambda row: draw_retail_code(job, row), first_cell)


def other_labels(
    kind: str,
    rows: Iterable[Any],
    stock: Stock,
    printer: Printer,
    typefaces: Typefaces,
    *,
    unit: MassUnit = "kg",
    first_cell: int = 1,
) -> bytes:
    """Print labels of a kind of `_MORE`. Refuses as `pallet_tags` does."""
    _check_kind(kind, stock)
    title, draw = _MORE[kind]
    job = Job(new_page(title, stock.page_mm, typefaces), stock, printer, unit)
    return _print(job, rows, lambda row: draw(job, row), first_cell)


vessel_labels = partial(other_labels, VESSEL_LABEL)
equipment_tags = partial(other_labels, EQUIPMENT_TAG)
sample_labels = partial(other_labels, SAMPLE_LABEL)
drum_stickers = partial(other_labels, DRUM_STICKER)
jar_fronts = partial(other_labels, JAR_FRONT)
jar_backs = partial(other_labels, JAR_BACK)
lid_seals = partial(other_labels, LID_SEAL)


def alignment_page(stock: Stock, printer: Printer, typefaces: Typefaces) -> bytes:
    """Print the corners of a stock's labels, two 100 mm lines and what to do with them.

    Printed on plain paper and held against a label sheet, it shows what shift and pitch the
    printer needs. On a label too small for them, the lines are as many whole centimetres as it
    has room for.

    Raises:
        Refusal: the printer holds other paper than the stock's.
    """
    page = new_page("Alignment page", stock.page_mm, typefaces)
    job = Job(page, stock, printer, "kg")
    page.begin_page()
    places = stock.places(printer)
    for _ in range(stock.cells):
        _begins, x, y = next(places)
        with page.at(x, y):
            _draw_corners(job)
    width, height = stock.page_mm
    with page.at(printer.shift_x_mm, printer.shift_y_mm):
        if width > 120 and height > 120:
            _draw_control_lines(page, width, height, stock.name)
        else:
            _draw_rulers(page, width, height)
    return page.finish()


def _check_kind(kind: str, stock: Stock) -> None:
    if kind not in stock.kinds:
        raise Refusal(NOT_FOR_KIND, field="stock", stock=stock.name, kind=kind)


def _print(job: Job, rows: Iterable[_Row], draw: Callable[[_Row], None], first_cell: int) -> bytes:
    places = job.stock.places(job.printer, first_cell)
    empty = True
    for row, (begins, x, y) in zip(rows, places, strict=False):
        if begins:
            job.page.begin_page()
        with job.page.at(x, y):
            draw(row)
        empty = False
    if empty:
        raise Refusal(NOTHING_TO_PRINT)
    return job.page.finish()


def _draw_corners(job: Job) -> None:
    """Mark a label's four corners and its middle, leaving the rest free to look through."""
    page, width, height = job.page, job.width, job.height
    arm = min(6.0, width / 5, height / 5)
    for x, inward in ((0.0, 1), (width, -1)):
        for y, down in ((0.0, 1), (height, -1)):
            page.rule(x, y, x + inward * arm, y, 0.15)
            page.rule(x, y, x, y + down * arm, 0.15)
    page.rule(width / 2 - 2, height / 2, width / 2 + 2, height / 2, 0.15)
    page.rule(width / 2, height / 2 - 2, width / 2, height / 2 + 2, 0.15)


def _draw_rulers(page: Page, width: float, height: float) -> None:
    """Two lines with a stroke for each mm, from a corner; none at 0, which would lengthen them."""
    left, top = 8.0, 8.0
    wide, high = (min(100, int(side - 10) // 10 * 10) for side in (width, height))
    _draw_ruled(page, left, top, wide, high)
    page.text(left + 2, top + 5, f"{wide} mm across, {high} mm down", TEXT, 7.0)


def _draw_ruled(page: Page, left: float, top: float, wide: int, high: int) -> None:
    page.rule(left, top, left + wide, top, 0.3)
    page.rule(left, top, left, top + high, 0.3)
    for mm in range(1, max(wide, high) + 1):
        length = 5.0 if mm % 10 == 0 else 3.0 if mm % 5 == 0 else 1.8
        if mm <= wide:
            page.rule(left + mm, top, left + mm, top - length, 0.15)
        if mm <= high:
            page.rule(left, top + mm, left - length, top + mm, 0.15)


def _draw_control_lines(page: Page, width: float, height: float, stock: str) -> None:
    left, top = (width - 100) / 2, (height - 100) / 2
    _draw_ruled(page, left, top, 100, 100)
    page.shape(
        [(left + 2, top + 4), (left + 98, top + 4), (left + 98, top + 44), (left + 2, top + 44)],
        white=True,
    )
    lines = (
        ("Print at 100 %, not fitted to the page.", HEAVY, 13.0),
        (f"Label stock {stock}", STRONG, 10.0),
        ("Measure both lines. Where one is not 100 mm long, enter its length", TEXT, 8.0),
        ("in the printer's settings and print this page again.", TEXT, 8.0),
        ("Then hold it behind a label sheet against the light: as far as the marks", TEXT, 8.0),
        ("lie left of the labels or above them, enter that as the shift.", TEXT, 8.0),
    )
    y = top + 11
    for text, face, size in lines:
        page.text(left + 6, y, text, face, size)
        y += size * 0.62
