"""How the line worked, on the terminal, and a stop that is booked there."""

import pytest

from tests.support.engines import SITE
from tests.support.printing import text_of
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


def test_the_pace_on_paper(sample: Terminal) -> None:
    file = sample.folder / "pace.pdf"
    said = sample.do("pace", "-o", str(file))
    assert said == f"Pace 2026: {file}\n"
    text = text_of(file.read_bytes())
    assert "What the line stood for" in text
    assert "the key had sheared" in text


def test_a_stop_is_booked_and_told(sample: Terminal) -> None:
    sample.do("stop", "Line A", "Pump", "--minutes", "25", "--why", "the seal")
    sample.do("stop", "Line A", "break", "--minutes", "90")
    value = sample.json("pace")
    # Beside two breaks of 15 min and 45 min for the pump, which the season has already.
    assert [(one["reason"], one["minutes"]) for one in value["waited"]][:2] == [
        ("break", 120),
        ("pump", 70),
    ]
    shown = sample.do("pace")
    assert "Stood for a break: 3 times, 2 h 00 min." in shown
    assert "Stood for pump: 2 times, 1 h 10 min." in shown
    assert "Stood for nobody there: once, 10 min." in shown


def test_a_runs_sheet_says_how_long_it_stood(sample: Terminal) -> None:
    sample.do("stop", "Line A", "settling", "--minutes", "40")
    assert ", stood 40 min" in sample.do("run", "show").splitlines()[1]


def test_a_house_that_has_just_begun_says_so(terminal: Terminal) -> None:
    assert terminal.do("pace") == "Nothing was extracted in this season yet.\n"
    assert "rain is no reason for a stop" in terminal.refused(
        "stop", "Extractor", "rain", "--minutes", "5"
    )
