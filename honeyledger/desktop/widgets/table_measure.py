"""What the columns of a table want: measured from its heads and its first rows."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

from honeyledger.desktop import lettering
from honeyledger.desktop.lettering import Hand
from honeyledger.desktop.models.column_choices import ColumnChoices
from honeyledger.desktop.models.rows import Cell, ColumnKind, RowsModel
from honeyledger.desktop.tokens import Density, Type
from honeyledger.desktop.widgets.table_cells import cell_width, least_width
from honeyledger.desktop.widgets.table_head import head_width
from honeyledger.desktop.widgets.table_widths import Wanted

# Measuring every one of many rows would cost more than a few cut names do: those that are seen
# first, and as many again from all the others.
SEEN_FIRST = 32
_GIVES_WAY = (ColumnKind.NAME, ColumnKind.TEXT, ColumnKind.COLOUR)
# The part of the longest text's letters from which another one may be wider.
_TELLS = 0.6
_MARK_LETTERS = 4
AS_IT_IS = ColumnChoices()


def shown_columns(
    model: RowsModel[Any], room: float, choices: ColumnChoices = AS_IT_IS
) -> list[int]:
    """The columns for which there is room, from left to right.

    Those that stand under the name are left out; where a person has chosen, that counts.
    """
    folded, keys = model.folded(), model.column_keys()
    shown = []
    for key in choices.keys_in_order(keys):
        at = keys.index(key)
        fits = model.columns[at].from_width <= room
        if at == 0 or (key not in folded and choices.shown.get(key, fits)):
            shown.append(at)
    return shown


def last_key(model: RowsModel[Any], shown: Sequence[int]) -> str:
    """The key of the column at the right end."""
    return model.columns[shown[-1]].key if shown else ""


def without_notes(wanted: Sequence[Wanted]) -> list[Wanted]:
    """The same columns as narrow as they can be with every name whole."""
    return [replace(one, content=one.bare) for one in wanted]


def widened(wanted: Sequence[Wanted], totals: Sequence[float]) -> list[Wanted]:
    """The same columns, those of numbers so wide that their total, in bold, fits too."""
    return [
        replace(one, content=max(one.content, total), bare=max(one.bare, total))
        if one.right
        else one
        for one, total in zip(wanted, totals, strict=True)
    ]


def measured_rows(count: int) -> list[int]:
    """The rows that say how wide columns are; the first and the last are among them."""
    first, others = range(min(count, SEEN_FIRST)), count - SEEN_FIRST
    if others <= SEEN_FIRST:
        return list(range(count))
    steps = range(1, SEEN_FIRST + 1)
    return [*first, *(SEEN_FIRST - 1 + step * others // SEEN_FIRST for step in steps)]


def wanted_columns(
    model: RowsModel[Any],
    shown: Sequence[int],
    density: Density,
    heading: str,
    span: Callable[[int, int], int],
) -> list[Wanted]:
    """What each shown column wants.

    Args:
        heading: a panel's heading in the first head.
        span: over how many columns a cell reaches; cells that reach further are not measured.
    """
    measured = measured_rows(model.rowCount())
    return [
        _wanted(
            model,
            at,
            density,
            _head(model, at, density, heading),
            [row for row in measured if span(row, at) == 1],
        )
        for at in shown
    ]


def telling_cells(cells: Sequence[Cell]) -> list[Cell]:
    """Those of which one is the widest, as far as the number of letters tells.

    A text of narrow letters is hardly ever wider than one that has half as many again, and codes
    that are as long as one another are as wide.
    """
    longest = max(map(_letters, cells), default=0) * _TELLS
    longest_note = max((len(cell.note) for cell in cells), default=0) * _TELLS
    found: dict[object, Cell] = {}
    for cell in cells:
        if _letters(cell) < longest and not (cell.note and len(cell.note) >= longest_note):
            continue
        plain = cell.kind is not ColumnKind.CODE or " " in cell.text or cell.note or cell.aside
        shape = cell if plain else (tuple(map(len, cell.text.split("-"))), cell.mark is None)
        found.setdefault(shape, cell)
    return list(found.values())


def _letters(cell: Cell) -> int:
    """How many letters the first line of a cell is like; a mark is like some."""
    before = _MARK_LETTERS if cell.mark is not None else 0
    return before + len(cell.text) + len(cell.aside) + 2 * cell.estimated


def _head(model: RowsModel[Any], at: int, density: Density, heading: str) -> float:
    if at == 0 and heading:
        return lettering.width([Hand(Type.TITLE, density).run(heading)])
    return head_width(model.columns[at])


def _wanted(
    model: RowsModel[Any], at: int, density: Density, head: float, rows: Sequence[int]
) -> Wanted:
    column = model.columns[at]
    cells = telling_cells([model.cell(row, at) for row in rows])
    full = [cell_width(cell, density) for cell in cells]
    bare = [
        cell_width(cell, density, with_note=False) if cell.note else width
        for cell, width in zip(cells, full, strict=True)
    ]
    least = float(column.least)
    if column.kind is ColumnKind.COLOUR:
        bare = [least_width(cell, density) + 2 for cell in cells]
        least = max([least, *bare])
    return Wanted(
        max([head, *full]) + 1,
        bare=max([head, *bare]) + 1,
        right=column.is_right,
        is_name=column.kind is ColumnKind.NAME,
        gives_way=column.kind in _GIVES_WAY,
        least=max(least, head),
    )
