"""A season planned on the terminal, by what the ledger knows and by what is typed."""

import signal
from collections.abc import Sequence
from datetime import date
from pathlib import Path

import pytest

from honeyledger.commandline.season_plan import simulated
from honeyledger.optimisation.season_runs import HouseSimulator
from honeyledger.services.season_forecast import Progress, Season
from honeyledger.services.season_plan import HousePlan, PlanBox, PlanYard
from tests.support.engines import SITE
from tests.support.sample import SAMPLE, loaded
from tests.support.terminal import Terminal


@pytest.fixture
def sample(terminal: Terminal) -> Terminal:
    terminal.where = SITE.copy(loaded()[0], terminal.folder / SAMPLE)
    terminal.now_ms = 1_790_368_800_000
    return terminal


def test_the_sample_house_plans_its_next_season(sample: Terminal) -> None:
    value = sample.json("plan", "season", "--seasons", "4")
    assert (value["plan"]["begins"], value["is_rest"]) == ("2027-07-07", False)
    assert value["needs"]["frames"] == 27_972
    assert value["needs"]["bottleneck"] == "pulling"
    assert 60 <= value["days"]["middle"] <= 110
    assert value["wrong"] == []
    assert "uncapped_an_hour" in value["told"]


def test_the_tables_and_what_is_typed(sample: Terminal) -> None:
    shown = sample.do(
        *("plan", "season", "--seasons", "2", "--colonies", "100", "--begins", "2027-07-05"),
        *("--honey", "20", "--frames", "10", "--extractors", "2"),
    )
    assert "Begins: 5 Jul 2027." in shown
    assert "Held up by: Pulling supers." in shown
    lines = [" ".join(line.split()) for line in shown.splitlines()]
    assert "Supers 259" in lines
    assert "Frames 2 590" in lines
    assert "Honey a super 20.0 kg typed" in lines
    assert "Extractors 2 typed" in lines
    assert "One more extractor 0 0 0" in lines


def test_what_cannot_be_is_told_and_the_rest_planned(sample: Terminal) -> None:
    shown = sample.do("plan", "season", "--load", "0", "--shifts", "4", "--hours", "8")
    assert "Frames a load: 0 is too little to plan with. Say 1 or more." in shown
    assert "4 shifts of 8 h are 32 h, and a day has 24" in shown
    assert "Ends, at the middle: not to be told." in shown
    assert "Frames 27 972" in " ".join(shown.split())


def test_what_is_left_and_a_paper(sample: Terminal) -> None:
    value = sample.json("plan", "season", "--rest", "--seasons", "2")
    assert value["is_rest"]
    assert 100 < value["needs"]["supers"] < 150
    file = Path(sample.folder) / "plan.pdf"
    said = sample.do("plan", "season", "--rest", "--seasons", "2", "-o", str(file))
    assert said == f"Season plan: {file}\n"
    assert file.read_bytes().startswith(b"%PDF")


def test_what_is_no_number_is_refused(sample: Terminal) -> None:
    refused = sample.refused("plan", "season", "--crew", "some")
    assert refused == "some is not People: type it in digits, such as 24."


def test_a_house_that_has_just_begun_can_be_planned(terminal: Terminal) -> None:
    """Nobody has pulled yet: colonies are on record, all else is what is usual."""
    value = terminal.json("plan", "season", "--seasons", "3", "--yard", "Far Field=40")
    colonies = sum(yard["colonies"] for yard in value["plan"]["yards"])
    assert colonies > 40
    assert value["wrong"] == []
    assert value["needs"]["supers"] == colonies * 26 // 10
    assert value["days"]["middle"] > 0
    shown = terminal.do("plan", "season", "--colonies", "0")
    assert "Colonies: 0 is too little to plan with. Say 1 or more." in shown


class _Interrupted:
    """A simulator at which Ctrl+C is pressed once three seasons are there."""

    def seasons(
        self, plan: HousePlan, count: int, seed: int, progress: Progress
    ) -> Sequence[Season]:
        def told(done: int, of: int) -> bool:
            if done == 3:
                signal.raise_signal(signal.SIGINT)
            return progress(done, of)

        return HouseSimulator(1).seasons(plan, count, seed, told)


def test_ctrl_c_leaves_the_bands_at_the_seasons_there_are() -> None:
    plan = HousePlan(
        date(2026, 7, 6), (PlanYard("All", 20),), (PlanBox("medium", 1_000, 9, 15_000),)
    )
    made = simulated(plan, _Interrupted(), 1_000, 1)
    assert (made.seasons, made.stopped, made.gains) == (3, True, ())
    assert made.days is not None
