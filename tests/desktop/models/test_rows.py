"""One model serves every table: columns are data, rows are replaced as a whole."""

from dataclasses import dataclass
from typing import Any

import pytest
from PySide6.QtCore import Qt
from pytestqt.modeltest import ModelTester

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.rows import (
    CELL,
    Column,
    ColumnKind,
    RowsModel,
    short_reading,
)


@dataclass(frozen=True)
class Drum:
    code: str
    state: str
    net_g: int | None
    mm: float | None = None


DRUMS = (
    Drum("D26-0611-Y", "ready", 300_500, 39),
    Drum("D26-0612-W", "hold", None),
    Drum("D26-0613-U", "ready", 41_000, 44),
)
COLUMNS: tuple[Column[Drum], ...] = (
    Column("code", "Drum", lambda row: row.code, ColumnKind.CODE),
    Column(
        "state",
        "State",
        lambda row: row.state,
        ColumnKind.STATE,
        mark=lambda row: Mark.HOLD if row.state == "hold" else Mark.READY,
        note=lambda row: "treatment record" if row.state == "hold" else "",
    ),
    Column("name", "Where", lambda _row: "store", ColumnKind.NAME, aside=lambda _row: "row 3"),
    Column("colour", "Colour", kind=ColumnKind.COLOUR, unit="Pfund mm", pfund_mm=lambda r: r.mm),
    Column(
        "net",
        "Net",
        lambda row: "" if row.net_g is None else f"{row.net_g / 1000:.1f}",
        ColumnKind.NUMBER,
        unit="kg",
        estimated=lambda row: row.net_g == 41_000,
        sort_key=lambda row: row.net_g,
    ),
)


@pytest.fixture
def model() -> RowsModel[Drum]:
    made = RowsModel(COLUMNS, lambda row: row.code)
    made.show(DRUMS)
    return made


def test_the_model_keeps_qts_rules_full_folded_and_empty(
    model: RowsModel[Drum], qtmodeltester: ModelTester
) -> None:
    qtmodeltester.check(model)
    model.fold(["net"])
    qtmodeltester.check(model)
    model.show([])
    qtmodeltester.check(model)
    assert model.rowCount() == 0


def _data(model: RowsModel[Drum], row: int, column: int, role: int) -> Any:
    return model.data(model.index(row, column), role)


def test_a_cell_says_its_text_its_row_and_how_it_is_painted(model: RowsModel[Drum]) -> None:
    assert _data(model, 0, 4, Qt.ItemDataRole.DisplayRole) == "300.5"
    assert _data(model, 1, 0, Qt.ItemDataRole.UserRole) is DRUMS[1]
    cell = _data(model, 1, 1, CELL)
    assert (cell.text, cell.mark, cell.note) == ("hold", Mark.HOLD, "treatment record")
    assert _data(model, 2, 4, CELL).estimated
    right = _data(model, 0, 4, Qt.ItemDataRole.TextAlignmentRole)
    assert right & Qt.AlignmentFlag.AlignRight


def test_a_colour_is_said_in_words_and_an_unread_one_too(model: RowsModel[Drum]) -> None:
    cells = [model.cell(row, 3) for row in range(3)]
    assert [cell.text for cell in cells] == ["39 mm XLA", "not read", "44 mm XLA"]
    assert [short_reading(cell) for cell in cells] == ["39 XLA", "not read", "44 XLA"]


def test_a_screen_reader_hears_the_head_the_unit_and_the_note(model: RowsModel[Drum]) -> None:
    role = Qt.ItemDataRole.AccessibleTextRole
    assert _data(model, 2, 4, role) == "Net: about 41.0 kg"
    assert _data(model, 1, 1, role) == "State: hold, treatment record"
    assert _data(model, 0, 2, role) == "Where: store, row 3"


def test_the_head_has_title_and_unit(model: RowsModel[Drum]) -> None:
    across = Qt.Orientation.Horizontal
    assert model.headerData(4, across) == "Net kg"
    assert model.headerData(4, across, Qt.ItemDataRole.UserRole) is COLUMNS[4]
    assert model.headerData(9, across) is None
    assert model.column_keys() == ["code", "state", "name", "colour", "net"]


def test_rows_are_found_by_their_key(model: RowsModel[Drum]) -> None:
    assert model.place_of("D26-0613-U") == 2
    assert model.place_of("D26-9999-Q") is None
    assert model.key_at(1) == "D26-0612-W"
    assert model.row_at(1) is DRUMS[1]
    assert model.rows() == DRUMS


def test_columns_without_room_stand_under_the_name(model: RowsModel[Drum]) -> None:
    assert [model.is_two_line(row) for row in range(3)] == [False, True, False]
    model.fold(["net"])
    assert model.cell(0, 2).note == "300.5 kg"
    assert model.cell(1, 2).note == "", "what has no value is not named"
    assert model.has_notes()
    assert model.is_two_line(0)
    assert model.folded() == {"net"}


def test_second_lines_are_kept_until_there_are_other_rows(model: RowsModel[Drum]) -> None:
    kept = model.noted(1)
    assert [cell.note for cell in kept.values()] == [model.cell(1, 1).note]
    assert model.noted(1) is kept
    model.show(DRUMS[:1])
    assert model.noted(0) == {}


def test_rows_made_ready_elsewhere_are_shown_as_they_are(model: RowsModel[Drum]) -> None:
    placed = model.placed(reversed(DRUMS))
    assert model.rows() == DRUMS, "nothing is shown yet"
    model.show_placed(placed)
    assert model.rows() == DRUMS[::-1]
    assert model.place_of("D26-0611-Y") == 2


def test_other_columns_are_shown_of_the_same_rows(
    model: RowsModel[Drum], qtmodeltester: ModelTester
) -> None:
    qtmodeltester.check(model)
    model.set_columns(COLUMNS[:2])
    assert model.columnCount() == 2
    assert model.column_keys() == [column.key for column in COLUMNS[:2]]
    assert model.rows() == DRUMS
