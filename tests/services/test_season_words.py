"""Every part of a plan, every change and every wait is called something."""

from honeyledger.services.season_forecast import WAITS
from honeyledger.services.season_needs import PARTS
from honeyledger.services.season_plan import CHANGES
from honeyledger.services.season_words import CAUTION, CHANGE_WORDS, PART_WORDS, WAIT_WORDS


def test_nothing_goes_without_a_word() -> None:
    assert set(PART_WORDS) == set(PARTS)
    assert set(CHANGE_WORDS) == set(CHANGES)
    assert set(WAIT_WORDS) == set(WAITS)


def test_a_plan_says_what_it_is_not() -> None:
    assert "no promise" in CAUTION
    assert "local code" in CAUTION
