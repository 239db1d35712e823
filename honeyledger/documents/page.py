"""Draws on pages in millimetres from the upper left corner, in black only.

A thin layer over the PDF writer: it keeps PDFs the same byte for byte for the same content, puts
symbols on whole printer dots, and lets what many labels share be drawn once.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from io import BytesIO

from reportlab.pdfgen.canvas import Canvas

from honeyledger.documents.fonts import CODE, CODE_HEAVY, POINTS_PER_MM, Typefaces, width_mm
from honeyledger.documents.gs1_symbols import Bars, Size
from honeyledger.documents.symbols import QUIET_MODULES, Symbol

# Papers are English whatever the window speaks; a reader that speaks them must know.
LANGUAGE = "en"


class Page:
    """A PDF being drawn, one page after another.

    Args:
        title: the document's title.
        page_mm: width and height of every page.
        typefaces: the loaded typefaces; taken so that nothing is drawn before they are known.
    """

    def __init__(self, title: str, page_mm: tuple[float, float], typefaces: Typefaces) -> None:
        self.typefaces = typefaces
        self._bytes = BytesIO()
        self._page_points = (page_mm[0] * POINTS_PER_MM, page_mm[1] * POINTS_PER_MM)
        self._canvas = Canvas(
            self._bytes, pagesize=self._page_points, invariant=True, lang=LANGUAGE
        )
        self._canvas.setTitle(title)
        self._canvas.setAuthor("Honeyledger")
        self._canvas.setCreator("Honeyledger")
        self._canvas.setProducer("Honeyledger")
        # Asks the print dialog for 100 %: "fit to page" shrinks labels off their places.
        self._canvas.setViewerPreference("PrintScaling", "None")
        self._height = self._page_points[1]
        self._left_mm = 0.0
        self._top_mm = 0.0
        self._begun = False

    def begin_page(self) -> None:
        """Begin the next page; the one before is done."""
        if self._begun:
            self._canvas.showPage()
        self._begun = True

    def finish(self) -> bytes:
        """Close the document and give its bytes."""
        self._canvas.showPage()
        self._canvas.save()
        return self._bytes.getvalue()

    @contextmanager
    def at(self, left_mm: float, top_mm: float) -> Iterator[None]:
        """Measure from this corner for a while."""
        before = self._left_mm, self._top_mm
        self._left_mm += left_mm
        self._top_mm += top_mm
        try:
            yield
        finally:
            self._left_mm, self._top_mm = before

    @contextmanager
    def stamp(self, name: str, width: float, height: float) -> Iterator[None]:
        """Draw once what many labels share; `place_stamp` puts it down. Sizes in mm."""
        before = self._height, self._left_mm, self._top_mm
        self._height, self._left_mm, self._top_mm = height * POINTS_PER_MM, 0.0, 0.0
        self._canvas.beginForm(name, 0, 0, width * POINTS_PER_MM, self._height)
        try:
            yield
        finally:
            self._canvas.endForm()
            self._height, self._left_mm, self._top_mm = before

    def place_stamp(self, name: str, height: float) -> None:
        """Put a stamp of this height in mm with its upper left corner where we measure from."""
        self._canvas.saveState()
        self._canvas.translate(self._x(0), self._y(height))
        self._canvas.doForm(name)
        self._canvas.restoreState()

    def text(
        self, x: float, y: float, text: str, face: str, size_pt: float, align: float = 0.0
    ) -> None:
        """Set one line, its baseline at y; x is its left (align 0), middle (0.5) or right (1)."""
        self.runs(x, y, [(text, face)], size_pt, align)

    def runs(
        self,
        x: float,
        y: float,
        runs: list[tuple[str, str]],
        size_pt: float,
        align: float = 0.0,
        white: bool = False,
    ) -> None:
        """Set one line of several typefaces, given as text and face."""
        if align:
            x -= align * sum(width_mm(text, face, size_pt) for text, face in runs)
        line = self._canvas.beginText(self._x(x), self._y(y))
        line.setFillGray(1 if white else 0)
        for text, face in runs:
            line.setFont(face, size_pt)
            line.textOut(text)
        self._canvas.drawText(line)

    def rule(self, x1: float, y1: float, x2: float, y2: float, thick: float = 0.2) -> None:
        """Draw a line, its thickness in mm."""
        self._canvas.setLineWidth(thick * POINTS_PER_MM)
        self._canvas.setStrokeGray(0)
        self._canvas.line(self._x(x1), self._y(y1), self._x(x2), self._y(y2))

    def outline(
        self, x: float, y: float, width: float, height: float, thick: float, radius: float = 0.0
    ) -> None:
        """Draw an empty box, the line inside its edges."""
        self._canvas.setLineWidth(thick * POINTS_PER_MM)
        self._canvas.setStrokeGray(0)
        self._canvas.roundRect(
            self._x(x + thick / 2),
            self._y(y + height - thick / 2),
            (width - thick) * POINTS_PER_MM,
            (height - thick) * POINTS_PER_MM,
            radius * POINTS_PER_MM,
        )

    def shape(self, points: list[tuple[float, float]], white: bool = False) -> None:
        """Fill a closed shape, black or white."""
        path = self._canvas.beginPath()
        path.moveTo(self._x(points[0][0]), self._y(points[0][1]))
        for x, y in points[1:]:
            path.lineTo(self._x(x), self._y(y))
        path.close()
        self._canvas.setFillGray(1 if white else 0)
        self._canvas.drawPath(path, stroke=0, fill=1)

    def symbol(self, x: float, y: float, symbol: Symbol, dots: int, dots_per_inch: int) -> None:
        """Draw a QR code on its white ground, upper left corner of the quiet zone at x and y.

        Every edge of it lies on a printer dot counted from the page's corner, so that all modules
        come out equally wide. Not within a stamp, whose place on the page is not known yet.
        """
        dot = 72 / dots_per_inch
        left = round((self._left_mm + x) / 25.4 * dots_per_inch) * dot
        top = round((self._top_mm + y) / 25.4 * dots_per_inch) * dot
        module = dots * dot
        side = symbol.modules_with_quiet
        canvas = self._canvas
        canvas.saveState()
        canvas.transform(module, 0, 0, module, left, self._height - top - side * module)
        canvas.setFillGray(1)
        canvas.rect(0, 0, side, side, stroke=0, fill=1)
        canvas.setFillGray(0)
        # One path in module units, written out here: the writer's own path objects take five
        # times as long, and a season has a hundred thousand jars.
        lowest = side - QUIET_MODULES - 1
        boxes = [
            f"{column + QUIET_MODULES} {lowest - row} {length} 1 re"
            for column, row, length in symbol.runs
        ]
        canvas.addLiteral(f"{' '.join(boxes)} f")
        canvas.restoreState()

    def bars(
        self, x: float, y: float, bars: Bars, size: Size, dots_per_inch: int, below_mm: float = 0.0
    ) -> None:
        """Draw a linear symbol on its white ground, upper left corner of the ground at x and y.

        Edges lie on printer dots, as those of `symbol` do; guard bars are longer by `below_mm`.
        """
        dot = 72 / dots_per_inch
        left = round((self._left_mm + x) / 25.4 * dots_per_inch) * dot
        high, below = size.high_mm * POINTS_PER_MM, below_mm * POINTS_PER_MM
        module = size.dots * dot
        canvas = self._canvas
        canvas.saveState()
        canvas.transform(module, 0, 0, 1, left, self._y(y) - high - below)
        canvas.setFillGray(1)
        canvas.rect(0, 0, bars.modules_with_quiet, high + below, stroke=0, fill=1)
        canvas.setFillGray(0)
        before = bars.measures.quiet[0]
        boxes = [
            f"{begin + before} 0 {length} {high + below:.3f} re"
            if number in bars.guards
            else f"{begin + before} {below:.3f} {length} {high:.3f} re"
            for number, (begin, length) in enumerate(bars.bars)
        ]
        canvas.addLiteral(f"{' '.join(boxes)} f")
        canvas.restoreState()

    def _x(self, x: float) -> float:
        return (self._left_mm + x) * POINTS_PER_MM

    def _y(self, y: float) -> float:
        return self._height - (self._top_mm + y) * POINTS_PER_MM


def code_runs(code: str) -> list[tuple[str, str]]:
    """Set a code so that the number people call out stands out; a jar is called by its serial."""
    head, hyphen, rest = code.rpartition("-")
    first, inner, number = head.rpartition("-")
    return [(first + inner, CODE), (number, CODE_HEAVY), (hyphen + rest, CODE)]


def code_width_mm(code: str, size_pt: float) -> float:
    """Measure a code as `code_runs` sets it."""
    return sum(width_mm(text, face, size_pt) for text, face in code_runs(code))


PageOf = Callable[[str, tuple[float, float], Typefaces], Page]
"""Makes the page a paper is drawn on, of its title, its size in mm and the typefaces."""
_MADE_BY: ContextVar[PageOf] = ContextVar("made_by", default=Page)


def new_page(title: str, page_mm: tuple[float, float], typefaces: Typefaces) -> Page:
    """The page every paper is drawn on: it writes a PDF, unless drawn within `drawn_on`."""
    return _MADE_BY.get()(title, page_mm, typefaces)


@contextmanager
def drawn_on(make: PageOf) -> Iterator[None]:
    """Draw papers on another kind of page for a while, such as one that keeps its marks."""
    before = _MADE_BY.set(make)
    try:
        yield
    finally:
        _MADE_BY.reset(before)
