"""Containers that are with customers, and what went at the farm gate, as rows of a table."""

from collections.abc import Sequence

from honeyledger.desktop.models.days import format_day
from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.desktop.stations.dispatch.rows import bare, counted, tr
from honeyledger.domain.moments import day_of
from honeyledger.domain.units import MassUnit, format_number
from honeyledger.services.empties_owed import Owed
from honeyledger.services.gate_sales import GateSale


def owed_key(row: Owed) -> str:
    """What a container is known by."""
    return row.container


def owed_columns() -> tuple[Column[Owed], ...]:
    """Whose it is with, and since when, with the drum it went out as."""
    return (
        Column("container", tr("Container"), lambda row: row.container, ColumnKind.CODE),
        Column(
            "customer",
            tr("With"),
            lambda row: row.customer_name,
            ColumnKind.NAME,
            note=lambda row: tr("{name}, went as {lot}").format(name=row.name, lot=row.lot),
        ),
        Column(
            "since",
            tr("Since"),
            lambda row: format_day(day_of(row.since)),
            sort_key=lambda row: row.since.at_ms,
        ),
    )


def owed_words(rows: Sequence[Owed]) -> str:
    """How many are out, and with how many customers."""
    customers = len({row.customer for row in rows})
    out = counted(len(rows), tr("1 container is out"), tr("{n} containers are out"))
    return f"{out}, {counted(customers, tr('with 1 customer'), tr('with {n} customers'))}"


def gate_key(row: GateSale) -> str:
    """A lot of a day."""
    return f"{row.day.isoformat()}/{row.code}"


def gate_columns(unit: MassUnit) -> tuple[Column[GateSale], ...]:
    """Day by day what went at the gate, the last day first."""
    return (
        Column(
            "day",
            tr("Day"),
            lambda row: format_day(row.day),
            sort_key=lambda row: row.day.isoformat(),
        ),
        Column("code", tr("Lot"), lambda row: row.code, ColumnKind.CODE),
        Column("name", tr("Goods"), lambda row: row.name, ColumnKind.NAME),
        Column(
            "jars",
            tr("Jars"),
            lambda row: format_number(row.jars) if row.jars else "",
            ColumnKind.NUMBER,
            sort_key=lambda row: row.jars,
        ),
        Column(
            "net",
            tr("Net"),
            lambda row: bare(row.grams, unit, 1),
            ColumnKind.NUMBER,
            unit=unit,
            sort_key=lambda row: row.grams,
        ),
    )


def gate_totals(rows: Sequence[GateSale], unit: MassUnit) -> tuple[str, dict[str, Total]]:
    """The season's gate in one line."""
    days = counted(len({row.day for row in rows}), tr("1 day"), tr("{n} days"))
    jars = format_number(sum(row.jars for row in rows))
    grams = sum(row.grams for row in rows)
    return days, {"jars": Total(jars), "net": Total(bare(grams, unit, 1), unit)}
