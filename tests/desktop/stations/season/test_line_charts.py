"""How the line worked, as it is drawn and said."""

from dataclasses import replace

from honeyledger.desktop.stations.season.line_charts import (
    line_answer,
    line_chart,
    line_figures,
    line_notes,
)
from honeyledger.domain.phrases import phrase
from honeyledger.services.season_page import SeasonPage
from honeyledger.services.season_work import SeasonWork, Stood, Waited


def _worked(page: SeasonPage) -> SeasonPage:
    """Its day with a timed pace, a stop and a gap."""
    (day,) = page.work.days
    pump = phrase("pump")
    worked = replace(
        day,
        pace=replace(day.pace, frames_an_hour=240, minutes=120, drummed_g=290_000),
        stood=(Stood(0, 25, "pump", "", pump),),
        gap_minutes=30,
        crew_minutes=360,
    )
    return replace(page, work=SeasonWork((worked,), (Waited("pump", pump, 1, 25),)))


def test_a_day_whose_loads_were_timed(page: SeasonPage) -> None:
    worked = _worked(page)
    chart = line_chart(worked)
    (day,) = chart.items
    assert day.cells == ("24 Jul", "7.5", "15.0", "145", "25", "30", "6.0")
    assert day.parts[0].value == 7.5
    assert day.spoken == (
        "24 Jul: 7.5 min a load, stood 25 min (pump), 30 min of gaps that nobody explained"
    )
    assert chart.levels[0].value == 5.0
    assert line_answer(worked) == (
        "On the middle day 240 frames an hour, where the machine itself does 360. It stood "
        "longest for: pump."
    )
    assert [(one.figure, one.meaning) for one in line_figures(worked)] == [
        ("2.0 h", "on the line"),
        ("0.4 h", "stood, 21 % of that"),
        ("0.5 h", "gaps in scans"),
    ]
    (note,) = line_notes(worked)
    assert note.sentence == "1 stop: pump 25 min."


def test_without_two_scans_there_is_no_pace(page: SeasonPage) -> None:
    (day,) = line_chart(page).items
    assert day.parts == ()
    assert day.spoken == "24 Jul: no load was timed"
    assert line_answer(page) == "No load was timed: a pace needs two scans of pallets."
    assert [one.figure for one in line_figures(page)] == ["0.5 h"]
    assert "Skim, comb" in line_notes(page)[0].sentence


def test_a_season_without_work(page: SeasonPage) -> None:
    idle = replace(page, work=SeasonWork((), ()))
    assert line_answer(idle) == "Nothing was extracted in 2027."
    assert line_chart(idle).items == ()
