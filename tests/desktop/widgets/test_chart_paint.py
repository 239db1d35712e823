"""What is painted: pieces in their colours, words in their places, nothing without a sign."""

from dataclasses import replace
from datetime import date

import pytest
from PySide6.QtGui import QColor, QImage, QPainter

from honeyledger.desktop import colouring, look, tokens
from honeyledger.desktop.models.chart_layout import ChartPlace, lay_out_chart
from honeyledger.desktop.models.charts import (
    Chart,
    ChartForm,
    ChartHead,
    ChartItem,
    Level,
    Part,
    Spread,
)
from honeyledger.desktop.models.line_layout import Box
from honeyledger.desktop.widgets.chart_paint import Pointed, paint_chart, words_wide

DAY = date(2026, 7, 6).toordinal()
SIZE = (600.0, 400.0)


def item(key: str, *values: float, at: float = 0.0, mm: float | None = None) -> ChartItem:
    parts = tuple(Part(series, value) for series, value in enumerate(values))
    return ChartItem(key, key, key, (key,), parts, at, words=f"{sum(values):.0f}", pfund_mm=mm)


def chart(form: ChartForm, *items: ChartItem) -> Chart:
    return Chart(form, "A chart", "Honey", "kg", (ChartHead("Name"),), items, empty="Nothing yet.")


def painted(made: Chart, pointed: Pointed | None = None) -> tuple[QImage, ChartPlace]:
    image = QImage(int(SIZE[0]), int(SIZE[1]), QImage.Format.Format_RGB32)
    image.fill(look.colour("sheet"))
    painter = QPainter(image)
    place = lay_out_chart(made, *SIZE, words_wide)
    paint_chart(painter, place, SIZE, pointed=pointed or Pointed())
    painter.end()
    return image, place


def colours_in(image: QImage, box: Box) -> set[str]:
    return {
        image.pixelColor(x, y).name().upper()
        for x in range(round(box.left) + 3, round(box.right) - 2)
        for y in range(round(box.top) + 3, round(box.bottom) - 2)
    }


def token(name: str) -> str:
    return str(look.colour(name).name()).upper()


def test_series_differ_in_hatch_as_well_as_in_colour() -> None:
    image, place = painted(chart(ChartForm.COLUMNS, item("Run", 30, 30, 30)))
    plain, hatched, ruled = (piece.box for piece in place.items[0].pieces)
    series = [one.colour for one in look.theme().series]
    assert colours_in(image, plain) == {series[0]}
    for box, colour in ((hatched, series[1]), (ruled, series[2])):
        found = colours_in(image, box)
        assert colour in found
        assert token("sheet") in found, "the hatch"


def test_what_is_not_complete_is_an_outline() -> None:
    made = chart(ChartForm.COLUMNS, replace(item("Today", 80), is_open=True))
    image, place = painted(made)
    box = place.items[0].pieces[0].box
    inner = Box(box.left + 3, box.top + 3, box.width - 6, box.height - 6)
    assert colours_in(image, inner) == {token("sheet")}
    assert image.pixelColor(round(box.left) + 1, round(box.top) + 3) != QColor(token("sheet"))


def test_only_honey_is_honey_coloured() -> None:
    image, place = painted(chart(ChartForm.BARS, item("W", 80, mm=25.5), item("none", 80, mm=-1)))
    honey, unread = (one.pieces[0].box for one in place.items)
    assert colours_in(image, honey) == {colouring.pfund_colour(25.5)}
    assert token("well") in colours_in(image, unread)


def test_a_level_lies_across_and_is_named_at_its_end() -> None:
    made = replace(
        chart(ChartForm.COLUMNS, item("a", 100)), levels=(Level(50, "half of it", "50"),)
    )
    image, place = painted(made)
    y = round(place.along(50.0))
    assert token("ink") in colours_in(image, Box(place.window.left + 300, y - 5, 60, 10))
    beside = Box(place.window.right + 4, y - 12, 30, 24)
    assert len(colours_in(image, beside)) > 2, "its words"


def test_a_week_is_spread_from_its_lowest_to_its_highest() -> None:
    dots = chart(ChartForm.DOTS, item("a", 17.0, at=DAY), item("b", 19.0, at=DAY + 6))
    made = replace(dots, zero=False, spreads=(Spread(DAY, DAY + 6, 17.0, 18.0, 19.0),))
    image, place = painted(made)
    x = place.day(DAY + 3)
    assert token("rule") in colours_in(
        image, Box(x - 8, place.along(18.8), 16, place.along(18.2) - place.along(18.8))
    )
    assert token("ink") in colours_in(image, Box(x - 12, place.along(18.0) - 5, 24, 10))


def test_lines_join_the_dots_of_a_series() -> None:
    dots = (item("a", 10, at=DAY), item("b", 10, at=DAY + 6))
    made = replace(chart(ChartForm.DOTS, *dots), joined=True)
    image, place = painted(made)
    y, x = place.along(10.0), place.day(DAY + 3)
    assert look.theme().series[0].colour in colours_in(image, Box(x - 10, y - 5, 20, 10))


def test_what_is_in_hand_has_a_ground_and_a_bar() -> None:
    made = chart(ChartForm.BARS, item("Ash", 80), item("Birch", 40))
    image, place = painted(made, Pointed("Birch", "Ash"))
    ash, birch = (one.room for one in place.items)
    assert image.pixelColor(2, round(birch.top) + 9) == look.colour("act")
    assert image.pixelColor(595, round(birch.top) + 9) == look.colour("act_tint")
    assert image.pixelColor(595, round(ash.top) + 9) == look.colour("well")


def test_bars_that_are_not_seen_are_not_painted() -> None:
    made = chart(ChartForm.BARS, *(item(f"Yard {at}", 10 + at) for at in range(40)))
    image, place = painted(made)
    below = Box(0, place.window.bottom + 1, 590, 400 - place.window.bottom - 2)
    assert colours_in(image, below) <= {token("sheet")}


@pytest.mark.parametrize("form", ChartForm)
def test_an_empty_chart_says_so_in_both_themes(form: ChartForm) -> None:
    for theme in (tokens.LIGHT, tokens.DARK):
        look.change(to=theme)
        image, _ = painted(chart(form))
        assert len(colours_in(image, Box(8, 24, 200, 30))) > 2
    look.change(to=tokens.LIGHT)


def test_words_are_measured_as_they_are_painted() -> None:
    assert words_wide("Mosswick Bend") > words_wide("Ash") > 0
