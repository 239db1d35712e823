"""Who has what comes back: a lot, or a case as it was packed when it left."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.packing import Pack, PackLine
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.dispatch_returns import CameBack, came_back
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """900 kg of Creek in Tank 1, an empty Tank 2; two customers; two products."""
    house = BuiltHouse()
    house.vessel("Tank 1")
    house.vessel("Tank 2")
    house.load(house.yard("Creek"), 900_000, "Tank 1")
    house.do(Register("product", {"name": "Clover 500", "net_g": 500}))
    house.do(Register("product", {"name": "Aster 250", "net_g": 250}))
    for name in ("Corner Shop", "Packer"):
        house.do(Register("customer", {"name": name}))
    return house


def _jars(house: BuiltHouse, product: str = "Clover 500", jars: int = 100) -> str:
    lot = next(
        c for c in house.do(ChangeOver(product=product, feed="Tank 1")).given if c[0] == "J"
    )
    house.do(Bottle(lot, jars))
    return lot


def _back(house: BuiltHouse, code: str) -> CameBack:
    return house.house.ask(lambda view: came_back(view, code))


def test_who_has_what_comes_back(house: BuiltHouse) -> None:
    lot = _jars(house)
    house.do(Dispatch("Corner Shop", (DispatchLine(lot, jars=10),)))
    house.do(Dispatch("gate", (DispatchLine(lot, jars=2),)))
    house.wait(24 * 60)
    house.do(Dispatch("gate", (DispatchLine(lot, jars=3),)))
    back = _back(house, lot)
    assert (back.code, back.kind, back.name) == (lot, "J", "Clover 500")
    assert [(one.customer, one.name, one.jars, one.grams) for one in back.holders] == [
        ("gate", "farm gate, 25 Jul 2026", 3, 1_500),
        ("Corner Shop", "Corner Shop", 10, 5_000),
    ]
    assert _back(house, _jars(house, jars=1)).holders == ()
    with pytest.raises(Refusal):
        _back(house, "N26-0001-X")


def test_who_has_a_case(house: BuiltHouse) -> None:
    lot = _jars(house)
    sent, here = [c for c in house.do(Pack((PackLine(lot, 12),), 2)).given if c[0] == "C"]
    house.do(Dispatch("Corner Shop", (DispatchLine(sent),)))
    back = _back(house, sent.lower())
    assert (back.code, back.kind, back.name) == (sent, "C", "Clover 500")
    assert [(one.customer, one.jars, one.grams) for one in back.holders] == [
        ("Corner Shop", 12, 6_000)
    ]
    assert _back(house, here).holders == ()
    house.do(Dispatch("gate", (DispatchLine(here),)))
    assert [one.customer for one in _back(house, here).holders] == ["gate"]
