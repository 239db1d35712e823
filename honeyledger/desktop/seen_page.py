"""A page that keeps its marks instead of writing them: a label is seen as it will print."""

from collections.abc import Iterator
from contextlib import contextmanager

from honeyledger.desktop.inks import BoxInk, Ink, LineInk, ShapeInk, TextInk
from honeyledger.documents.fonts import Typefaces, width_mm
from honeyledger.documents.gs1_symbols import Bars, Size
from honeyledger.documents.page import Page
from honeyledger.documents.symbols import QUIET_MODULES, Symbol

_MM_PER_INCH = 25.4


class SeenPage(Page):
    """Takes what is drawn; `inks` has it in mm from the page's corner, `pages` page by page."""

    def __init__(self, page_mm: tuple[float, float], typefaces: Typefaces) -> None:
        super().__init__("", page_mm, typefaces)
        self.inks: list[Ink] = []
        self.pages: list[list[Ink]] = []
        self._stamps: dict[str, list[Ink]] = {}

    def begin_page(self) -> None:
        super().begin_page()
        self.inks = []
        self.pages.append(self.inks)

    @contextmanager
    def stamp(self, name: str, width: float, height: float) -> Iterator[None]:
        before = self.inks, self._left_mm, self._top_mm
        self.inks, self._left_mm, self._top_mm = [], 0.0, 0.0
        try:
            yield
            self._stamps[name] = self.inks
        finally:
            self.inks, self._left_mm, self._top_mm = before

    def place_stamp(self, name: str, height: float) -> None:
        self.inks += [shifted(ink, self._left_mm, self._top_mm) for ink in self._stamps[name]]

    def runs(
        self,
        x: float,
        y: float,
        runs: list[tuple[str, str]],
        size_pt: float,
        align: float = 0.0,
        white: bool = False,
    ) -> None:
        if align:
            x -= align * sum(width_mm(text, face, size_pt) for text, face in runs)
        for text, face in runs:
            width = width_mm(text, face, size_pt)
            left, top = self._left_mm + x, self._top_mm + y
            self.inks.append(TextInk(left, top, text, face, size_pt, width, white))
            x += width

    def rule(self, x1: float, y1: float, x2: float, y2: float, thick: float = 0.2) -> None:
        left, top = self._left_mm, self._top_mm
        self.inks.append(LineInk(left + x1, top + y1, left + x2, top + y2, thick))

    def outline(
        self, x: float, y: float, width: float, height: float, thick: float, radius: float = 0.0
    ) -> None:
        box = BoxInk(self._left_mm + x, self._top_mm + y, width, height, thick)
        self.inks.append(box)

    def shape(self, points: list[tuple[float, float]], white: bool = False) -> None:
        moved = tuple((self._left_mm + x, self._top_mm + y) for x, y in points)
        self.inks.append(ShapeInk(moved, white))

    def symbol(self, x: float, y: float, symbol: Symbol, dots: int, dots_per_inch: int) -> None:
        left = round((self._left_mm + x) / _MM_PER_INCH * dots_per_inch) / dots_per_inch
        top = round((self._top_mm + y) / _MM_PER_INCH * dots_per_inch) / dots_per_inch
        left, top = left * _MM_PER_INCH, top * _MM_PER_INCH
        module = dots / dots_per_inch * _MM_PER_INCH
        side = symbol.modules_with_quiet * module
        self.inks.append(BoxInk(left, top, side, side, white=True))
        for column, row, length in symbol.runs:
            across, down = column + QUIET_MODULES, row + QUIET_MODULES
            box = BoxInk(left + across * module, top + down * module, length * module, module)
            self.inks.append(box)

    def bars(
        self, x: float, y: float, bars: Bars, size: Size, dots_per_inch: int, below_mm: float = 0.0
    ) -> None:
        left = round((self._left_mm + x) / _MM_PER_INCH * dots_per_inch) / dots_per_inch
        left, top = left * _MM_PER_INCH, self._top_mm + y
        module = size.dots / dots_per_inch * _MM_PER_INCH
        high = size.high_mm + below_mm
        self.inks.append(BoxInk(left, top, size.width_mm, high, white=True))
        for number, (begin, length) in enumerate(bars.bars):
            across = left + (begin + bars.measures.quiet[0]) * module
            own = high if number in bars.guards else size.high_mm
            self.inks.append(BoxInk(across, top, length * module, own))


def shifted(ink: Ink, x: float, y: float) -> Ink:
    """The same mark, so far right and down."""
    if isinstance(ink, TextInk):
        return TextInk(ink.x + x, ink.y + y, ink.text, ink.face, ink.size_pt, ink.width, ink.white)
    if isinstance(ink, LineInk):
        return LineInk(ink.x1 + x, ink.y1 + y, ink.x2 + x, ink.y2 + y, ink.thick)
    if isinstance(ink, BoxInk):
        return BoxInk(ink.x + x, ink.y + y, ink.width, ink.height, ink.thick, ink.white)
    return ShapeInk(tuple((left + x, top + y) for left, top in ink.points), ink.white)
