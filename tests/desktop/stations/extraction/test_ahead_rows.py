"""What goes in next, and a run's pace in figures."""

from dataclasses import replace

import pytest

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.extraction import ahead_rows
from honeyledger.desktop.stations.extraction.ahead_rows import HOUR_MS
from honeyledger.desktop.widgets.figures import KeyFigure
from honeyledger.services.floor_pace import Pace
from honeyledger.services.floor_page import QueueRow
from tests.support.houses import START_MS

WET = QueueRow("G26-0001-X", "Creek", 20, 180, 300_000, START_MS, "dry first", 1_920)
HELD = QueueRow("G26-0002-X", "Creek", 10, 90, 100_000, START_MS, "hold", None)
DRY = QueueRow("G26-0003-X", "Mill Lane, Hill", 30, 270, 400_000, START_MS, "ready", None)
QUEUE = (WET, HELD, DRY)
PACE = Pace(30, 600, 20, 90, 258, since_ms=START_MS, last_frames=300)


def test_the_queue_counts_the_hours_and_shows_a_place_only_where_there_is_one() -> None:
    columns = ahead_rows.queue_columns(START_MS + 10 * HOUR_MS, ())
    assert [one.key for one in columns] == ["code", "yards", "supers", "hours"]
    assert columns[-1].text(DRY) == "10"
    columns = ahead_rows.queue_columns(START_MS, (DRY.pallet, WET.pallet))
    place = next(one for one in columns if one.key == "next")
    assert [place.text(row) for row in QUEUE] == ["2", "", "1"]


def test_what_speaks_against_a_pallet_stands_under_its_yards() -> None:
    column = ahead_rows.queue_columns(START_MS, ())[1]
    cells = [column.cell(row) for row in QUEUE]
    assert [cell.mark for cell in cells] == [Mark.WARNING, Mark.HOLD, Mark.READY]
    assert [cell.note for cell in cells] == [
        "dry first: 19.2 %",
        "hold: asks who and why",
        "and Hill",
    ]
    assert [cell.text for cell in cells] == ["Creek", "Creek", "Mill Lane"]
    many = replace(WET, yards="Creek, Hill, Mill Lane, Long Field")
    assert column.cell(many).note == "dry first: 19.2 %; and 3 other yards"


def test_frames_to_come_are_those_of_the_next_run_else_of_all_that_is_ready() -> None:
    assert ahead_rows.waiting_frames(QUEUE, ()) == 270
    assert ahead_rows.waiting_frames(QUEUE, (WET.pallet, DRY.pallet)) == 450


def test_the_heading_says_loads_and_what_was_left_out() -> None:
    assert ahead_rows.pace_heading(PACE, is_open=True) == "20 loads of 30 frames so far"
    paused = Pace(loads=1, left_out_minutes=70)
    assert ahead_rows.pace_heading(paused, is_open=False) == (
        "1 load of 30 frames; 1 h 10 min without a scan left out of the pace"
    )
    stood = Pace(loads=20, stood_minutes=25)
    assert ahead_rows.pace_heading(stood, is_open=True) == (
        "20 loads of 30 frames so far; stood 25 min"
    )


def test_the_pace_is_said_from_the_second_pallet_on() -> None:
    assert ahead_rows.pace_figures(PACE) == [
        KeyFigure("258", "frames an hour"),
        KeyFigure("6.9 min", "a load"),
    ]
    assert ahead_rows.pace_figures(Pace()) == [
        KeyFigure("–", "frames an hour, from the second pallet on")
    ]


@pytest.mark.parametrize(
    ("hours", "frames", "finish"),
    [
        (0, "≈ 558", KeyFigure("≈ 04:49", "through at this pace")),
        (5, "≈ 258", KeyFigure("–", "no pallet scanned for 5 h 00 min")),
        (1_552, "≈ 258", KeyFigure("–", "no pallet scanned since 24 Jul, 02:40")),
    ],
)
def test_when_it_is_through_or_that_scans_are_missing(
    hours: int, frames: str, finish: KeyFigure
) -> None:
    now_ms = START_MS + hours * HOUR_MS
    found = ahead_rows.ahead_figures(PACE, 258, now_ms, "America/Regina")
    assert found == [KeyFigure(frames, "frames left"), finish]


def test_without_a_pace_there_is_no_finish() -> None:
    found = ahead_rows.ahead_figures(Pace(last_frames=90), 90, START_MS, "UTC")
    assert found == [KeyFigure("≈ 180", "frames left")]


def test_spans_of_time_in_words() -> None:
    assert [ahead_rows.hours_words(n) for n in (5, 60, 125)] == [
        "5 min",
        "1 h 00 min",
        "2 h 05 min",
    ]


def test_a_run_that_goes_on_longer_than_a_shift_says_since_when() -> None:
    took = ahead_rows.took_figure(Pace(minutes=171), START_MS, "UTC")
    assert took == KeyFigure("2 h 51 min", "first to last")
    took = ahead_rows.took_figure(Pace(minutes=93_120), START_MS, "UTC")
    assert took == KeyFigure("24 Jul, 08:40", "when it began")
