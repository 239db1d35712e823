"""The page of dispatch: shelf, customers, people, notes, in one steady view."""

from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.dispatch_page import LATELY_DAYS, dispatch_page
from tests.support.houses import BuiltHouse

DAY_MIN = 24 * 60


def test_a_page_has_all_there_is_to_choose_from() -> None:
    house = BuiltHouse()
    house.vessel("Tank 1")
    house.load(house.yard("Creek"), 900_000, "Tank 1")
    house.do(Register("customer", {"name": "Packer"}))
    house.do(Register("operator", {"name": "Ann Reed"}))
    house.do(Register("product", {"name": "Clover 500", "net_g": 500}))
    sent, here = house.drum("Tank 1", 200_000), house.drum("Tank 1", 100_000)
    house.do(Dispatch("Packer", (DispatchLine(sent),)))
    page = house.house.ask(lambda view: dispatch_page(view, house.now_ms))
    assert [row.name for row in page.customers] == ["Packer"]
    assert [row.name for row in page.people] == ["Ann Reed"]
    assert [row.name for row in page.products] == ["Clover 500"]
    assert [row.code for row in page.shelf] == [here]
    assert (page.unit, page.zone, page.today.isoformat()) == ("kg", "UTC", "2026-07-24")
    assert [row.code for row in page.notes] == ["N26-0001-R"]
    assert set(page.lately) == {"packer"}
    found = page.on_shelf(here)
    assert found is not None
    assert found.grams == 100_000
    assert page.on_shelf(sent) is None
    group = page.group("lots/D")
    assert group is not None
    assert group.lots == (here,)
    assert page.group("product/clover-500") is None


def test_lately_ends_after_some_weeks() -> None:
    house = BuiltHouse()
    house.vessel("Tank 1")
    house.load(house.yard("Creek"), 900_000, "Tank 1")
    drum = house.drum("Tank 1", 200_000)
    house.do(Dispatch("gate", (DispatchLine(drum),)))
    house.wait((LATELY_DAYS + 1) * DAY_MIN)
    page = house.house.ask(lambda view: dispatch_page(view, house.now_ms))
    assert page.lately == {}
    assert len(page.notes) == 1
