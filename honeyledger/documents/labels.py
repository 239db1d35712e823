"""Labels as PDF: pallet tags, drum and jar labels, yard codes and badges, on sheets or rolls.

Every label has its code in type beside a QR code of it. Rows may come one by one: nothing but the
document itself is kept. A refusal leaves nothing behind, since bytes are given at the end only.
"""

from collections.abc import Callable, Iterable
from functools import partial
from typing import Any, NamedTuple

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
from honeyledger.documents.stock import Printer, Stock, check_contrast, not_for
from honeyledger.documents.yard_code import draw_yard_code
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import MassUnit
from honeyledger.services.label_forms import DRUM_STICKER, JAR_BACK, JAR_FRONT, LID_SEAL

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
RETAIL_CODE = "retail code"

Draw = Callable[[Any], None]


class _Kind(NamedTuple):
    """What a document of these labels is called, and what draws one of them in a job."""

    title: str
    drawer: Callable[[Job], Draw]


def _each(draw: Callable[[Job, Any], None]) -> Callable[[Job], Draw]:
    """Labels that are drawn one by one and share nothing."""
    return lambda job: partial(draw, job)


_KINDS = {
    PALLET_TAG: _Kind("Pallet tags", _each(draw_pallet_tag)),
    DRUM_LABEL: _Kind("Drum labels", _each(draw_drum_label)),
    JAR_LABEL: _Kind("Jar labels", lambda job: JarLabels(job).draw),
    YARD_CODE: _Kind("Yard codes", _each(draw_yard_code)),
    BADGE: _Kind("Badges", _each(draw_badge)),
    PACK_LABEL: _Kind("Case and pallet labels", _each(draw_pack_label)),
    RETAIL_CODE: _Kind("Retail codes", _each(draw_retail_code)),
    VESSEL_LABEL: _Kind("Vessel labels", _each(draw_plain_tag)),
    EQUIPMENT_TAG: _Kind("Equipment tags", _each(draw_plain_tag)),
    SAMPLE_LABEL: _Kind("Sample pot labels", _each(draw_plain_tag)),
    DRUM_STICKER: _Kind("Drum stickers", _each(draw_drum_sticker)),
    JAR_FRONT: _Kind("Jar fronts", _each(draw_jar_front)),
    JAR_BACK: _Kind("Jar backs", _each(draw_jar_back)),
    LID_SEAL: _Kind("Lid seals", _each(draw_lid_seal)),
}


def labels_of(
    kind: str,
    rows: Iterable[Any],
    stock: Stock,
    printer: Printer,
    typefaces: Typefaces,
    *,
    unit: MassUnit = "kg",
    first_cell: int = 1,
) -> bytes:
    """Print the labels of one kind, many to a sheet or one after another on a roll.

    Args:
        rows: of the sort that the kind draws.
        first_cell: the first free label of a sheet already begun.

    Raises:
        Refusal: wrong stock or paper, paper too dark for black on it, nothing to print, no room, a
            sign that cannot be printed, a jar label without the caution about infants, or a
            retail code that no till reads.
    """
    if kind not in stock.kinds:
        raise not_for(stock, kind)
    check_contrast(stock)
    title, drawer = _KINDS[kind]
    job = Job(new_page(title, stock.page_mm, typefaces), stock, printer, unit)
    return _print(job, rows, drawer(job), first_cell)


pallet_tags = partial(labels_of, PALLET_TAG)
drum_labels = partial(labels_of, DRUM_LABEL)
jar_labels = partial(labels_of, JAR_LABEL)
yard_codes = partial(labels_of, YARD_CODE)
badges = partial(labels_of, BADGE)
pack_labels = partial(labels_of, PACK_LABEL)
retail_codes = partial(labels_of, RETAIL_CODE)
vessel_labels = partial(labels_of, VESSEL_LABEL)
equipment_tags = partial(labels_of, EQUIPMENT_TAG)
sample_labels = partial(labels_of, SAMPLE_LABEL)
drum_stickers = partial(labels_of, DRUM_STICKER)
jar_fronts = partial(labels_of, JAR_FRONT)
jar_backs = partial(labels_of, JAR_BACK)
lid_seals = partial(labels_of, LID_SEAL)


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


def _print(job: Job, rows: Iterable[Any], draw: Draw, first_cell: int) -> bytes:
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
