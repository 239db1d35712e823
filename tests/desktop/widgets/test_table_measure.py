"""What columns want is measured from what they show."""

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.rows import Cell, Column, ColumnKind, RowsModel
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.table_cells import cell_width
from honeyledger.desktop.widgets.table_measure import (
    SEEN_FIRST,
    last_key,
    measured_rows,
    shown_columns,
    telling_cells,
    wanted_columns,
    widened,
    without_notes,
)
from honeyledger.desktop.widgets.table_widths import Wanted

COLUMNS: tuple[Column[str], ...] = (
    Column("code", "Drum", lambda row: row, ColumnKind.CODE),
    Column("name", "Where", lambda _row: "store", ColumnKind.NAME, note=lambda _row: "row 3 " * 9),
    Column("net", "Net", lambda _row: "300.5", ColumnKind.NUMBER, from_width=600),
)


def _model(count: int) -> RowsModel[str]:
    model = RowsModel(COLUMNS, lambda row: row)
    model.show(f"D26-{number:04}-Y" for number in range(count))
    return model


def test_a_column_is_shown_only_where_there_is_room_for_it() -> None:
    model = _model(2)
    assert shown_columns(model, 500) == [0, 1]
    assert shown_columns(model, 600) == [0, 1, 2]
    model.fold(["net"])
    assert shown_columns(model, 900) == [0, 1]
    assert last_key(model, [0, 1]) == "name"
    assert last_key(model, []) == ""


def test_only_some_rows_of_many_are_measured() -> None:
    asked: list[int] = []

    def span(row: int, _column: int) -> int:
        asked.append(row)
        return 1

    wanted_columns(_model(5000), [0], Density.FLOOR, "", span)
    assert asked == measured_rows(5000)


WORDS = ("Hill", "Millimetre", "WWW MMM", "Long Meadow below the mill", "illilli illilli il", "")


def test_cells_that_are_not_measured_are_narrower_than_one_that_is() -> None:
    cells = [
        Cell(text, kind, note, aside, mark, estimated=mark is not None)
        for kind in (ColumnKind.TEXT, ColumnKind.STATE, ColumnKind.CODE)
        for text in (*WORDS, "D26-0001-Y", "J26-0001-L-0042", "G26-0001-7")
        for note in WORDS
        for aside in ("", "2 of 6")
        for mark in (None, Mark.HOLD)
    ]
    for count in (1, 7, 40, len(cells)):
        some = cells[::-1][:count]
        widest = max(cell_width(cell, Density.FLOOR) for cell in some)
        assert max(cell_width(cell, Density.FLOOR) for cell in telling_cells(some)) == widest
    codes = [Cell(f"D26-{number:04}-Y", ColumnKind.CODE) for number in range(200)]
    assert telling_cells(codes) == codes[:1]
    names = [Cell("Ash", ColumnKind.NAME), Cell("Long Meadow", ColumnKind.NAME)]
    assert telling_cells(names) == names[1:]
    assert telling_cells([]) == []


def test_a_cell_that_reaches_over_others_does_not_widen_its_own_column() -> None:
    model = _model(3)
    whole = wanted_columns(model, [0], Density.FLOOR, "", lambda *_: 1)[0]
    spanned = wanted_columns(model, [0], Density.FLOOR, "", lambda *_: 2)[0]
    assert spanned.content < whole.content
    headed = wanted_columns(model, [0], Density.FLOOR, "What went in today", lambda *_: 1)[0]
    assert headed.content > whole.content


def test_a_column_of_numbers_is_as_wide_as_its_total() -> None:
    number, name = Wanted(40, right=True, bare=30), Wanted(40, bare=30)
    assert widened([number, name], [55, 55]) == [Wanted(55, right=True, bare=55), name]
    assert widened([number], [35]) == [Wanted(40, right=True, bare=35)]


def test_without_its_notes_a_name_wants_less() -> None:
    wanted = wanted_columns(_model(3), [1], Density.FLOOR, "", lambda *_: 1)
    assert without_notes(wanted)[0].content < wanted[0].content
    assert wanted[0].is_name
    assert wanted[0].gives_way


def test_of_a_long_list_the_first_rows_and_some_from_end_to_end_are_measured() -> None:
    assert measured_rows(3) == [0, 1, 2]
    assert measured_rows(2 * SEEN_FIRST) == list(range(2 * SEEN_FIRST))
    for count in (2 * SEEN_FIRST + 1, 2_000, 50_000):
        many = measured_rows(count)
        assert many[:SEEN_FIRST] == list(range(SEEN_FIRST))
        assert sorted(set(many)) == many
        assert (len(many), many[-1]) == (2 * SEEN_FIRST, count - 1)
