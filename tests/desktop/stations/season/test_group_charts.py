"""Crews, forages, seasons and slips as they are drawn and said."""

from dataclasses import replace

import pytest

from honeyledger.desktop.stations.season import group_charts as by
from honeyledger.services.season_groups import CrewYield, ForageYield, Groups
from honeyledger.services.season_page import SeasonPage
from honeyledger.services.season_yields import Gave
from tests.support.sample_page import sample_page

CREWS = (
    CrewYield("Al, Jo", 2, 3, 40, 600_000, ((2026, 14_000), (2025, 16_000))),
    CrewYield("", 1, 1, 0, 20_000),
)
FORAGES = (
    ForageYield("clover", 2, Gave(2027, 40, 600_000, 20), (Gave(2026, 30, 300_000, 20),)),
    ForageYield("", 1, Gave(2027, 4, 40_000, 0)),
)
SEASONS = (Gave(2027, 44, 640_000, 20), Gave(2026, 30, 300_000, 20))


@pytest.fixture(scope="module")
def sample() -> SeasonPage:
    return sample_page()


@pytest.fixture
def told(page: SeasonPage) -> SeasonPage:
    return replace(page, groups=Groups(CREWS, FORAGES, SEASONS))


def test_crews_with_earlier_seasons_behind(told: SeasonPage) -> None:
    chart = by.crews_chart(told)
    first, unsaid = chart.items
    assert first.cells == ("Al, Jo", "15.0", "14.0", "40", "2", "3", "600")
    assert first.behind == (14.0, 16.0)
    assert first.spoken == "Al, Jo: 40 supers on 2 days, about 600 kg, 15.0 kg a super"
    assert (unsaid.name, unsaid.parts, unsaid.words) == ("nobody said who", (), "")
    assert by.crews_answer(told) == "Al, Jo brought most: ≈ 600 kg in 40 supers."
    assert unsaid.cells[3] == ""
    assert [one.figure for one in by.crews_figures(told)] == ["1", "20"]
    unnamed = replace(told, groups=Groups(CREWS[1:], (), ()))
    assert by.crews_answer(unnamed) == "Nobody said who pulled."


def test_forages_against_all_yards(told: SeasonPage) -> None:
    chart = by.forage_chart(told)
    clover, unsaid = chart.items
    assert clover.cells == ("clover", "30.0", "15.0", "2", "20", "600")
    assert clover.spoken == "clover: about 600 kg from 2 yards, 30.0 kg a colony"
    assert (unsaid.name, unsaid.words) == ("nobody said which", "colonies not said")
    assert len(chart.levels) == 1
    assert by.forage_answer(told) == "clover gave most: ≈ 30.0 kg a colony, from 2 yards."
    unsaid_only = replace(told, groups=Groups((), FORAGES[1:], ()))
    assert by.forage_answer(unsaid_only) == "No yard says its colonies."


def test_seasons_one_after_the_other(told: SeasonPage) -> None:
    chart = by.seasons_chart(told)
    assert [item.name for item in chart.items] == ["2026", "2027"]
    assert chart.items[1].is_open
    assert chart.items[0].spoken == "2026: about 300 kg in 30 supers, 15.0 kg a colony"
    assert by.seasons_answer(told) == "≈ 32.0 kg a colony in 2027, ≈ 15.0 kg in one season before."
    alone = replace(told, groups=Groups((), (), SEASONS[:1]))
    assert by.seasons_answer(alone).endswith("there is no season before it to hold it to.")
    assert [one.meaning for one in by.seasons_figures(told)] == ["seasons on record", "best, 2027"]


def test_slips_of_the_sample_season(sample: SeasonPage) -> None:
    chart = by.slips_chart(sample)
    assert [item.cells[1] for item in chart.items] == [
        "weighed with its pallet: the usual tare was not taken off"
    ] * 2
    first = chart.items[0]
    assert first.opens == first.key == sample.slips[0].stack.code
    assert first.behind == (0.0, pytest.approx(15.12))
    assert by.slips_answer(sample).startswith("2 stacks lie far off the others:")
    unexplained = replace(sample.slips[0], likely="")
    assert by.likely_words(unexplained) == "no slip explains it: weigh it again"
    none = replace(sample, slips=())
    assert by.slips_answer(none) == by.slips_chart(none).empty
    assert by.slips_figures(none) == []
