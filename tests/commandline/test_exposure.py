"""Exposure on the terminal: of the house, and of a run, a yard and a drum of the sample."""

import pytest

from honeyledger.commandline.exposure import ESTIMATE
from tests.support.engines import SITE
from tests.support.sample import SAMPLE, loaded
from tests.support.terminal import Terminal


@pytest.fixture
def sample(terminal: Terminal) -> Terminal:
    terminal.where = SITE.copy(loaded()[0], terminal.folder / SAMPLE)
    return terminal


def test_the_house_and_one_thing(sample: Terminal) -> None:
    shown = sample.do("exposure")
    assert shown.startswith("Recall to expect, were one source bad: ")
    assert "A wash of Settling tank tonight takes " in shown
    assert shown.rstrip().endswith(ESTIMATE)
    value = sample.json("exposure")
    assert value["expected_g"] > 0
    assert value["sources"][0]["name"] in shown
    run = sample.json("exposure", "R26-0012-R")
    assert run["grams"] == run["here_g"] + run["sent_g"]
    assert run["customers"] > 0
    assert sample.do("exposure", "Alderbight").startswith("If ")
    drums = [row["code"] for row in sample.json("drum-list")["drums"]][:2]
    tied = sample.json("exposure", *drums)
    assert tied["back_g"] >= tied["grams"] >= tied["more_g"]
    assert f"If the worst of them, {tied['name']}, were called back:" in " ".join(
        sample.do("exposure", *drums).split()
    )
