"""What a plan begins with: by the ledger where it knows, else what is usual."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from honeyledger.ledger.verbs.floor import CloseRun, Load, OpenRun
from honeyledger.ledger.verbs.yards import SupersOn
from honeyledger.services.house import House
from honeyledger.services.season_defaults import Defaults, plan_defaults
from honeyledger.services.season_needs import PULLING, needs
from honeyledger.services.season_plan import problems
from tests.support.books import code_in
from tests.support.houses import BuiltHouse
from tests.support.sample import sample_house


@pytest.fixture(scope="module")
def sample(tmp_path_factory: pytest.TempPathFactory) -> Iterator[House]:
    house = sample_house(Path(tmp_path_factory.mktemp("plan")))
    yield house
    house.store.close()


def _asked(house: House, whole: bool | None = None) -> Defaults:
    return house.ask(lambda view: plan_defaults(view, house.clock(), whole))


def test_the_sample_house_can_be_planned_as_it_stands(sample: House) -> None:
    made = _asked(sample)
    plan = made.plan
    assert problems(plan) == ()
    assert (plan.colonies, len(plan.yards)) == (1_200, 40)
    # 3,030 supers went through and some 70 to comb: 2.6 a colony, 26 runs of 235 frames an hour.
    assert 3_050 <= plan.supers <= 3_150
    assert 225 <= plan.uncapped_an_hour <= 245
    assert [box.name for box in plan.boxes] == ["medium", "deep", "shallow"]
    assert sum(box.of_1000 for box in plan.boxes) == 1_000
    assert all(box.frames == 9 for box in plan.boxes)
    assert (plan.tanks, plan.tank_g, plan.extractors) == (1, 2_400_000, 1)
    assert 290_000 <= plan.drum_g <= 310_000
    assert 900 <= plan.kept_permille <= 960
    assert made.told >= {"colonies", "frames", "honey_g", "crew", "drum_g", "weather_permille"}
    assert not made.told & {"frames_a_load", "warm_hours", "settle_hours"}


def test_little_is_left_so_the_next_season_is_planned(sample: House) -> None:
    made = _asked(sample)
    assert not made.is_rest
    assert made.plan.begins == date(2027, 7, 7)
    # This season's last supers came in 79 days after its first: arithmetic says so again.
    days = needs(made.plan).part_days[PULLING]
    assert 74 <= days <= 86


def test_what_is_left_is_planned_when_asked_for(sample: House) -> None:
    made = _asked(sample, whole=False)
    assert made.is_rest
    assert 120 <= made.plan.left <= 136
    assert made.plan.here > 0
    assert made.plan.begins.year == 2026


def test_a_new_house_has_what_is_usual() -> None:
    house = BuiltHouse()
    made = house.house.ask(lambda view: plan_defaults(view, house.now_ms))
    assert made.told == frozenset()
    assert (made.season, made.is_rest) == (0, False)
    assert [one.field for one in problems(made.plan)] == ["colonies"]


def test_a_season_that_has_begun_is_planned_to_its_end() -> None:
    house = BuiltHouse()
    house.yard("Ash", colonies=20)
    house.vessel("Line")
    house.vessel("Tank", fed_by="Line")
    house.do(SupersOn("Ash", 60))
    _, tag = house.pull("Ash", 300_000, count=20)
    run = code_in(house.do(OpenRun("Line", tank="Tank", crew="Ann, Joe, Sue")), "R")
    house.do(Load(tag, "Line", 15), run=run)
    house.do(CloseRun(run))
    made = house.house.ask(lambda view: plan_defaults(view, house.now_ms))
    assert made.is_rest
    assert (made.plan.supers, made.plan.through, made.plan.here) == (60, 15, 5)
    assert made.plan.left == 45
    assert made.plan.crew == 3
    assert made.plan.yards[0].name == "Ash"
