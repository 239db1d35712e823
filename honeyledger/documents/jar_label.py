"""The label of a jar: what most markets want on it, the code of this very jar, and its QR.

All but the code is the same for every jar of a bottling, so that is set once and stamped.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from honeyledger.documents.fonts import (
    CAPITAL,
    CODE,
    HEAVY,
    LEADING,
    POINTS_PER_MM,
    SMALL_X,
    STRONG,
    TEXT,
    width_mm,
)
from honeyledger.documents.page import code_runs, code_width_mm
from honeyledger.documents.parts import Job
from honeyledger.documents.setting import (
    NO_ROOM_FOR_TEXT,
    Block,
    Column,
    capital_mm,
    set_column,
    try_column,
)
from honeyledger.documents.symbols import QUIET_MODULES, Symbol, dots_a_module, make_symbol
from honeyledger.domain.label_content import FIGURES, least_height_mm
from honeyledger.domain.label_content import TEXT as LETTERS
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.services.papers import JarLabel, net_content, us_content

NO_CAUTION = Sentence(
    "no-infant-caution",
    "A jar label carries the caution about infants under one year: put it in your own words, "
    "but do not leave it empty.",
)

# Regulation (EU) 1169/2011, article 13: a small x of at least 1.2 mm (value from memory).
LEAST_PT = 1.2 * POINTS_PER_MM / SMALL_X
# Directive 76/211/EEC: least height of the net content's figures, mm, by grams up to and with
# (values from memory).
_FIGURES_MM = ((50, 2.0), (200, 3.0), (1000, 4.0), (10**12, 6.0))
# 21 CFR 101.7: least height of its type, mm (1/16 inch and so on), by the panel's square inches
# up to and with; the label is taken for the panel (values from memory).
_US_TYPE_MM = ((5, 1.59), (25, 3.18), (100, 4.77), (10**12, 6.35))
_MOST_MODULE_MM = 0.65
_CODE_GAP_MM = 1.0


@dataclass(frozen=True, slots=True)
class _Place:
    """Where the QR code and the jar's code go on every label of one make."""

    dots: int
    left: float
    top: float
    middle: float
    code_baseline: float
    code_pt: float
    in_two: bool
    text_width: float

    def code_lines(self, code: str) -> Iterator[tuple[float, list[tuple[str, str]]]]:
        """Give baselines and runs of a jar's code, on narrow labels its serial on a line below."""
        runs = code_runs(code)
        if not self.in_two:
            yield self.code_baseline, runs
            return
        yield self.code_baseline, runs[:1]
        yield self.code_baseline + _line_mm(self.code_pt), runs[1:]


class JarLabels:
    """Draws labels of jars, setting only once what jars have in common."""

    def __init__(self, job: Job) -> None:
        self._job = job
        self._stamps: dict[tuple[JarLabel, int, int], tuple[str, _Place]] = {}
        self._mask: int | None = None

    def draw(self, jar: JarLabel) -> None:
        """Draw one label where the page measures from.

        The first symbol's best mask serves all: any mask reads, and seeking it costs most of the
        time a label takes.

        Raises:
            Refusal: the caution is missing, or something does not fit or cannot be printed.
        """
        page, height = self._job.page, self._job.height
        symbol = make_symbol(jar.uri or jar.code, self._mask)
        self._mask = symbol.mask
        key = (replace(jar, code="", uri=""), symbol.modules, len(jar.code))
        if key not in self._stamps:
            self._stamps[key] = self._stamp(jar, symbol, f"jar-{len(self._stamps)}")
        name, place = self._stamps[key]
        page.place_stamp(name, height)
        page.symbol(place.left, place.top, symbol, place.dots, self._job.printer.dots_per_inch)
        for baseline, runs in place.code_lines(jar.code):
            page.runs(place.middle, baseline, runs, place.code_pt, 0.5)

    def _stamp(self, jar: JarLabel, symbol: Symbol, name: str) -> tuple[str, _Place]:
        """Set what the jar shares with others, and draw it once."""
        if not jar.caution.strip():
            raise Refusal(NO_CAUTION, field="caution")
        job = self._job
        job.page.typefaces.checked(jar.code, CODE)
        margin = 3.0 if job.height < 45 else 4.0
        width = job.width - 2 * margin
        body, foot, foot_top, place = self._laid_out(jar, symbol, margin)
        with job.page.stamp(name, job.width, job.height):
            body.draw(job.page, margin, margin - 0.8)
            job.page.rule(margin, foot_top - 0.4, margin + width, foot_top - 0.4)
            foot.draw(job.page, margin, foot_top)
        return name, place

    def _laid_out(
        self, jar: JarLabel, symbol: Symbol, margin: float
    ) -> tuple[Column, Column, float, _Place]:
        """As high as all rules ask; where there is no room, as those seen in their source do.

        Raises:
            Refusal: there is no room for that either.
        """
        wanted, least = (least_of(self._job, jar, verified=one) for one in (False, True))
        try:
            return self._laid(jar, symbol, margin, wanted)
        except Refusal as refusal:
            if wanted == least or refusal.key != NO_ROOM_FOR_TEXT.key:
                raise
        return self._laid(jar, symbol, margin, least)

    def _laid(
        self, jar: JarLabel, symbol: Symbol, margin: float, least: "Least"
    ) -> tuple[Column, Column, float, _Place]:
        job = self._job
        width = job.width - 2 * margin
        foot = self._column(_foot_blocks(job, jar, least), width, job.height * 0.45)
        foot_top = job.height - margin - foot.height_mm + 0.7
        body_foot = foot_top - 1.2
        place = _place(job, jar.code, symbol, margin, body_foot)
        body = self._body(jar, place.text_width, body_foot - margin + 0.8, least)
        return body, foot, foot_top, place

    def _body(self, jar: JarLabel, width: float, height: float, least: "Least") -> Column:
        """Set the words, the product's name on two lines unless that makes it much smaller."""
        best = None
        for name_lines in (2, 3, 4):
            blocks = _blocks(self._job, jar, name_lines, least)
            column = try_column(blocks, width, height, self._job.page.typefaces)
            if column is None:
                continue
            if best is None or column.lines[0].size_pt > 1.2 * best.lines[0].size_pt:
                best = column
        return best or self._column(_blocks(self._job, jar, 4, least), width, height)

    def _column(self, blocks: list[Block], width: float, height: float) -> Column:
        job = self._job
        return set_column(blocks, width, height, job.page.typefaces, job.stock.name)


def _larger(job: Job) -> float:
    """How much larger than on the smallest label type may be: less than the label grows."""
    return max(1.0, float((job.height / 37 * job.width / 66) ** 0.35))


def _place(job: Job, code: str, symbol: Symbol, margin: float, foot: float) -> _Place:
    """Give the QR code the upper right corner and the jar's code the room below it.

    The ink keeps to the margin; the quiet zone reaches into it, never over the label's edge.
    """
    code_pt = min(8.5, LEAST_PT * _larger(job))
    in_two = code_width_mm(code, code_pt) > 0.29 * job.width
    code_width = code_width_mm(code, code_pt)
    if in_two:
        code_width = max(width_mm(text, CODE, code_pt) for text in _halves(code))
    below = _CODE_GAP_MM + capital_mm(code_pt) + (_line_mm(code_pt) if in_two else 0)
    dots = dots_a_module(
        symbol,
        min(foot - below - 0.5, job.width * 0.3 + margin),
        job.printer.dots_per_inch,
        _MOST_MODULE_MM * _larger(job),
    )
    module = dots * 25.4 / job.printer.dots_per_inch
    half, quiet = symbol.modules * module / 2, QUIET_MODULES * module
    middle = job.width - max(margin + max(half, code_width / 2), quiet + half)
    top = max(0.0, margin - quiet)
    return _Place(
        dots=dots,
        left=middle - half - quiet,
        top=top,
        middle=middle,
        code_baseline=top + 2 * (half + quiet) + _CODE_GAP_MM + capital_mm(code_pt),
        code_pt=code_pt,
        in_two=in_two,
        text_width=middle - max(half + quiet, code_width / 2 + 1.5) - margin,
    )


@dataclass(frozen=True, slots=True)
class Least:
    """The least sizes of type on a label, in points: of its text, and of the net content."""

    text: float
    net: float


def least_of(job: Job, jar: JarLabel, *, verified: bool) -> Least:
    """What the rules of the label's markets ask for by the panel and the net content."""
    panel = jar.panel_mm2 or job.width * job.height
    text, figures = (
        least_height_mm(jar.heights, of, panel, jar.net_g, verified=verified)
        for of in (LETTERS, FIGURES)
    )
    net = max(_points(figures), _points(_least(_FIGURES_MM, jar.net_g)))
    if jar.us_first:  # words stand with it, whose small letters count (21 CFR 101.7(h), memory)
        net = max(net, figures * POINTS_PER_MM / SMALL_X)
    return Least(max(LEAST_PT, text * POINTS_PER_MM / SMALL_X), net)


def _blocks(job: Job, jar: JarLabel, name_lines: int, least: Least) -> list[Block]:
    """What stands at the left, from the top down, with sizes wanted and least sizes."""
    larger = _larger(job)
    small, figures = least.text * larger, least.net
    square_inches = job.width * job.height / 25.4**2
    us_least = max(LEAST_PT, _points(_least(_US_TYPE_MM, square_inches)))
    has_both = jar.us_dual and not jar.us_first
    if has_both:
        figures = max(figures, us_least)
    us = us_content(jar.net_g) if has_both else ""
    net = net_content(jar.net_g, us_first=jar.us_first)
    return [
        Block(jar.product, HEAVY, 13 * larger, max(7, least.text), 0, name_lines, leading=1.1),
        Block(jar.grading, STRONG, small, least.text, 0.3, 2),
        Block(
            net,
            HEAVY,
            figures * larger if jar.us_first else max(figures, 12) * larger,
            figures,
            0.6,
            3 if jar.us_first else 1,
            leading=1,
        ),
        Block(us, HEAVY, us_least, us_least, 0, 2),
        Block(jar.origin, TEXT, small, least.text, 1.0 * larger, 3, spring=True),
        Block(jar.producer, STRONG, small, least.text, 0.6 * larger, 2),
        Block(jar.place, TEXT, small, least.text, 0, 3),
    ]


def _foot_blocks(job: Job, jar: JarLabel, least: Least) -> list[Block]:
    """What stands over the label's whole width: lot, best before, storage and the caution."""
    small = least.text * _larger(job)
    # The no-break spaces hold the mark to its lot, and set the day apart where it follows.
    dated = f"L\u00a0{jar.lot}\u00a0\u00a0\u00a0 {jar.best_before}"
    return [
        Block(dated, TEXT, small, least.text, most_lines=3),
        Block(jar.storage, TEXT, small, least.text, most_lines=3),
        *(Block(text, TEXT, small, least.text, most_lines=3) for text in jar.texts),
        Block(jar.caution, STRONG, small, least.text, most_lines=3),
    ]


def _halves(code: str) -> tuple[str, str]:
    """A jar's code before and from its serial."""
    runs = code_runs(code)
    return runs[0][0], "".join(text for text, _ in runs[1:])


def _line_mm(size_pt: float) -> float:
    return size_pt * LEADING / POINTS_PER_MM


def _least(table: tuple[tuple[int, float], ...], amount: float) -> float:
    return next(height for upto, height in table if amount <= upto)


def _points(figure_mm: float) -> float:
    """Size of type whose figures have this height."""
    return figure_mm * POINTS_PER_MM / CAPITAL
