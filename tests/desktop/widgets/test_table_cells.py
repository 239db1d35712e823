"""Cells are measured as they are painted: mark, swatch, text, note."""

import pytest

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.rows import Cell, ColumnKind
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.table_cells import (
    before_text,
    cell_runs,
    cell_width,
    is_cell_cut,
    least_width,
)

FLOOR = Density.FLOOR


def test_a_code_has_its_number_in_bold_and_words_in_its_column_are_words() -> None:
    weights = {run.font.weight() for run in cell_runs(Cell("D26-0611-Y", ColumnKind.CODE), FLOOR)}
    assert len(weights) == 2
    words = cell_runs(Cell("Cappings, barrel 4", ColumnKind.CODE, aside="weighed later"), FLOOR)
    assert [run.text.strip("\u00a0") for run in words] == ["Cappings, barrel 4", "weighed later"]


@pytest.mark.parametrize(
    ("mark", "colour", "weight"),
    [(Mark.READY, "ink", 400), (Mark.HOLD, "hold", 600), (Mark.WARNING, "alert", 600)],
)
def test_a_state_is_written_in_its_marks_colour(mark: Mark, colour: str, weight: int) -> None:
    run = cell_runs(Cell("dry first", ColumnKind.STATE, mark=mark), FLOOR)[0]
    assert run.colour == colour
    assert run.font.weight() == weight


def test_an_estimate_has_its_sign_in_quiet_ink() -> None:
    runs = cell_runs(Cell("688", ColumnKind.NUMBER, estimated=True), FLOOR)
    assert runs[0].text.startswith("≈")
    assert runs[0].colour == "ink2"
    assert runs[1].text == "688"


def test_marks_and_swatches_are_part_of_the_width() -> None:
    plain = Cell("ready", ColumnKind.STATE)
    marked = Cell("ready", ColumnKind.STATE, mark=Mark.READY)
    assert cell_width(marked, FLOOR) == cell_width(plain, FLOOR) + 28
    assert before_text(Cell("39 mm XLA", ColumnKind.COLOUR, pfund_mm=39)) == 28


def test_a_note_may_need_more_room_than_the_text() -> None:
    cell = Cell("Osier Ford", ColumnKind.NAME, note="heel, 24 kg of 38, by dip")
    assert cell_width(cell, FLOOR) > cell_width(cell, FLOOR, with_note=False)


def test_a_reading_may_leave_its_unit_to_the_head() -> None:
    cell = Cell("39 mm XLA", ColumnKind.COLOUR, pfund_mm=39)
    least = least_width(cell, FLOOR)
    assert least < cell_width(cell, FLOOR)
    assert not is_cell_cut(cell, least, FLOOR)
    assert is_cell_cut(cell, least - 2, FLOOR)
