"""Reports on the terminal: a table of one, or all of it on paper."""

import importlib
from pathlib import Path

from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.output import Column
from honeyledger.domain.units import parse_count
from honeyledger.ledger.verbs.printing import Printed
from honeyledger.services.printed import as_printed
from honeyledger.services.report_tables import Report, ReportTable

SHEETS = "honeyledger.commandline.report_sheets"
"""Loaded by name when a paper is written: what draws one takes a while to load."""


def parse_copies(text: str) -> int:
    """How many of a paper, as typed."""
    return parse_count(text, "a number of copies", least=1, field="copies")


def show_table(table: ReportTable) -> None:
    """A table, with its total; a sentence where there are no rows."""
    if not table.rows:
        output.say(table.none)
        return
    rows = [*table.rows, *([table.total] if table.total else [])]
    columns = [
        Column(column.head, right=column.right, wraps=not column.right and not column.is_code)
        for column in table.columns
    ]
    output.table(columns, rows)


def write_report(
    desk: Desk, report: Report, named: tuple[str, str], onto: tuple[str, str, str]
) -> None:
    """Write a report as a PDF, and put on record that it was printed.

    Args:
        named: the word its prints are on record under, and what it is of.
        onto: the file, the paper and how many copies, as typed.
    """
    (kind, of), (file, paper, typed) = named, onto
    copies = parse_copies(typed)
    now_ms, by = desk.house.clock(), desk.said().operator
    shown = desk.ask(lambda view: as_printed(view, report, kind, of, now_ms, by))
    fact = Printed(kind, of, copies)
    importlib.import_module(SHEETS).write(desk, shown, fact, Path(file), paper)
