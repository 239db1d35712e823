"""A container is out with whoever has its last lot; one-way drums are owed by nobody."""

from honeyledger.ledger.empties import is_out
from honeyledger.ledger.places import DRUM, place
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.trade import Empties
from tests.support.books import code_in
from tests.support.houses import BuiltHouse


def test_a_container_goes_and_comes_and_goes_again() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    where = place(DRUM, house.container("Blue 1"))
    house.load("Creek", 900_000, "Tank 1")
    for name in ("Packer", "Shop"):
        house.do(Register("customer", {"name": name}))
    seen = []
    for customer in ("Packer", "Shop"):
        facts = Fill("Tank 1", Weight(net_g=200_000), container="Blue 1", washed=True)
        drum = house.do(facts).codes[-1]
        done = house.do(Dispatch(customer, (DispatchLine(drum),)))
        out = house.house.ask(lambda view: is_out(view, where))
        assert out is not None
        assert (out.lot, out.note, out.since_ms) == (drum, code_in(done, "N"), house.now_ms)
        seen.append(out.customer)
        house.do(Empties(customer, ("Blue 1",)))
        assert house.house.ask(lambda view: is_out(view, where)) is None
    assert seen == ["customer/packer", "customer/shop"]


def test_part_of_a_drum_does_not_take_its_container_along() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    where = place(DRUM, house.container("Blue 1"))
    house.load("Creek", 900_000, "Tank 1")
    house.do(Register("customer", {"name": "Packer"}))
    drum = house.do(Fill("Tank 1", Weight(net_g=200_000), container="Blue 1")).codes[-1]
    house.do(Dispatch("Packer", (DispatchLine(drum, net_g=50_000),)))
    assert house.house.ask(lambda view: is_out(view, where)) is None
