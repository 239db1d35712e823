"""The steps of the first run without a window."""

from pathlib import Path
from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.drafts import Drafts
from honeyledger.desktop.first_run.steps import FirstSteps, Step, tr
from honeyledger.desktop.jobs import Jobs
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.services.beginning import Doors, Opened, Report
from honeyledger.settings import Settings

FULL = Sentence("disk-full-here", "The disk is full. Make room, then try again.")


def _refuse(*_given: object) -> Opened:
    raise Refusal(FULL)


def _steps(qtbot: QtBot, folder: Path, **ways: Any) -> tuple[FirstSteps, Jobs]:
    lent: dict[str, Any] = {"make": _refuse, "open": _refuse, "sample": _refuse} | ways
    jobs = Jobs()
    doors = Doors("UTC", str(folder / "house.honeyledger"), False, **lent)
    steps = FirstSteps(doors, Settings(), jobs, Drafts(folder / "drafts"), lambda _settings: None)
    steps.begin()
    qtbot.waitUntil(jobs.is_idle)
    return steps, jobs


@pytest.mark.parametrize("way", ["make", "open_file", "look_around"])
def test_what_goes_wrong_is_said_and_can_be_tried_again(
    qtbot: QtBot, tmp_path: Path, way: str
) -> None:
    steps, jobs = _steps(qtbot, tmp_path)
    steps.type(steps.values | {"name": "Hill House"}, "other.honeyledger")
    refused: list[Refusal] = []
    steps.refused.connect(refused.append)
    for _ in range(2):
        getattr(steps, way)()
        qtbot.waitUntil(jobs.is_idle)
    assert [one.text for one in refused] == [FULL.text, FULL.text]
    jobs.close()
    steps.keep_now()
    assert Drafts(tmp_path / "drafts").read("first-run")["file"] == "other.honeyledger"


def test_one_way_is_gone_at_a_time(qtbot: QtBot, tmp_path: Path) -> None:
    gone: list[int] = []

    def sample(report: Report) -> Opened:
        report(1, 4)
        gone.append(1)
        return _refuse()

    steps, jobs = _steps(qtbot, tmp_path, sample=sample)
    steps.look_around()
    steps.look_around()
    qtbot.waitUntil(jobs.is_idle)
    assert gone == [1]
    jobs.close()


def test_back_goes_to_the_step_before(qtbot: QtBot, tmp_path: Path) -> None:
    steps, jobs = _steps(qtbot, tmp_path)
    seen: list[Step] = []
    steps.turned.connect(seen.append)
    steps.turn(Step.FILE)
    for _ in range(3):
        steps.back()
    assert seen == [Step.FILE, Step.WAY, Step.SIZE]
    jobs.close()


def test_a_draft_that_means_nothing_is_passed_over(qtbot: QtBot, tmp_path: Path) -> None:
    Drafts(tmp_path / "drafts").keep("first-run", {"step": "dance", "house": 3})
    steps, jobs = _steps(qtbot, tmp_path)
    assert steps.step is Step.SIZE
    assert steps.values["zone"] == "UTC"
    assert tr("Make a house") == "Make a house"
    jobs.close()
