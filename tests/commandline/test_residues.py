"""A residue's spread on the terminal."""

import pytest

from honeyledger.services.residues import CAUTION
from tests.support.engines import SITE
from tests.support.sample import SAMPLE, loaded
from tests.support.terminal import Terminal


@pytest.fixture
def sample(terminal: Terminal) -> Terminal:
    terminal.where = SITE.copy(loaded()[0], terminal.folder / SAMPLE)
    return terminal


def test_levels_against_a_limit(sample: Terminal) -> None:
    shown = sample.do("residue", "Fennimark", "--level", "40", "--limit", "10")
    assert "may be over" in shown
    assert shown.rstrip().endswith(CAUTION)
    value = sample.json("residue", "Fennimark", "--level", "40.5")
    assert (value["level"], value["limit"]) == (40_500, None)
    assert value["lots"][0]["expected"] == 40_500
    assert "Say the level" in sample.refused("residue", "Fennimark", "--level", "0")
