"""Who has what comes back: a lot, or a case as it was packed when it left."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.packing import Pack, PackLine
from honeyledger.services.dispatch_returns import CameBack, came_back
from tests.support.goods import bottled, house_with_goods
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    return house_with_goods()


def _back(house: BuiltHouse, code: str) -> CameBack:
    return house.house.ask(lambda view: came_back(view, code))


def test_who_has_what_comes_back(house: BuiltHouse) -> None:
    lot = bottled(house)
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
    assert _back(house, bottled(house, jars=1)).holders == ()
    with pytest.raises(Refusal):
        _back(house, "N26-0001-X")


def test_who_has_a_case(house: BuiltHouse) -> None:
    lot = bottled(house)
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
