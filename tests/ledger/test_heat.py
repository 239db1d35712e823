"""What was heated is found among the lots of a reach."""

from honeyledger.ledger.heat import heated_among
from honeyledger.ledger.verbs.by_products import Melt
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.floor import Cappings
from tests.support.houses import BuiltHouse


def test_only_lots_that_were_heated_and_asked_for() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Line", sort="line")
    house.vessel("Melter")
    house.load("Creek", 100_000, "Line")
    barrel = house.do(Cappings("Line", 30_000)).codes[0]
    house.pour(barrel, "Melter")
    done = house.do(Melt("Melter", wax_g=10_000, honey_g=18_000))
    wax, honey = (code for code in done.codes if code[0] == "W")
    ask = house.house.ask
    assert ask(lambda view: heated_among(view, [barrel, honey, wax])) == tuple(
        sorted([wax, honey])
    )
    assert ask(lambda view: heated_among(view, [barrel])) == ()
    house.do(Reverse(done.entries[0].id, "not cooled yet"))
    assert ask(lambda view: heated_among(view, [barrel, honey, wax])) == ()
