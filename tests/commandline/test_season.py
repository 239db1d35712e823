"""A season on the terminal: each table, the whole of it as JSON, and years that are none."""

import pytest

from tests.support.engines import SITE
from tests.support.sample import SAMPLE, loaded
from tests.support.terminal import Terminal

WORDS = ("pace", "today", "yards", "weeks", "moisture", "colour", "losses", "drums")


@pytest.fixture
def sample(terminal: Terminal) -> Terminal:
    terminal.where = SITE.copy(loaded()[0], terminal.folder / SAMPLE)
    # An afternoon of the sample's.
    terminal.now_ms = 1_790_368_800_000
    return terminal


def test_the_whole_season_for_other_programs(sample: Terminal) -> None:
    value = sample.json("season")
    assert (value["season"], value["seasons"]) == (2026, [2026])
    yards = value["yields"]["yards"]
    assert len(yards) == 40
    best = yards[0]["now"]
    assert best["a_colony"] == best["grams"] // best["colonies"]
    assert value["yields"]["in_all"]["a_colony"] == 42_080
    run = value["losses"]["runs"][0]
    exact = run["difference_g"] * 10_000 / run["in_g"]
    assert run["difference_share"] == pytest.approx(exact, abs=0.51)
    assert value["days"][0]["day"] == "2026-07-08"
    assert value["outlook"]["ends"] is None or value["outlook"]["ends"].startswith("2026-")


@pytest.mark.parametrize("what", WORDS)
def test_each_has_a_table(sample: Terminal, what: str) -> None:
    lines = sample.do("season", what).splitlines()
    assert len(lines) > 4
    assert lines[0].split()[0] in ("day", "hour", "yard", "week", "run", "colour")


def test_pace_says_what_is_left_and_when_it_ends(sample: Terminal) -> None:
    shown = sample.do("season")
    outlook = sample.json("season")["outlook"]
    here, out = outlook["waiting"], outlook["out"]
    assert f"Left: {here} supers in the house, {out} on the hives." in shown
    assert "The last one goes through at the last fortnight's pace: " in shown
    assert "Weather is not in it." in shown
    assert shown.splitlines()[-1].startswith("Crop in all, about: ")


def test_a_house_that_has_just_begun_says_so(terminal: Terminal) -> None:
    assert terminal.do("season").splitlines() == [
        "No work this season yet.",
        "Left: 0 supers in the house, 0 on the hives.",
        "Of 1 yard nobody said how many supers went on: not counted.",
        "Crop in all, about: 0.0 kg.",
    ]
    assert terminal.do("season", "losses") == "No run was closed.\n"
    assert terminal.do("season", "drums") == "No honey stands in drums.\n"


def test_supers_that_nobody_counted_are_said_to_be_left_out(terminal: Terminal) -> None:
    terminal.pallet("Long Field", supers="12")
    shown = terminal.do("season")
    assert "Of 1 yard nobody said how many supers went on: not counted." in shown
    assert "nobody can tell: no run in the last fortnight." in shown


def test_what_is_no_season_is_refused(terminal: Terminal) -> None:
    refused = terminal.refused("season", "--year", "2019")
    assert refused == ("Nothing was pulled in 2019, as far as this ledger knows. It has 2026.")
    assert "honey is none of pace, today, yards, weeks" in terminal.refused("season", "honey")
    assert "a year" in terminal.refused("season", "--year", "soon")
