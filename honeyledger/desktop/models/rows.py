"""One table model for every table: frozen rows, and columns declared as data.

The rows are replaced as a whole; the model knows no view, no store and no order but the one it was
given. `UserRole` gives back the row itself, `CELL` what a cell is painted from.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from typing import Any, Generic, TypeVar

from PySide6.QtCore import (
    QAbstractTableModel,
    QCoreApplication,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    Qt,
)

from honeyledger.desktop.colouring import pfund_symbol
from honeyledger.desktop.language import say
from honeyledger.desktop.marks import Mark

Row = TypeVar("Row")
_Index = QModelIndex | QPersistentModelIndex
_NONE = QModelIndex()

CELL = Qt.ItemDataRole.UserRole + 1


class ColumnKind(Enum):
    """What a column holds, which decides its side, its type and how it gives way."""

    CODE = "code"
    STATE = "state"
    NAME = "name"
    TEXT = "text"
    COLOUR = "colour"
    NUMBER = "number"

    __hash__ = object.__hash__  # a member is equal to itself alone


@dataclass(frozen=True, slots=True)
class Cell:
    """What one cell shows."""

    text: str
    kind: ColumnKind
    note: str = ""
    aside: str = ""
    mark: Mark | None = None
    pfund_mm: float | None = None
    estimated: bool = False
    strong: bool = False
    detail: str = ""


@dataclass(frozen=True, slots=True)
class Column(Generic[Row]):
    """One column as data.

    Args:
        key: short stable name, for sorting, totals and kept widths.
        title: what its head says.
        text: the cell's text; for `COLOUR` it may be left out.
        unit: stands on the head's second line, once.
        note: a second line in caption under the text (the reason of a state).
        detail: what there is to know beyond that, for the tip and for screen readers.
        aside: a short remark in caption on the same line, after the text.
        mark: the mark before the text; in a `STATE` column it gives the text its colour.
        pfund_mm: for `COLOUR`, the reading; None where there is none.
        estimated: whether an approximation sign stands before the number.
        strong: whether the text is set in 600.
        sort_key: what the column is ordered by; None where the text shown says it all.
        least: the least width, for columns that give way.
        from_width: the table shows the column only when it is at least so wide.
    """

    key: str
    title: str
    text: Callable[[Row], str] = lambda _row: ""
    kind: ColumnKind = ColumnKind.TEXT
    unit: str = ""
    note: Callable[[Row], str] | None = None
    detail: Callable[[Row], str] | None = None
    aside: Callable[[Row], str] | None = None
    mark: Callable[[Row], Mark | None] | None = None
    pfund_mm: Callable[[Row], float | None] | None = None
    estimated: Callable[[Row], bool] | None = None
    strong: bool = False
    sort_key: Callable[[Row], Any] | None = None
    least: int = 72
    from_width: int = 0

    @property
    def is_right(self) -> bool:
        """Whether the cells stand at the right."""
        return self.kind is ColumnKind.NUMBER

    def cell(self, row: Row) -> Cell:
        """What this column shows of a row."""
        if self.kind is ColumnKind.COLOUR:
            mm = self.pfund_mm(row) if self.pfund_mm is not None else None
            return Cell(_reading(mm), self.kind, pfund_mm=mm)
        return Cell(
            say(self.text(row)),
            self.kind,
            note=say(self.note(row)) if self.note is not None else "",
            detail=say(self.detail(row)) if self.detail is not None else "",
            aside=say(self.aside(row)) if self.aside is not None else "",
            mark=self.mark(row) if self.mark is not None else None,
            estimated=self.estimated is not None and self.estimated(row),
            strong=self.strong,
        )


def tr_not_read() -> str:
    """What stands for a reading that was not made."""
    return QCoreApplication.translate("rows", "not read")


def _reading(mm: float | None) -> str:
    return tr_not_read() if mm is None else f"{mm:.0f} mm {pfund_symbol(mm)}"


def short_reading(cell: Cell) -> str:
    """A reading without its unit, which the column's head says too, for a narrow column."""
    return cell.text.replace(" mm ", " ")


@dataclass(frozen=True, slots=True)
class Total:
    """A total in the pinned foot: its text, its unit to the right of the column."""

    text: str
    unit: str = ""
    estimated: bool = False


@dataclass(frozen=True, slots=True)
class Placed(Generic[Row]):
    """Rows in an order, and where the row with each key stands."""

    rows: tuple[Row, ...]
    places: Mapping[str, int]


class RowsModel(QAbstractTableModel, Generic[Row]):
    """A table over a tuple of frozen rows.

    Args:
        columns: in the order code, state, name, then numbers.
        key: what tells a row from all others; selection is kept by it.
    """

    def __init__(
        self,
        columns: Sequence[Column[Row]],
        key: Callable[[Row], str],
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self.columns = tuple(columns)
        self._key = key
        self._rows: tuple[Row, ...] = ()
        self._places: Mapping[str, int] = {}
        self._folded: frozenset[str] = frozenset()
        self._noted: dict[int, Mapping[int, Cell]] = {}
        self.modelAboutToBeReset.connect(self._forget_noted)

    def show(self, rows: Iterable[Row]) -> None:
        """Show these rows and no others."""
        self.show_placed(self.placed(rows))

    def placed(self, rows: Iterable[Row]) -> Placed[Row]:
        """Rows made ready, which of many takes a while and may be done beside the window."""
        shown = tuple(rows)
        return Placed(shown, {self._key(row): place for place, row in enumerate(shown)})

    def show_placed(self, placed: Placed[Row]) -> None:
        """Show rows that were made ready."""
        self.beginResetModel()
        self._rows, self._places = placed.rows, placed.places
        self.endResetModel()

    def set_columns(self, columns: Sequence[Column[Row]]) -> None:
        """Show these columns of the rows, where there is more room or less."""
        self.beginResetModel()
        self.columns = tuple(columns)
        self.endResetModel()

    def rows(self) -> tuple[Row, ...]:
        """The rows, in the order shown."""
        return self._rows

    def row_at(self, place: int) -> Row:
        """The row at a place."""
        return self._rows[place]

    def key_at(self, place: int) -> str:
        """The key of the row at a place."""
        return self._key(self._rows[place])

    def place_of(self, key: str) -> int | None:
        """Where the row with that key stands, or None."""
        return self._places.get(key)

    def fold(self, keys: Iterable[str]) -> None:
        """Let these columns stand under the name, where there is no room for them."""
        self.beginResetModel()
        self._folded = frozenset(keys)
        self.endResetModel()

    def folded(self) -> frozenset[str]:
        """The columns that stand under the name."""
        return self._folded

    def cell(self, place: int, column: int) -> Cell:
        """What a cell shows."""
        row = self._rows[place]
        made = self.columns[column].cell(row)
        if self._folded and made.kind is ColumnKind.NAME:
            return replace(made, note=", ".join([*self._folded_words(row), made.note]).strip(", "))
        return made

    def _folded_words(self, row: Row) -> list[str]:
        return [
            f"{text} {column.unit or column.title.lower()}"
            for column in self.columns
            if column.key in self._folded and (text := column.text(row))
        ]

    def column_keys(self) -> list[str]:
        """The keys of the columns, in order."""
        return [column.key for column in self.columns]

    def has_notes(self) -> bool:
        """Whether any column may have a second line."""
        return bool(self._folded) or any(column.note is not None for column in self.columns)

    def noted_columns(self) -> list[int]:
        """The columns that may have a second line."""
        return [
            at
            for at, column in enumerate(self.columns)
            if column.note is not None or (self._folded and column.kind is ColumnKind.NAME)
        ]

    def noted(self, place: int) -> Mapping[int, Cell]:
        """The cells of a row that have a second line, by column.

        They are kept until there are other rows: how much room they have is asked much more often.
        """
        found = self._noted.get(place)
        if found is None:
            cells = {at: self.cell(place, at) for at in self.noted_columns()}
            found = self._noted[place] = {at: cell for at, cell in cells.items() if cell.note}
        return found

    def _forget_noted(self) -> None:
        self._noted = {}

    def is_two_line(self, place: int) -> bool:
        """Whether a row needs two lines."""
        return bool(self.noted(place))

    def rowCount(self, parent: _Index = _NONE) -> int:
        return 0 if parent.isValid() else len(self._rows)

    def columnCount(self, parent: _Index = _NONE) -> int:
        return 0 if parent.isValid() else len(self.columns)

    def data(self, index: _Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if not index.isValid():
            return None
        if role == Qt.ItemDataRole.UserRole:
            return self._rows[index.row()]
        if role == Qt.ItemDataRole.TextAlignmentRole:
            right = self.columns[index.column()].is_right
            side = Qt.AlignmentFlag.AlignRight if right else Qt.AlignmentFlag.AlignLeft
            return side | Qt.AlignmentFlag.AlignVCenter
        if role not in (
            Qt.ItemDataRole.DisplayRole,
            Qt.ItemDataRole.AccessibleTextRole,
            CELL,
        ):
            return None
        cell = self.cell(index.row(), index.column())
        if role == CELL:
            return cell
        if role == Qt.ItemDataRole.DisplayRole:
            return cell.text
        return self._spoken(index.column(), cell)

    def _spoken(self, column: int, cell: Cell) -> str:
        head = self.columns[column]
        about = QCoreApplication.translate("rows", "about {n}") if cell.estimated else "{n}"
        said = f"{head.title}: {about.format(n=cell.text)} {head.unit}".strip()
        return ", ".join(part for part in (said, cell.aside, cell.detail or cell.note) if part)

    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> Any:
        if orientation != Qt.Orientation.Horizontal or not 0 <= section < len(self.columns):
            return None
        column = self.columns[section]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole):
            return f"{column.title} {column.unit}".strip()
        if role == Qt.ItemDataRole.UserRole:
            return column
        return None
