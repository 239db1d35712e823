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


def test_where_not_even_names_fit_side_by_side_one_stands_above_the_other(
    qtbot: QtBot,
) -> None:
    one, other = _table("Net", "Tare"), _table("Net", "Tare")
    twins = TwinTables(one, other)
    qtbot.addWidget(twins)
    twins.resize(1000, 300)
    twins.show()
    assert not twins.is_stacked()
    low = twins.minimumHeight()
    twins.resize(380, 500)
    assert twins.is_stacked()
    assert one.width() == other.width() == 380
    assert other.y() == one.height()
    assert twins.minimumHeight() > 2 * low, "the page scrolls rather than hide the rows"
    twins.grab()


def test_at_no_width_does_one_way_lead_to_the_other(qtbot: QtBot) -> None:
    for width in range(440, 640, 8):
        twins = TwinTables(_table("Net", "Tare"), _table("Net", "Tare"))
        qtbot.addWidget(twins)
        twins.resize(width, 500)
        twins.share()
        stacked = twins.is_stacked()
        twins.share()
        assert twins.is_stacked() == stacked, f"at {width}"


def test_neither_is_pushed_out(qtbot: QtBot) -> None:
    greedy = _table(*(f"Reading {number}" for number in range(5)))
    other = _table("Net")
    twins = TwinTables(greedy, other)
    qtbot.addWidget(twins)
    twins.resize(700, 300)
    twins.show()
    assert other.width() >= 0.3 * 700 - 1
    assert twins.sizeHint().height() <= 300


def test_a_scroll_bar_that_comes_pushes_nothing_over_the_other(qtbot: QtBot) -> None:
    one, other = _table("Honey"), _table("Net")
    twins = TwinTables(one, other)
    qtbot.addWidget(twins)
    twins.show()
    for height in (400, 130, 400, 100):
        twins.resize(700, height)
        assert one.geometry().right() < other.geometry().left()
        assert other.geometry().right() == twins.width() - 1


def test_one_that_is_hidden_leaves_its_room_to_the_other(qtbot: QtBot) -> None:
    one, other = _table("Net"), _table("Net", "Tare")
    twins = TwinTables(one, other)
    qtbot.addWidget(twins)
    twins.resize(900, 300)
    twins.show()
    beside = one.width()
    other.hide()
    twins.share()
    assert (one.width(), one.height()) == (900, 300)
    assert not twins.is_stacked()
    twins.grab()
    other.show()
    twins.share()
    assert one.width() == beside
