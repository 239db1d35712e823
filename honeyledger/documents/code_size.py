"""How large the code of a label comes out on its stock, and what is worth knowing of that.

A code is never shrunk until it cannot be read: where there is no room for it the label is refused.
One that is small for where such labels are read is told of before it is printed.
"""

from collections.abc import Sequence
from typing import Any

from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.labels import labels_of
from honeyledger.documents.pack_label import size_warning
from honeyledger.documents.page import Page, drawn_on
from honeyledger.documents.stock import Printer, Stock
from honeyledger.documents.symbols import Symbol
from honeyledger.domain.paper_colour import SURE_PERCENT, contrast_percent
from honeyledger.domain.phrases import Phrase, phrase
from honeyledger.services.label_forms import JAR_FRONT

# A code is read from some ten times its width (common practice, no source): tags of pallets and
# drums from a fork lift's seat or an arm's length, what a hand holds from nearer, jars by a phone.
USUAL_MM = {
    "pallet tag": 24,
    "drum label": 22,
    "yard sheet code": 30,
    "badge": 18,
    "case or pallet label": 13,
    "vessel label": 18,
    "equipment tag": 12,
    "sample pot label": 12,
    "drum sticker": 20,
    "jar label": 11,
    "jar back": 10,
    "lid seal": 7,
}
# Below that phones and older imagers have to come very near (common practice, no source).
USUAL_MODULE_MM = 0.35


class _Measured(Page):
    """A page that notes how large codes come out, and is never written."""

    def __init__(self, title: str, page_mm: tuple[float, float], typefaces: Typefaces) -> None:
        super().__init__(title, page_mm, typefaces)
        self.codes: list[tuple[float, float]] = []

    def symbol(self, x: float, y: float, symbol: Symbol, dots: int, dots_per_inch: int) -> None:
        module_mm = dots / dots_per_inch * 25.4
        self.codes.append((symbol.modules * module_mm, module_mm))

    def finish(self) -> bytes:
        return b""


def code_mm(row: Any, stock: Stock, printer: Printer, typefaces: Typefaces) -> tuple[float, float]:
    """Width of the first code on a label, and of one of its modules, in mm; 0 where it has none.

    Raises:
        Refusal: the label cannot be printed on this stock.
    """
    made: list[_Measured] = []

    def page(title: str, size: tuple[float, float], faces: Typefaces) -> Page:
        made.append(_Measured(title, size, faces))
        return made[-1]

    with drawn_on(page):
        labels_of(row.label, [row], stock, printer, typefaces)
    codes = [code for one in made for code in one.codes]
    return codes[0] if codes else (0.0, 0.0)


def code_warning(row: Any, stock: Stock, printer: Printer, typefaces: Typefaces) -> Phrase | None:
    """What is worth knowing of a code that is small for where such labels are read.

    Raises:
        Refusal: as `code_mm`.
    """
    wide, module = code_mm(row, stock, printer, typefaces)
    usual = USUAL_MM.get(row.label, 0)
    if not wide or (round(wide) >= usual and module >= USUAL_MODULE_MM):
        return None
    if module < USUAL_MODULE_MM:
        return phrase(
            "The code's squares are {module} mm on label stock {stock}: a scanner has to come "
            "very near. Take a larger label, a finer printer or a shorter web address.",
            module=f"{module:.2f}",
            stock=stock.name,
        )
    return phrase(
        "The code is {wide} mm wide on label stock {stock}, and {usual} mm are usual on such "
        "labels: it is read from some {far} cm. Take a larger label to read it from farther.",
        wide=f"{wide:.0f}",
        stock=stock.name,
        usual=usual,
        far=f"{wide:.0f}",
    )


def contrast_warning(stock: Stock) -> Phrase | None:
    """What is worth knowing of coloured paper where black stands out less than scanners want."""
    contrast = contrast_percent(stock.colour)
    if contrast >= SURE_PERCENT:
        return None
    return phrase(
        "Label stock {stock} is {colour}: a code stands out on it by {contrast} %, and scanners "
        "want {sure}. Print one and scan it before the rest, or take white labels.",
        stock=stock.name,
        colour=stock.colour,
        contrast=contrast,
        sure=SURE_PERCENT,
    )


def size_notes(
    rows: Sequence[Any], stock: Stock, printer: Printer, typefaces: Typefaces
) -> tuple[Phrase, ...]:
    """What is worth knowing of a stock: a code small for such labels, bars low, coloured paper.

    Raises:
        Refusal: the first label cannot be printed on it.
    """
    numbered = any(getattr(row, "sscc", "") for row in rows)
    found = (
        code_warning(rows[0], stock, printer, typefaces) if rows else None,
        size_warning(stock, printer) if numbered else None,
        contrast_warning(stock) if rows and rows[0].label != JAR_FRONT else None,
    )
    return tuple(one for one in found if one is not None)
