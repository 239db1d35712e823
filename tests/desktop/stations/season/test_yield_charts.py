"""What the yards gave, as it is drawn and said."""

from dataclasses import replace
from datetime import date

from honeyledger.desktop.models.charts import Level, Part
from honeyledger.desktop.stations.season.yield_charts import (
    weeks_answer,
    weeks_chart,
    weeks_figures,
    weeks_notes,
    yield_answer,
    yield_chart,
    yield_figures,
)
from honeyledger.services.season_page import SeasonPage
from honeyledger.services.weather import WeatherNote
from tests.desktop.rig import DeskRig
from tests.desktop.season_rig import fill_house, page_of


def test_a_colony_of_each_yard_against_all_and_the_season_before(page: SeasonPage) -> None:
    chart = yield_chart(page)
    assert chart.title == "Honey a colony by yard, 2027"
    ash, birch = chart.items
    assert (ash.name, ash.parts, ash.words) == ("Ash", (Part(0, 45.0),), "≈\u202f45.0 kg")
    assert ash.behind == (30.0, 30.0)
    assert birch.behind is None
    assert ash.spoken == (
        "Ash: about 45.0 kg a colony, 10 colonies, 30 supers; 2026: 30.0 kg; 10 supers still out"
    )
    assert ash.cells == ("Ash", "45.0", "30.0", "10", "30", "450")
    assert birch.cells == ("Birch", "15.0", "", "20", "20", "300")
    assert chart.levels == (Level(25.0, "all yards ≈\u202f25.0 kg"),)
    assert chart.behind == "2026"
    assert chart.totals == ("All yards", "25.0", "", "30", "50", "750")
    assert ash.opens == ash.key == page.yields.yards[0].code
    assert yield_answer(page) == "≈ 25.0 kg a colony: 750 kg from 2 yards."
    assert [(one.figure, one.meaning) for one in yield_figures(page)] == [
        ("15.0 kg", "middle yard"),
        ("45.0 kg", "best yard"),
        ("30.0 kg", "2026"),
    ]


def test_an_earlier_season_has_none_behind_it_and_asks_for_nothing(rig: DeskRig) -> None:
    fill_house(rig)
    page = page_of(rig, 2026)
    chart = yield_chart(page)
    assert chart.behind == ""
    assert [head.title for head in chart.heads] == [
        "Yard",
        "A colony",
        "Colonies",
        "Supers",
        "Honey",
    ]
    assert chart.items[1].words == "nothing yet"
    assert yield_answer(page) == "≈ 30.0 kg a colony: 300 kg from one yard."


def test_several_seasons_are_one_band(page: SeasonPage) -> None:
    given = page.yields
    ash = given.yards[0]
    older = replace(ash.earlier[0], season=2025, grams=500_000)
    more = replace(ash, earlier=(*ash.earlier, older))
    seasons = (2027, 2026, 2025)
    several = replace(page, yields=replace(given, yards=(more, *given.yards[1:]), seasons=seasons))
    chart = yield_chart(several)
    assert chart.behind == "2025 to 2026"
    assert chart.items[0].behind == (30.0, 50.0)


def test_a_yard_whose_colonies_nobody_said_has_a_word(rig: DeskRig) -> None:
    fill_house(rig)
    page = page_of(rig)
    birch = page.yields.yards[1]
    unsaid = replace(birch, now=replace(birch.now, colonies=0))
    chart = yield_chart(replace(page, yields=replace(page.yields, yards=(unsaid,))))
    assert (chart.items[0].words, chart.items[0].parts) == ("colonies not said", ())
    assert chart.items[0].spoken == "Birch: colonies not said"


def test_weeks(page: SeasonPage) -> None:
    chart = weeks_chart(page)
    (week,) = chart.items
    assert (week.name, week.parts) == ("19 Jul", (Part(0, 750.0),))
    assert week.spoken == "Week of 19 Jul: about 750 kg from 50 supers"
    assert chart.totals == ("In all", "750", "50")
    assert weeks_answer(page) == "The week of 19 Jul gave most: ≈ 750 kg from 50 supers."
    assert [(one.figure, one.meaning) for one in weeks_figures(page)] == [
        ("1", "weeks with pulls"),
        ("≈\u202f750 kg", "a week"),
        ("50", "supers a week"),
    ]


def test_a_week_tells_of_the_same_week_before(page: SeasonPage) -> None:
    (week,) = page.yields.weeks
    weeks = (replace(week, supers=0, grams=0, earlier=((2026, 90_000), (2025, 40_000))),)
    chart = weeks_chart(replace(page, yields=replace(page.yields, weeks=weeks)))
    (item,) = chart.items
    assert item.spoken == "Week of 19 Jul: nothing was pulled; 2026: 90 kg; 2025: 40 kg"
    assert (item.behind, item.cells) == ((40.0, 90.0), ("19 Jul", "", "90", ""))


def test_an_empty_house_is_told_what_begins(rig: DeskRig) -> None:
    page = page_of(rig)
    words = "Nothing was pulled this season yet. Supers come in at the dock (Ctrl+2)."
    assert yield_answer(page) == weeks_answer(page) == yield_chart(page).empty == words
    assert yield_chart(page).items == weeks_chart(page).items == ()
    assert yield_figures(page) == weeks_figures(page) == []


def test_the_weather_stands_beside_the_weeks(page: SeasonPage) -> None:
    day = date(2027, 7, 14)
    notes = (
        WeatherNote(day, "rain", "", 185, "no flight", 7),
        WeatherNote(day, "", "Ash", None, "haze", 8),
    )
    said = [note.sentence for note in weeks_notes(replace(page, weather=notes))]
    assert said == ["14 Jul Ash, haze.", "14 Jul rain, 18.5 °C, no flight."]
    this_week = tuple(replace(note, day=date(2027, 7, 25)) for note in notes)
    told = weeks_chart(replace(page, weather=(*notes, *this_week, this_week[0])))
    assert told.heads[-1].title == "Weather"
    (item,) = told.items
    assert item.cells[-1] == "rain, 18.5 °C, no flight; Ash, haze"
    assert item.spoken.endswith("; rain, 18.5 °C, no flight; Ash, haze")
    assert len(told.totals) == len(item.cells) == len(told.heads)
    assert weeks_notes(page) == []
