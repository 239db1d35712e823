"""The label of a case or shipping pallet: what is in it in words, its code, and for the trade its
number as a logistic unit (SSCC) in a GS1-128 symbol at the foot.

The square symbol beside the words holds the number and the content for scanners that read GS1;
the QR code is the house's own.
"""

from honeyledger.documents.fonts import CODE, HEAVY, STRONG, TEXT, elided
from honeyledger.documents.gs1_symbols import Bars, Size, fitted, gs1_128, gs1_data_matrix
from honeyledger.documents.parts import Job, again_words
from honeyledger.documents.setting import Block, capital_mm, try_column
from honeyledger.documents.stock import Printer, Stock
from honeyledger.documents.symbols import QUIET_MODULES, make_symbol
from honeyledger.domain.phrases import Phrase, phrase
from honeyledger.domain.units import format_mass, format_number
from honeyledger.services.pack_labels import Packed, PackLabel

_MARGIN = 4.5
_SSCC_PT = 9.5
_LEAST_PT = 6.6
# A square symbol for a scanner held at arm's length (common practice, no source).
_MODULE_MM = 0.6
_QR_MM = 1.2
_GAP = QUIET_MODULES * _QR_MM + 0.3
_LINES_SHOWN = 6


def draw_pack_label(job: Job, pack: PackLabel) -> None:
    """Draw one label; what has no number as a logistic unit has its code and words alone."""
    foot = (_draw_unit(job, pack.sscc) if pack.sscc else job.height - _MARGIN) - 1.5
    is_tall = job.height > job.width
    room = foot - _MARGIN
    side = job.symbol(
        make_symbol(pack.code), _MARGIN, _MARGIN, min(room * 0.6, job.width * 0.36), _QR_MM
    )
    left, right = _MARGIN + side + _GAP, job.width - _MARGIN
    if pack.elements:
        matrix = gs1_data_matrix(pack.elements)
        below = _MARGIN + side + _GAP + QUIET_MODULES * _MODULE_MM if is_tall else _MARGIN
        ink = job.symbol_mm(matrix, min(foot - below, job.width * 0.3), _MODULE_MM)
        job.symbol(matrix, _MARGIN if is_tall else right - ink, below, 2 * ink, _MODULE_MM)
        right -= 0.0 if is_tall else ink + _GAP
    y = _MARGIN + job.code(pack.code, left, _MARGIN, right - left, 26) + 2.5
    _draw_words(job, pack, left, y, right - left, foot - y)


def _draw_words(
    job: Job, pack: PackLabel, x: float, y: float, width: float, height: float
) -> None:
    """As many lots as there is room for; how many more there are is said."""
    for shown in range(min(len(pack.contents), _LINES_SHOWN), 0, -1):
        blocks = _words(job, pack, shown, width)
        column = try_column(blocks, width, height, job.page.typefaces)
        if column is not None:
            column.draw(job.page, x, y)
            return
    job.names(_words(job, pack, 1, width), x, y, width, height)


def size_warning(stock: Stock, printer: Printer) -> Phrase | None:
    """What is worth knowing of a stock before such labels are printed on it."""
    size = _fitted(gs1_128({"00": "0" * 18}), stock.width_mm, stock.height_mm, printer)
    if not size.is_low:
        return None
    return phrase(
        "The bars are {high} mm high on label stock {stock}, and 32 mm are due on what goes "
        "through warehouses: take a larger label, or agree on it with the customer.",
        high=f"{size.high_mm:.0f}",
        stock=stock.name,
    )


def _fitted(bars: Bars, width: float, height: float, printer: Printer) -> Size:
    """As high as is due on a label of a sheet's height, lower on lower ones."""
    return fitted(bars, (width - 2, max(height * 0.26, 15.0)), printer.dots_per_inch)


def _draw_unit(job: Job, sscc: str) -> float:
    """Draw the number at the foot, in bars and in type; give the y above it."""
    bars = gs1_128({"00": sscc})
    size = _fitted(bars, job.width, job.height, job.printer)
    text_mm = capital_mm(_SSCC_PT)
    top = job.height - _MARGIN - text_mm - 1.6 - size.high_mm
    job.page.bars((job.width - size.width_mm) / 2, top, bars, size, job.printer.dots_per_inch)
    baseline = job.height - _MARGIN
    job.page.text(job.width / 2, baseline, f"(00) {sscc}", CODE, _SSCC_PT, 0.5)
    job.page.rule(_MARGIN, top - 1.6, job.width - _MARGIN, top - 1.6, 0.3)
    return top - 1.6


def _words(job: Job, pack: PackLabel, shown: int, width: float) -> list[Block]:
    """What it is and what is in it, from the top down."""
    jars = sum(one.pieces for one in pack.contents)
    count = f"{format_number(jars)} jars"
    if pack.cases:
        count = f"{format_number(pack.cases)} cases, {count}"
    what = "Case" if pack.is_case else "Shipping pallet"
    larger = 1.5 if job.height > job.width else 1.0
    blocks = [
        Block(f"{what}: {count}", HEAVY, 15 * larger, 8, most_lines=2),
        Block(f"Net {format_mass(pack.net_g, job.unit)}", STRONG, 12 * larger, 7, 1.0, 1),
    ]
    for one in pack.contents[:shown]:
        words = _shortened(job, f"{format_number(one.pieces)} × {one.product}", width)
        blocks += [
            Block(words, STRONG, 11 * larger, _LEAST_PT, 1.6 * larger, 3),
            Block(_lot_line(one), TEXT, 10 * larger, _LEAST_PT, 0.2, 2),
        ]
    if more := len(pack.contents) - shown:
        blocks.append(Block(f"and {more} more lots", STRONG, 10 * larger, _LEAST_PT, 1.0, 1))
    packer = f"{pack.house}, {pack.place}" if pack.place else pack.house
    packer = _shortened(job, packer, width)
    blocks.append(Block(again_words(pack.again), TEXT, 8, _LEAST_PT, 1.0, 1))
    return [*blocks, Block(packer, TEXT, 8, _LEAST_PT, 1.6, 3, spring=True)]


def _shortened(job: Job, text: str, width: float) -> str:
    """What two lines of the least size hold; three are allowed, as lines break at blanks."""
    return elided(job.page.typefaces.checked(text, STRONG), STRONG, _LEAST_PT, 2 * width)


def _lot_line(one: Packed) -> str:
    due = f", best before {one.best_before.isoformat()}" if one.best_before else ""
    return f"Lot {one.lot}, {one.net_g} g each{due}"
