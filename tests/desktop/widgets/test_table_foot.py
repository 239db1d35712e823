"""Totals stand under their columns, under a line of ink."""

from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop import look
from honeyledger.desktop.models.rows import Total
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.table_foot import AboveFoot, TableFoot


def test_totals_are_read_out_and_painted_where_their_columns_end(qtbot: QtBot) -> None:
    foot = TableFoot(Density.FLOOR, 48)
    qtbot.addWidget(foot)
    foot.resize(600, 48)
    foot.show_totals("Today", {"net": Total("1\u202f980.5", "kg", estimated=True)})
    foot.set_spans({"code": (19.0, 130.0, False), "net": (400.0, 500.0, True)})
    assert foot.accessibleName() == "Today, about 1\u202f980.5 kg"
    image = foot.grab().toImage()
    assert image.pixelColor(300, 0).name() == look.colour("ink").name()
    sheet = look.colour("sheet").name()
    inked = [x for x in range(250, 600) if any(
        image.pixelColor(x, y).name() != sheet for y in range(4, 47)
    )]  # fmt: skip
    assert min(inked) > 400
    assert 500 < max(inked) < 530, "the unit hangs right of the column"
    foot.show_last_unit(False)
    image = foot.grab().toImage()
    assert all(image.pixelColor(x, y).name() == sheet for x in range(502, 600) for y in (20, 28))


def test_a_total_that_has_half_its_room_is_not_shown_as_another_figure(qtbot: QtBot) -> None:
    foot = TableFoot(Density.FLOOR, 48)
    qtbot.addWidget(foot)
    foot.resize(440, 48)
    foot.show_totals("Today", {"net": Total("1\u202f980.5", "kg")})
    sheet = look.colour("sheet").name()
    # The column's end is scrolled out of view at the right, then its beginning at the left.
    for span in ((400.0, 500.0, True), (-40.0, 20.0, True)):
        foot.set_spans({"net": span})
        image = foot.grab().toImage()
        edge = range(110, 440) if span[0] > 0 else range(2, 18)
        assert all(image.pixelColor(x, y).name() == sheet for x in edge for y in range(4, 47))


def test_the_rows_in_view_are_said_after_the_words(qtbot: QtBot) -> None:
    foot = TableFoot(Density.DESK, 40)
    qtbot.addWidget(foot)
    foot.show_totals("5 yards", {})
    foot.set_note("rows 1 to 3 of 5")
    assert foot.words() == "5 yards, rows 1 to 3 of 5"
    assert not foot.has_unit("net")


def test_a_total_says_how_wide_it_is(qtbot: QtBot) -> None:
    foot = TableFoot(Density.DESK, 40)
    qtbot.addWidget(foot)
    foot.show_totals("5 yards", {"net": Total("980", "kg"), "gross": Total("980", estimated=True)})
    assert foot.totals()["net"] == Total("980", "kg")
    assert 0 < foot.total_width("net") < foot.total_width("gross"), "it stands after a sign"
    assert foot.total_width("share") == 0


def test_what_stands_above_the_foot_gives_its_room_and_stays_away_where_it_is_not_wanted(
    qtbot: QtBot,
) -> None:
    widget = QWidget()
    qtbot.addWidget(widget)
    above = AboveFoot(widget, lambda: above.give_room(True))
    above.give_room(True)
    assert widget.isVisible()
    above.give_room(False)
    assert not widget.isVisible()
    above.give_room(True)
    assert widget.isVisible()
    above.want(False)
    assert not widget.isVisible()
    above.want(True)
    assert widget.isVisible()
