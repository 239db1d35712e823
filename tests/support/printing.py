"""Papers to print in tests, and what a person, a scanner and a printer would see of them."""

import base64
import math
import re
import zlib
from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

import pypdfium2
import zxingcpp
from PIL import Image

from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.stock import Stocks
from honeyledger.domain import codes, gs1
from honeyledger.services.pack_labels import Packed, PackLabel, pack_elements
from honeyledger.services.papers import (
    Badge,
    DrumLabel,
    JarLabel,
    PalletTag,
    PulledLine,
    YardSheetTag,
)

RESOURCES = Path(__file__).resolve().parents[2] / "resources"
HOUSE = "Quiet Fork Honey House"
QUIET = 4
_NUMBER = rb"([-+0-9.]+)"
_SYMBOL = re.compile(
    rb"%s 0 0 %s %s %s cm\s+1 g\s+n 0 0 (\d+) (\d+) re" % (_NUMBER, _NUMBER, _NUMBER, _NUMBER)
)
_BARS = re.compile(
    rb"%s 0 0 1 %s %s cm\s+1 g\s+n 0 0 %s %s re" % (_NUMBER, _NUMBER, _NUMBER, _NUMBER, _NUMBER)
)


@cache
def typefaces() -> Typefaces:
    """The bundled typefaces."""
    return Typefaces(RESOURCES / "fonts")


@cache
def stocks() -> Stocks:
    """The shipped label stocks."""
    return Stocks.load(RESOURCES / "labels" / "stocks.toml")


def code(letter: str, number: int) -> str:
    """A code of the season 2026, or the next where the number is skipped."""
    return str(codes.next_code(letter, 26, number - 1))


def pallet_tag(**changes: Any) -> PalletTag:
    """A pallet with two yards on it that must dry first."""
    pulls = (
        PulledLine(code("Y", 14), "Long Meadow north", date(2026, 7, 14), 64),
        PulledLine(code("Y", 21), "Brickyard Hill", date(2026, 7, 15), 53),
    )
    tag = PalletTag(code("G", 42), HOUSE, date(2026, 7, 15), pulls, "mixed", 1_912_500, 1890, True)
    return replace(tag, **changes)


def drum_label(**changes: Any) -> DrumLabel:
    """A drum with all that can stand on its label."""
    drum = DrumLabel(
        code=code("D", 611),
        house=HOUSE,
        heading="Honey for further processing",
        container=f"Drum {code('E', 31)}",
        net_g=293_200,
        gross_g=311_400,
        tare_g=18_200,
        filled=date(2026, 7, 17),
        run=code("R", 9),
        moisture_hundredths=1740,
        pfund_tenths=340,
        colour="white",
        forage="Clover, basswood",
        season="2026",
        origin="Canada",
    )
    return replace(drum, **changes)


def jar_label(serial: int = 382, **changes: Any) -> JarLabel:
    """A jar of 500 g."""
    lot = codes.next_code("J", 26, 146)
    jar = JarLabel(
        code=str(codes.make_jar_code(lot, serial)),
        lot=str(lot),
        product="Clover and basswood honey, creamed",
        net_g=500,
        producer=HOUSE,
        place="12 Mill Road, Eastbrook",
        best_before="Best before end 2028",
        origin="Origin: Canada 100 %",
    )
    return replace(jar, **changes)


def jar_uri(serial: int) -> str:
    """The Digital Link of a jar; the GTIN is GS1's own example."""
    lot = str(codes.next_code("J", 26, 146))
    return gs1.digital_link("https://honey.example", "09521234543213", lot, f"{serial:05}")


def badge(**changes: Any) -> Badge:
    """A person's badge."""
    return replace(Badge(code("O", 3), "Ann Reed", HOUSE, "extracts, drives"), **changes)


SSCC = gs1.make_sscc("9521234", 17)


def pack_label(**changes: Any) -> PackLabel:
    """A case of twelve jars that has its number; the company prefix is one of GS1's examples."""
    one = Packed("Clover and basswood honey", jar_label().lot, 12, 500, date(2028, 12, 31))
    elements = pack_elements(SSCC, "09521234543213", [one])
    label = PackLabel(
        code("C", 7), HOUSE, "12 Mill Road, Eastbrook", True, (one,), 0, SSCC, elements
    )
    return replace(label, **changes)


def yard_tag(**changes: Any) -> YardSheetTag:
    """A yard."""
    tag = YardSheetTag(code("Y", 14), "Long Meadow north", HOUSE, "Behind the school, ridge road")
    return replace(tag, **changes)


@dataclass(frozen=True)
class Placed:
    """A QR code as drawn: lower left corner of its white ground, and its size in modules."""

    x: float
    y: float
    module: float
    side: int


def contents(pdf: bytes) -> list[bytes]:
    """What is drawn, page by page and stamp by stamp, in plain PDF operators."""
    found = re.findall(rb"<<([^>]*)>>\s*stream\r?\n(.*?)endstream", pdf, re.DOTALL)
    return [
        zlib.decompress(base64.a85decode(b"<~" + body.strip(), adobe=True))
        for head, body in found
        if b"ASCII85" in head and b"Length1" not in head
    ]


def placed_symbols(pdf: bytes) -> list[Placed]:
    """Every QR code of a document, in the order drawn."""
    found = []
    for stream in contents(pdf):
        for match in _SYMBOL.finditer(stream):
            wide, high, x, y, columns, rows = match.groups()
            if wide != high:  # a linear symbol
                continue
            assert columns == rows
            found.append(Placed(float(x), float(y), float(wide), int(columns)))
    return found


def codes_by_page(pdf: bytes) -> list[list[tuple[float, float, float, float]]]:
    """Left, bottom, right and top of each symbol with its white, page by page that has any."""
    pages = []
    for stream in contents(pdf):
        found = [tuple(map(float, match.groups())) for match in _SYMBOL.finditer(stream)]
        boxes = [
            (x, y, x + wide * side, y + high * side)
            for wide, high, x, y, side, _ in found
            if wide == high  # else it is a linear one
        ]
        for match in _BARS.finditer(stream):
            module, left, bottom, wide, high = map(float, match.groups())
            boxes.append((left, bottom, left + wide * module, bottom + high))
        if boxes:
            pages.append(boxes)
    return pages


def placed_bars(pdf: bytes) -> list[tuple[float, float, float, float]]:
    """Left, bottom, right and top of the white ground of every linear symbol, in points."""
    found = []
    for stream in contents(pdf):
        for match in _BARS.finditer(stream):
            module, left, bottom, wide, high = map(float, match.groups())
            found.append((left, bottom, left + wide * module, bottom + high))
    return found


def bar_modules(pdf: bytes, dot: float) -> list[float]:
    """How many dots of this width a module of each linear symbol has."""
    found = [match for stream in contents(pdf) for match in _BARS.finditer(stream)]
    return [float(match.group(1)) / dot for match in found]


def raster(pdf: bytes, dots_per_inch: int, page: int = 0) -> Image.Image:
    """A page as the printer's dots see it, counted from its upper left corner.

    The page is widened to whole dots first, to the right and below, as a printer does; without
    that a viewer would stretch it by up to a dot.
    """
    with pypdfium2.PdfDocument(pdf) as document:
        sheet = document[page]
        width, height = sheet.get_size()
        dot = 72 / dots_per_inch
        # A hair less than whole dots, or the viewer would round up to one more.
        whole = (math.ceil(width / dot) * dot - 1e-4, math.ceil(height / dot) * dot - 1e-4)
        sheet.set_mediabox(0, height - whole[1], whole[0], height)
        bitmap = sheet.render(scale=dots_per_inch / 72, grayscale=True)
        return bitmap.to_pil().convert("L").point(lambda grey: 255 if grey > 127 else 0)


def cut_out(
    image: Image.Image, page_height: float, dots_per_inch: int, placed: Placed
) -> Image.Image:
    """The QR code with its quiet zone, cut to the dot."""
    dot = 72 / dots_per_inch
    side = round(placed.side * placed.module / dot)
    left = round(placed.x / dot)
    top = round((page_height - placed.y) / dot) - side
    return image.crop((left, top, left + side, top + side))


def read_with_ink_around(symbol: Image.Image) -> list[str]:
    """What a scanner reads where black ink begins right outside the quiet zone."""
    inked = Image.new("L", (symbol.width + 80, symbol.height + 80), 0)
    inked.paste(symbol, (40, 40))
    return read(inked)


def read(image: Image.Image) -> list[str]:
    """The texts of all QR codes in a picture."""
    found = zxingcpp.read_barcodes(image, formats=zxingcpp.BarcodeFormat.QRCode)
    return [one.text for one in found]


def page_sizes_mm(pdf: bytes) -> list[tuple[float, float]]:
    """Width and height of every page, to a thousandth of a millimetre."""
    with pypdfium2.PdfDocument(pdf) as document:
        return [
            (round(page.get_width() * 25.4 / 72, 3), round(page.get_height() * 25.4 / 72, 3))
            for page in document
        ]


def text_of(pdf: bytes) -> str:
    """All text of a document, lines joined by one blank, no-break spaces made plain."""
    with pypdfium2.PdfDocument(pdf) as document:
        pages = [page.get_textpage().get_text_range() for page in document]
    return re.sub(r"[\s\u00a0\u202f]+", " ", " ".join(pages))


def strokes_mm(pdf: bytes, page: int = 0) -> list[tuple[float, float, float, float]]:
    """Each line drawn, from the sheet's top left corner: left, top, right, bottom of its axis.

    The bounds have the line's thickness added on every side.
    """
    with pypdfium2.PdfDocument(pdf) as document:
        sheet = document[page]
        high = sheet.get_height()
        found = []
        for drawn in sheet.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_PATH]):
            left, bottom, right, top = drawn.get_bounds()
            thick = min(right - left, top - bottom) / 2
            box = left + thick, high - top + thick, right - thick, high - bottom - thick
            found.append(tuple(side / 72 * 25.4 for side in box))
        return found


def text_boxes(pdf: bytes, page: int = 0) -> list[tuple[float, float, float, float]]:
    """Left, bottom, right and top of each piece of text on a page, in points."""
    with pypdfium2.PdfDocument(pdf) as document:
        text = document[page].get_textpage()
        return [text.get_rect(number) for number in range(text.count_rects())]
