"""Lists on A4 or Letter paper: facts over them, tables under headings, a line to sign at the foot.

What a paper lists is decided by who makes it; here is only how lists are set. A heading is never
alone at the foot of a page, what is signed never alone on the last, and a table that goes over
pages has its head on each.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from honeyledger.documents.anchor import ANCHOR_MM, draw_anchor
from honeyledger.documents.dispatch_note import NOT_ON_THIS_PAPER
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
from honeyledger.documents.page import Page, code_runs, new_page
from honeyledger.documents.river import draw_river, river_mm
from honeyledger.documents.setting import capital_mm
from honeyledger.documents.stock import PAPERS
from honeyledger.documents.symbols import dots_a_module, make_symbol
from honeyledger.domain.refusals import Refusal

_MARGIN = 16.0
_ROW = 6.6
_MORE = 4.4  # each further line of a row
_HEAD = 11.0
_FOOT = 13.0
_MOST_FACT_LINES = 2
_FACTS = 11.0
_LATER = 24.0
_TITLE = 9.0
_LINE = 4.8
_SIGN = 18.0
_TICK = 3.6
_BOX = 5.5
_FIVE = 5
_GAP = 3.0
_SCAN = 32.0
_SCAN_MODULE = 1.4
_SCAN_DPI = 300


@dataclass(frozen=True, slots=True)
class ListColumn:
    """A column: its head and unit, its part of the width, how its cells are set."""

    head: str
    part: float
    unit: str = ""
    right: bool = False
    is_code: bool = False


@dataclass(frozen=True, slots=True)
class ListTable:
    """A table under its heading; rows are cells as printed, of several lines where they say so.

    Args:
        total: a last row, set strong; () where nothing is added up.
        ticks: whether each row has a box to tick behind it.
        none: what stands there where there is no row.
        box_mm: how high the boxes are that are written in by hand; 0 for rows that are printed.
            The first line of a cell is its box's caption, each further one a word to tick.
    """

    title: str
    columns: tuple[ListColumn, ...]
    rows: Sequence[Sequence[str]]
    total: Sequence[str] = ()
    ticks: bool = False
    none: str = ""
    box_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class ListPaper:
    """One paper.

    Args:
        of: a code that stands at the right of the title.
        facts: captions and what is said of each.
        says: sentences under the facts.
        sign: what is to be written by hand at the end, each on a line of its own.
        printed: when it was printed, and by whom, in words; at the foot of every page.
        again: which print of it this is, where it was printed before.
        anchors: whether the ledger's head stands below what is signed, in words and as a code.
        bands: names with their parts of the whole, drawn as a river above the tables.
        scan: what the code at the top right is read as; "" for no code.
    """

    house: str
    title: str
    head: str
    tables: tuple[ListTable, ...]
    of: str = ""
    facts: tuple[tuple[str, str], ...] = ()
    says: tuple[str, ...] = ()
    sign: tuple[str, ...] = ()
    printed: str = ""
    again: int = 0
    anchors: bool = False
    bands: tuple[tuple[str, float], ...] = ()
    scan: str = ""


@dataclass(slots=True)
class _Block:
    """Something set whole: its height, and how it is drawn at a height of the page."""

    height: float
    kind: str
    table: ListTable | None = None
    row: Sequence[str] = field(default_factory=tuple)
    number: int = 0


class _Sheet:
    """One paper being drawn."""

    def __init__(self, page: Page, paper_mm: tuple[float, float], paper: ListPaper) -> None:
        self.page, self.paper = page, paper
        self.width, self.height = paper_mm
        self.right = self.width - _MARGIN
        self.room = self.right - _MARGIN
        # What is said at the top leaves room for the code.
        self.beside = self.room - (_SCAN + 2 * _GAP if paper.scan else 0)

    def draw(self) -> None:
        """All its pages."""
        pages = self._paged()
        for number, blocks in enumerate(pages, 1):
            self.page.begin_page()
            y = self._title() if number == 1 else self._later()
            for block in blocks:
                self._block(block, y)
                y += block.height
            self._foot(number, len(pages))

    # Which blocks go on which page.

    def _blocks(self) -> list[list[_Block]]:
        """Blocks in groups that stay together; what is signed is with the last row."""
        groups = list(self._groups())
        if self.paper.sign:
            end = [_Block(ANCHOR_MM, "anchor")] if self.paper.anchors and self.paper.head else []
            before = groups.pop() if groups else []
            groups.append([*before, _Block(_SIGN, "sign"), *end])
        return groups

    def _groups(self) -> Iterator[list[_Block]]:
        """What stays together in the tables: a heading with a row, sums with the last."""
        if self.paper.bands:
            yield [_Block(river_mm(self.paper.bands), "river")]
        for table in self.paper.tables:
            over = [_Block(_TITLE if table.title else _GAP, "title", table)]
            over += [_Block(_HEAD, "head", table)] if _has_heads(table) else []
            rows = [
                _Block(_height(row, table.box_mm), "row", table, row, at)
                for at, row in enumerate(table.rows, 1)
            ]
            if not rows:
                yield [over[0], _Block(_ROW, "none", table)]
                continue
            last = rows.pop()
            if rows:
                yield [*over, rows.pop(0)]
                over = []
            yield from ([row] for row in rows)
            total = [_Block(_ROW + 1, "total", table, table.total)] if table.total else []
            yield [*over, last, *total]

    def _paged(self) -> list[list[_Block]]:
        low = self.height - _FOOT - 4
        pages: list[list[_Block]] = [[]]
        y = self._title_height()
        for group in self._blocks():
            if y + sum(block.height for block in group) > low and pages[-1]:
                pages.append([])
                y = _LATER
                again = group[0].table
                if again is not None and group[0].kind in ("row", "total") and _has_heads(again):
                    group = [_Block(_HEAD, "head", again), *group]
            pages[-1] += group
            y += sum(block.height for block in group)
        return pages

    # Drawing.

    def _say(
        self, x: float, y: float, text: str, face: str, size: float, align: float = 0
    ) -> None:
        self.page.text(x, y, self.page.typefaces.checked(text, face), face, size, align)

    def _fitted(self, text: str, face: str, size: float, room: float) -> str:
        return elided(self.page.typefaces.checked(text, face), face, size, room)

    def _sentences(self) -> list[str]:
        return [
            line
            for text in self.paper.says
            for line in wrapped(self.page.typefaces.checked(text, TEXT), TEXT, 10, self.beside)
        ]

    def _title_height(self) -> float:
        facts = _FACTS * -(-len(self.paper.facts) // 3)
        said = 21.0 + facts + _LINE * len(self._sentences()) + 3
        return _MARGIN + max(said, _SCAN + _GAP if self.paper.scan else 0)

    def _title(self) -> float:
        paper, y = self.paper, _MARGIN + capital_mm(10)
        self._say(_MARGIN, y, self._fitted(paper.house, STRONG, 10, self.beside), STRONG, 10)
        y += 11
        self._say(_MARGIN, y, paper.title, HEAVY, 20)
        draw_again(self.page, paper, _MARGIN + width_mm(paper.title, HEAVY, 20) + _GAP, y)
        if paper.of:
            self.page.runs(_MARGIN + self.beside, y, code_runs(paper.of), 13, 1)
        if paper.scan:
            symbol = make_symbol(paper.scan)
            dots = dots_a_module(symbol, _SCAN, _SCAN_DPI, _SCAN_MODULE)
            self.page.symbol(self.right - _SCAN, _MARGIN, symbol, dots, _SCAN_DPI)
        y += 6
        step = self.beside / 3
        for at, (caption, value) in enumerate(paper.facts):
            row, column = divmod(at, 3)
            x, top = _MARGIN + column * step, y + row * _FACTS
            self._say(x, top + 3.5, self._fitted(caption, TEXT, 7.5, step - 4), TEXT, 7.5)
            for down, line, size in self._fact(value, step - 4):
                self._say(x, top + down, line, STRONG, size)
        y += _FACTS * -(-len(paper.facts) // 3)
        for line in self._sentences():
            y += _LINE
            self._say(_MARGIN, y, line, TEXT, 10)
        return self._title_height()

    def _fact(self, value: str, room: float) -> list[tuple[float, str, float]]:
        """In one line; what has no room there in two smaller ones, else its middle left out."""
        value = self.page.typefaces.checked(value, STRONG)
        lines = wrapped(value, STRONG, 8, room)
        if width_mm(value, STRONG, 10) <= room or len(lines) != _MOST_FACT_LINES:
            return [(8.1, elided(value, STRONG, 10, room), 10)]
        return [(7.0 + 3.1 * at, line, 8) for at, line in enumerate(lines)]

    def _later(self) -> float:
        y = _MARGIN + capital_mm(10)
        self._say(_MARGIN, y, self.paper.title, STRONG, 10)
        if self.paper.of:
            self.page.runs(self.right, y, code_runs(self.paper.of), 10, 1)
        return _LATER

    def _block(self, block: _Block, y: float) -> None:
        table = block.table
        if block.kind == "river":
            draw_river(self.page, self.paper.bands, self.paper.of, (_MARGIN, y, self.room))
        elif block.kind == "anchor":
            draw_anchor(self.page, self.paper.head, (_MARGIN, y, self.room))
        elif table is None:
            self._signature(y)
        elif block.kind == "title":
            self._say(_MARGIN, y + 6.5, table.title, HEAVY, 12)
        elif block.kind == "head":
            self._heads(table, y)
        elif block.kind == "row" and table.box_mm:
            self._boxes(table, block.row, y)
        elif block.kind == "none":
            self._say(_MARGIN, y + 4.6, table.none, TEXT, 10)
        else:
            self._row(table, block, y)

    def _edges(self, table: ListTable) -> list[tuple[float, float]]:
        """Left edge and width of each column."""
        room = self.room - (_TICK + _GAP if table.ticks else 0)
        a_part = room / sum(column.part for column in table.columns)
        left, edges = _MARGIN, []
        for column in table.columns:
            edges.append((left, column.part * a_part))
            left += column.part * a_part
        return edges

    def _cell(
        self, table: ListTable, at: int, y: float, text: str, face: str, size: float
    ) -> None:
        """One cell: words without room are elided in their middle, a figure is set smaller."""
        column, (left, width) = table.columns[at], self._edges(table)[at]
        if column.is_code and face == TEXT and text.count("-") >= 2:
            self.page.runs(left, y, code_runs(text), size)
        elif column.right:
            room, wide = width - _GAP, width_mm(text, face, size)
            self._say(left + room, y, text, face, size * min(1.0, room / (wide or room)), 1)
        else:
            self._say(left, y, self._fitted(text, face, size, width - _GAP), face, size)

    def _heads(self, table: ListTable, y: float) -> None:
        for at, column in enumerate(table.columns):
            self._cell(table, at, y + 4, column.head, STRONG, 8.5)
            if column.unit:
                self._cell(table, at, y + 7.6, column.unit, STRONG, 7.5)
        self.page.rule(_MARGIN, y + _HEAD - 1.5, self.right, y + _HEAD - 1.5, 0.6)

    def _row(self, table: ListTable, block: _Block, y: float) -> None:
        is_total = block.kind == "total"
        face, base = (HEAVY if is_total else TEXT), y + (5.4 if is_total else 4.6)
        for at, text in enumerate(block.row):
            for line, part in enumerate(text.split("\n")):
                self._cell(table, at, base + line * _MORE, part, face, 10)
        if is_total:
            return
        if table.ticks:
            self.page.outline(self.right - _TICK, y + 1.5, _TICK, _TICK, 0.25)
        thick = 0.5 if block.number % _FIVE == 0 or block.number == len(table.rows) else 0.1
        low = y + block.height
        self.page.rule(_MARGIN, low, self.right, low, thick)

    def _boxes(self, table: ListTable, row: Sequence[str], y: float) -> None:
        """Boxes to write in: what belongs there small in a corner, words to tick at the foot."""
        for (left, width), cell in zip(self._edges(table), row, strict=True):
            caption, *words = cell.split("\n")
            self.page.outline(left, y, width, table.box_mm, 0.4)
            shown = self._fitted(caption, TEXT, 8, width - _GAP)
            self._say(left + 1.5, y + 3.8, shown, TEXT, 8)
            step = (width - 2) / max(1, len(words))
            for at, word in enumerate(words):
                x, top = left + 2 + at * step, y + table.box_mm - _BOX - 1.6
                self.page.outline(x, top, _BOX, _BOX, 0.4)
                self._say(x + _BOX + 1.2, top + _BOX - 1.2, word, TEXT, 9)

    def _signature(self, y: float) -> None:
        step = self.room / len(self.paper.sign)
        for at, caption in enumerate(self.paper.sign):
            x = _MARGIN + at * step
            self.page.rule(x, y + 12, x + step - 8, y + 12, 0.25)
            self._say(x, y + 15.5, caption, TEXT, 7.5)

    def _foot(self, number: int, count: int) -> None:
        at = (_MARGIN, self.right, self.height - _FOOT + 3)
        draw_foot(self.page, self.paper, at, (number, count))


def _has_heads(table: ListTable) -> bool:
    """Boxes have captions of their own, mostly."""
    return any(column.head for column in table.columns)


def _height(row: Sequence[str], box_mm: float) -> float:
    """A row is as high as the cell with most lines, or as its boxes."""
    if box_mm:
        return box_mm
    return _ROW + _MORE * max((text.count("\n") for text in row), default=0)


def _in_lines(table: ListTable, typefaces: Typefaces, paper_width_mm: float) -> ListTable:
    """Its words broken into lines, so that nothing is left out; codes and figures stay whole."""
    room = paper_width_mm - 2 * _MARGIN - (_TICK + _GAP if table.ticks else 0)
    a_part = room / sum(column.part for column in table.columns)

    def cell(text: str, column: ListColumn) -> str:
        if column.right or column.is_code:
            return text
        lines = typefaces.checked(text, TEXT).split("\n")
        wide = column.part * a_part - _GAP
        return "\n".join("\n".join(wrapped(line, TEXT, 10, wide)) for line in lines)

    rows = [[*map(cell, row, table.columns)] for row in table.rows]
    return table if table.box_mm else replace(table, rows=rows)


def list_pdf(
    paper: ListPaper, typefaces: Typefaces, *, size: str = "a4", copies: int = 1
) -> bytes:
    """Print a paper of lists, each copy with its own page numbers.

    Raises:
        Refusal: another size of paper, or a sign that cannot be printed.
    """
    return lists_pdf([paper] * copies, typefaces, size=size)


def lists_pdf(papers: Sequence[ListPaper], typefaces: Typefaces, *, size: str = "a4") -> bytes:
    """Print papers one after the other, at least one, each with its own page numbers.

    Raises:
        Refusal: another size of paper, or a sign that cannot be printed.
    """
    if size not in PAPERS:
        known = " or ".join(PAPERS)
        raise Refusal(NOT_ON_THIS_PAPER, field="paper", papers=known, paper=size)
    title = f"{papers[0].title} {papers[0].of}".strip()
    page = new_page(title, PAPERS[size], typefaces)
    for paper in papers:
        tables = tuple(_in_lines(table, typefaces, PAPERS[size][0]) for table in paper.tables)
        _Sheet(page, PAPERS[size], replace(paper, tables=tables)).draw()
    return page.finish()
