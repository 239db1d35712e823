"""A report on paper: its sentences, its tables one under another, boxes to tick for work."""

from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.list_paper import (
    ListColumn,
    ListPaper,
    ListTable,
    lists_pdf,
)
from honeyledger.services.report_tables import Report, ReportTable


def report_pdf(
    report: Report, typefaces: Typefaces, *, paper: str = "a4", copies: int = 1
) -> bytes:
    """Print a report, each copy with its own page numbers.

    Raises:
        Refusal: another size of paper, or a sign that cannot be printed.
    """
    listed = ListPaper(
        house=report.house,
        title=report.title,
        head=report.head,
        tables=tuple(_table(table, ticks=report.ticks) for table in report.tables),
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
