"""The pages of where honey comes from: the yards; and the season's days."""

from collections.abc import Sequence

from honeyledger.desktop.models.command_lines import Command
from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.desktop.stations.meanwhile.page import (
    Columns,
    Page,
    code_column,
    counted,
    honey_column,
    mass,
    name_column,
    number_column,
    state_column,
    summed,
    tr,
)
from honeyledger.domain.moments import format_day
from honeyledger.domain.units import MassUnit, format_mass, format_number
from honeyledger.services.standing_now import (
    DayNow,
    YardNow,
    days_now,
    yards_now,
)


def _yard_columns(unit: MassUnit) -> Columns:
    return (
        code_column(tr("Yard")),
        state_column(),
        name_column("name", tr("Name"), lambda row: row.name),
        Column("where", tr("Place"), lambda row: row.where, from_width=900),
        number_column("colonies", tr("Colonies"), lambda row: row.colonies),
        number_column("supers", tr("Supers"), lambda row: row.supers, width=640),
        honey_column(tr("Honey"), unit, estimated=True),
    )


def _yard_answer(rows: Sequence[YardNow], unit: MassUnit) -> str:
    if not rows:
        return tr("No yard is registered yet: add the first one in Setup.")
    waiting = sum(not row.pulls for row in rows)
    mass = format_mass(summed(rows, "grams"), unit, 0)
    yards = counted(len(rows), tr("One yard"), tr("{n} yards"))
    if not waiting:
        words = tr("{yards}, all pulled this season: ≈ {mass} of honey so far.")
        return words.format(yards=yards, mass=mass)
    words = tr("{yards}, {n} not yet pulled this season; ≈ {mass} of honey so far.")
    return words.format(yards=yards, n=waiting, mass=mass)


def yards_page() -> Page:
    """The page of this place."""
    return Page(
        title=tr("Yards"),
        heading=tr("All yards, those not yet pulled first"),
        rows=yards_now,
        columns=_yard_columns,
        code=lambda row: str(row.code),
        answer=_yard_answer,
        totals=lambda rows, unit: {
            "colonies": Total(format_number(summed(rows, "colonies"))),
            "supers": Total(format_number(summed(rows, "supers"))),
            "grams": Total(mass(summed(rows, "grams"), unit), estimated=True),
        },
        empty=tr("No yard yet. Ctrl+0 opens Setup, where the first one is added."),
        will=tr(
            "This page will show what a colony gives in each yard against the others and past "
            "seasons, treatments with the day they are clear, and a map."
        ),
        commands=(
            Command(tr("Add a yard"), 'honeyledger register yard add "Coulee Bend" --colonies 56'),
            Command(
                tr("Change a yard"),
                "honeyledger register yard change {code} --colonies 60",
                "Y",
            ),
            Command(tr("Take in a table of yards"), "honeyledger import yards yards.csv"),
            Command(
                tr("Print a yard's code for its pull sheet"),
                "honeyledger labels {code} -o yard.pdf",
                "Y",
            ),
        ),
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
