"""What the hot room shows of its page."""

from dataclasses import replace

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.hot_room.order import Order
from honeyledger.desktop.stations.hot_room.rows import (
    air_figures,
    air_heading,
    air_words,
    beetle_words,
    dry_words,
    heading,
    reason,
    state_word,
    totals,
    under_name,
    wait_columns,
    waits_words,
    yards_named,
    yards_words,
)
from honeyledger.domain.beetles import clock
from honeyledger.services.drying import ToDry
from tests.desktop.stations.hot_room.pages import HELD, OLD, PAGE, ROOM, STORE, WET


def test_a_row_says_how_long_how_wet_and_its_place_in_the_next_run() -> None:
    order = Order((WET.code,))
    columns = {column.key: column for column in wait_columns("kg", order)}
    cells = {key: column.cell(WET) for key, column in columns.items()}
    assert (cells["state"].text, cells["state"].mark) == ("dry first", Mark.WARNING)
    assert (cells["next"].text, cells["hours"].text, cells["moisture"].text) == ("1", "20", "19.0")
    assert (cells["grams"].text, cells["grams"].estimated) == ("450", True)
    assert cells["supers"].text == "30"
    old = {key: column.cell(OLD) for key, column in columns.items()}
    assert (old["state"].text, old["state"].mark, old["next"].text) == (
        "too long",
        Mark.WAITING,
        "",
    )
    assert columns["moisture"].cell(HELD).text == ""
    assert columns["state"].cell(replace(OLD, state="ready")).mark is Mark.READY


def test_the_reason_says_holds_air_and_place() -> None:
    assert reason(HELD) == "S26-0003-X: smoke"
    own = replace(OLD, yards=("Mill Lane",), held=("Mill Lane: treated",), air="", spot="")
    assert reason(own) == "treated"
    assert reason(replace(own, yards=("Mill Lane", "Creek"))) == "Mill Lane: treated"
    assert reason(OLD) == "the air dries it; Hot room, row 2"
    assert (yards_named(OLD), under_name(OLD)) == ("Mill Lane", reason(OLD))
    assert (yards_named(HELD), under_name(HELD)) == ("3 yards", "S26-0003-X: smoke; A, B, C")
    assert [air_words(air) for air in ("wets", "holds", "")] == [
        "the air wets it",
        "the air leaves it as it is",
        "",
    ]
    assert state_word(HELD) == "hold"
    assert [yards_words(row.yards) for row in (OLD, WET, HELD)] == [
        "Mill Lane",
        "Mill Lane, Willow Bank",
        "3 yards",
    ]


def test_the_foot_says_what_the_next_run_ties_together() -> None:
    assert heading(PAGE) == "3 pallets wait, ≈ 810 kg"
    lead, sums = totals(PAGE.rows, Order(), "kg")
    assert (lead, sums["supers"].text, sums["grams"].text) == ("All that waits", "54", "810")
    lead, sums = totals(PAGE.rows, Order((OLD.code, WET.code)), "kg")
    assert (lead, sums["grams"].text) == ("Next run: 2 pallets, 2 yards tied", "750")


def test_the_air_is_told_with_what_honey_comes_to_in_it() -> None:
    assert [(one.figure, one.meaning) for one in air_figures(ROOM)] == [
        ("34.0 °C", "temperature"),
        ("45.0 %", "humidity"),
        ("under 16.1 %", "honey comes to"),
    ], "45 % is drier than the table goes"
    for humidity, figure in ((5_800, "17.4 %"), (9_000, "over 33.9 %")):
        assert air_figures(replace(ROOM, humidity=humidity))[-1].figure == figure
    assert air_figures(STORE) == []
    assert air_figures(None) == []
    assert air_figures(replace(ROOM, temperature=None))[0].meaning == "humidity"


def test_heat_comes_first_then_the_pallet_in_hand_then_when_it_was_read() -> None:
    assert air_heading(None, OLD) == "Nobody has read the air yet: type it at the left."
    assert air_heading(replace(ROOM, temperature=410), OLD) == (
        "Above 40 °C combs sag and honey suffers: let it cool, and mind your people."
    )
    assert air_heading(ROOM, OLD) == (
        "G26-0001-6: the air dries it; 17.5 % is in balance with 58 % (clover honey)"
    )
    assert air_heading(ROOM, replace(OLD, moisture=3_400)) == "G26-0001-6: the air dries it"
    assert air_heading(ROOM, None) == "Hot room, read 24 Jul 2026 08:40"


def test_pallets_that_wait_too_long_are_told() -> None:
    assert waits_words(PAGE.rows) == (
        "One pallet waits longer than 3 days: small hive beetle may have begun; look at it first."
    )
    assert waits_words([WET]) == ""


def test_hours_to_dry_stand_with_the_reason_and_why_not_above_the_air() -> None:
    wet = replace(WET, spot="", to_dry=ToDry(1_800, 6, 14))
    assert reason(wet) == "the air wets it; 18.0 % in 6 to 14 h"
    assert reason(replace(wet, held=("treated",))) == "treated"
    assert dry_words(replace(wet, to_dry=ToDry(1_800, 6, 6))) == "18.0 % in 6 h"
    few = replace(wet, to_dry=ToDry(1_800, why_not="Too few.", too_few=True))
    assert dry_words(few) == "read it again for its hours"
    assert air_heading(ROOM, few).startswith(f"{WET.code}: the air wets it")
    cannot = replace(wet, to_dry=ToDry(1_800, why_not="The air cannot."))
    assert dry_words(cannot) == ""
    assert air_heading(ROOM, cannot) == f"{WET.code}: The air cannot."


def test_the_beetles_clock_is_told_once_there_is_hurry() -> None:
    told = [
        beetle_words(replace(OLD, beetle=clock(hours, air)))
        for hours, air in ((20, ()), (90, ()), (130, ()), (90, (4_500,)))
    ]
    assert told == [
        "",
        "30 h until hive beetle damage is likely",
        "hive beetle damage is likely",
        "dry air holds hive beetles back",
    ]
    assert reason(replace(OLD, beetle=clock(130))).startswith("the air dries it; hive beetle")
