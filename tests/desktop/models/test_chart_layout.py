"""Where everything of a chart stands."""

from dataclasses import replace
from datetime import date
from itertools import pairwise

import pytest

from honeyledger.desktop.models.chart_layout import (
    DOT,
    PITCH,
    PITCH_LEAST,
    SLOT_LEAST,
    lay_out_chart,
    names_shown,
)
from honeyledger.desktop.models.charts import Chart, ChartForm, ChartHead, ChartItem, Level, Part

DAY = date(2026, 7, 6).toordinal()


def wide(words: str) -> float:
    return 8.0 * len(words)


def item(key: str, *values: float, at: float = 0.0, words: str = "") -> ChartItem:
    parts = tuple(Part(series, value) for series, value in enumerate(values))
    return ChartItem(key, key, f"{key} said", (key,), parts, at, words)


def chart(form: ChartForm, *items: ChartItem, zero: bool = True) -> Chart:
    return Chart(form, "A chart", "Honey", "kg", (ChartHead("Name"),), items, zero=zero)


def test_bars_begin_at_nothing_and_are_as_long_as_their_values() -> None:
    place = lay_out_chart(
        chart(ChartForm.BARS, item("Ash", 80), item("Birch", 40), item("Cedar")), 600, 400, wide
    )
    ash, birch, cedar = place.items
    zero = place.along(0.0)
    assert ash.pieces[0].box.left == birch.pieces[0].box.left == pytest.approx(zero)
    assert ash.pieces[0].box.width == pytest.approx(2 * birch.pieces[0].box.width)
    assert ash.pieces[0].box.right == pytest.approx(place.along(80.0))
    assert cedar.pieces == ()
    assert birch.room.top - ash.room.top == PITCH


def test_bars_that_count_nothing_are_swatches_with_nothing_at_the_axis() -> None:
    plain = chart(ChartForm.BARS, item("Ash", 1), item("Birch", 1))
    place = lay_out_chart(replace(plain, counted=False), 600, 400, wide)
    assert place.values.ticks == ()
    assert [piece.box.width for one in place.items for piece in one.pieces] == [24.0, 24.0]


def test_bars_run_on_below_and_come_closer_on_paper() -> None:
    many = chart(ChartForm.BARS, *(item(f"Yard {at}", at) for at in range(40)))
    seen = lay_out_chart(many, 600, 400, wide)
    assert seen.plot.height == 40 * PITCH > seen.window.height
    printed = lay_out_chart(many, 600, 900, wide, fits=True)
    assert printed.plot.height <= printed.window.height
    assert lay_out_chart(many, 600, 100, wide, fits=True).plot.height == 40 * PITCH_LEAST


def test_the_band_behind_reaches_from_the_lowest_to_the_highest_season() -> None:
    banded = replace(item("Ash", 80), behind=(30.0, 90.0))
    place = lay_out_chart(chart(ChartForm.BARS, banded), 600, 400, wide)
    behind = place.items[0].behind
    assert behind is not None
    assert behind.left == pytest.approx(place.along(30.0))
    assert behind.right == pytest.approx(place.along(90.0))
    column = lay_out_chart(chart(ChartForm.COLUMNS, banded), 600, 400, wide).items[0].behind
    assert column is not None
    assert column.height > 0


def test_columns_stack_up_and_what_is_below_nothing_hangs_down() -> None:
    place = lay_out_chart(chart(ChartForm.COLUMNS, item("Run", 6, 3, -2)), 600, 400, wide)
    low, middle, under = (piece.box for piece in place.items[0].pieces)
    zero = place.along(0.0)
    assert low.bottom == pytest.approx(zero)
    assert middle.bottom == pytest.approx(low.top)
    assert middle.top == pytest.approx(place.along(9.0))
    assert under.top == pytest.approx(zero)
    assert under.bottom == pytest.approx(place.along(-2.0))


def test_columns_with_days_leave_room_for_days_without_anything() -> None:
    days = [item("a", 1, at=DAY), item("b", 1, at=DAY + 1), item("c", 1, at=DAY + 9)]
    place = lay_out_chart(chart(ChartForm.COLUMNS, *days), 600, 400, wide)
    first, second, third = (one.room.left for one in place.items)
    assert third - second == pytest.approx(8 * (second - first))


def test_many_columns_run_on_to_the_left_and_stay_wide_enough() -> None:
    many = chart(ChartForm.COLUMNS, *(item(str(at), at) for at in range(200)))
    place = lay_out_chart(many, 600, 400, wide)
    assert place.plot.width == pytest.approx(200 * SLOT_LEAST)
    assert place.plot.width > place.window.width
    printed = lay_out_chart(many, 600, 400, wide, fits=True)
    assert printed.plot.width == pytest.approx(printed.window.width)


def test_names_under_columns_do_not_touch() -> None:
    many = chart(ChartForm.COLUMNS, *(item(f"{at} Jul", at) for at in range(1, 31)))
    place = lay_out_chart(many, 600, 400, wide)
    shown = names_shown(place, wide)
    ends = [(at - wide(tick.words) / 2, at + wide(tick.words) / 2) for at, tick in shown]
    assert 3 < len(shown) < 30
    assert all(after[0] > before[1] for before, after in pairwise(ends))


def test_dots_stand_at_their_day_and_value_and_never_on_one_another() -> None:
    dots = [
        item("a", 17.5, at=DAY),
        item("b", 17.5, at=DAY),
        item("c", 17.5, at=DAY),
        item("d", 18.5, at=DAY + 20),
    ]
    place = lay_out_chart(chart(ChartForm.DOTS, *dots, zero=False), 600, 400, wide)
    a, b, c, d = (one.pieces[0].box for one in place.items)
    assert a.centre == pytest.approx((place.day(DAY), place.along(17.5)))
    assert sorted([a.left, b.left, c.left]) == pytest.approx([a.left - DOT, a.left, a.left + DOT])
    assert d.top < a.top
    assert place.values.low >= 17.0, "dots need no zero"


def test_levels_are_within_the_axis_and_have_room_beside_it() -> None:
    plain = chart(ChartForm.DOTS, item("a", 17.5, at=DAY), zero=False)
    levelled = replace(plain, levels=(Level(19.0, "dry first", "19.0"),))
    place = lay_out_chart(levelled, 600, 400, wide)
    assert place.values.high >= 19.0
    assert place.window.right + 8 + wide("19.0") <= 600
    assert place.window.width < lay_out_chart(plain, 600, 400, wide).window.width


def test_a_press_means_what_is_near() -> None:
    bars = lay_out_chart(chart(ChartForm.BARS, item("Ash", 80), item("Birch", 40)), 600, 400, wide)
    second = bars.items[1].room
    found = bars.item_at(500, second.top + 3)
    assert found is not None
    assert found.item.key == "Birch"
    assert bars.item_at(500, second.bottom + 50) is None
    dots = lay_out_chart(
        chart(ChartForm.DOTS, item("a", 1, at=DAY), item("b", 9, at=DAY + 9)), 600, 400, wide
    )
    x, y = dots.items[1].pieces[0].box.centre
    near = dots.item_at(x + 10, y + 10)
    assert near is not None
    assert near.item.key == "b"
    assert dots.item_at(x - 150, y + 100) is None


@pytest.mark.parametrize("form", ChartForm)
def test_nothing_is_laid_out_too(form: ChartForm) -> None:
    place = lay_out_chart(chart(form), 600, 400, wide)
    assert place.items == ()
    assert place.item_at(100, 100) is None
    assert lay_out_chart(chart(form, item("a", 1, at=DAY)), 1, 1, wide).items[0].item.key == "a"
