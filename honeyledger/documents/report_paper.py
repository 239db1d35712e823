"""A report on paper: its sentences, its tables one under another, boxes to tick where it is work.

Words that have no room in their column go on in the next line, so that nothing is left out.
"""

from collections.abc import Sequence

from honeyledger.documents.fonts import TEXT, Typefaces, wrapped
from honeyledger.documents.list_paper import (
    ListColumn,
    ListPaper,
    ListTable,
    column_mm,
    lists_pdf,
)
from honeyledger.documents.stock import PAPERS
from honeyledger.services.report_tables import Report, ReportTable

_SIZE_PT = 10


def report_pdf(
    report: Report, typefaces: Typefaces, *, paper: str = "a4", copies: int = 1
) -> bytes:
    """Print a report, each copy with its own page numbers.

    Raises:
        Refusal: another size of paper, or a sign that cannot be printed.
    """
    width_mm = PAPERS[paper][0] if paper in PAPERS else 0.0
    tables = [_table(table, ticks=report.ticks) for table in report.tables]
    listed = ListPaper(
        house=report.house,
        title=report.title,
        head=report.head,
        tables=tuple(_broken(table, typefaces, width_mm) for table in tables),
        facts=report.facts,
        says=report.says,
        sign=report.sign,
        of=report.of,
        printed=report.printed,
        again=report.again,
        bands=report.bands,
        scan=report.scan,
    )
    return lists_pdf([listed] * copies, typefaces, size=paper)


def _table(table: ReportTable, *, ticks: bool) -> ListTable:
    columns = tuple(
        ListColumn(column.head, column.part, right=column.right, is_code=column.is_code)
        for column in table.columns
    )
    return ListTable(
        table.title,
        columns,
        table.rows,
        table.total,
        ticks=ticks and not table.box_mm,
        none=table.none,
        box_mm=table.box_mm,
    )


def _broken(table: ListTable, typefaces: Typefaces, width_mm: float) -> ListTable:
    """Its words broken into lines; codes and figures stay whole."""
    if not width_mm or table.box_mm:
        return table
    rooms = column_mm(table, width_mm)

    def row(cells: Sequence[str]) -> tuple[str, ...]:
        return tuple(
            cell
            if column.right or column.is_code
            else "\n".join(wrapped(typefaces.checked(cell, TEXT), TEXT, _SIZE_PT, room))
            for cell, column, room in zip(cells, table.columns, rooms, strict=True)
        )

    rows = [row(cells) for cells in table.rows]
    return ListTable(table.title, table.columns, rows, table.total, table.ticks, table.none)
