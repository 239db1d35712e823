"""What a supplier calls a lot leads to all that came in under it."""

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bought_in import Purchase
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.supplies import Supply
from honeyledger.services.recall_starts import TheirLot, called_by_supplier, their_lots
from tests.support.houses import BuiltHouse, refused


def test_all_that_came_in_under_one_number_whoever_sent_it() -> None:
    house = BuiltHouse()
    for name in ("Trader", "Glassworks"):
        house.do(Register("supplier", {"name": name}))
    honey = house.do(Purchase("Trader", Weight(net_g=60_000), "L 7", "AR", certificate="C 31"))
    jars = house.do(Supply("Glassworks", "packaging", "jars", count=10, supplier_lot="l7"))
    lids = house.do(Supply("Glassworks", "packaging", "lids", count=10, supplier_lot="L 8"))
    gone = house.do(Supply("Glassworks", "packaging", "lids", count=10, supplier_lot="L 9"))
    house.do(Supply("Glassworks", "packaging", "labels", count=10))
    house.do(Reverse(gone.entries[0].id, "not ours"))

    both = (honey.codes[0], jars.codes[0])
    assert house.house.ask(lambda view: called_by_supplier(view, " l 7")) == both
    assert house.house.ask(their_lots) == (TheirLot("L 8", (lids.codes[0],)), TheirLot("l7", both))
    sentence = (
        "Nothing came in as lot L 9 of a supplier. Read their label again, or take the code of "
        "this house."
    )
    assert (
        refused(lambda: house.house.ask(lambda view: called_by_supplier(view, "L 9"))) == sentence
    )
