"""Moisture and colour, as they are drawn and said."""

import pytest

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.charts import Level, Part
from honeyledger.desktop.stations.season.reading_charts import (
    colour_answer,
    colour_chart,
    colour_figures,
    colour_notes,
    moisture_answer,
    moisture_chart,
    moisture_figures,
    moisture_notes,
)
from honeyledger.services.season_page import SeasonPage
from tests.desktop.rig import DeskRig
from tests.desktop.season_rig import fill_house, page_of
from tests.support.sample_page import sample_page


@pytest.fixture(scope="module")
def sample() -> SeasonPage:
    return sample_page()


def test_one_drum_that_is_too_wet(rig: DeskRig) -> None:
    drum = fill_house(rig)
    page = page_of(rig)
    chart = moisture_chart(page)
    (item,) = chart.items
    assert (item.key, item.opens, item.parts) == (drum, drum, (Part(0, 18.6),))
    assert item.spoken == f"{drum}, filled 24 Jul: 18.6 %"
    assert item.cells == (drum, "24 Jul", "18.6")
    assert chart.levels == (Level(18.0, "dry first, over 18.0 %", "18.0"),)
    assert chart.spreads == (), "one reading lies nowhere apart"
    assert moisture_answer(page) == (
        "The middle of 1 drum is 18.6 %, from 18.6 % to 18.6 %; one is over 18.0 %."
    )
    (note,) = moisture_notes(page)
    assert (note.mark, note.sentence) == (
        Mark.WARNING,
        "1 drum here is too wet: over 18.0 % honey may ferment.",
    )


def test_colour_is_drawn_as_the_honey_it_is(rig: DeskRig) -> None:
    drum = fill_house(rig)
    page = page_of(rig)
    (item,) = colour_chart(page).items
    assert (item.pfund_mm, item.parts) == (31.0, (Part(0, 31.0),))
    assert item.spoken == f"{drum}, filled 24 Jul: 31 mm W"
    assert item.cells == (drum, "24 Jul", "31", "W")
    assert colour_answer(page) == "1 drum from 31 mm W to 31 mm W; the middle is 31 mm W."
    assert colour_notes(page)[0].lead == "A screen’s colour is not a reading."


def test_the_sample_has_drums_and_pulls_and_weeks(sample: SeasonPage) -> None:
    chart = moisture_chart(sample)
    assert chart.series == ("drums", "pulls")
    kinds = {item.key[0]: item.parts[0].series for item in chart.items}
    assert kinds == {"D": 0, "S": 1}
    assert len(chart.items) == len(sample.moisture.readings)
    for spread in chart.spreads:
        assert spread.low <= spread.middle <= spread.high
        assert spread.last - spread.first == 6
    colours = colour_chart(sample)
    shorts = [level.short for level in colours.levels]
    assert shorts == sorted(shorts, key=lambda words: int(words.split()[-1]))
    assert "W to 34" in shorts
    assert [one.meaning for one in moisture_figures(sample)] == ["middle drum", "middle pull"]
    assert [one.meaning for one in colour_figures(sample)] == ["middle drum", "middle pull"]


def test_without_readings_it_is_said(rig: DeskRig) -> None:
    page = page_of(rig)
    assert moisture_answer(page) == "No moisture was read in 2026."
    assert colour_answer(page) == "No colour was read in 2026."
    assert moisture_chart(page).levels == ()
    assert moisture_notes(page) == colour_notes(page) == []
    assert moisture_figures(page) == colour_figures(page) == []
