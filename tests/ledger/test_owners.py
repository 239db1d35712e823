"""Whose run it is, and how one is shared that nobody settled yet."""

from honeyledger.ledger.owners import said_of, settlement_of
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load, OpenRun
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import code_in
from tests.support.houses import BuiltHouse


def _house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Line", sort="line")
    house.vessel("Tank", fed_by="Line")
    house.do(Register("customer", {"name": "Wendt"}))
    return house


def test_a_run_is_of_whom_it_was_opened_for_else_of_the_first_load() -> None:
    house = _house()
    opened = code_in(house.do(OpenRun("Line", owner="Wendt")), "R")
    nobodys = code_in(house.do(OpenRun("Line")), "R")
    tag = code_in(house.do(Receive((Line("Creek", 10, owner="Wendt"),))), "G")
    assert house.house.ask(lambda view: said_of(view, opened)) == "customer/wendt"
    assert house.house.ask(lambda view: said_of(view, nobodys)) == ""
    house.do(Load(tag, "Line"), run=nobodys)
    assert house.house.ask(lambda view: said_of(view, nobodys)) == "customer/wendt"


def test_an_owner_without_a_record_is_a_name() -> None:
    house = _house()
    run = code_in(house.do(OpenRun("Line")), "R")
    tag = code_in(house.do(Receive((Line("Creek", 10, owner="A neighbour"),))), "G")
    house.do(Load(tag, "Line"), run=run)
    house.do(Fill("Tank", Weight(net_g=140_000)), run=run)
    found = house.house.ask(lambda view: settlement_of(view, run))
    assert [(part.owner, part.supers, part.honey_g) for part in found.parts] == [
        ("A neighbour", 10, 140_000)
    ]
    assert (found.basis, found.pooled, found.honey_g) == ("boxes", False, 140_000)


def test_an_empty_run_has_no_parts() -> None:
    house = _house()
    run = code_in(house.do(OpenRun("Line")), "R")
    assert house.house.ask(lambda view: settlement_of(view, run)).parts == ()


def test_an_owners_run_on_a_heel_says_so() -> None:
    house = _house()
    house.load("Creek", 60_000, "Line")
    house.do(Fill("Tank", Weight(net_g=20_000)))
    said = (
        "40.0 kg stood in {} as this run of {} began. If that is not theirs, wash for a clean "
        "break; else it goes into their honey, and as much is taken off their share."
    )
    assert house.do(OpenRun("Line", owner="Wendt")).notes == (said.format("Tank", "Wendt"),)
    house.do(Fill("Tank", Weight(net_g=40_000)), run="none")
    house.load("Creek", 50_000, "Line", run="none")
    done = house.do(OpenRun("Line"))
    run = code_in(done, "R")
    assert not any("clean break" in note for note in done.notes)  # nobody's yet
    tag = code_in(house.do(Receive((Line("Creek", 10, owner="Wendt"),))), "G")
    told = said.replace("40.0", "50.0").format("Line", "Wendt")
    assert told in house.do(Load(tag, "Line"), run=run).notes
