"""Columns of a report."""

from honeyledger.services.report_tables import ReportColumn, cells, code, figure, name


def test_columns_by_what_stands_in_them() -> None:
    assert name("yard", 5) == ReportColumn("yard", 5)
    assert figure("honey") == ReportColumn("honey", 2.0, right=True)
    assert code("run") == ReportColumn("run", 3.0, is_code=True)


def test_rows_as_cells() -> None:
    assert cells([1, 2], lambda row: (str(row), "x")) == (("1", "x"), ("2", "x"))
