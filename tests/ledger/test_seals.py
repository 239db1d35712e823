"""The number of a seal as it is noted, and as papers and the history tell it."""

from honeyledger.ledger.lookup import find_lot
from honeyledger.ledger.seals import seal_of
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.services.drum_list import drum_list
from honeyledger.services.histories import Told, history_of
from honeyledger.services.lot_papers import weigh_ticket
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View
from tests.support.houses import BuiltHouse


def test_a_seal_is_on_the_list_the_ticket_and_in_the_history() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.load("Creek", 600_000, "Tank 1")
    drum = house.do(Fill("Tank 1", Weight(net_g=290_000), seal="A 104")).codes[-1]
    other = house.do(Fill("Tank 1", Weight(net_g=290_000))).codes[-1]
    ask = house.house.ask
    assert [ask(lambda view, code=code: seal_of(view, code)) for code in (drum, other)] == [
        "A 104",
        "",
    ]
    assert [row.seal for row in ask(drum_list).rows] == ["A 104", ""]
    tickets = [
        dict(ask(lambda view, code=code: weigh_ticket(view, house.now_ms, code)).facts)
        for code in (drum, other)
    ]
    assert [facts["Seal"] for facts in tickets] == ["A 104", "none noted"]

    def told(view: View) -> list[Told]:
        lot = find_lot(view, drum)
        return history_of(view, lot, view.history(lot.id), PlaceNames(view), "kg")

    assert any("sealed with A 104" in str(one.sentence) for one in ask(told))
