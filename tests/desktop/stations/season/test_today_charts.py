"""The last run day by the hour, as it is drawn and said."""

from dataclasses import replace

from honeyledger.desktop.models.charts import Level
from honeyledger.desktop.stations.season.today_charts import (
    today_answer,
    today_chart,
    today_figures,
    today_notes,
)
from honeyledger.services.season_page import SeasonPage
from honeyledger.services.season_today import HourPace
from tests.desktop.rig import DeskRig
from tests.desktop.season_rig import page_of


def _going(page: SeasonPage) -> SeasonPage:
    assert page.hours is not None
    hours = (*page.hours.hours, HourPace(10, 4, 0, is_open=True))
    day = replace(page.hours.day, is_open=True, frames_an_hour=320)
    return replace(page, hours=replace(page.hours, day=day, hours=hours, usual_permille=23_400))


def test_an_hour_and_the_day(page: SeasonPage) -> None:
    chart = today_chart(page)
    assert chart.title == "Supers an hour, 24 Jul"
    assert sum(item.parts[0].value for item in chart.items if item.parts) == 30
    assert chart.totals == ("In all", "30", "290")
    assert chart.levels == ()
    assert today_answer(page) == "24 Jul: 30 supers in 0 h 30 min."
    assert [(one.figure, one.meaning) for one in today_figures(page)] == [
        ("290 kg", "into drums"),
        ("30", "usual run day"),
    ]
    assert today_notes(page)[0].sentence.endswith("in which it was scanned.")


def test_the_hour_that_goes_on_against_a_usual_one(page: SeasonPage) -> None:
    chart = today_chart(_going(page))
    last = chart.items[-1]
    assert last.is_open
    assert last.spoken == "10:00, so far: 4 supers, 0 kg into drums"
    assert last.cells == ("10:00", "4", "")
    assert chart.levels == (Level(23.4, "a usual hour, 23", "23"),)
    assert today_answer(_going(page)) == (
        "Today so far 30 supers in 0 h 30 min. 320 frames an hour, gaps left out."
    )


def test_before_the_first_run(rig: DeskRig) -> None:
    page = page_of(rig)
    assert today_chart(page).title == "Supers an hour"
    assert today_answer(page) == "Nothing was extracted in 2026."
    assert today_figures(page) == today_notes(page) == []
