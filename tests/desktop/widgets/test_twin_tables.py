"""Two tables side by side share their width by what they want."""

from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.desktop.widgets.table import Table, TablePlan
from honeyledger.desktop.widgets.twin_tables import TwinTables


def _table(*names: str) -> Table:
    columns = [Column("code", "Pull", lambda row: row, ColumnKind.CODE)]
    columns += [Column(name, name, lambda _row: "300.5", ColumnKind.NUMBER) for name in names]
    table = Table(columns, lambda row: row, plan=TablePlan(pitch=40))
    table.show_rows(["S26-0415-9", "S26-0414-B"])
    table.show_totals("In", {"code": Total("2")})
    return table


def test_the_one_that_wants_more_gets_more_and_they_fill_the_width(qtbot: QtBot) -> None:
    narrow, wide = _table("Net"), _table("Net", "Moist.", "Gross", "Tare")
    twins = TwinTables(narrow, wide)
    qtbot.addWidget(twins)
    twins.resize(900, 300)
    twins.show()
    assert wide.width() > narrow.width()
    assert narrow.width() + wide.width() + 1 == 900
    assert wide.x() == narrow.width() + 1
    assert narrow.foot.y() == wide.foot.y()
    twins.grab()


def test_neither_is_pushed_out(qtbot: QtBot) -> None:
    greedy = _table(*(f"Reading {number}" for number in range(12)))
    other = _table("Net")
    twins = TwinTables(greedy, other)
    qtbot.addWidget(twins)
    twins.resize(600, 300)
    twins.show()
    assert other.width() >= 0.3 * 600 - 1
    assert twins.sizeHint().height() <= 300
