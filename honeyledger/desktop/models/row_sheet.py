"""What a table shows as a sheet for other programs: heads with their units, figures plain.

Columns stand as they do on the page. What the page says in small beside a value (a note, that it
is an estimate) has a column of its own, so that no figure loses it and none is spoilt by it.
"""

import csv
import io
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from honeyledger.desktop.colouring import pfund_symbol
from honeyledger.desktop.models.row_order import is_number, plain_number
from honeyledger.desktop.models.rows import Column, ColumnKind, Row

# Without it a spreadsheet takes UTF-8 for an old code page.
_MARK = "\ufeff"
# A spreadsheet would take a text that begins so for a formula, and reckon it.
_FORMULA = ("=", "+", "-", "@")


@dataclass(frozen=True, slots=True)
class SheetWords:
    """How the columns are called that hold what the page says in small."""

    note: str = "{column}, note"
    about: str = "{column}, estimated"
    colour_class: str = "{column}, class"
    yes: str = "yes"


@dataclass(frozen=True, slots=True)
class Sheet:
    """Heads and rows of plain text, as they are; `figures` says which columns hold figures."""

    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    figures: tuple[bool, ...] = ()

    def as_tabs(self) -> str:
        """As the clipboard takes it into a spreadsheet."""
        rows = (map(guarded, row) for row in self.rows)
        lines = ["\t".join(map(_one_line, row)) for row in (self.heads, *rows)]
        return "\n".join(lines) + "\n"

    def as_csv(self) -> bytes:
        """As a file that spreadsheets open."""
        out = io.StringIO(newline="")
        rows = csv.writer(out)
        rows.writerow(self.heads)
        for at in range(0, len(self.rows), _AT_ONCE):
            rows.writerows(
                [guarded(cell) for cell in row] for row in self.rows[at : at + _AT_ONCE]
            )
        return (_MARK + out.getvalue()).encode("utf-8")


def is_like_formula(text: str) -> bool:
    """Whether a spreadsheet would reckon a text instead of showing it."""
    return text.startswith(_FORMULA) and not is_number(text)


def guarded(text: str) -> str:
    """A text for a file of plain text: what would be a formula begins with an apostrophe."""
    return f"'{text}" if is_like_formula(text) else text


def _one_line(cell: str) -> str:
    return " ".join(cell.split())


# Written in pieces: all at once would hold the window's thread as well.
_AT_ONCE = 500

_Say = Callable[[Row], str]
_FIGURES = (ColumnKind.NUMBER, ColumnKind.COLOUR)


def sheet_of(
    columns: Sequence[Column[Row]], rows: Iterable[Row], words: SheetWords = SheetWords()
) -> Sheet:
    """These columns of these rows; a column of notes only where anything stands in it."""
    rows = tuple(rows)
    heads: list[str] = []
    lists: list[list[str]] = []
    figures: list[bool] = []
    for column in columns:
        for at, (head, say) in enumerate(_parts(column, words)):
            cells = [say(row) for row in rows]
            if at == 0 or any(cells):
                heads.append(head)
                lists.append(cells)
                figures.append(at == 0 and column.kind in _FIGURES)
    made = tuple(zip(*lists, strict=True)) if lists else ()
    return Sheet(tuple(heads), made, tuple(figures))


def _parts(column: Column[Row], words: SheetWords) -> list[tuple[str, _Say[Row]]]:
    """A column's own cells, and those of what it says in small."""
    if column.kind is ColumnKind.COLOUR:
        return _colour_parts(column, words)
    head = f"{column.title} {column.unit}".strip()
    made: list[tuple[str, _Say[Row]]] = [(head, lambda row: plain_number(column.text(row)))]
    estimated = column.estimated
    if estimated is not None:
        about = words.about.format(column=column.title)
        made.append((about, lambda row: words.yes if estimated(row) else ""))
    small = [say for say in (column.aside, column.note) if say is not None]
    if small:
        note = words.note.format(column=column.title)
        made.append((note, lambda row: ", ".join(t for say in small if (t := say(row)))))
    return made


def _colour_parts(column: Column[Row], words: SheetWords) -> list[tuple[str, _Say[Row]]]:
    read = column.pfund_mm

    def reading(row: Row) -> str:
        mm = read(row) if read is not None else None
        return "" if mm is None else f"{mm:g}"

    def named(row: Row) -> str:
        mm = read(row) if read is not None else None
        return "" if mm is None else pfund_symbol(mm)

    unit = column.unit or "Pfund mm"
    kind = words.colour_class.format(column=column.title)
    return [(f"{column.title} {unit}", reading), (kind, named)]
