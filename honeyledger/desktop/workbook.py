"""A table as a workbook: figures as figures with their unit in the head, days as days.

Nothing in it is reckoned: texts are written as texts, also those that begin like a formula. Loaded
by name when one is saved, with the library that writes it.
"""

from collections.abc import Sequence
from datetime import datetime
from io import BytesIO
from typing import Any

import xlsxwriter  # type: ignore[import-untyped]

from honeyledger.desktop.models.row_order import day_shown, is_number
from honeyledger.desktop.models.row_sheet import Sheet, is_like_formula

_OPTIONS = {
    "in_memory": True,
    "strings_to_formulas": False,
    "strings_to_numbers": False,
    "strings_to_urls": False,
}
_WIDEST = 48
_ROOM = 2
# What no sheet may be called by, and how long its name may be.
_NOT_IN_SHEETS = "[]:*?/\\"
_SHEET_NAME = 31


def workbook_bytes(sheet: Sheet, name: str, written: datetime) -> bytes:
    """The file of a sheet.

    Args:
        name: how the table is called.
        written: when; the same sheet of the same moment is the same bytes.
    """
    out = BytesIO()
    book = xlsxwriter.Workbook(out, _OPTIONS)
    book.set_properties({"title": name, "created": written})
    page = book.add_worksheet(_sheet_name(name))
    head = book.add_format({"bold": True, "bottom": 1, "text_wrap": True, "valign": "bottom"})
    for at, text in enumerate(sheet.heads):
        page.write_string(0, at, text, head)
        _write_column(book, page, sheet, at)
    page.freeze_panes(1, 1)
    if sheet.heads:
        page.autofilter(0, 0, max(1, len(sheet.rows)), len(sheet.heads) - 1)
    book.close()
    return out.getvalue()


def _write_column(book: Any, page: Any, sheet: Sheet, at: int) -> None:
    cells = [row[at] for row in sheet.rows]
    longest = max(map(len, (sheet.heads[at], *cells)))
    page.set_column(at, at, min(_WIDEST, longest) + _ROOM)
    is_figure = at < len(sheet.figures) and sheet.figures[at]
    figures = book.add_format({"num_format": _figure_format(cells)}) if is_figure else None
    days = [] if is_figure else [day_shown(cell) for cell in cells if cell]
    dates = book.add_format({"num_format": _day_format(days)}) if days and all(days) else None
    plain, guard = book.add_format(), book.add_format({"quote_prefix": True})
    for row, cell in enumerate(cells, 1):
        if figures is not None and is_number(cell):
            page.write_number(row, at, float(cell), figures)
        elif dates is not None and cell:
            page.write_datetime(row, at, day_shown(cell), dates)
        elif cell:
            page.write_string(row, at, cell, guard if is_like_formula(cell) else plain)


def _figure_format(cells: Sequence[str]) -> str:
    """As many decimals as the page shows, the same down the column."""
    decimals = max((len(cell.partition(".")[2]) for cell in cells if is_number(cell)), default=0)
    return "#,##0" + ("." + "0" * decimals if decimals else "")


def _day_format(days: Sequence[datetime | None]) -> str:
    timed = any(day is not None and (day.hour or day.minute) for day in days)
    return "d mmm yyyy hh:mm" if timed else "d mmm yyyy"


def _sheet_name(name: str) -> str:
    kept = "".join(" " if sign in _NOT_IN_SHEETS else sign for sign in name)
    return " ".join(kept.split()).strip("'")[:_SHEET_NAME] or "Table"
