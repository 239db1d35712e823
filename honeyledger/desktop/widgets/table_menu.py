"""What can be done with a table, as a list of commands: all of it by the keyboard alone."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QCoreApplication
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QWidget

from honeyledger.desktop import style
from honeyledger.desktop.models.column_choices import ColumnChoices
from honeyledger.desktop.models.rows import Column
from honeyledger.desktop.widgets.table import Table

_Do = Callable[[], object]


@dataclass(frozen=True, slots=True)
class Taking:
    """What becomes of a table's rows outside of it, which is not the table's affair."""

    copy_all: _Do
    save: _Do
    save_book: _Do


def _tr(text: str) -> str:
    return QCoreApplication.translate("table_menu", text)


def table_menu(table: Table, taking: Taking, parent: QWidget) -> QMenu:
    """The commands for a table as it is now."""
    menu = _dressed(QMenu(parent))
    _command(menu, _tr("Find"), table.begin_find)
    if table.sorts_itself:
        _add_order(_dressed(menu.addMenu(_tr("Order by"))), table)
    _add_columns(_dressed(menu.addMenu(_tr("Columns"))), table)
    menu.addSeparator()
    _command(menu, _tr("Copy all rows"), taking.copy_all)
    _command(menu, _tr("Save as a file"), taking.save)
    _command(menu, _tr("Save as a workbook"), taking.save_book)
    return menu


def _dressed(menu: QMenu) -> QMenu:
    menu.setStyle(style.measured())
    return menu


def _command(menu: QMenu, words: str, do: _Do) -> QAction:
    action = menu.addAction(words)
    action.triggered.connect(lambda _checked=False: do())
    return action


def _checked(menu: QMenu, words: str, do: _Do, *, on: bool) -> QAction:
    action = _command(menu, words, do)
    action.setCheckable(True)
    action.setChecked(on)
    return action


def _add_order(menu: QMenu, table: Table) -> None:
    meant = table.rows.meant
    for column in table.columns.columns():
        words = column.title
        if column.key == meant.by:
            words = _tr("{column}, from the last") if meant.descending else _tr("{column}, now")
        order = _to(table.order_by, column.key)
        _checked(menu, words.format(column=column.title), order, on=column.key == meant.by)
    menu.addSeparator()
    _checked(menu, _tr("As they were given"), _to(table.order_by, ""), on=not meant.by)


def _to(do: Callable[[str], object], key: str) -> _Do:
    return lambda: do(key)


def _add_columns(menu: QMenu, table: Table) -> None:
    layout = table.columns
    shown = {column.key for column in layout.columns()}
    for at, column in enumerate(table.model.columns):
        _add_column(
            _dressed(menu.addMenu(column.title)), table, column, (column.key in shown, at == 0)
        )
    menu.addSeparator()
    _command(menu, _tr("All as at first"), lambda: layout.choose(ColumnChoices()))


def _add_column(menu: QMenu, table: Table, column: Column[Any], now: tuple[bool, bool]) -> None:
    """The commands for one column: whether it is shown now, and whether it is the first."""
    layout, key, (is_shown, is_first) = table.columns, column.key, now
    if not is_first:
        show = lambda: layout.show_column(key, not is_shown)  # noqa: E731
        _checked(menu, _tr("Shown"), show, on=is_shown)
    if not is_shown:
        return
    _command(menu, _tr("Wider"), lambda: layout.widen_column(key, 1))
    _command(menu, _tr("Narrower"), lambda: layout.widen_column(key, -1))
    if not is_first:
        _command(menu, _tr("To the left"), lambda: layout.move_column(key, -1))
        _command(menu, _tr("To the right"), lambda: layout.move_column(key, 1))
