"""The dispatch note: what goes to whom, lot by lot, on A4 or Letter paper, with room to sign.

Every page names the note; the sums, the signatures and the caution stand on the last one only.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from honeyledger.documents.fonts import (
    HEAVY,
    STRONG,
    TEXT,
    Typefaces,
    elided,
    width_mm,
    wrapped,
)
from honeyledger.documents.foot import draw_again, draw_foot
from honeyledger.documents.labels import NOTHING_TO_PRINT
from honeyledger.documents.page import Page, code_runs, new_page
from honeyledger.documents.setting import capital_mm
from honeyledger.documents.stock import PAPERS
from honeyledger.documents.symbols import dots_a_module, make_symbol
from honeyledger.domain.moments import format_moment
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import MassUnit, format_mass, format_number
from honeyledger.services.dispatch_paper import DispatchNote, NotePaperLine
from honeyledger.services.papers import INFANT_CAUTION

NOT_ON_THIS_PAPER = Sentence(
    "note-not-on-paper",
    "A dispatch note is printed on {papers}, not on {paper}: choose one of the two.",
)

_MARGIN = 18.0
_QR = 30.0
_DOTS = 300
_ROW = 11.5
_FLAT_ROW = 8.0
_HEAD_ROW = 9.0
_TOTAL = 11.0
_SIGNING = 46.0
_FOOT = 14.0
_FACTS = 13.0
_MOST_NAME_LINES = 2


@dataclass(frozen=True, slots=True)
class _Column:
    """A column of figures: its head, its unit's line, where its right edge is, in mm."""

    head: str
    right: float
    value: Callable[[NotePaperLine], int | None]
    is_mass: bool = True


class _Sheet:
    """One note being drawn."""

    def __init__(
        self, page: Page, paper_mm: tuple[float, float], note: DispatchNote, unit: MassUnit
    ) -> None:
        self.page, self.note, self.unit = page, note, unit
        self.width, self.height = paper_mm
        self.right = self.width - _MARGIN
        self.room = self.right - _MARGIN
        columns = [
            _Column("Jars", 0, lambda line: line.jars or None, is_mass=False),
            _Column("Gross", 0, lambda line: line.gross_g),
            _Column("Tare", 0, lambda line: line.tare_g),
            _Column("Net", 0, lambda line: line.net_g),
        ]
        shown = [c for c in columns if any(c.value(line) is not None for line in note.lines)]
        edges = [self.right - 21.0 * at for at in range(len(shown))]
        self.columns = [
            _Column(column.head, edge, column.value, column.is_mass)
            for column, edge in zip(shown, reversed(edges), strict=True)
        ]
        # Drums have nothing below their name, so that a truck of them takes few pages.
        self.row = _ROW if any(line.is_retail for line in note.lines) else _FLAT_ROW
        self.goods = _MARGIN + 33.0
        self.goods_room = self.columns[0].right - 20.0 - self.goods

    # Setting.

    def say(self, x: float, y: float, text: str, face: str, size: float, align: float = 0) -> None:
        """One line, its baseline at y."""
        self.page.text(x, y, self.page.typefaces.checked(text, face), face, size, align)

    def fitted(self, text: str, face: str, size: float, room: float) -> str:
        """A text that may be a name, its middle left out where it is too long."""
        return elided(self.page.typefaces.checked(text, face), face, size, room)

    def mass(self, grams: int) -> str:
        """A mass without its unit, which stands in the head."""
        return format_mass(grams, self.unit).removesuffix(f" {self.unit}")

    # Drawing.

    def draw(self) -> None:
        """All pages of the note."""
        pages = self._paged()
        for number, lines in enumerate(pages, 1):
            self.page.begin_page()
            y = self._first_head() if number == 1 else self._later_head()
            y = self._table_head(y)
            for line in lines:
                self._line(line, y)
                y += self.row
            if number == len(pages):
                self._totals(y)
                self._signing()
            self._foot(number, len(pages))

    def _paged(self) -> list[list[NotePaperLine]]:
        """The lines page by page; the last page has room for the sums and the signatures."""
        low = self.height - _FOOT - _MARGIN / 2
        first = int((low - self._first_height() - _HEAD_ROW) // self.row)
        later = int((low - 28.0 - _HEAD_ROW) // self.row)
        kept = int(-(-(_TOTAL + _SIGNING) // self.row))
        left: list[NotePaperLine] = list(self.note.lines)
        pages: list[list[NotePaperLine]] = []
        while True:
            room = first if not pages else later
            if len(left) <= room - kept:
                return [*pages, left]
            taken = min(room, max(1, len(left) - 1))
            pages.append(left[:taken])
            left = left[taken:]

    def _first_height(self) -> float:
        return 104.0 + _FACTS * len(_in_fours(self.note.more))

    def _first_head(self) -> float:
        note = self.note
        symbol = make_symbol(note.code)
        dots = dots_a_module(symbol, _QR, _DOTS, 0.9)
        side = symbol.modules_with_quiet * dots * 25.4 / _DOTS
        self.page.symbol(self.right - side + 3, _MARGIN - 4, symbol, dots, _DOTS)
        y = _MARGIN + capital_mm(11)
        self.say(_MARGIN, y, self.fitted(note.house, STRONG, 11, self.room - side), STRONG, 11)
        y += 14
        self.say(_MARGIN, y, "Dispatch note", HEAVY, 26)
        draw_again(self.page, note, _MARGIN + width_mm("Dispatch note", HEAVY, 26) + 4, y)
        y += 9.5
        self.page.runs(_MARGIN, y, code_runs(note.code), 17)
        y = _MARGIN + 36
        self.page.rule(_MARGIN, y, self.right, y, 0.7)
        half = self.room / 2
        self._party(_MARGIN, y + 6, half - 6, "From", note.producer or note.house, note.place)
        self._party(_MARGIN + half, y + 6, half, "To", note.customer, note.customer_place)
        y += 31
        self.page.rule(_MARGIN, y, self.right, y, 0.2)
        facts = (
            ("Sent", format_moment(note.sent)),
            ("Signed by", note.signed),
            ("Carrier", note.carrier),
            ("Your order", note.reference),
        )
        self._facts(facts, y)
        for row, told in enumerate(_in_fours(note.more), 1):
            self._facts(told, y + row * _FACTS)
        return self._first_height()

    def _facts(self, facts: Sequence[tuple[str, str]], y: float) -> None:
        """Named values in four columns; where one is not known there is a line to write on."""
        step = self.room / 4
        for at, (caption, value) in enumerate(facts):
            x = _MARGIN + at * step
            self.say(x, y + 5.5, caption, TEXT, 8)
            if value:
                self._fact(x, y, value, step - 3)
            else:
                self.page.rule(x, y + 11.5, x + step - 8, y + 11.5, 0.2)

    def _fact(self, x: float, y: float, value: str, room: float) -> None:
        """In one line; a name with its address that has no room there in two smaller ones."""
        lines = wrapped(self.page.typefaces.checked(value, STRONG), STRONG, 8.5, room)
        if width_mm(value, STRONG, 11) <= room or len(lines) > _MOST_NAME_LINES:
            self.say(x, y + 11, self.fitted(value, STRONG, 11, room), STRONG, 11)
            return
        for at, line in enumerate(lines):
            self.page.text(x, y + 9.6 + 3.6 * at, line, STRONG, 8.5)

    def _party(self, x: float, y: float, room: float, caption: str, name: str, place: str) -> None:
        self.say(x, y, caption, TEXT, 8)
        y += 6.5
        name = self.page.typefaces.checked(name, HEAVY)
        lines = wrapped(name, HEAVY, 14, room)
        if len(lines) > _MOST_NAME_LINES:
            lines = [elided(name, HEAVY, 14, room)]
        for line in lines:
            self.page.text(x, y, line, HEAVY, 14)
            y += 6.2
        if place.strip():
            self.say(x, y, self.fitted(place, TEXT, 10.5, room), TEXT, 10.5)

    def _later_head(self) -> float:
        y = _MARGIN + capital_mm(11)
        self.say(_MARGIN, y, "Dispatch note", STRONG, 11)
        start = _MARGIN + width_mm("Dispatch note ", STRONG, 11)
        self.page.runs(start, y, code_runs(self.note.code), 11)
        to = self.fitted(f"to {self.note.customer}", TEXT, 11, self.room / 2)
        self.say(self.right, y, to, TEXT, 11, 1)
        return 28.0

    def _table_head(self, y: float) -> float:
        base = y + 5.5
        self.say(_MARGIN, base, "Lot", STRONG, 9)
        self.say(self.goods, base, "Goods", STRONG, 9)
        for column in self.columns:
            head = f"{column.head}, {self.unit}" if column.is_mass else column.head
            self.say(column.right, base, head, STRONG, 9, 1)
        self.page.rule(_MARGIN, y + _HEAD_ROW - 1, self.right, y + _HEAD_ROW - 1, 0.4)
        return y + _HEAD_ROW

    def _line(self, line: NotePaperLine, y: float) -> None:
        is_flat = self.row < _ROW
        base = y + (4.9 if is_flat else 4.2)
        self.page.runs(_MARGIN, base, code_runs(line.code), 10.5)
        goods = self.fitted(line.goods, STRONG, 11, self.goods_room)
        self.say(self.goods, base, goods, STRONG, 11)
        detail = line.detail
        if line.is_retail:
            # The lot mark as it stands on every jar (Directive 2011/91/EU, article 3).
            detail = f"L\u00a0{line.code}" + (f", {detail}" if detail else "")
        if detail:
            start = self.goods + (width_mm(goods, STRONG, 11) + 3 if is_flat else 0)
            below = 0.0 if is_flat else 3.9
            room = max(0.0, self.columns[0].right - (20 if is_flat else 0) - start)
            self.say(start, base + below, self.fitted(detail, TEXT, 8.5, room), TEXT, 8.5)
        for column in self.columns:
            value = column.value(line)
            if value is not None:
                text = self.mass(value) if column.is_mass else format_number(value)
                self.say(column.right, base, text, TEXT, 11, 1)
        rule = y + self.row - 1
        self.page.rule(_MARGIN, rule, self.right, rule, 0.15)

    def _totals(self, y: float) -> None:
        note = self.note
        self.page.rule(_MARGIN, y - 1, self.right, y - 1, 0.7)
        base = y + 6
        count = len(note.lines)
        self.say(_MARGIN, base, "1 lot" if count == 1 else f"{count} lots", HEAVY, 12)
        gross = note.gross_g
        totals = {
            "Jars": note.jars or None,
            "Gross": gross,
            "Tare": None if gross is None else gross - note.net_g,
            "Net": note.net_g,
        }
        for column in self.columns:
            value = totals.get(column.head)
            if value is not None:
                text = self.mass(value) if column.is_mass else format_number(value)
                self.say(column.right, base, text, HEAVY, 12, 1)

    def _signing(self) -> None:
        y = self.height - _FOOT - _MARGIN / 2 - _SIGNING + 20
        step = (self.room - 12) / 2
        for at, caption in enumerate(("Handed over: name, date", "Received: name, date")):
            x = _MARGIN + at * (step + 12)
            self.page.rule(x, y, x + step, y, 0.3)
            self.say(x, y + 4.2, caption, TEXT, 8)
        if any(line.is_retail for line in self.note.lines):
            self.say(_MARGIN, y + 15, f"Honey. {INFANT_CAUTION}", STRONG, 10)

    def _foot(self, number: int, count: int) -> None:
        at = (_MARGIN, self.right, self.height - _FOOT)
        draw_foot(self.page, self.note, at, (number, count))


def _in_fours(facts: Sequence[tuple[str, str]]) -> list[Sequence[tuple[str, str]]]:
    return [facts[at : at + 4] for at in range(0, len(facts), 4)]


def usual_paper(unit: MassUnit) -> str:
    """The paper of the printer in the office: Letter where they weigh in pounds, else A4."""
    return "letter" if unit == "lb" else "a4"


def dispatch_notes(
    notes: Iterable[DispatchNote],
    typefaces: Typefaces,
    *,
    paper: str = "a4",
    unit: MassUnit = "kg",
) -> bytes:
    """Print dispatch notes, each on pages of its own.

    Raises:
        Refusal: nothing to print, another paper, or a sign that cannot be printed.
    """
    if paper not in PAPERS:
        papers = " or ".join(PAPERS)
        raise Refusal(NOT_ON_THIS_PAPER, field="paper", papers=papers, paper=paper)
    rows = list(notes)
    if not rows:
        raise Refusal(NOTHING_TO_PRINT)
    title = f"Dispatch note {rows[0].code}" if len(rows) == 1 else "Dispatch notes"
    page = new_page(title, PAPERS[paper], typefaces)
    for note in rows:
        _Sheet(page, PAPERS[paper], note, unit).draw()
    return page.finish()
