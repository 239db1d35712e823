"""Plans on the terminal, on the sample season: the proposal, the comparison, and JSON."""

import pytest

from honeyledger.commandline.planning import PROPOSED
from tests.support.engines import SITE
from tests.support.sample import SAMPLE, loaded
from tests.support.terminal import Terminal


@pytest.fixture
def sample(terminal: Terminal) -> Terminal:
    terminal.where = SITE.copy(loaded()[0], terminal.folder / SAMPLE)
    # An afternoon of the sample's.
    terminal.now_ms = 1_790_368_800_000
    return terminal


def test_a_blend_is_proposed_and_compared(sample: Terminal) -> None:
    shown = sample.do("plan", "blend", "--least", "1200", "--moisture", "17.8", "--darkest", "60")
    assert "Recall to expect, were one source of all that was looked at bad: " in shown
    assert "Oldest first" in shown
    assert "Left out: " in shown
    assert shown.rstrip().endswith(PROPOSED)
    value = sample.json("plan", "blend", "--least", "1200", "--moisture", "17.8")
    lot = value["lots"][0]
    assert 1_200_000 <= lot["grams"] <= 1_320_000
    assert lot["moisture"] <= 1780
    assert value["expected_g"] <= value["by_age_g"]


def test_drums_for_a_bottling_are_proposed_by_the_jars(sample: Terminal) -> None:
    value = sample.json("plan", "bottling", "Clover honey 500 g", "--jars", "900")
    (lot,) = value["lots"]
    assert lot["grams"] >= 450_000
    assert value["expected_g"] <= value["by_age_g"]
    shown = sample.do("plan", "bottling", "clover-honey-500-g", "--jars", "900", "--darkest", "60")
    assert "Bottling" in shown
    assert shown.rstrip().endswith(PROPOSED)


def test_runs_are_proposed_and_compared_with_ones_own(sample: Terminal) -> None:
    value = sample.json("plan", "runs", "--most", "1500", "--runs", "3")
    codes = [code for lot in value["lots"] for code in lot["codes"]]
    shown = sample.do(
        "plan", "runs", "--most", "1500", "--runs", "3", "--order", ",".join(codes)
    )  # fmt: skip
    assert "Your order: " in shown
    assert value["expected_g"] <= value["by_age_g"]
    first = sample.json("plan", "runs", "--most", "1500", "--runs", "3", "--first", codes[-1])
    assert codes[-1] in first["lots"][0]["codes"]
