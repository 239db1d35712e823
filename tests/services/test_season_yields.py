"""Yields: a colony of each yard, against the others and seasons past, and by week."""

from datetime import date

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.corrections import Amend, Reverse
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.opening import OpeningStock, Part
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.yards import SupersOn
from honeyledger.services.season_yields import Gave, Yields, yields
from tests.support.houses import BuiltHouse

YEAR_MIN = 365 * 24 * 60


@pytest.fixture
def house() -> BuiltHouse:
    return BuiltHouse()


def _yields(house: BuiltHouse, season: int = 2026) -> Yields:
    return house.house.ask(lambda view: yields(view, season))


def test_the_best_yard_is_first_and_yards_without_a_figure_come_last(house: BuiltHouse) -> None:
    ash, birch = house.yard("Ash", colonies=10), house.yard("Birch", colonies=30)
    house.yard("Cedar", colonies=5)
    unsaid = house.yard("Dogwood")
    house.pull(birch, 900_000, count=60)
    house.pull(ash, 200_000, count=13)
    house.pull(ash, 250_000, count=17)
    house.pull(unsaid, 100_000, count=6)
    found = _yields(house)
    assert [
        (row.name, row.now.supers, row.now.grams, row.now.a_colony) for row in found.yards
    ] == [
        ("Ash", 30, 450_000, 45_000),
        ("Birch", 60, 900_000, 30_000),
        ("Dogwood", 6, 100_000, None),
        ("Cedar", 0, 0, 0),
    ]
    assert found.in_all == Gave(2026, 96, 1_450_000, 40)
    assert found.not_pulled == 1
    assert found.middle == 30_000
    assert found.seasons == (2026,)


def test_what_was_reversed_gives_nothing_and_what_was_amended_gives_elsewhere(
    house: BuiltHouse,
) -> None:
    ash, birch = house.yard("Ash", colonies=10), house.yard("Birch", colonies=10)
    pull, _ = house.pull(ash, 200_000, count=13)
    wrong = house.do(Receive((Line(ash, 3),))).entries[0].id
    house.do(Reverse(wrong, "wrong truck"))
    house.do(Amend(pull, "wrong sheet", yard=birch))
    rows = {row.name: row.now for row in _yields(house).yards}
    assert (rows["Birch"].supers, rows["Birch"].grams) == (13, 200_000)
    assert (rows["Ash"].supers, rows["Ash"].grams) == (0, 0)


def test_a_pallet_nobody_scanned_keeps_its_supers_and_gives_what_was_met_of_it(
    house: BuiltHouse,
) -> None:
    ash = house.yard("Ash", colonies=10)
    house.vessel("Tank")
    house.container("17")
    _, tag = house.pull(ash, 200_000, count=13)
    drawn = house.do(Fill("Tank", Weight(net_g=150_000), container="17"))
    unknown = next(code for code in drawn.codes if code.startswith("S"))
    house.do(Amend(unknown, "it was this pallet", pallet=tag))
    (row,) = _yields(house).yards
    assert (row.now.supers, row.now.grams) == (13, 150_000)


def test_honey_that_was_there_before_the_ledger_is_no_yield(house: BuiltHouse) -> None:
    house.yard("Ash", colonies=10)
    house.do(OpeningStock(Weight(net_g=290_000), 2025, (Part("Ash"),)))
    found = _yields(house, 2025)
    assert found.seasons == ()
    assert found.in_all == Gave(2025, 0, 0, 0)


def test_seasons_past_stand_behind_with_the_colonies_of_then(house: BuiltHouse) -> None:
    ash = house.yard("Ash", colonies=10)
    house.pull(ash, 300_000, count=20)
    house.wait(YEAR_MIN)
    house.do(Register("yard", {"name": "Ash", "colonies": 20}, ash))
    house.pull(ash, 800_000, count=50)
    now = _yields(house, 2027)
    assert now.seasons == (2027, 2026)
    (row,) = now.yards
    assert row.now == Gave(2027, 50, 800_000, 20)
    assert row.earlier == (Gave(2026, 20, 300_000, 10),)
    (before,) = _yields(house, 2026).yards
    assert before.now.a_colony == 30_000
    assert before.earlier == ()


def test_weeks_run_through_and_carry_the_same_week_of_seasons_past(house: BuiltHouse) -> None:
    ash = house.yard("Ash")

    def pull(grams: int, day: str) -> None:
        facts = Receive((Line(ash, 10, pulled=day),), gross_g=grams + 60_000, tare_g=0)
        house.do(facts)

    pull(100_000, "2026-07-06")
    pull(120_000, "2026-07-20")
    pull(80_000, "2026-07-22")
    weeks = _yields(house).weeks
    assert [(week.first, week.supers, week.grams) for week in weeks] == [
        (date(2026, 7, 6), 10, 100_000),
        (date(2026, 7, 13), 0, 0),
        (date(2026, 7, 20), 20, 200_000),
    ]
    house.wait(YEAR_MIN)
    pull(50_000, "2027-07-21")
    (week,) = _yields(house, 2027).weeks
    assert week.first == date(2027, 7, 19)
    assert week.first.isocalendar().week == date(2026, 7, 13).isocalendar().week
    assert week.earlier == ()
    pull(60_000, "2027-07-14")
    assert _yields(house, 2027).weeks[0].earlier == ((2026, 100_000),)


def test_supers_still_on_the_hives_where_somebody_said_how_many_went_on(house: BuiltHouse) -> None:
    ash, birch = house.yard("Ash", colonies=10), house.yard("Birch", colonies=10)
    house.do(SupersOn(ash, 30, "2026-06-01"))
    house.do(SupersOn(ash, 10, "2026-06-20"))
    house.pull(ash, 300_000, count=25)
    house.pull(birch, 100_000, count=5)
    assert {row.name: row.out for row in _yields(house).yards} == {"Ash": 15, "Birch": None}
    house.pull(ash, 300_000, count=25)
    assert {row.name: row.out for row in _yields(house).yards}["Ash"] == 0, "never below nothing"
