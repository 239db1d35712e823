"""The sheet for walking a room or a row: what should stand there, a box to tick behind each.

Lines are left at the end for what stands there and is not on the list.
"""

from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.list_paper import ListColumn, ListPaper, ListTable, list_pdf
from honeyledger.domain.moments import day_of, format_day
from honeyledger.domain.units import MassUnit, format_mass
from honeyledger.services.floor_papers import StandingPaper
from honeyledger.services.rooms import StandsHere

_BLANK_LINES = 5


def standing_list_pdf(
    standing: StandingPaper,
    typefaces: Typefaces,
    *,
    paper: str = "a4",
    unit: MassUnit = "kg",
    copies: int = 1,
) -> bytes:
    """Print what should stand in a room or a row.

    Raises:
        Refusal: another size of paper, or a sign that cannot be printed.
    """
    return list_pdf(_listed(standing, unit), typefaces, size=paper, copies=copies)


def _listed(standing: StandingPaper, unit: MassUnit) -> ListPaper:
    columns = (
        ListColumn("Row", 1.3),
        ListColumn("Code", 3, is_code=True),
        ListColumn("What", 1.9),
        ListColumn("Since", 2.4),
        ListColumn("Honey", 1.6, unit, right=True),
        ListColumn("Supers, jars", 1.8, right=True),
        ListColumn("", 3.6),
    )
    count = len(standing.rows)
    grams = sum(row.grams for row in standing.rows)
    blank = ("",) * len(columns)
    return ListPaper(
        house=standing.house,
        title="What should stand there",
        head=standing.head,
        facts=(
            ("Room", standing.room),
            ("Row", standing.row or "all"),
        ),
        tables=(
            ListTable(
                "By the books",
                columns,
                [_row(row, unit) for row in standing.rows],
                ("", f"{count} in all", "", "", _bare(grams, unit) if grams else "", "", ""),
                ticks=True,
                none="Nothing should stand there.",
            ),
            ListTable("Stands there, and is not on the list", columns, [blank] * _BLANK_LINES),
        ),
        sign=("Walked by", "Day and time"),
        printed=standing.printed,
        again=standing.again,
    )


def _row(row: StandsHere, unit: MassUnit) -> tuple[str, ...]:
    notes = [*(["missing"] if row.missing else []), *(["on hold"] if row.held else [])]
    return (
        row.row,
        row.code,
        row.noun,
        format_day(day_of(row.since)),
        _bare(row.grams, unit) if row.grams else "",
        str(row.pieces or ""),
        ", ".join(notes),
    )


def _bare(grams: int, unit: MassUnit) -> str:
    """A mass without its unit, which stands in the head."""
    return format_mass(grams, unit).removesuffix(f" {unit}")
