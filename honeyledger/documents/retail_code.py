"""The retail code of a jar: bars that a till reads, with figures, under the product's name."""

from honeyledger.documents.fonts import CODE, STRONG, width_mm
from honeyledger.documents.gs1_symbols import EAN_13, UPC_A, Bars, Size, fitted, retail_code
from honeyledger.documents.parts import Job
from honeyledger.documents.setting import Block, capital_mm
from honeyledger.services.papers import metric_content
from honeyledger.services.retail_codes import RetailCode

_MARGIN = 2.5
_NAME_MM = 9.0
# Guard bars reach five modules down between the figures (GS1 General Specifications, from memory).
_GUARDS = 5
# Where a kind's figures stand: module each group begins at, how wide it is, how many it takes.
_GROUPS = {
    EAN_13: ((-9, 7, 1), (4, 41, 6), (50, 41, 6)),
    UPC_A: ((-9, 7, 1), (11, 34, 5), (50, 34, 5), (97, 7, 1)),
}
_OTHER_GROUPS = ((4, 27, 4), (36, 27, 4))


def draw_retail_code(job: Job, row: RetailCode) -> None:
    """Draw one sticker: the bars in its middle, as high as is due or as there is room for."""
    bars = retail_code(row.gtin)
    below = _below_mm(bars, job.printer.dots_per_inch)
    room = job.width - 2, job.height - 2 * _MARGIN - _NAME_MM - below
    size = fitted(bars, room, job.printer.dots_per_inch)
    blocks = [
        Block(row.product, STRONG, 9, 6.6, most_lines=2),
        Block(metric_content(row.net_g) if row.net_g else "", STRONG, 9, 6.6, most_lines=1),
    ]
    job.names(blocks, _MARGIN, _MARGIN, job.width - 2 * _MARGIN, _NAME_MM)
    left, top = (job.width - size.width_mm) / 2, _MARGIN + _NAME_MM
    draw_bars(job, bars, size, left, top)


def draw_bars(job: Job, bars: Bars, size: Size, left: float, top: float) -> None:
    """Draw a retail code with its figures, the corner of its white ground at left and top."""
    dots_per_inch = job.printer.dots_per_inch
    module = size.dots * 25.4 / dots_per_inch
    job.page.bars(left, top, bars, size, dots_per_inch, _GUARDS * module)
    groups = _GROUPS.get(bars.kind, _OTHER_GROUPS)
    size_pt = min(_figure_pt(wide * module, count) for _, wide, count in groups)
    baseline = top + size.high_mm + 1.5 * module + capital_mm(size_pt)
    first = left + bars.measures.quiet[0] * module
    at = 0
    for begin, wide, count in groups:
        figures = bars.text[at : at + count]
        middle = first + (begin + wide / 2) * module
        job.page.text(middle, baseline, figures, CODE, size_pt, 0.5)
        at += count


def _figure_pt(room: float, count: int) -> float:
    """The largest figures of which so many stand in a room."""
    return room / (width_mm("0" * count, CODE, 100) / 100)


def _below_mm(bars: Bars, dots_per_inch: int) -> float:
    """What the figures take below the bars, with the largest module."""
    module = bars.measures.module_mm + 25.4 / dots_per_inch
    return 1.5 * module + capital_mm(_figure_pt(7 * module, 1))
