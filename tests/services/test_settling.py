"""A run's statement as rows: as it stands, and as signed."""

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import CloseRun, Load, OpenRun
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.owners import Settle
from honeyledger.services.settling import Statement, statement
from tests.support.books import code_in
from tests.support.houses import BuiltHouse, refused


def test_what_was_signed_stays_whatever_comes_later() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Line", sort="line")
    house.vessel("Tank", fed_by="Line")
    run = code_in(house.do(OpenRun("Line")), "R")
    tag = code_in(house.do(Receive((Line("Creek", 10, owner="A neighbour"),))), "G")
    house.do(Load(tag, "Line"), run=run)
    drum = code_in(house.do(Fill("Tank", Weight(net_g=140_001)), run=run), "D")

    def found() -> Statement:
        return house.house.ask(lambda view: statement(view, run))

    assert found().moisture is None
    (row,) = found().rows
    assert (row.owner, row.honey_g, row.kept_g, row.due_g) == ("A neighbour", 140_001, 0, 140_001)
    assert (row.taken_g, found().signed_in) == (None, 0)
    house.do(Measure(drum, moisture=1_780))
    assert found().moisture == 1_780
    house.do(CloseRun(run))
    settled = house.do(Settle(run, 250)).entries[0].id
    (row,) = found().rows
    assert (row.kept_g, row.due_g, found().signed_in) == (35_000, 105_001, settled)
    assert refused(lambda: house.house.ask(lambda view: statement(view, "R26-0007-G"))).startswith(
        "R26-0007-"
    )
