"""In a table too wide for its room the code stays while the rest scrolls sideways."""

from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.rows import Column, ColumnKind
from honeyledger.desktop.widgets.table import Table

COLUMNS: tuple[Column[str], ...] = (
    Column("code", "Drum", lambda row: row, ColumnKind.CODE),
    *(
        Column(f"n{number}", "Reading", lambda _row: "1\u202f000.0", ColumnKind.NUMBER)
        for number in range(8)
    ),
)


def test_the_codes_stay_in_view(qtbot: QtBot) -> None:
    table = Table(COLUMNS, lambda row: row)
    qtbot.addWidget(table)
    table.resize(420, 300)
    table.show()
    table.show_rows([f"D26-{number:04}-Y" for number in range(30)])
    QApplication.processEvents()
    bar = table.view.horizontalScrollBar()
    assert bar.maximum() > 0
    assert not table.frozen.is_shown()
    bar.setValue(bar.maximum())
    assert table.frozen.is_shown()
    codes = table.frozen.codes
    assert codes is not None
    assert codes.isVisible()
    assert codes.width() == table.view.columnWidth(0)
    assert codes.x() == 0
    table.view.verticalScrollBar().setValue(200)
    assert codes.verticalScrollBar().value() == 200
    table.select("D26-0003-Y")
    chosen = codes.selectionModel().selectedRows()
    assert [index.row() for index in chosen] == [3]
    table.resize(2000, 300)
    assert not table.frozen.is_shown()
