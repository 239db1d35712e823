"""What there is at each place now: jars."""

import pytest

from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.standing_now import jars_now
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    return BuiltHouse()


def test_an_open_bottling_stands_before_the_jars(house: BuiltHouse) -> None:
    mill, tank = house.yard("Mill Lane"), house.vessel("Tank")
    house.load(mill, 500_000, tank)
    house.do(Register("product", {"name": "Summer 500", "net_g": 500}))
    first = next(
        code
        for code in house.do(ChangeOver(product="summer-500", feed=tank)).given
        if code[0] == "J"
    )
    house.do(Bottle(first, 100))
    second = next(
        code
        for code in house.do(ChangeOver(product="summer-500", feed=tank)).given
        if code[0] == "J"
    )
    house.do(ChangeOver(second, feed=tank, jars=40))
    rows = house.house.ask(jars_now)
    assert [(row.code, row.state, row.product) for row in rows] == [
        (second, "being bottled", "Summer 500"),
        (first, "ready", "Summer 500"),
    ]
    assert (rows[1].jars, rows[1].grams) == (100, 50_000)
    assert rows[0].grams == 20_000
