"""The pace and what is left, as they are drawn and said."""

from dataclasses import replace
from datetime import date

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.charts import Level
from honeyledger.desktop.stations.season.pace_charts import (
    needed_words,
    outlook_words,
    pace_answer,
    pace_chart,
    pace_figures,
    pace_notes,
)
from honeyledger.services.season_pace import Outlook
from honeyledger.services.season_page import SeasonPage
from tests.desktop.rig import DeskRig
from tests.desktop.season_rig import page_of
from tests.support.sample_page import sample_page


def _outlook(page: SeasonPage, **facts: object) -> Outlook:
    assert page.outlook is not None
    changed: Outlook = replace(page.outlook, **facts)  # type: ignore[arg-type]
    return changed


def test_a_day_of_the_house(page: SeasonPage) -> None:
    chart = pace_chart(page)
    (day,) = chart.items
    assert (day.name, day.parts[0].value, day.is_open) == ("24 Jul", 30.0, False)
    assert day.at == date(2027, 7, 24).toordinal()
    assert day.spoken == ("24 Jul: 30 supers, 270 frames in 0 h 30 min, 290 kg into drums")
    assert day.cells == ("24 Jul", "30", "", "290", "50")
    assert chart.levels == (Level(30.0, "a usual run day, 30", "30"),)
    assert chart.totals == ("In all", "30", "", "290", "50")


def test_a_day_that_goes_on_is_open_and_its_frames_are_told(page: SeasonPage) -> None:
    (day,) = page.days
    going = replace(page, days=(replace(day, is_open=True, frames_an_hour=540),))
    (item,) = pace_chart(going).items
    assert item.is_open
    assert item.spoken.startswith("24 Jul so far: 30 supers")
    assert ", 540 an hour, " in item.spoken
    first = pace_figures(going)[0]
    assert (first.figure, first.meaning) == ("540/h", "frames today")
    of_sample = pace_figures(sample_page())[0]
    assert (of_sample.figure, of_sample.meaning) == ("234/h", "frames, usual 235")


def test_what_is_left_and_what_the_crop_comes_to(page: SeasonPage) -> None:
    assert pace_answer(page) == (
        "50 supers are left. No run in the last fortnight; with a run every day, on 26 Jul."
    )
    assert [(one.figure, one.meaning) for one in pace_figures(page)] == [
        ("≈\u202f900 kg", "crop in all"),
        ("40 + 10", "here, on hives"),
    ]
    (note,) = pace_notes(page)
    assert note.mark is Mark.WARNING
    assert note.sentence == (
        "Of 1 yard nobody said how many supers went on: what is out there is not counted."
    )


def test_every_way_it_can_end_is_said(page: SeasonPage) -> None:
    ends, soonest = date(2027, 8, 9), date(2028, 1, 2)
    assert outlook_words(_outlook(page, ends=ends, soonest=soonest), 2027) == (
        "50 supers are left. At the last fortnight’s pace the last goes through on 9 Aug; with a "
        "run every day, on 2 Jan 2028."
    )
    assert outlook_words(_outlook(page, ends=ends, soonest=None), 2027).endswith(
        "with a run every day, on not to be told."
    )
    one = _outlook(page, waiting=1, out=0, ends=None, soonest=None)
    assert outlook_words(one, 2027) == "1 super is left. No run yet, so no end can be told."
    none = _outlook(page, waiting=0, out=0)
    words = "The crop is in: by the books no super waits, and none is out."
    assert outlook_words(none, 2027) == words


def test_by_counting_alone(page: SeasonPage) -> None:
    said = replace(page, outlook=_outlook(page, unsaid=0, minutes=0, drums=0))
    assert [note.sentence for note in pace_notes(said)] == [
        "By counting alone: weather is not in it."
    ]
    assert needed_words(_outlook(page, minutes=290, drums=6)) == (
        "≈ 5 hours of extracting, ≈ 6 more drums; weather is not in it"
    )
    assert needed_words(_outlook(page, minutes=20, drums=1)) == (
        "≈ 1 hour of extracting, ≈ 1 more drum; weather is not in it"
    )
    crew = _outlook(page, minutes=290, drums=0, people=3)
    assert needed_words(crew) == (
        "≈ 5 hours of extracting, ≈ 14 h of work by 3 people; weather is not in it"
    )
    nothing = replace(page, outlook=_outlook(page, unsaid=0, waiting=0, out=0))
    assert pace_notes(nothing) == []


def test_a_season_that_is_over_has_no_end_to_come(rig: DeskRig, page: SeasonPage) -> None:
    over = replace(page, outlook=None)
    assert pace_answer(over) == "30 supers went through on one day, from 24 Jul to 24 Jul."
    assert pace_notes(over) == []
    assert pace_answer(page_of(rig, 2026)) == "Nothing was extracted in 2026."


def test_an_empty_house(rig: DeskRig) -> None:
    page = page_of(rig)
    assert pace_answer(page) == "Nothing was extracted in 2026."
    assert pace_chart(page).items == ()
    assert pace_figures(page) == []
