"""Tables of every station: long lists beside the window, columns kept, rows for other programs."""

import threading
from collections.abc import Iterator
from pathlib import Path
from zipfile import ZipFile

import pytest
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.rows import Column, ColumnKind
from honeyledger.desktop.stations.trace.view import TraceView
from honeyledger.desktop.table_care import TABLE_NOT_WRITTEN, TableCare
from honeyledger.desktop.widgets.table import Table
from tests.desktop.rig import DeskRig, Rig

# By number: a thread of Qt's that is kept here when it has ended stands, for Python, where Qt has
# put another object since, and whoever asks for that one gets a thread.
THREADS: set[int] = set()


def _by_number(row: str) -> str:
    THREADS.add(threading.get_ident())
    return row


COLUMNS: tuple[Column[str], ...] = (
    Column("code", "Drum", lambda row: row, ColumnKind.CODE, sort_key=_by_number),
    Column("net", "Net", lambda _row: "1\u202f300.5", ColumnKind.NUMBER, unit="kg"),
)


class Page(QWidget):
    """A page with one table."""

    def __init__(self) -> None:
        super().__init__()
        self.table = Table(COLUMNS, lambda row: row, sorts_itself=True)
        self.table.setParent(self)
        self.table.view.setAccessibleName("Drums: on hand")
        self.resize(600, 400)
        self.table.resize(600, 400)


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    made = DeskRig(qtbot, tmp_path)
    yield made
    made.close()


@pytest.fixture
def said() -> list[str]:
    return []


def _looked_after(rig: DeskRig, said: list[str]) -> tuple[TableCare, Page]:
    page = Page()
    rig.bot.addWidget(page)
    care = TableCare(rig.desk, lambda message: said.append(message.sentence), page)
    care.attend("drums", page)
    page.show()
    rig.settle()
    return care, page


def test_a_long_list_is_ordered_in_another_thread_and_the_chosen_row_stays(
    rig: DeskRig, said: list[str]
) -> None:
    _, page = _looked_after(rig, said)
    page.table.show_rows([f"D26-{number:05}" for number in range(3_000)])
    page.table.select("D26-00007")
    THREADS.clear()
    page.table.order_by("code")
    page.table.order_by("code")
    page.table.select("D26-00008")
    rig.settle()
    assert page.table.model.key_at(0) == "D26-02999"
    assert page.table.selected_key() == "D26-00008"
    assert THREADS
    assert threading.get_ident() not in THREADS


def test_how_columns_were_set_outlives_a_restart(rig: DeskRig, said: list[str]) -> None:
    _, page = _looked_after(rig, said)
    page.table.columns.show_column("net", False)
    rig.settle()
    _, again = _looked_after(rig, said)
    again.table.show_rows(["D26-0001"])
    assert again.table.view.isColumnHidden(1)
    again.table.columns.choose(type(again.table.columns.choices)())
    rig.settle()
    _, third = _looked_after(rig, said)
    third.table.show_rows(["D26-0001"])
    assert not third.table.view.isColumnHidden(1)


def test_columns_set_as_the_window_closes_are_kept_too(rig: DeskRig, said: list[str]) -> None:
    _, page = _looked_after(rig, said)
    page.table.columns.show_column("net", False)
    rig.desk.refresh.broadcast(("closing",))
    assert "net" in (rig.folder / "drafts" / "tables.json").read_text("utf-8")
    rig.settle()


def test_two_tables_of_a_page_are_told_apart(rig: DeskRig, said: list[str]) -> None:
    care, page = _looked_after(rig, said)
    other = Table(COLUMNS, lambda row: row)
    other.setParent(page)
    care.attend("drums", page)
    care.attend("drums", page)
    other.columns.show_column("net", False)
    rig.settle()
    kept = (rig.folder / "drafts" / "tables.json").read_text("utf-8")
    assert '"drums/code/2"' in kept
    assert '"drums/code"' not in kept


def test_chosen_rows_and_all_rows_are_copied(rig: DeskRig, said: list[str]) -> None:
    care, page = _looked_after(rig, said)
    page.table.show_rows(["D26-0001", "D26-0002", "D26-0003"])
    page.table.select("D26-0002")
    page.table.copy_asked.emit()
    rig.settle()
    assert QGuiApplication.clipboard().text() == "Drum\tNet kg\nD26-0002\t1300.5\n"
    care.copy(page.table, [])
    rig.settle()
    assert QGuiApplication.clipboard().text().count("\n") == 4
    assert said == [
        "One row is copied. Paste them into a spreadsheet.",
        "3 rows are copied. Paste them into a spreadsheet.",
    ]


def test_what_is_shown_is_saved_under_the_table_s_name_and_the_day(
    rig: DeskRig, said: list[str]
) -> None:
    care, page = _looked_after(rig, said)
    page.table.show_rows(["D26-0001", "D26-0002"])
    page.table.narrow("0002")
    care.save(page.table)
    rig.settle()
    (file,) = (rig.folder / "papers").iterdir()
    assert file.name.startswith("Drums on hand 20")
    assert file.suffix == ".csv"
    assert file.read_text("utf-8-sig").splitlines() == ["Drum,Net kg", "D26-0002,1300.5"]
    assert said == [f"The table as it is shown is in {file}, for a spreadsheet."]


def test_what_is_shown_is_saved_as_a_workbook(rig: DeskRig, said: list[str]) -> None:
    care, page = _looked_after(rig, said)
    page.table.show_rows(["D26-0001", "D26-0002"])
    page.table.narrow("0002")
    care.save(page.table, as_book=True)
    rig.settle()
    (file,) = (rig.folder / "papers").iterdir()
    assert file.suffix == ".xlsx"
    assert said == [f"The table as it is shown is in {file}, for a spreadsheet."]
    with ZipFile(file) as book:
        page_xml = book.read("xl/worksheets/sheet1.xml").decode()
    assert "<v>1300.5</v>" in page_xml


def test_a_table_that_cannot_be_written_is_said(rig: DeskRig, said: list[str]) -> None:
    care, page = _looked_after(rig, said)
    rig.desk.papers.write_text("a file where a folder should be")
    care.save(page.table)
    rig.settle()
    (words,) = said
    assert words.startswith("Not saved. The table cannot be written to ")
    assert words.endswith("Make room or allow writing there, then save it again.")
    assert TABLE_NOT_WRITTEN.text == (
        "The table cannot be written to {file} ({why}). Make room or allow writing there, then "
        "save it again."
    )


def test_the_table_in_hand_is_the_one_with_the_keyboard(rig: DeskRig, said: list[str]) -> None:
    care, page = _looked_after(rig, said)
    assert care.in_hand(QWidget()) is None
    assert not care.handle("find", QWidget())
    assert not care.handle("print", page)
    assert care.handle("find", page)
    assert page.table.finding is not None
    assert page.table.finding.isVisible()


def test_the_keys_of_the_window_reach_any_station_s_table(qtbot: QtBot, tmp_path: Path) -> None:
    rig = Rig(qtbot, tmp_path)
    rig.keys("Ctrl+2", "Ctrl+F")
    table = rig.dock.table
    assert table.finding is not None
    assert rig.focused() == "Find in the table"
    rig.keys("Esc", "Ctrl+Shift+S")
    assert "for a spreadsheet" in rig.toast().sentence
    rig.keys("Ctrl+Shift+T")
    menu = QGuiApplication.instance().activePopupWidget()  # type: ignore[union-attr]
    assert next(one.text() for one in menu.actions() if one.text()) == "Find"
    menu.close()
    rig.close()


def test_tables_of_a_page_beside_the_trace_are_looked_after_as_soon_as_it_is_made(
    qtbot: QtBot, tmp_path: Path
) -> None:
    rig = Rig(qtbot, tmp_path)
    rig.window.open_station("trace")
    rig.settle()
    view = rig.window.stations["trace"]
    assert isinstance(view, TraceView)
    for aside in (view.asides.recall(), view.asides.residue()):
        tables = aside.widget.findChildren(Table)
        assert tables
        assert all(table.rows.beside is not None for table in tables)
    rig.close()
