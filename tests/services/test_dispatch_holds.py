"""The way by which a hold reaches a lot that was to go."""

import pytest

from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.services.dispatching import Pick, pick_of
from tests.support.goods import house_with_goods
from tests.support.houses import BuiltHouse, refused


@pytest.fixture
def house() -> BuiltHouse:
    return house_with_goods()


def _pick(house: BuiltHouse, code: str) -> Pick | None:
    return house.house.ask(lambda view: pick_of(view, code))


def test_a_hold_says_by_which_way_it_reaches_a_lot(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 200_000)
    house.pour(drum, "Tank 2")
    later = house.drum("Tank 2", 100_000)
    pull = house.back(drum).lots[0].code
    fills = [row.code for row in house.back(later).lots if row.kind == "T"]
    house.do(PutOnHold(pull, "smells of smoke"))
    said = refused(lambda: _pick(house, later))
    way = said.split("by way of ")[1].split(":")[0].split(", ")
    assert said == (
        f"{later} is on hold through {pull}, by way of {', '.join(way)}: smells of smoke. Put it "
        "aside, or have it cleared by name."
    )
    assert way[0] in fills
    assert way[-1] in fills
    assert drum in way


def test_a_hold_on_a_yard_names_the_pull_too(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 200_000)
    rows = house.back(drum).lots
    pull = next(row.code for row in rows if row.kind == "S")
    fill = next(row.code for row in rows if row.kind == "T")
    house.do(PutOnHold("Creek", "treated", first_day="2026-07-01"))
    assert refused(lambda: _pick(house, drum)).startswith(
        f"{drum} is on hold through Creek, by way of {pull}, {fill}: treated. Put it aside"
    )
