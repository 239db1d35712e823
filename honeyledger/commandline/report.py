"""Reports on the terminal: a table of one, or all of it on paper."""

import importlib
from pathlib import Path

from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.output import Column
from honeyledger.services.report_tables import Report, ReportTable

SHEETS = "honeyledger.commandline.report_sheets"
"""Loaded by name when a paper is written: what draws one takes a while to load."""


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


def write_report(desk: Desk, report: Report, file: Path, paper: str) -> None:
    """Write a report as a PDF."""
    importlib.import_module(SHEETS).write(desk, report, file, paper)
