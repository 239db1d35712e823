"""Pages of a PDF as dots: what a screen shows and what a printer gets, of the very bytes written.

The reader of PDFs takes one call at a time, whatever document it is about, so that all of them are
made here, under one lock. It is loaded with the first paper that is seen or sent.
"""

import importlib
import math
from dataclasses import dataclass
from threading import Lock
from typing import Any

from honeyledger.domain.refusals import Refusal, Sentence

NO_READER = Sentence(
    "no-pdf-reader",
    "Papers can be neither shown nor sent to a printer here: what reads PDFs does not load "
    "({why}). Install the program again. The PDF is written as ever: print it from another "
    "program.",
)
_READER = "pypdfium2"
_ONE_AT_A_TIME = Lock()
_POINTS_PER_MM = 72 / 25.4
# A hair less than whole dots, or the reader rounds up to one more; what is as little over a whole
# dot is one no more, since a PDF's measures are rounded, too.
_HAIR = 1e-4
_NEARLY = 0.02


@dataclass(frozen=True, slots=True)
class Box:
    """A part of a page, in mm from its upper left corner."""

    left: float
    top: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Dots:
    """A picture of a page: its rows from above, `stride` bytes each.

    Args:
        data: one byte a dot (grey), or four (blue, green, red and one of no meaning).
    """

    width: int
    height: int
    stride: int
    data: memoryview


def page_sizes_mm(pdf: bytes) -> list[tuple[float, float]]:
    """Width and height of every page.

    Raises:
        Refusal: what reads PDFs does not load.
    """
    reader = _reader()
    with _ONE_AT_A_TIME, reader.PdfDocument(pdf) as document:
        sizes = [document.get_page_size(number) for number in range(len(document))]
    return [(wide / _POINTS_PER_MM, high / _POINTS_PER_MM) for wide, high in sizes]


def seen(pdf: bytes, page: int, dots_a_mm: float, part: Box | None = None) -> Dots:
    """A page, or a part of it, for a screen: in colour, smoothed.

    Raises:
        Refusal: what reads PDFs does not load.
    """
    return _drawn(pdf, page, dots_a_mm * 25.4, part, prefer_bgrx=True)


def printed(pdf: bytes, page: int, dots_per_inch: int) -> Dots:
    """A page for a printer: black or white, so that what stands on whole dots there is whole.

    Raises:
        Refusal: what reads PDFs does not load.
    """
    sharp = dict.fromkeys(("no_smoothtext", "no_smoothimage", "no_smoothpath"), True)
    return _drawn(pdf, page, dots_per_inch, None, grayscale=True, **sharp)


def _drawn(pdf: bytes, page: int, dots_per_inch: float, part: Box | None, **how: bool) -> Dots:
    reader = _reader()
    dot = 72 / dots_per_inch
    with _ONE_AT_A_TIME, reader.PdfDocument(pdf) as document:
        sheet = document[page]
        wide, high = sheet.get_size()
        left, top = 0.0, high
        if part is not None:
            left, top = part.left * _POINTS_PER_MM, high - part.top * _POINTS_PER_MM
            wide, high = part.width * _POINTS_PER_MM, part.height * _POINTS_PER_MM
        # Cut to whole dots, to the right and below; else all is stretched by up to one.
        wide, high = (math.ceil(side / dot - _NEARLY) * dot - _HAIR for side in (wide, high))
        sheet.set_mediabox(left, top - high, left + wide, top)
        bitmap = sheet.render(scale=dots_per_inch / 72, **how)
        try:
            return Dots(
                bitmap.width, bitmap.height, bitmap.stride, memoryview(bitmap.buffer).cast("B")
            )
        finally:
            bitmap.close()
            sheet.close()


def _reader() -> Any:
    """What reads PDFs, loaded when first used.

    Raises:
        Refusal: it is not there, or its library does not load.
    """
    try:
        return importlib.import_module(_READER)
    except (ImportError, OSError) as trouble:
        raise Refusal(NO_READER, why=trouble) from trouble
