"""The list of drums on A4 or Letter paper: one line a drum, to be ticked off at the truck.

Every fifth rule is heavier, so that a row is not lost between the paper and the drums. What is not
known is left blank, to be written in.
"""

from collections.abc import Callable
from dataclasses import dataclass

from honeyledger.documents.dispatch_note import NOT_ON_THIS_PAPER
from honeyledger.documents.fonts import HEAVY, STRONG, TEXT, Typefaces, elided, width_mm
from honeyledger.documents.foot import draw_again, draw_foot
from honeyledger.documents.page import Page, code_runs, new_page
from honeyledger.documents.setting import capital_mm
from honeyledger.documents.stock import PAPERS
from honeyledger.domain.moments import format_moment
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import (
    MassUnit,
    format_colour,
    format_mass,
    format_moisture,
    format_number,
)
from honeyledger.services.drum_list import DrumList, DrumRow

_MARGIN = 16.0
_ROW = 7.0
_HEAD = 13.0
_TOTAL = 10.0
_FOOT = 13.0
_FACTS = 11.5
_LATER = 24.0
_FIVE = 5
_NUMBER, _CODE, _CONTAINER = 0.0, 8.0, 37.0  # left edges of the columns of words
_TICK_MM = 3.6
_STEP = 21.0
_TITLE = "Drum list"


@dataclass(frozen=True, slots=True)
class _Figure:
    """A column of figures: its head, the line below it, and what stands in it."""

    head: str
    unit: str
    text: Callable[[DrumRow], str]


class _Sheet:
    """One list being drawn."""

    def __init__(
        self, page: Page, paper_mm: tuple[float, float], drums: DrumList, unit: MassUnit
    ) -> None:
        self.page, self.drums, self.unit = page, drums, unit
        self.width, self.height = paper_mm
        self.right = self.width - _MARGIN
        self.room = self.right - _MARGIN
        self.figures = (
            _Figure("Gross", unit, lambda row: self._weight(row.gross_g, row)),
            _Figure("Tare", unit, lambda row: self._mass(row.tare_g)),
            _Figure("Net", unit, lambda row: self._weight(row.net_g, row)),
            _Figure("Moisture", "%", lambda row: _bare(row.moisture, format_moisture)),
            _Figure("Colour", "mm Pfund", lambda row: _bare(row.colour, format_colour)),
        )

    def _mass(self, grams: int | None) -> str:
        """A mass without its unit, which stands in the head."""
        return "" if grams is None else format_mass(grams, self.unit).rpartition(" ")[0]

    def _weight(self, grams: int | None, row: DrumRow) -> str:
        """A weight that is still to follow is not printed as if the scale had said it."""
        return "" if row.pending else self._mass(grams)

    def _say(
        self, x: float, y: float, text: str, face: str, size: float, align: float = 0
    ) -> None:
        self.page.text(x, y, self.page.typefaces.checked(text, face), face, size, align)

    def _fitted(self, text: str, face: str, size: float, room: float) -> str:
        return elided(self.page.typefaces.checked(text, face), face, size, room)

    def _edge(self, number: int) -> float:
        """The right edge of a column of figures; the box to tick stands behind the last."""
        return self.right - 9.0 - _STEP * (len(self.figures) - 1 - number)

    # Drawing.

    def draw(self) -> None:
        """All pages of the list."""
        pages = self._paged()
        first = 0
        for number, rows in enumerate(pages, 1):
            self.page.begin_page()
            y = self._head(self._title() if number == 1 else self._later())
            for row in rows:
                first += 1
                self._line(row, first, y)
                y += _ROW
            if number == len(pages):
                self._totals(y)
            self._foot(number, len(pages))

    def _paged(self) -> list[tuple[DrumRow, ...]]:
        """The rows page by page; the sums stay with the last of them."""
        low = self.height - _FOOT - 4
        rooms = [int((low - top - _HEAD) // _ROW) for top in (self._title_height(), _LATER)]
        left = self.drums.rows
        pages: list[tuple[DrumRow, ...]] = []
        while True:
            room = rooms[bool(pages)]
            if len(left) <= room - -(-_TOTAL // _ROW):
                return [*pages, left]
            taken = min(room, max(1, len(left) - 1))
            pages.append(left[:taken])
            left = left[taken:]

    def _facts(self) -> list[tuple[str, str]]:
        drums = self.drums
        known = [("To", drums.customer)] if drums.customer else []
        known += [("Sent", format_moment(drums.sent))] if drums.sent else []
        return [*known, *drums.told]

    def _title_height(self) -> float:
        return _MARGIN + 22.0 + _FACTS * -(-len(self._facts()) // 3) + 3

    def _title(self) -> float:
        drums, y = self.drums, _MARGIN + capital_mm(10)
        self._say(_MARGIN, y, self._fitted(drums.house, STRONG, 10, self.room), STRONG, 10)
        y += 11
        self._say(_MARGIN, y, _TITLE, HEAVY, 20)
        draw_again(self.page, drums, _MARGIN + width_mm(_TITLE, HEAVY, 20) + 3, y)
        if drums.note:
            runs = [("of ", TEXT), *code_runs(drums.note)]
            self.page.runs(self.right, y, runs, 13, 1)
        y += 6
        step = self.room / 3
        for at, (caption, value) in enumerate(self._facts()):
            row, column = divmod(at, 3)
            x, top = _MARGIN + column * step, y + row * _FACTS
            self._say(x, top + 4, caption, TEXT, 7.5)
            self._say(x, top + 8.6, self._fitted(value, STRONG, 10, step - 4), STRONG, 10)
        return self._title_height()

    def _later(self) -> float:
        y = _MARGIN + capital_mm(10)
        self._say(_MARGIN, y, _TITLE, STRONG, 10)
        if self.drums.note:
            self.page.runs(self.right, y, [("of ", TEXT), *code_runs(self.drums.note)], 10, 1)
        return _LATER

    def _head(self, y: float) -> float:
        base = y + 5
        self._say(_MARGIN + _CODE, base, "Drum", STRONG, 8.5)
        self._say(_MARGIN + _CONTAINER, base, "Container or their lot", STRONG, 8.5)
        for number, figure in enumerate(self.figures):
            self._say(self._edge(number), base, figure.head, STRONG, 8.5, 1)
            self._say(self._edge(number), base + 3.8, figure.unit, TEXT, 7.5, 1)
        self.page.rule(_MARGIN, y + _HEAD - 2, self.right, y + _HEAD - 2, 0.6)
        return y + _HEAD - 2

    def _line(self, row: DrumRow, number: int, y: float) -> None:
        base = y + 4.8
        self._say(_MARGIN + _CODE - 3, base, format_number(number), TEXT, 8, 1)
        self.page.runs(_MARGIN + _CODE, base, code_runs(row.code), 10)
        room = self._edge(0) - 16 - _MARGIN - _CONTAINER
        name = row.container or row.supplier_lot
        if row.owner:
            name = f"{name}, of {row.owner}" if name else f"of {row.owner}"
        if row.seal:
            seal = self._fitted(f"seal {row.seal}", TEXT, 7, room)
            self._say(_MARGIN + _CONTAINER, y + 6.1, seal, TEXT, 7)
            self._say(_MARGIN + _CONTAINER, y + 3.3, self._fitted(name, TEXT, 8, room), TEXT, 8)
        else:
            name = self._fitted(name, TEXT, 9.5, room)
            self._say(_MARGIN + _CONTAINER, base, name, TEXT, 9.5)
        for column, figure in enumerate(self.figures):
            self._say(self._edge(column), base, figure.text(row), TEXT, 10, 1)
        self.page.outline(self.right - _TICK_MM, y + 1.7, _TICK_MM, _TICK_MM, 0.25)
        thick = 0.5 if number % _FIVE == 0 else 0.1
        self.page.rule(_MARGIN, y + _ROW, self.right, y + _ROW, thick)

    def _totals(self, y: float) -> None:
        drums, base = self.drums, y + 6.5
        count = len(drums.rows)
        self._say(_MARGIN, base, "1 drum" if count == 1 else f"{count} drums", HEAVY, 11)
        if any(row.pending for row in drums.rows):
            self._say(self._edge(2), base, "some weights are to follow", TEXT, 8.5, 1)
            return
        gross = drums.gross_g
        for column, grams in enumerate(
            (gross, None if gross is None else gross - drums.net_g, drums.net_g)
        ):
            self._say(self._edge(column), base, self._mass(grams), HEAVY, 11, 1)

    def _foot(self, number: int, count: int) -> None:
        at = (_MARGIN, self.right, self.height - _FOOT + 3)
        draw_foot(self.page, self.drums, at, (number, count))


def _bare(value: int | None, shown: Callable[[int], str]) -> str:
    """A reading without its unit, which stands in the head; blank where none was taken."""
    return "" if value is None else shown(value).rpartition(" ")[0]


def drum_list_pdf(
    drums: DrumList,
    typefaces: Typefaces,
    *,
    paper: str = "a4",
    unit: MassUnit = "kg",
    copies: int = 1,
) -> bytes:
    """Print a list of drums, each copy with its own page numbers.

    Raises:
        Refusal: another paper, or a sign that cannot be printed.
    """
    if paper not in PAPERS:
        papers = " or ".join(PAPERS)
        raise Refusal(NOT_ON_THIS_PAPER, field="paper", papers=papers, paper=paper)
    title = f"{_TITLE} of {drums.note}" if drums.note else _TITLE
    page = new_page(title, PAPERS[paper], typefaces)
    for _ in range(copies):
        _Sheet(page, PAPERS[paper], drums, unit).draw()
    return page.finish()
