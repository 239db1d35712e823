"""A report's table on the terminal."""

import pytest

from honeyledger.commandline.report import show_table
from honeyledger.services.report_tables import ReportTable, code, figure, name


def test_a_table_with_its_total_and_one_without_rows(
    capsys: pytest.CaptureFixture[str],
) -> None:
    columns = (code("run"), name("line"), figure("in"))
    rows = (("R26-0001-X", "A", "9"),)
    show_table(ReportTable("runs", "By run", columns, rows, ("all", "", "10")))
    show_table(ReportTable("runs", "By run", columns, (), none="No run was closed."))
    assert capsys.readouterr().out.splitlines() == [
        "run         line  in",
        "R26-0001-X  A      9",
        "all               10",
        "No run was closed.",
    ]
