"""What goes wrong between a PDF and a scanner, done to a picture of a label with numpy.

A label is drawn in the printer's own dots, spoiled in one way, and seen by a camera that knows
nothing of those dots; a reader that is not ours reads each symbol with what stands around it. How
badly each way spoils is common practice, no source: what a worn print head, a ribbon too hot or a
phone held badly does, so that a person still takes the label as fit to use.
"""

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field

import numpy as np
import pypdfium2
import zxingcpp
from numpy.typing import NDArray
from PIL import Image, ImageFilter

from honeyledger.documents.stock import Stock
from tests.support import printing

Picture = NDArray[np.uint8]
SYMBOLOGIES = ("QRCode", "DataMatrix", "Code128", "EAN13", "UPCA", "EAN8")
BLUR_MM, SCRATCH_MM, GAIN, SKEW_DEGREES = 0.1, 0.25, 1.05, 3.0
DARK, LIGHT, GRAIN = 95, 165, 6.0
FAINT_DARK, FAINT_LIGHT = 112, 148
SMEAR_MM, GLOSS_MM = 0.4, 1.0
AROUND_MM, SEEN_PER_MM = 3.0, 12.0
CLOSED = 5  # pixels of the camera's, 0.4 mm


@dataclass(frozen=True)
class Found:
    """A symbol that was read: how it says what it is, and what it holds, as sent, too."""

    identifier: str
    text: str
    data: str = field(default="", compare=False)


def symbol_pictures(pdf: bytes, stock: Stock, dots_per_inch: int) -> Iterator[Picture]:
    """Each symbol of a one-label print in the printer's own dots, with what stands around it.

    Square symbols come first, as drawn; then linear ones.
    """
    boxes = [
        (one.x, one.y, one.x + one.side * one.module, one.y + one.side * one.module)
        for one in printing.placed_symbols(pdf)
    ]
    dots = _label_dots(pdf, stock, dots_per_inch)
    with pypdfium2.PdfDocument(pdf) as document:
        high = document[0].get_height()
    dot, around = 72 / dots_per_inch, round(AROUND_MM / 25.4 * dots_per_inch)
    from_left, from_top = (
        math.floor(mm / 25.4 * dots_per_inch) for mm in (stock.left_mm, stock.top_mm)
    )
    for left, bottom, right, top in [*boxes, *printing.placed_bars(pdf)]:
        x, y = round(left / dot) - from_left, round((high - top) / dot) - from_top
        wide, deep = round((right - left) / dot), round((top - bottom) / dot)
        # The label has a margin of just as much around it.
        yield dots[y : y + deep + 2 * around, x : x + wide + 2 * around]


def _label_dots(pdf: bytes, stock: Stock, dots_per_inch: int) -> Picture:
    """The first label of a print, black on white, with white around it."""
    dot = 72 / dots_per_inch
    with pypdfium2.PdfDocument(pdf) as document:
        sheet = document[0]
        high = sheet.get_height()
        left, top = (
            math.floor(mm / 25.4 * dots_per_inch) * dot for mm in (stock.left_mm, stock.top_mm)
        )
        wide, deep = (
            (math.ceil(mm / 25.4 * dots_per_inch) + 1) * dot
            for mm in (stock.width_mm, stock.height_mm)
        )
        # A hair less than whole dots, or the viewer would round up to one more.
        box = (left, high - top - deep + 1e-4, left + wide - 1e-4, high - top)
        sheet.set_mediabox(*box)
        sheet.set_cropbox(*box)
        grey = sheet.render(scale=dots_per_inch / 72, grayscale=True).to_numpy()
    dots = np.where(grey > 127, 255, 0).astype(np.uint8)
    return np.pad(dots, round(AROUND_MM / 25.4 * dots_per_inch), constant_values=255)


def _blurred(picture: Picture, sigma: float) -> Picture:
    return np.asarray(Image.fromarray(picture).filter(ImageFilter.GaussianBlur(sigma)))


def clean(picture: Picture, _dots_per_inch: int) -> Picture:
    """As the printer was asked."""
    return picture


def blur(picture: Picture, dots_per_inch: int) -> Picture:
    """Out of focus, or a print head that smears."""
    return _blurred(picture, BLUR_MM / 25.4 * dots_per_inch)


def gain(picture: Picture, dots_per_inch: int) -> Picture:
    """Black that ran: 5 % more of it, at its edges, each dot seen as several parts."""
    parts = 1200 // dots_per_inch
    large = np.kron(picture, np.ones((parts, parts), dtype=np.uint8))
    soft = _blurred(large, parts / 2)
    black = int(np.count_nonzero(large == 0) * GAIN)
    level = np.searchsorted(np.cumsum(np.bincount(soft.ravel(), minlength=256)), black)
    run = np.where(soft <= level, 0, 255)
    high, wide = picture.shape
    return run.reshape(high, parts, wide, parts).mean(axis=(1, 3)).round().astype(np.uint8)


def skew(picture: Picture, _dots_per_inch: int) -> Picture:
    """Held or stuck on 3 degrees off."""
    turned = Image.fromarray(picture).rotate(
        SKEW_DEGREES, Image.Resampling.BICUBIC, expand=True, fillcolor=255
    )
    return np.asarray(turned)


def scratch(picture: Picture, dots_per_inch: int) -> Picture:
    """One white scratch from edge to edge, across the middle of the symbol."""
    return _scratched(picture, dots_per_inch, 1 / 6)


def corner_scratch(picture: Picture, dots_per_inch: int) -> Picture:
    """The same from corner to corner, through two of the patterns a reader finds a QR code by."""
    return _scratched(picture, dots_per_inch, -picture.shape[0] / picture.shape[1])


def _scratched(picture: Picture, dots_per_inch: int, rise: float) -> Picture:
    rows, columns = np.indices(picture.shape)
    off = rows - picture.shape[0] / 2 - (columns - picture.shape[1] / 2) * rise
    wide = SCRATCH_MM / 25.4 * dots_per_inch * math.hypot(1, rise)
    return np.where(np.abs(off) < wide / 2, 255, picture).astype(np.uint8)


def other_corner_scratch(picture: Picture, dots_per_inch: int) -> Picture:
    """From the other corner, through the third of those patterns alone."""
    return _scratched(picture, dots_per_inch, picture.shape[0] / picture.shape[1])


def finder_scratch(picture: Picture, dots_per_inch: int) -> Picture:
    """Scratches along two sides, through all three of those patterns."""
    rows, columns = np.indices(picture.shape)
    around = AROUND_MM / 25.4 * dots_per_inch
    module = (min(picture.shape) - 2 * around) / 29
    at = around + 7.5 * module  # the middle of a pattern: quiet zone, then half of seven modules
    wide = SCRATCH_MM / 25.4 * dots_per_inch
    gone = (np.abs(rows - at) < wide / 2) | (np.abs(columns - at) < wide / 2)
    return np.where(gone, 255, picture).astype(np.uint8)


def smear(picture: Picture, dots_per_inch: int) -> Picture:
    """Wiped while wet: black drawn out to one side, fainter the farther."""
    far = max(1, round(SMEAR_MM / 25.4 * dots_per_inch))
    wiped = picture.astype(np.float64)
    for step in range(1, far + 1):
        faded = 255 - (255 - picture.astype(np.float64)) * 0.6 * (1 - step / (far + 1))
        wiped[:, step:] = np.minimum(wiped[:, step:], faded[:, :-step])
    return wiped.round().astype(np.uint8)


def gloss(picture: Picture, dots_per_inch: int) -> Picture:
    """A wet film that mirrors a lamp: a band across in which black is nearly as light as white."""
    rows, columns = np.indices(picture.shape)
    off = np.abs(rows - picture.shape[0] / 2 + (columns - picture.shape[1] / 2) * 0.3)
    wide = GLOSS_MM / 25.4 * dots_per_inch
    light = np.clip(1.5 - off / wide, 0, 1)
    return (picture + (255 - picture.astype(np.float64)) * light).round().astype(np.uint8)


def low_contrast(picture: Picture, _dots_per_inch: int) -> Picture:
    """Grey on grey, with grain: a ribbon that ends, brown card, a dim lamp."""
    grain = np.random.default_rng(20261128).normal(0, GRAIN, picture.shape)
    grey = np.where(picture > 127, LIGHT, DARK) + grain
    return grey.clip(0, 255).round().astype(np.uint8)


def faint(picture: Picture, _dots_per_inch: int) -> Picture:
    """Fainter still: a ribbon at its end, seen in a shed."""
    grain = np.random.default_rng(20261129).normal(0, GRAIN, picture.shape)
    grey = np.where(picture > 127, FAINT_LIGHT, FAINT_DARK) + grain
    return grey.clip(0, 255).round().astype(np.uint8)


FAULTS: Mapping[str, Callable[[Picture, int], Picture]] = {
    "clean": clean,
    "blur": blur,
    "5 % gain": gain,
    "skew 3°": skew,
    "scratch": scratch,
    "low contrast": low_contrast,
}
# Told, and not asked for: some of these no reader can make up for.
BEYOND: Mapping[str, Callable[[Picture, int], Picture]] = {
    "corner scratch": corner_scratch,
    "other corner scratch": other_corner_scratch,
    "finder scratch": finder_scratch,
    "smear": smear,
    "gloss band": gloss,
    "faint": faint,
}


def read_as_seen(picture: Picture, dots_per_inch: int, *, closing: bool = False) -> set[Found]:
    """What a reader finds in a picture of so many dots an inch, as a camera or imager sees it.

    It looks for the symbologies on our labels and no other.

    Args:
        closing: whether thin gaps in black are closed first, as the software of some imagers does.
    """
    share = SEEN_PER_MM * 25.4 / dots_per_inch
    size = (round(picture.shape[1] * share), round(picture.shape[0] * share))
    seen = Image.fromarray(picture).resize(size, Image.Resampling.BILINEAR)
    if closing:
        seen = seen.filter(ImageFilter.MinFilter(CLOSED)).filter(ImageFilter.MaxFilter(CLOSED))
    formats = [getattr(zxingcpp.BarcodeFormat, name) for name in SYMBOLOGIES]
    return {
        Found(one.symbology_identifier, one.text, one.bytes.decode("latin-1"))
        for one in zxingcpp.read_barcodes(seen, formats=formats)
    }
