"""How the line worked, on the terminal, and a stop that is booked there."""

import pytest

from tests.support.engines import SITE
from tests.support.sample import SAMPLE, loaded
from tests.support.terminal import Terminal


@pytest.fixture
def sample(terminal: Terminal) -> Terminal:
    terminal.where = SITE.copy(loaded()[0], terminal.folder / SAMPLE)
    terminal.now_ms = 1_790_368_800_000
    return terminal


def test_the_sample_season_by_day(sample: Terminal) -> None:
    value = sample.json("pace")
    assert len(value["days"]) == 26
    assert 180 < value["frames_an_hour"] < 300
    day = value["days"][0]
    assert day["tenths_a_load"] == 30 * 600 // day["pace"]["frames_an_hour"]
    lines = sample.do("pace", "--days", "3").splitlines()
    assert lines[0].split()[:3] == ["day", "supers", "supers/h"]
    assert sum(line.split()[0].isdigit() for line in lines if line) == 3
    assert "a machine that never waits takes 5.0 min a load, 360 frames an hour." in "".join(lines)


def test_a_stop_is_booked_and_told(sample: Terminal) -> None:
    sample.do("stop", "Line A", "Pump", "--minutes", "25", "--why", "the seal")
    sample.do("stop", "Line A", "break", "--minutes", "90")
    value = sample.json("pace")
    assert [(one["reason"], one["minutes"]) for one in value["waited"]] == [
        ("break", 90),
        ("pump", 25),
    ]
    shown = sample.do("pace")
    assert "Stood for a break: once, 1 h 30 min." in shown
    assert "Stood for pump: once, 25 min." in shown


def test_a_runs_sheet_says_how_long_it_stood(sample: Terminal) -> None:
    sample.do("stop", "Line A", "settling", "--minutes", "40")
    assert ", stood 40 min" in sample.do("run", "show").splitlines()[1]


def test_a_house_that_has_just_begun_says_so(terminal: Terminal) -> None:
    assert terminal.do("pace") == "Nothing was extracted in this season yet.\n"
    assert "rain is no reason for a stop" in terminal.refused(
        "stop", "Extractor", "rain", "--minutes", "5"
    )
