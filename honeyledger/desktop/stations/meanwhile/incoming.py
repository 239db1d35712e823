"""The page of the season's days."""

from collections.abc import Sequence

from honeyledger.desktop.models.command_lines import Command
from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.desktop.stations.meanwhile.page import (
    Columns,
    Page,
    honey_column,
    mass,
    number_column,
    summed,
    tr,
)
from honeyledger.domain.moments import format_day
from honeyledger.domain.units import MassUnit, format_mass, format_number
from honeyledger.services.standing_now import (
    DayNow,
    days_now,
)


def _day_columns(unit: MassUnit) -> Columns:
    return (
        Column(
            "day",
            tr("Day"),
            lambda row: format_day(row.day),
            ColumnKind.NAME,
            sort_key=lambda row: row.day,
            strong=True,
        ),
        number_column("supers", tr("Supers"), lambda row: row.supers, tr("in")),
        honey_column(tr("Received"), unit, estimated=True, key="received"),
        honey_column(tr("Loaded"), unit, estimated=True, key="loaded"),
        honey_column(tr("In drums"), unit, key="drummed"),
        number_column("jars", tr("Jars"), lambda row: row.jars, tr("filled")),
        honey_column(tr("Sent"), unit, key="sent"),
    )


def _day_answer(rows: Sequence[DayNow], unit: MassUnit) -> str:
    if not rows:
        return tr("Nothing was recorded in the last fortnight.")
    mass = format_mass(summed(rows, "drummed"), unit, 0)
    words = tr("{mass} went into drums in the last fortnight, from {n} supers received.")
    return words.format(mass=mass, n=format_number(summed(rows, "supers")))


def season_page() -> Page:
    """The page of this place."""
    return Page(
        title=tr("Season"),
        heading=tr("The last fourteen days"),
        rows=days_now,
        columns=_day_columns,
        code=lambda row: str(row.day),
        answer=_day_answer,
        totals=lambda rows, unit: {
            "supers": Total(format_number(summed(rows, "supers"))),
            "jars": Total(format_number(summed(rows, "jars"))),
            **{
                name: Total(
                    mass(summed(rows, name), unit), estimated=name in ("received", "loaded")
                )
                for name in ("received", "loaded", "drummed", "sent")
            },
        },
        empty=tr("No work in the last fortnight."),
        will=tr(
            "This page will draw yields, moisture and colour over the season against past ones, "
            "and say what the crop will be and when it ends at this pace."
        ),
        commands=(
            Command(tr("The newest entries"), "honeyledger entries --last 40"),
            Command(tr("What is on hand"), "honeyledger stock"),
            Command(tr("What went in and out of a run"), "honeyledger mass-balance {R}"),
            Command(tr("Check the whole ledger"), "honeyledger audit"),
        ),
    )
