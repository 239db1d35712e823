"""Looks after every table of the window, whichever station it stands in.

Long lists are ordered and narrowed in the read lane. How a person set the columns is kept from one
start to the next. Rows go to the clipboard and into files as the page shows them, made ready in
the work lane.
"""

import importlib
import re
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from PySide6.QtCore import QObject, QPoint
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QWidget

from honeyledger.desktop.desk import Desk, refusal_of
from honeyledger.desktop.drafts import DraftKeeper
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.column_choices import choices_of
from honeyledger.desktop.models.line_figures import grouped
from honeyledger.desktop.models.row_sheet import Sheet, SheetWords, sheet_of
from honeyledger.desktop.printing import into_file, shown_path
from honeyledger.desktop.widgets.table import Table
from honeyledger.desktop.widgets.table_menu import Taking, table_menu
from honeyledger.domain.moments import Moment, day_of, moment_at
from honeyledger.domain.refusals import Sentence

TABLE_NOT_WRITTEN = Sentence(
    "cannot-write-table",
    "The table cannot be written to {file} ({why}). Make room or allow writing there, then save "
    "it again.",
)
KEPT_AS = "tables"
_WORKBOOK = "honeyledger.desktop.workbook"
_CLOSING = frozenset({"closing"})
# What no system takes in the name of a file.
_NOT_IN_NAMES = re.compile(r'[\\/:*?"<>|\x00-\x1f]+')


class TableCare(QObject):
    """Every table that was seen on a page.

    Args:
        say: says a message in the toast line.
    """

    def __init__(self, desk: Desk, say: Callable[[Message], object], parent: QWidget) -> None:
        super().__init__(parent)
        self._desk, self._say, self._over = desk, say, parent
        self._tables: dict[str, Table] = {}
        self._kept: dict[str, Any] = {}
        self._keeper = DraftKeeper(desk.drafts, desk.jobs)
        self._keeper.name = KEPT_AS
        self._keeper.read(self._read)
        desk.refresh.watch(_CLOSING, lambda: self._keeper.keep_now(self._kept))

    def attend(self, station: str, page: QWidget) -> None:
        """Look after the tables of a page that are not looked after yet."""
        known = set(self._tables.values())
        for table in page.findChildren(Table):
            if table not in known:
                self._take_on(self._name(station, table), table)

    def _name(self, station: str, table: Table) -> str:
        """By its station and what its rows are called by; the second of the same kind is told."""
        stem = name = f"{station}/{table.model.columns[0].key}"
        number = 1
        while name in self._tables:
            number += 1
            name = f"{stem}/{number}"
        return name

    def _take_on(self, name: str, table: Table) -> None:
        self._tables[name] = table

        def beside(task: Callable[[], Any], then: Callable[[Any], None]) -> None:
            about = (self, name)
            self._desk.jobs.read(task, lambda outcome: then(outcome.value), about=about)

        table.rows.beside = beside
        table.columns.chosen.connect(lambda: self._keep(name))
        table.menu_asked.connect(lambda at: self.show_menu(table, at))
        table.copy_asked.connect(lambda: self.copy(table, table.view.chosen_places()))
        if name in self._kept:
            self._show_kept(name)

    # How the columns were set.

    def _read(self, kept: Any) -> None:
        self._kept = {**kept, **self._kept}
        for name in self._tables:
            if name in kept:
                self._show_kept(name)

    def _show_kept(self, name: str) -> None:
        layout = self._tables[name].columns
        layout.choices = choices_of(self._kept[name])
        layout.lay_out()

    def _keep(self, name: str) -> None:
        choices = self._tables[name].columns.choices
        if choices.are_none:
            self._kept.pop(name, None)
        else:
            self._kept[name] = choices.as_plain()
        self._keeper.keep(dict(self._kept))

    # What is asked of the table in hand.

    def in_hand(self, page: QWidget) -> Table | None:
        """The table with the keyboard, else the first that is seen with rows on the page."""
        seen = [table for table in page.findChildren(Table) if table.isVisible()]
        filled = [table for table in seen if table.model.rowCount()]
        held = [table for table in seen if table.has_keyboard()]
        return next(iter([*held, *filled, *seen]), None)

    def handle(self, action: str, page: QWidget) -> bool:
        """A key that is about a table: whether there is one."""
        doing: dict[str, Callable[[Table], object]] = {
            "find": Table.begin_find,
            "table": self._show_menu_at_head,
            "save-table": self.save,
        }
        table = self.in_hand(page)
        if action not in doing or table is None:
            return False
        doing[action](table)
        return True

    def _show_menu_at_head(self, table: Table) -> None:
        self.show_menu(table, table.view.viewport().mapToGlobal(QPoint(0, 0)))

    def show_menu(self, table: Table, at: QPoint) -> None:
        """What can be done with a table."""
        taking = Taking(
            copy_all=lambda: self.copy(table, []),
            save=lambda: self.save(table),
            save_book=lambda: self.save(table, as_book=True),
        )
        menu = table_menu(table, taking, self._over)
        menu.aboutToHide.connect(menu.deleteLater)
        menu.popup(at)

    # Rows for other programs.

    def copy(self, table: Table, places: list[int]) -> None:
        """Copy these rows, or all that are shown, for a spreadsheet."""
        columns, rows, words = table.columns.columns(), table.model.rows(), _sheet_words(self)

        def made() -> tuple[int, str]:
            meant = [rows[at] for at in places] if places else rows
            return len(meant), sheet_of(columns, meant, words).as_tabs()

        self._desk.jobs.work(lambda _report: made(), self._copied)

    def _copied(self, outcome: Outcome[tuple[int, str]]) -> None:
        if outcome.value is None:
            return
        count, text = outcome.value
        QGuiApplication.clipboard().setText(text)
        lead = self.tr("One row is copied.") if count == 1 else self.tr("{n} rows are copied.")
        words = self.tr("Paste them into a spreadsheet.")
        self._say(Message(Mark.READY, lead.format(n=grouped(count)), words))

    def save(self, table: Table, *, as_book: bool = False) -> None:
        """Write what is shown into a file among the person's papers, plain or as a workbook."""
        columns, rows, words = table.columns.columns(), table.model.rows(), _sheet_words(self)
        desk = self._desk
        moment = moment_at(desk.house.clock(), desk.zone)
        called = " ".join(_NOT_IN_NAMES.sub(" ", table.view.accessibleName()).split())
        file = desk.papers / f"{called} {day_of(moment)}.{'xlsx' if as_book else 'csv'}"

        def write() -> Path:
            sheet: Sheet = sheet_of(columns, rows, words)
            data = _book(sheet, called, moment) if as_book else sheet.as_csv()
            return into_file(file, data, TABLE_NOT_WRITTEN)

        desk.jobs.work(lambda _report: write(), self._saved)

    def _saved(self, outcome: Outcome[Path]) -> None:
        if outcome.value is None:
            refusal = refusal_of(outcome)
            self._say(Message(Mark.REFUSED, self.tr("Not saved."), refusal_words(refusal)))
            return
        lead = self.tr("The table as it is shown")
        words = self.tr("is in {file}, for a spreadsheet.")
        self._say(Message(Mark.READY, lead, words.format(file=shown_path(outcome.value))))


def _book(sheet: Sheet, called: str, moment: Moment) -> bytes:
    made: Callable[..., bytes] = importlib.import_module(_WORKBOOK).workbook_bytes
    local_ms = moment.at_ms + moment.offset_min * 60_000
    data: bytes = made(sheet, called, datetime(1970, 1, 1) + timedelta(milliseconds=local_ms))  # noqa: DTZ001
    return data


def _sheet_words(care: QObject) -> SheetWords:
    return SheetWords(
        note=care.tr("{column}, note"),
        about=care.tr("{column}, estimated"),
        colour_class=care.tr("{column}, class"),
        yes=care.tr("yes"),
    )
