"""A day's work as a report: a table a station, a box to tick behind each thing."""

from honeyledger.domain.moments import format_day
from honeyledger.services.day_sheet import STATIONS, WHEN, DaySheet, ToDo
from honeyledger.services.report_tables import Report, ReportTable, cells, name

FEW = 6
NOTHING = "Nothing is due today, by what is recorded."


def day_report(sheet: DaySheet) -> Report:
    """The sheet for the wall."""
    return Report(
        title="Day sheet",
        house=sheet.house,
        head=sheet.head,
        facts=(
            ("Day", format_day(sheet.day)),
            ("To do", str(len(sheet.rows))),
            ("Overdue", str(sheet.overdue)),
        ),
        says=() if sheet.rows else (NOTHING,),
        tables=tuple(_station(sheet, station) for station in STATIONS if sheet.at(station)),
        ticks=True,
        sign=("Seen by", "Day and time"),
    )


def day_table(sheet: DaySheet) -> ReportTable:
    """All stations in one table."""
    columns = (name("station", 2.2), name("", 1.6), name("what", 8), name("of", 5))
    rows = cells(sheet.rows, lambda row: (row.station, *to_do_cells(row)))
    return ReportTable("today", "Today", columns, rows, none=NOTHING)


def _station(sheet: DaySheet, station: str) -> ReportTable:
    columns = (name("", 1.6), name("what", 8), name("of", 5))
    return ReportTable(station, station, columns, cells(sheet.at(station), to_do_cells))


def to_do_cells(row: ToDo) -> tuple[str, str, str]:
    """When, what, and of which codes: the first few, and how many more there are."""
    codes = ", ".join(row.codes[:FEW])
    more = len(row.codes) - FEW
    return WHEN[row.when], row.what, f"{codes} and {more} more" if more > 0 else codes
