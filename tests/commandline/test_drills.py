"""A drill on the terminal: drawn or chosen, ended by name, listed with when the next is due."""

import pytest

from tests.support.engines import SITE
from tests.support.sample import SAMPLE, loaded
from tests.support.terminal import Terminal


@pytest.fixture
def sample(terminal: Terminal) -> Terminal:
    terminal.where = SITE.copy(loaded()[0], terminal.folder / SAMPLE)
    # An afternoon of the sample's.
    terminal.now_ms = 1_790_368_800_000
    return terminal


def test_a_drill_from_start_to_list(sample: Terminal) -> None:
    begun = sample.json("drill", "start")
    assert begun["code"].startswith("J")
    assert begun["sources"] > 0
    assert begun["lots"] > 0
    chosen = sample.do("drill", "start", begun["code"])
    assert f"the drill is on {begun['code']}. The clock runs." in chosen
    name = sample.json("register", "operator", "list")["operators"][0]["name"]
    sample.now_ms += 9 * 60_000
    sample.do("drill", "end", begun["recall"], "--by-hand", "nothing", "--operator", name)
    listed = sample.json("drill", "list")
    ended = next(row for row in listed["drills"] if row["code"] == begun["recall"])
    assert ended["minutes"] >= 9
    assert ended["by_hand"] == "nothing"
    assert (listed["due"], listed["is_due"]) == ("2027-09-25", False)
    assert "The next drill is due on 25 Sep 2027." in sample.do("drill", "list")
