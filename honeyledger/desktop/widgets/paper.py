"""Paints a paper: as a PDF, A4 on its side, or as one picture.

It is done beside the window's thread; nothing here knows a widget.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QBuffer, QMarginsF, QRectF
from PySide6.QtGui import QImage, QPageLayout, QPageSize, QPainter, QPdfWriter, QPen

from honeyledger.desktop import lettering, look, marks, tokens
from honeyledger.desktop.lettering import Hand, Run, Side
from honeyledger.desktop.marks import COLOURS
from honeyledger.desktop.models.chart_layout import lay_out_chart
from honeyledger.desktop.models.paper import HEAD, ROW, Paper, Sheet, pages_of, table_high
from honeyledger.desktop.models.river_layout import SIDE, river_width
from honeyledger.desktop.models.rows import Cell, Column, ColumnKind
from honeyledger.desktop.tokens import BOLD, SEMIBOLD, Density, Type
from honeyledger.desktop.widgets.chart_paint import paint_chart, words_wide
from honeyledger.desktop.widgets.river_paint import paint_still

WIDE = 1400.0
_FOOT = 28.0
_GAP = 24.0
_EDGE = 16.0  # over a picture's heading; a page has its margin
_WORDS_LEAST, _STEP = 160.0, 16.0
_PICTURE_RIVER = 640.0
_PICTURE_ROWS = 60
_SHARP = 2  # dots of a picture to one of the page's
_TEXT = Hand(Type.BODY, Density.DESK)
_STRONG = Hand(Type.BODY, Density.DESK, SEMIBOLD)
_TOTAL = Hand(Type.BODY, Density.DESK, BOLD)
_HEAD = Hand(Type.CAPTION, weight=SEMIBOLD, colour="ink2")
_SMALL = Hand(Type.CAPTION, colour="ink2")

Report = Callable[[int, int], None]


@dataclass(frozen=True, slots=True)
class _Plan:
    """Where each column begins and how wide it is, each cell's lines, each row's height."""

    rooms: Sequence[tuple[float, float]]
    lines: Sequence[Sequence[Sequence[Sequence[Run]]]]
    heights: Sequence[float]


def pdf_of_all(papers: Sequence[Paper], report: Report) -> bytes:
    """Papers one behind the other, each from a page of its own, numbered through.

    `report` is told how many pages are painted.
    """
    with look.on_paper():
        made = QBuffer()
        made.open(QBuffer.OpenModeFlag.WriteOnly)
        writer = QPdfWriter(made)
        writer.setPageSize(QPageSize(QPageSize.PageSizeId.A4))
        writer.setPageOrientation(QPageLayout.Orientation.Landscape)
        writer.setPageMargins(QMarginsF(10, 10, 10, 10))
        painter = QPainter(writer)
        scale = writer.width() / WIDE
        high = writer.height() / scale
        painter.scale(scale, scale)
        sheets = [one for paper in papers for one in _sheets(paper, high)]
        for number, (paper, plan, sheet) in enumerate(sheets):
            if number:
                writer.newPage()
            _paint_sheet(painter, paper, plan, sheet)
            _paint_foot(painter, paper, high, number + 1, len(sheets))
            report(number + 1, len(sheets))
        painter.end()
        return bytes(made.data().data())


def _sheets(paper: Paper, high: float) -> list[tuple[Paper, _Plan, Sheet]]:
    plan = _planned(paper, len(paper.rows))
    sheets = pages_of(paper, high - _heading_high(paper) - _FOOT, plan.heights)
    return [(paper, plan, sheet) for sheet in sheets]


def png_of(paper: Paper) -> bytes:
    """One picture of heading, river and the first rows."""
    with look.on_paper():
        shown = min(len(paper.rows), _PICTURE_ROWS)
        plan = _planned(paper, shown)
        river = _PICTURE_RIVER if paper.is_drawn else 0.0
        rows = table_high(plan.heights) if shown else 0.0
        high = _EDGE + _heading_high(paper) + river + rows + _FOOT
        image = QImage(int(WIDE * _SHARP), int(high * _SHARP), QImage.Format.Format_RGB32)
        image.fill(look.colour(tokens.PAPER))
        painter = QPainter(image)
        painter.scale(_SHARP, _SHARP)
        painter.translate(0, _EDGE)
        high -= _EDGE
        whole = shown == len(paper.rows)
        _paint_sheet(painter, paper, plan, Sheet(river, 0, shown, is_last=whole))
        _paint_foot(painter, paper, high, 1, 1)
        if not whole:
            words = lettering.translated("and {n} more rows, which the print lists")
            room = QRectF(SIDE, high - _FOOT - ROW, WIDE - 2 * SIDE, ROW)
            words = words.format(n=len(paper.rows) - shown)
            lettering.draw(painter, room, [_SMALL.run(words)])
        painter.end()
        made = QBuffer()
        made.open(QBuffer.OpenModeFlag.WriteOnly)
        image.save(made, "PNG")  # type: ignore[call-overload]
        return bytes(made.data().data())


def _heading_high(paper: Paper) -> float:
    lines = len(paper.heading)
    return Hand(Type.CAPTION).line + Hand(Type.TITLE).line * (lines - 1) + 12 if lines else 0.0


def _paint_sheet(painter: QPainter, paper: Paper, plan: _Plan, sheet: Sheet) -> None:
    painter.save()
    painter.translate(0, _paint_heading(painter, paper.heading, WIDE))
    if sheet.river_high and paper.river is not None:
        # A river of many columns is drawn smaller, so that every plate has its whole code.
        wide = max(WIDE, river_width(paper.river))
        painter.save()
        painter.scale(WIDE / wide, WIDE / wide)
        paint_still(painter, paper.river, wide, sheet.river_high * wide / WIDE)
        painter.restore()
        painter.translate(0, sheet.river_high)
    elif sheet.river_high and paper.chart is not None:
        size = WIDE, sheet.river_high - _GAP
        paint_chart(painter, lay_out_chart(paper.chart, *size, words_wide, fits=True), size)
        painter.translate(0, sheet.river_high)
    if sheet.end > sheet.first:
        _paint_rows(painter, paper, plan, sheet)
    painter.restore()


def _paint_heading(painter: QPainter, lines: Sequence[str], width: float) -> float:
    """Write lines at the top of a page, the first small; gives back how high they are."""
    top = 0.0
    for at, line in enumerate(lines):
        hand = Hand(Type.TITLE) if at else Hand(Type.CAPTION, weight=SEMIBOLD, colour="ink2")
        room = QRectF(SIDE, top, width - 2 * SIDE, hand.line)
        lettering.draw(painter, room, lettering.runs(line, hand))
        top += hand.line
    return top + 12 if lines else 0.0


def _paint_foot(painter: QPainter, paper: Paper, high: float, number: int, of: int) -> None:
    room = QRectF(SIDE, high - _FOOT, WIDE - 2 * SIDE, _FOOT)
    lettering.draw(painter, room, lettering.runs(paper.foot, _SMALL))
    if of > 1:
        words = lettering.translated("page {n} of {of}").format(n=number, of=of)
        lettering.draw(painter, room, [_SMALL.run(words)], Side.RIGHT)


# The table.


def _planned(paper: Paper, count: int) -> _Plan:
    """Measure the first rows: where each column stands, and each row's lines."""
    rows = paper.rows[:count]
    rooms = _rooms(paper, rows)
    lines = [
        [_lines(cell, width) for cell, (_, width) in zip(row, rooms, strict=True)] for row in rows
    ]
    heights = [ROW + (max(len(cell) for cell in row) - 1) * _TEXT.line for row in lines]
    return _Plan(rooms, lines, heights)


def _rooms(paper: Paper, rows: Sequence[Sequence[Cell]]) -> list[tuple[float, float]]:
    """Where each column begins and how wide it is; words give way, names take what is left."""
    wide = [_natural(paper, rows, at, column) for at, column in enumerate(paper.columns)]
    spare = WIDE - 2 * SIDE - 16 - sum(wide) - _GAP * (len(wide) - 1)
    names = [at for at, one in enumerate(paper.columns) if one.kind is ColumnKind.NAME]
    texts = [at for at, one in enumerate(paper.columns) if one.kind is ColumnKind.TEXT]
    if spare > 0:
        for at in names:
            wide[at] += spare / len(names)
    else:
        # The longest words are broken into lines first; two long ones by turns.
        while (
            spare < 0 and (longest := max(texts + names, key=lambda at: wide[at], default=-1)) >= 0
        ):
            give = min(-spare, wide[longest] - _WORDS_LEAST, _STEP)
            if give <= 0:
                break
            wide[longest] -= give
            spare += give
    rooms, left = [], SIDE + 8.0
    for width in wide:
        rooms.append((left, width))
        left += width + _GAP
    return rooms


def _natural(paper: Paper, rows: Sequence[Sequence[Cell]], at: int, column: Column[Any]) -> float:
    mark = tokens.MARK_BADGE + 6 if column.mark is not None else 0
    cells = [lettering.width(_words(row[at])) + mark for row in rows]
    total = dict(paper.totals).get(column.key)
    foot = _TOTAL.run(total.text).width if total is not None else 0.0
    return max(_HEAD.run(_title(column)).width, foot, *cells) + 2


def _title(column: Column[Any]) -> str:
    return f"{column.title}, {column.unit}" if column.unit else column.title


def _words(cell: Cell) -> list[Run]:
    if cell.mark is not None:
        hand = Hand(Type.BODY, Density.DESK, colour=COLOURS[cell.mark])
        return lettering.runs(cell.text, hand)
    hand = _STRONG if cell.strong else _TEXT
    if cell.kind is ColumnKind.CODE:
        return lettering.code_runs(cell.text, hand)
    about = [_TEXT.run("≈ ")] if cell.estimated and cell.text else []
    return about + lettering.runs(cell.text, hand)


def _lines(cell: Cell, width: float) -> list[list[Run]]:
    words = _words(cell)
    if cell.kind not in (ColumnKind.TEXT, ColumnKind.NAME):
        return [words]
    return lettering.run_lines(words, width) or [words]


def _paint_rows(painter: QPainter, paper: Paper, plan: _Plan, sheet: Sheet) -> None:
    head = QRectF(SIDE, 0, WIDE - 2 * SIDE, HEAD)
    painter.fillRect(head, look.colour("well"))
    for column, (left, width) in zip(paper.columns, plan.rooms, strict=True):
        room = QRectF(left, 0, width, HEAD)
        lettering.draw(painter, room, [_HEAD.run(_title(column))], _side(column))
    top = HEAD
    for place in range(sheet.first, sheet.end):
        cells = zip(paper.rows[place], plan.lines[place], plan.rooms, strict=True)
        for cell, lines, (left, width) in cells:
            _paint_cell(painter, cell, lines, QRectF(left, top, width, ROW))
        top += plan.heights[place]
        painter.setPen(QPen(look.colour("rule"), 1))
        painter.drawLine(int(SIDE), int(top), int(WIDE - SIDE), int(top))
    if sheet.is_last and paper.lead:
        _paint_totals(painter, paper, plan, top)


def _paint_totals(painter: QPainter, paper: Paper, plan: _Plan, top: float) -> None:
    painter.setPen(QPen(look.colour("ink"), 2))
    painter.drawLine(int(SIDE), int(top), int(WIDE - SIDE), int(top))
    left = plan.rooms[0][0]
    lettering.draw(painter, QRectF(left, top, WIDE / 2, ROW), [_TOTAL.run(paper.lead)])
    totals = dict(paper.totals)
    for column, (left, width) in zip(paper.columns, plan.rooms, strict=True):
        total = totals.get(column.key)
        if total is not None:
            room = QRectF(left, top, width, ROW)
            lettering.draw(painter, room, [_TOTAL.run(total.text)], _side(column))


def _side(column: Column[Any]) -> Side:
    return Side.RIGHT if column.is_right else Side.LEFT


def _paint_cell(
    painter: QPainter, cell: Cell, lines: Sequence[Sequence[Run]], room: QRectF
) -> None:
    if cell.mark is not None:
        top = room.center().y() - tokens.MARK_BADGE / 2
        marks.draw(painter, cell.mark, room.left(), top, tokens.MARK_BADGE)
        room = room.adjusted(tokens.MARK_BADGE + 6, 0, 0, 0)
    side = Side.RIGHT if cell.kind is ColumnKind.NUMBER else Side.LEFT
    for line in lines:
        lettering.draw(painter, room, line, side)
        room.translate(0, _TEXT.line)
