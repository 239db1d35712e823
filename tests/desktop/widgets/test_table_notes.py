"""A second line longer than its column goes on under figures, up to the next second line."""

from PySide6.QtCore import QPoint, QRect
from PySide6.QtGui import QImage
from pytestqt.qtbot import QtBot

from honeyledger.desktop import look
from honeyledger.desktop.models.rows import Column, ColumnKind
from honeyledger.desktop.widgets.table import Table

REASON = "strips were left in two hives all through the flow"
CODE: Column[str] = Column("code", "Drum", lambda row: row, ColumnKind.CODE)
NAME: Column[str] = Column(
    "name", "Stands in", lambda _row: "Drum 7", ColumnKind.NAME, note=lambda _row: REASON
)
NET: Column[str] = Column("net", "Net", lambda _row: "290.0", ColumnKind.NUMBER, unit="kg")
PLACE: Column[str] = Column(
    "place", "Place", lambda _row: "Store", ColumnKind.TEXT, note=lambda row: row[:1]
)


def _table(qtbot: QtBot, *columns: Column[str], width: int = 520) -> Table:
    table = Table(columns, lambda row: row)
    qtbot.addWidget(table)
    table.resize(width, 300)
    table.show()
    table.show_rows(["D26-0611-Y"])
    return table


def _in_name(table: Table) -> QPoint:
    return table.view.visualRect(table.model.index(0, 1)).center()


def _is_inked(image: QImage, rect: QRect) -> bool:
    ground = look.colour("sheet").rgb()
    spots = [(x, y) for x in range(rect.left(), rect.right()) for y in range(*_span(rect))]
    return any(image.pixel(x, y) != ground for x, y in spots)


def _span(rect: QRect) -> tuple[int, int]:
    return rect.top(), rect.bottom()


def test_it_goes_on_under_the_figures_behind_it(qtbot: QtBot) -> None:
    table = _table(qtbot, CODE, NAME, NET)
    view, notes = table.view, table.view.long_notes
    assert table.columns.wanted_width(tight=False) > view.viewport().width()
    assert notes.fits(0, 1)
    assert notes.room(0, 1).right() > view.columnViewportPosition(2)
    assert view.tip_at(_in_name(table)) == "", "all of it is seen"
    under = notes.room(0, 1).toRect()
    under.setLeft(view.columnViewportPosition(2))
    assert _is_inked(view.viewport().grab().toImage(), under)


def test_it_begins_further_left_where_the_room_behind_it_is_not_enough(qtbot: QtBot) -> None:
    table = _table(qtbot, CODE, NAME, NET, width=400)
    view, notes = table.view, table.view.long_notes
    room = notes.room(0, 1)
    assert room.left() < view.columnViewportPosition(1)
    assert notes.fits(0, 1)
    assert view.tip_at(_in_name(table)) == ""


def test_it_ends_before_another_second_line_and_says_the_whole_in_its_tip(qtbot: QtBot) -> None:
    table = _table(qtbot, PLACE, NAME, PLACE, width=380)
    notes = table.view.long_notes
    assert notes.room(0, 1).right() <= table.view.columnViewportPosition(2)
    assert not notes.fits(0, 1)
    assert table.view.tip_at(_in_name(table)) == f"Drum 7\n{REASON}"


def test_one_that_fits_stays_in_its_column(qtbot: QtBot) -> None:
    table = _table(qtbot, CODE, NAME, NET, width=1200)
    cell = table.model.cell(0, 1)
    own = table.view.visualRect(table.model.index(0, 1)).toRectF()
    assert not table.view.delegate.leaves_out(own, 1, cell)
    assert table.view.tip_at(_in_name(table)) == ""


def _long_table(qtbot: QtBot, width: int) -> Table:
    """The second row's reason has no room in one line, the first has none."""
    reasons = {"D26-0611-Y": "", "D26-0612-W": f"{REASON}; {REASON}; {REASON}"}
    name: Column[str] = Column(
        "name", "Stands in", lambda _row: "Drum 7", ColumnKind.NAME, note=lambda row: reasons[row]
    )
    table = Table((CODE, name, NET), lambda row: row)
    qtbot.addWidget(table)
    table.resize(width, 300)
    table.show()
    table.show_rows(list(reasons))
    return table


def test_a_reason_too_long_for_its_row_takes_a_third_line_and_gives_it_back(
    qtbot: QtBot,
) -> None:
    table = _long_table(qtbot, 620)
    view, notes = table.view, table.view.long_notes
    assert [view.rowHeight(place) for place in (0, 1)] == [48, 64 + 20]
    assert not notes.fits(1, 1)
    under = notes.room(1, 1).toRect()
    image = view.viewport().grab().toImage()
    assert _is_inked(image, under.translated(0, 20)), "it goes on below"
    table.resize(1400, 300)
    assert [view.rowHeight(place) for place in (0, 1)] == [48, 64]


def test_a_reason_is_worked_out_once_however_often_the_room_changes(qtbot: QtBot) -> None:
    asked: list[str] = []

    def reason(row: str) -> str:
        asked.append(row)
        return REASON * 2

    name: Column[str] = Column(
        "name", "Stands in", lambda _row: "Drum 7", ColumnKind.NAME, note=reason
    )
    table = Table((CODE, name, NET), lambda row: row)
    qtbot.addWidget(table)
    table.resize(1400, 300)
    table.show_rows([f"D26-{number:04}-Y" for number in range(20)])
    known = len(asked)
    for width in (520, 1400, 500):
        table.resize(width, 300)
        table.columns.lay_out()
    assert len(asked) == known
    assert table.view.rowHeight(19) == 64 + 20
    table.show_rows(["D26-0000-Y"])
    assert len(asked) > known, "of other rows it is worked out anew"


def test_it_is_written_where_it_is_seen_though_the_columns_go_on_sideways(qtbot: QtBot) -> None:
    table = _table(qtbot, CODE, NAME, NET, NET, width=300)
    view, notes = table.view, table.view.long_notes
    assert view.horizontalScrollBar().maximum() > 0
    assert notes.room(0, 1).right() <= view.viewport().width()
    wide = notes.room(0, 1).width()
    view.horizontalScrollBar().setValue(40)
    assert notes.room(0, 1).width() == wide, "scrolled sideways it is broken where it was"


def test_rows_that_grow_above_leave_the_first_one_seen_whole_under_the_head(qtbot: QtBot) -> None:
    """Scrolled half way, the window gets narrower and reasons take another line."""
    name: Column[str] = Column(
        "name", "Stands in", lambda _row: "Drum 7", ColumnKind.NAME, note=lambda _row: REASON * 2
    )
    table = Table((CODE, name, NET), lambda row: row)
    qtbot.addWidget(table)
    table.resize(1400, 300)
    table.show()
    table.show_rows([f"D26-{number:04}-Y" for number in range(20)])
    view = table.view
    table.select("D26-0010-Y")
    assert view.verticalScrollBar().value() > 0
    table.resize(520, 300)
    first = view.rowAt(0)
    assert view.rowHeight(first) == 64 + 20
    assert view.rowViewportPosition(first) == 0
