"""What is printed is black on white or white on black, measured on every paper and label.

Symbols are black and white only, with nothing in their quiet zones; lines of text stand out from
what is behind them as WCAG 2 asks of the strictest (7 to 1; figures from memory).
"""

import re
from collections.abc import Iterator

import numpy as np
import pypdfium2
import pytest
from numpy.typing import NDArray

from tests.support import golden, printing
from tests.support.reading import READ, symbols_of
from tests.support.tiers import first_plain

# A reader of PDFs may be off by a hair where an edge lies on a dot's.
BLACK_OR_WHITE = {0, 1, 254, 255}
LIGHT = 200
TEXT_DOTS, LEAST_RATIO = 200, 7.0
_STRINGS = re.compile(rb"\((?:\\.|[^\\()])*\)", re.DOTALL)
_SETS_COLOUR = re.compile(rb"((?:[-+]?[\d.]+\s+)+)(g|G|rg|RG|k|K|sc|SC|scn|SCN)\b")
_OTHER_WAYS = re.compile(rb"\s(sh|gs|cs|CS|BI)\s")
# How many modules stay free beside a symbol: ISO/IEC 18004, 16022, 15417 and 15420, from memory.
QUIET = {"]Q1": (4, 4), "]d2": (1, 1), "]C1": (10, 10), "]E0": (11, 7), "]E4": (7, 7)}


def _grey(pdf: bytes, page: int, dots_per_inch: int) -> NDArray[np.uint8]:
    """A page as it comes out, in whole dots."""
    dot = 72 / dots_per_inch
    with pypdfium2.PdfDocument(pdf) as document:
        sheet = document[page]
        width, height = sheet.get_size()
        wide, high = (int(np.ceil(side / dot - 1e-6)) * dot - 1e-4 for side in (width, height))
        sheet.set_mediabox(0, height - high, wide, height)
        sheet.set_cropbox(0, height - high, wide, height)
        picture = sheet.render(scale=dots_per_inch / 72).to_numpy()
    assert (picture[..., :1] == picture).all(), "nothing has a colour"
    return np.asarray(picture[..., 0])


@pytest.mark.parametrize("kind", golden.KINDS)
def test_ink_is_black_or_left_white_in_every_stream(kind: str) -> None:
    for where, pdf in golden.papers()[kind].items():
        assert b"/Subtype /Image" not in pdf, where
        assert not re.search(rb"/(ca|CA|SMask|Shading)\b", pdf), where
        inked = False
        for stream in printing.contents(pdf):
            drawn = _STRINGS.sub(b"()", stream)
            assert not _OTHER_WAYS.search(drawn), (where, _OTHER_WAYS.search(drawn))
            for values, _operator in _SETS_COLOUR.findall(drawn):
                tones = {float(value) for value in values.split()}
                assert tones in ({0.0}, {1.0}), (where, values)
                inked |= tones == {0.0}
        assert inked, where


@pytest.mark.parametrize("kind", first_plain(golden.KINDS, len(golden.LABELS)))
def test_every_line_of_text_stands_out_from_what_is_behind_it(kind: str) -> None:
    """Of a label the smallest stock, where text is smallest."""
    pdf = min(golden.papers()[kind].values(), key=lambda one: printing.page_sizes_mm(one)[0])
    for page, (_wide, high) in enumerate(printing.page_sizes_mm(pdf)):
        picture = _grey(pdf, page, TEXT_DOTS)
        dots = TEXT_DOTS / 72
        boxes = printing.text_boxes(pdf, page)
        assert boxes
        for left, bottom, right, top in boxes:
            from_top = high / 25.4 * 72
            area = picture[
                int((from_top - top) * dots) : int((from_top - bottom) * dots) + 2,
                int(left * dots) : int(right * dots) + 2,
            ]
            dark, light = golden.luminance(np.array([[area.min()] * 3, [area.max()] * 3]))
            assert (light + 0.05) / (dark + 0.05) >= LEAST_RATIO, (page, left, top)


def _symbols(kind: str) -> Iterator[tuple[str, float, NDArray[np.uint8]]]:
    """Each symbol of a kind on each stock: what it is, dots a module, its dots with its white."""
    for stock in golden.stocks_of(kind):
        pdf = golden.papers()[kind][stock.name]
        dots_per_inch = 203 if stock.paper == "roll" else 300
        dot = 72 / dots_per_inch
        picture = _grey(pdf, 0, dots_per_inch)
        high = printing.page_sizes_mm(pdf)[0][1] / 25.4 * 72
        boxes = [
            (one.x, one.y, one.x + one.side * one.module, one.y + one.side * one.module)
            for one in printing.placed_symbols(pdf)
        ]
        modules = [one.module / dot for one in printing.placed_symbols(pdf)]
        modules += printing.bar_modules(pdf, dot)
        boxes += printing.placed_bars(pdf)
        wanted = symbols_of(READ[kind][1])
        for found, module, box in zip(wanted, modules, boxes, strict=True):
            left, bottom, right, top = box
            rows = slice(round((high - top) / dot), round((high - bottom) / dot))
            yield found.identifier, module, picture[rows, round(left / dot) : round(right / dot)]


def _edge(dots: NDArray[np.uint8]) -> NDArray[np.uint8]:
    """The outermost dots all around."""
    return np.concatenate([dots[0], dots[-1], dots[:, 0], dots[:, -1]])


@pytest.mark.parametrize("kind", first_plain(READ, 5))
def test_symbols_are_black_on_white_to_the_dot_with_their_quiet_zones_free(kind: str) -> None:
    seen = 0
    for identifier, module, dots in _symbols(kind):
        seen += 1
        is_linear = identifier not in ("]Q1", "]d2")
        # The ends of bars lie between two dots, and a till's figures stand under them.
        core = dots[2 : len(dots) * 3 // 5] if is_linear else dots
        # What stands right beside the white may touch a tenth of its outermost dot.
        tones = np.unique(core if is_linear else core[1:-1, 1:-1])
        assert {0, 255} <= {*tones} <= BLACK_OR_WHITE, (identifier, tones)
        assert is_linear or (_edge(core) > LIGHT).all()
        columns = np.flatnonzero((core == 0).any(axis=0))
        before, after = QUIET[identifier]
        assert columns[0] >= before * module - 0.01
        assert core.shape[1] - 1 - columns[-1] >= after * module - 0.01
        if not is_linear:
            rows = np.flatnonzero((core == 0).any(axis=1))
            assert rows[0] >= before * module - 0.01
            assert core.shape[0] - 1 - rows[-1] >= after * module - 0.01
    assert seen >= len(golden.stocks_of(kind))
