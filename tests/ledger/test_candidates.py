"""Runs a found drum may be of: near its day, or missing about what it weighs."""

import pytest

from honeyledger.domain.moments import moment_at
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.candidates import runs_near
from honeyledger.ledger.entry import Act
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import CloseRun, Heel, Load, OpenRun
from tests.support.books import code_in
from tests.support.houses import BuiltHouse

DAY_MIN = 24 * 60


@pytest.fixture
def house() -> BuiltHouse:
    """A yard and a tank."""
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    return house


def _run(house: BuiltHouse, missing_g: int, *, closed: bool = True) -> str:
    run = code_in(house.do(OpenRun("Tank 1")), "R")
    _, tag = house.pull("Creek", 300_000)
    house.do(Load(tag, "Tank 1"), run=run)
    house.do(Fill("Tank 1", Weight(net_g=300_000 - missing_g)), run=run)
    if closed:
        house.do(CloseRun(run, (Heel("Tank 1", 0),)))
        house.wash("Tank 1")
    return run


def _near(house: BuiltHouse, net_g: int, filled_on: str = "") -> list[str]:
    act = Act(moment_at(house.now_ms, "UTC"), "", "", "command")
    found = house.house.ask(
        lambda view: runs_near(Booking(view, act, house.now_ms, 0), net_g, filled_on)
    )
    return [one.text for one in found]


def test_the_nearest_by_weight_first_and_runs_that_miss_little_not_at_all(
    house: BuiltHouse,
) -> None:
    little, most, best = _run(house, 40_000), _run(house, 140_000), _run(house, 110_000)
    waits = _run(house, 0, closed=False)
    assert _near(house, 100_000) == [
        f"{best} (110.0 kg missing)",
        f"{most} (140.0 kg missing)",
        f"{waits} (still open)",
    ]
    assert _near(house, 70_000)[0] == f"{little} (40.0 kg missing)"


def test_the_day_it_was_filled_leaves_those_of_that_time(house: BuiltHouse) -> None:
    first = _run(house, 5_000)
    house.wait(5 * DAY_MIN)
    second = _run(house, 5_000)
    assert _near(house, 100_000, "2026-07-25") == [f"{first} (5.0 kg missing)"]
    assert _near(house, 100_000, "2026-07-28") == [f"{second} (5.0 kg missing)"]
    assert _near(house, 100_000, "2026-08-10") == []


def test_a_run_of_two_seasons_ago_is_none(house: BuiltHouse) -> None:
    _run(house, 100_000)
    house.wait(401 * DAY_MIN)
    assert _near(house, 100_000) == []
