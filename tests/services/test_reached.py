"""Where reached lots are: in the house, with customers, at the gate."""

from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.reached import customers_of, whereabouts_of
from honeyledger.services.store import View
from tests.support.houses import BuiltHouse


def test_stock_and_customers_are_told_apart() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank")
    house.do(Register("customer", {"name": "Shop"}))
    house.load("Creek", 100_000, "Tank")
    sent, sold, here = (house.drum("Tank", grams) for grams in (30_000, 20_000, 10_000))
    house.do(Dispatch("Shop", (DispatchLine(sent),)))
    house.do(Dispatch("gate", (DispatchLine(sold),)))

    def look(view: View) -> tuple[list[tuple[str, int]], list[tuple[str, tuple[str, ...]]]]:
        ids = [lot.id for code in (sent, sold, here) if (lot := view.lot_by_code(code))]
        lots = view.lot_heads(ids)
        on_hand, given = whereabouts_of(view, lots)
        rows = customers_of(view, given, lots)
        return [(row.lot, row.grams) for row in on_hand if row.grams], [
            (row.name, row.lots) for row in rows
        ]

    on_hand, customers = house.house.ask(look)
    assert on_hand == [(here, 10_000)]
    assert customers == [("Shop", (sent,)), ("farm gate, 24 Jul 2026", (sold,))]
