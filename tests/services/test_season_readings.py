"""Readings through a season: one a lot, on the day of its honey, and each week's spread."""

from datetime import date

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.season_books import season_books
from honeyledger.services.season_readings import (
    COLOUR,
    MOISTURE,
    ReadThrough,
    SeasonReading,
    WeekSpread,
    read_through,
)
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    made = BuiltHouse()
    made.yard("Ash")
    made.vessel("Tank")
    for name in "1234":
        made.container(name)
    return made


def _read(house: BuiltHouse, name: str) -> ReadThrough:
    return house.house.ask(lambda view: read_through(season_books(view, 2026, house.now_ms), name))


def _drum(house: BuiltHouse, container: str) -> str:
    done = house.do(Fill("Tank", Weight(net_g=100_000), container=container))
    return next(code for code in done.codes if code[0] == "D")


def test_the_latest_reading_counts_for_the_day_of_its_honey(house: BuiltHouse) -> None:
    pull = house.load("Ash", 500_000, "Tank")
    house.do(Measure(pull, moisture=17_60, colour=140))
    drums = [_drum(house, name) for name in "123"]
    for drum, moisture in zip(drums, (17_20, 17_80, 17_40), strict=True):
        house.do(Measure(drum, moisture=moisture))
    house.wait(40 * 24 * 60)
    house.do(Measure(drums[1], moisture=18_10))
    read = _read(house, MOISTURE)
    day = date(2026, 7, 24)
    assert read.of("pull") == (SeasonReading(pull, "pull", day, 17_60, 500_000),)
    assert [row.value for row in read.of("drum")] == [17_20, 18_10, 17_40]
    assert {row.day for row in read.readings} == {day}
    assert read.weeks == (WeekSpread(date(2026, 7, 20), 3, 17_20, 17_40, 18_10),)


def test_without_drums_the_weeks_are_of_the_pulls(house: BuiltHouse) -> None:
    pull = house.load("Ash", 500_000, "Tank")
    house.do(Measure(pull, colour=140))
    assert _read(house, COLOUR).weeks == (WeekSpread(date(2026, 7, 20), 1, 140, 140, 140),)
    assert _read(house, MOISTURE) == ReadThrough((), ())


def test_bought_honey_is_none_of_the_crop(house: BuiltHouse) -> None:
    house.do(Register("supplier", {"name": "Valley Honey"}))
    bought = house.buy("Valley Honey", 290_000)
    house.do(Measure(bought, moisture=18_20))
    assert _read(house, MOISTURE).readings == ()
