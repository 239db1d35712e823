"""The farm gate day by day, with what came back taken off the day it was sold."""

import pytest

from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine, TakeBack
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.gate_sales import gate_sales
from tests.support.books import code_in
from tests.support.houses import BuiltHouse, refused

DAY_MIN = 24 * 60


@pytest.fixture
def house() -> BuiltHouse:
    """A tank, a product of 500 g."""
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.load("Creek", 900_000, "Tank 1")
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    return house


def _sales(house: BuiltHouse, *days: str) -> list[tuple[str, str, str, int, int]]:
    rows = house.house.ask(lambda view: gate_sales(view, *days))
    return [(row.day.isoformat(), row.code, row.name, row.jars, row.grams) for row in rows]


def test_days_lots_jars_and_drums(house: BuiltHouse) -> None:
    jars = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    house.do(Bottle(jars, 100))
    drum = house.drum("Tank 1", 290_000)
    assert _sales(house) == []
    house.do(Dispatch("gate", (DispatchLine(jars, jars=5), DispatchLine(drum, net_g=20_000))))
    house.wait(DAY_MIN)
    house.do(Dispatch("gate", (DispatchLine(jars, jars=3),)))
    house.do(TakeBack("gate", jars, "set hard", jars=2))
    first, second = "2026-07-24", "2026-07-25"
    assert _sales(house) == [
        (first, jars, "Clover", 3, 1_500),
        (first, drum, "drums", 0, 20_000),
        (second, jars, "Clover", 3, 1_500),
    ]
    assert [row[0] for row in _sales(house, second)] == [second]
    assert [row[0] for row in _sales(house, "", first)] == [first, first]
    assert refused(lambda: _sales(house, second, first)) == (
        f"The days from {second} to {first} run backwards. Give the earlier one first."
    )
