"""Orders wait until they are sent under their name, or said to be done."""

from datetime import date

from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.orders import Order, open_orders
from tests.support.houses import BuiltHouse


def test_what_is_due_first_and_what_went_out_no_more() -> None:
    house = BuiltHouse()
    house.yard("Ash")
    house.vessel("Tank")
    house.do(Register("customer", {"name": "Corner shop"}))
    for name, due in (("PO 2", "2026-08-30"), ("PO 1", "2026-07-30"), ("PO 3", "")):
        record = {"name": name, "customer": "Corner shop", "goods": "honey"}
        house.do(Register("order", record | ({"due": due} if due else {})))

    def names() -> list[str]:
        return [order.name for order in house.house.ask(open_orders)]

    assert house.house.ask(open_orders)[0] == Order(
        "PO 1", "Corner shop", "honey", date(2026, 7, 30)
    )
    assert names() == ["PO 1", "PO 2", "PO 3"]
    house.load("Ash", 100_000, "Tank")
    drum = house.drum("Tank", 50_000)
    sent = house.do(Dispatch("Corner shop", (DispatchLine(drum),), reference="po 1"))
    assert names() == ["PO 2", "PO 3"]
    house.do(Reverse(sent.entries[0].id, "wrong truck"))
    assert names() == ["PO 1", "PO 2", "PO 3"]
    house.do(Register("order", {"name": "PO 3", "customer": "Corner shop", "done": 1}, "po-3"))
    assert names() == ["PO 1", "PO 2"]


def test_a_house_without_orders_has_none() -> None:
    assert BuiltHouse().house.ask(open_orders) == ()
