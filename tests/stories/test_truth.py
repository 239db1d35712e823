"""The reach of every code against a simulated house in which nothing ever runs quite clean.

A hole is a source truly in a drum, jar, barrel or sample, in however small a trace, and missing
from the reach of its code. Whole seasons are worked by a seeded crew and written down only
through the house's verbs, with the default margin: scanned up to an hour late, or typed at
night from paper, in any order, with times that are not sure, and with mistakes put right later.
"""

import sys
from collections.abc import Iterator
from contextlib import contextmanager

import pytest

from tests.support.crew import Habits
from tests.support.engines import SITE
from tests.support.physics import Spot, Vessel
from tests.support.seasons import Hole, Season
from tests.support.warned import Warned, warned_of

LIVE = Habits(late_min=60)
TYPED_LATE = Habits(paper=0.5, approximate=0.3, mistakes=0.1, forgotten=0.08)
AT_ONCE = Habits(late_min=0)
FORGETFUL = Habits(late_min=60, never=0.05)
DAYS = 4
PLAIN = range(SITE.some(12))
FULL = [range(first, first + 12) for first in range(1000, 1120, 12)]
if len(PLAIN) < 12:
    FULL.append(range(len(PLAIN), 12))


@contextmanager
def _season(seed: int, habits: Habits, margin_min: int = 60) -> Iterator[Season]:
    with SITE.for_a_while():
        yield Season(seed, habits, margin_min).live(DAYS)


def _holes(seeds: range, habits: Habits, margin_min: int = 60) -> list[tuple[int, Hole]]:
    """Every hole, with the seed of its season."""
    found = []
    for seed in seeds:
        with _season(seed, habits, margin_min) as season:
            holes, width = season.compare()
        assert width.compared >= 20, f"season {seed} filled next to nothing"
        found += [(seed, hole) for hole in holes]
    return found


@pytest.mark.long_on_server
def test_scanned_up_to_an_hour_late() -> None:
    assert _holes(PLAIN, LIVE) == []


@pytest.mark.long_on_server
def test_typed_at_night() -> None:
    assert _holes(PLAIN, TYPED_LATE) == []


@pytest.mark.full
def test_scanned_at_once_without_a_margin() -> None:
    """Houses that scan live can set the margin to 0."""
    assert _holes(PLAIN, AT_ONCE, margin_min=0) == []


@pytest.mark.full
@pytest.mark.parametrize("seeds", FULL, ids=str)
def test_scanned_up_to_an_hour_late_in_many_seasons(seeds: range) -> None:
    assert _holes(seeds, LIVE) == []


@pytest.mark.full
@pytest.mark.parametrize("seeds", FULL, ids=str)
def test_typed_at_night_in_many_seasons(seeds: range) -> None:
    assert _holes(seeds, TYPED_LATE) == []


@pytest.mark.full
@pytest.mark.parametrize("seeds", FULL, ids=str)
def test_scanned_at_once_without_a_margin_in_many_seasons(seeds: range) -> None:
    assert _holes(seeds, AT_ONCE, margin_min=0) == []


def test_a_load_that_was_never_written_down_is_missed() -> None:
    """The comparison can fail: what nobody wrote down is in nothing's reach."""
    never = Habits(late_min=0, never=1.0)
    for seed in range(2):
        with _season(seed, never) as season:
            holes, _ = season.compare()
        assert holes


def test_a_simulated_drum_never_runs_clean() -> None:
    """The world the books are held against: a trace stays until it is washed."""
    tank = Vessel("Tank", "E26-0001-W")
    tank.pour({"A": 50_000.0})
    drum = Spot()
    drum.pour(tank.draw(49_700.0))
    tank.pour({"B": 50_000.0})
    assert set(tank.draw(50_000.0)) == {"A", "B"}
    drum.drain()
    assert drum.sources == {"A"}
    drum.wash()
    assert drum.sources == frozenset()


def _with_signs(seeds: range) -> Iterator[tuple[int, list[Warned]]]:
    """For each season: how many codes were compared, and what spoke for each hole."""
    for seed in seeds:
        with _season(seed, FORGETFUL) as season:
            holes, width = season.compare()
            signs = [warned_of(season, hole) for hole in holes]
        yield width.compared, signs


@pytest.mark.full
def test_how_often_a_forgotten_load_was_warned_of(capsys: pytest.CaptureFixture[str]) -> None:
    """With 5 % of loads never scanned there are holes; nearly all of them show in the books."""
    seasons = list(_with_signs(range(1000, 1120)))
    signs = [sign for _, of_season in seasons for sign in of_season]
    compared = sum(count for count, _ in seasons)
    shares = {
        name: sum(getattr(sign, name) for sign in signs) / len(signs)
        for name in ("at_all", "by_itself", "unknown", "shortfall", "standing")
    }
    with capsys.disabled():
        lines = [f"{name.replace('_', ' ')} {share:.1%}" for name, share in shares.items()]
        sys.stdout.write(
            f"\n5 % of loads never scanned, {len(seasons)} seasons: {len(signs)} holes in "
            f"{compared} codes; warned of: {', '.join(lines)}\n"
        )
    assert signs
    assert shares["at_all"] > 0.9


@pytest.mark.full
@pytest.mark.parametrize(
    ("name", "habits", "margin_min"),
    [
        ("scanned late, margin 60", LIVE, 60),
        ("typed at night, margin 60", TYPED_LATE, 60),
        ("scanned at once, margin 60", AT_ONCE, 60),
        ("scanned at once, margin 0", AT_ONCE, 0),
    ],
)
def test_how_wide_reach_is(
    name: str, habits: Habits, margin_min: int, capsys: pytest.CaptureFixture[str]
) -> None:
    """Reach is never narrower than the truth, and not so wide that it says nothing."""
    widths = []
    for seed in range(1000, 1060):
        with _season(seed, habits, margin_min) as season:
            widths.append(season.compare()[1])
    compared = sum(width.compared for width in widths)
    reached = sum(width.reached for width in widths) / compared
    truly = sum(width.truly for width in widths) / compared
    with capsys.disabled():
        sys.stdout.write(f"\n{name}: {reached:.2f} sources in reach, {truly:.2f} truly there\n")
    assert truly <= reached <= 3 * truly
