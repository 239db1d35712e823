"""What the page of a place whose station is still to come is made of, and its usual columns."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.models.command_lines import Command
from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.domain.units import MassUnit, format_mass, format_number
from honeyledger.services.store import View

Columns = tuple[Column[Any], ...]


def tr(text: str) -> str:
    """A word of these pages, in the language in use."""
    return QCoreApplication.translate("meanwhile", text)


@dataclass(frozen=True, slots=True)
class Page:
    """One place's page.

    Args:
        title: the place's name.
        heading: what the table lists.
        rows: asks the ledger; it runs in the read lane.
        columns: the table's columns, in the house's unit.
        code: what a row is called by; its card opens.
        answer: the sentence that opens the page.
        totals: what stands in the table's foot.
        empty: what is said where there are no rows.
        will: what the station will show.
        commands: what does its work meanwhile.
    """

    title: str
    heading: str
    rows: Callable[[View, int], Sequence[Any]]
    columns: Callable[[MassUnit], Columns]
    code: Callable[[Any], str]
    answer: Callable[[Sequence[Any], MassUnit], str]
    totals: Callable[[Sequence[Any], MassUnit], dict[str, Total]]
    empty: str
    will: str
    commands: tuple[Command, ...]


def mass(grams: int, unit: MassUnit, decimals: int = 0) -> str:
    """A mass without its unit, which stands in the head."""
    return format_mass(grams, unit, decimals).removesuffix(f" {unit}")


def number_column(
    key: str, title: str, value: Callable[[Any], int], unit: str = "", width: int = 0
) -> Column[Any]:
    """A whole number; none where it is nothing."""
    return Column(
        key,
        title,
        lambda row: format_number(value(row)) if value(row) else "",
        ColumnKind.NUMBER,
        unit=unit,
        sort_key=value,
        from_width=width,
    )


def honey_column(
    title: str, unit: MassUnit, *, estimated: bool = False, key: str = "grams", decimals: int = 0
) -> Column[Any]:
    """A mass in the house's unit."""
    return Column(
        key,
        title,
        lambda row: mass(getattr(row, key), unit, decimals) if getattr(row, key) else "",
        ColumnKind.NUMBER,
        unit=unit,
        sort_key=lambda row: getattr(row, key),
        estimated=(lambda row: bool(getattr(row, key))) if estimated else None,
    )


def summed(rows: Sequence[Any], name: str) -> int:
    """The sum of one value over the rows."""
    return sum(getattr(row, name) for row in rows)
