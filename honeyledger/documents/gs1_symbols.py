"""Symbols of GS1 that others scan: GS1-128, GS1 DataMatrix, and the retail code of a jar.

What a symbol holds is asked of `domain/gs1`; how its bars lie of a library that encodes them,
which is loaded when the first such symbol is made. Sizes by rule are here; a symbol that has no
room for them is refused, never made smaller. Sizes are from the GS1 General Specifications,
section 5.12 (values from memory): check them against the edition in force.
"""

import importlib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from itertools import groupby
from math import ceil
from typing import Any

from honeyledger.documents.symbols import Symbol, black_runs
from honeyledger.domain.gs1 import bracketed, parse_gtin
from honeyledger.domain.refusals import BrokenRule, Refusal, Sentence

NO_ROOM_FOR_BARS = Sentence(
    "no-room-for-bars",
    "The {kind} of {text} needs {wide} x {high} mm and the label has {room} mm for it: take a "
    "larger label.",
)
NOT_A_RETAIL_CODE = Sentence(
    "not-a-retail-code",
    "{number} is the number of a case, which a till does not read: register the jar's own GTIN of "
    "8, 12 or 13 digits.",
)

EAN_13, UPC_A, EAN_8 = "EAN-13", "UPC-A", "EAN-8"
GS1_128, GS1_DATA_MATRIX = "GS1-128", "GS1 DataMatrix"


@dataclass(frozen=True, slots=True)
class Measures:
    """How large a linear symbol may be: its module, its height and what stays white beside it.

    Args:
        module_mm: the module wanted.
        least_mm: the smallest module allowed.
        high_mm: the height of the bars wanted.
        least_high_mm: the least; below `high_mm` a scanner has to be aimed better.
        quiet: white modules at the left and at the right.
    """

    module_mm: float
    least_mm: float
    high_mm: float
    least_high_mm: float
    quiet: tuple[int, int]


# On what moves through warehouses a module of 0.495 mm and bars of 31.75 mm; at a till 0.33 mm
# and 22.85 mm, down to 80 % of that. That bars may be lower where there is no room, by a half,
# is common practice, no source.
MEASURES = {
    GS1_128: Measures(0.495, 0.495, 31.75, 15.0, (10, 10)),
    EAN_13: Measures(0.33, 0.264, 22.85, 11.4, (11, 7)),
    UPC_A: Measures(0.33, 0.264, 22.85, 11.4, (9, 9)),
    EAN_8: Measures(0.33, 0.264, 18.23, 9.1, (7, 7)),
}


@dataclass(frozen=True, slots=True)
class Bars:
    """A linear symbol.

    Args:
        kind: what a scanner calls it.
        text: what stands in type below it.
        modules: its width without what stays white beside it.
        bars: begin and width of each bar, in modules.
        guards: of these the ones that reach down between the figures.
    """

    kind: str
    text: str
    modules: int
    bars: tuple[tuple[int, int], ...]
    guards: frozenset[int] = frozenset()

    @property
    def measures(self) -> Measures:
        """How large it may be."""
        return MEASURES[self.kind]

    @property
    def modules_with_quiet(self) -> int:
        """Its width in modules, white included."""
        return self.modules + sum(self.measures.quiet)


@dataclass(frozen=True, slots=True)
class Size:
    """A linear symbol's size for one printer: dots a module, and what it takes in mm."""

    dots: int
    width_mm: float
    high_mm: float
    is_low: bool


def gs1_128(elements: Mapping[str, str]) -> Bars:
    """The linear symbol of elements, such as the number of a pallet.

    Raises:
        Refusal: a value does not fit its AI.
    """
    text = bracketed(elements)
    return _bars(GS1_128, text, _made("Code128", text, "]C1", gs1=True))


def gs1_data_matrix(elements: Mapping[str, str]) -> Symbol:
    """The square symbol of elements, for more than a linear one has room for.

    Raises:
        Refusal: a value does not fit its AI.
    """
    text = bracketed(elements)
    rows = _made("DataMatrix", text, "]d2", gs1=True, forceSquare=True)
    return Symbol(text, len(rows), 0, black_runs(rows))


def retail_code(gtin: str) -> Bars:
    """The symbol a till reads: UPC-A for 12 digits, EAN-13 for 13, EAN-8 for 8.

    Raises:
        Refusal: the number is misread, or is one of 14 digits that no till reads.
    """
    number = parse_gtin(gtin)
    if number[0] != "0":
        raise Refusal(NOT_A_RETAIL_CODE, field="gtin", number=number)
    if number.startswith("000000"):
        return _bars(EAN_8, number[6:], _made("EAN8", number[6:], "]E4"))
    # A number of 13 digits that begins with 0 is one of 12, in a symbol with the same bars.
    if number.startswith("00"):
        return _bars(UPC_A, number[2:], _made("UPCA", number[2:], "]E0"))
    return _bars(EAN_13, number[1:], _made("EAN13", number[1:], "]E0"))


def fitted(bars: Bars, room_mm: tuple[float, float], dots_per_inch: int) -> Size:
    """Choose whole dots a module and the height for a room, whose height is for the bars alone.

    Raises:
        Refusal: the room is too small for what the rules allow.
    """
    rules, dots_per_mm = bars.measures, dots_per_inch / 25.4
    least, wanted = (ceil(mm * dots_per_mm - 1e-6) for mm in (rules.least_mm, rules.module_mm))
    across = bars.modules_with_quiet
    dots = min(wanted, int(room_mm[0] * dots_per_mm) // across)
    if dots < least or room_mm[1] < rules.least_high_mm:
        raise Refusal(
            NO_ROOM_FOR_BARS,
            field="stock",
            kind=bars.kind,
            text=bars.text,
            wide=f"{across * least / dots_per_mm:.1f}",
            high=f"{rules.least_high_mm:.1f}",
            room=f"{room_mm[0]:.1f} x {room_mm[1]:.1f}",
        )
    high = min(rules.high_mm, room_mm[1])
    return Size(dots, across * dots / dots_per_mm, high, high < rules.high_mm)


def _bars(kind: str, text: str, rows: list[list[bool]]) -> Bars:
    bars: list[tuple[int, int]] = []
    guards: set[int] = set()
    at = 0
    for black, run in groupby(rows[0]):
        length = len(list(run))
        if black:
            # A library draws guard bars longer, so only they are in the last row.
            if rows[-1][at]:
                guards.add(len(bars))
            bars.append((at, length))
        at += length
    return Bars(kind, text, at, tuple(bars), frozenset() if kind == GS1_128 else frozenset(guards))


def _made(symbology: str, text: str, identifier: str, **options: bool) -> list[list[bool]]:
    """The modules of a symbol, row by row, without anything white around it."""
    library = _library()
    made = library.create_barcode(text, library.BarcodeFormat.__members__[symbology], **options)
    if made.symbology_identifier != identifier:
        raise BrokenRule(f"{text} became a symbol {made.symbology_identifier}, not {identifier}")
    picture = library.write_barcode_to_image(made, scale=1, add_quiet_zones=False)
    rows: Any = memoryview(picture).tolist()
    return [[grey == 0 for grey in row] for row in rows]


@cache
def _library() -> Any:
    return importlib.import_module("zxingcpp")
