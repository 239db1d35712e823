"""A visit: read only, customers and coordinates hidden wherever the books are read."""

import json
from dataclasses import asdict, dataclass

import pytest

from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine, TakeBack
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.jars import Complain
from honeyledger.ledger.verbs.recalls import OpenRecall, TellConsignees
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.cards import lot_card
from honeyledger.services.complaints import complaint_rows
from honeyledger.services.dispatch_page import dispatch_page
from honeyledger.services.house import House
from honeyledger.services.recalls import recall_case
from honeyledger.services.store import View
from honeyledger.services.trace_page import trace_page
from honeyledger.services.visit import VisitedStore, veil_of
from tests.support.houses import BuiltHouse, refused

SECRETS = (
    "Corvane",
    "corvane",
    "555 0100",
    "buyer@corvane",
    "Quay Street",
    "47123",
    "Millrace",
    "Marlowe",
)


@dataclass(frozen=True)
class Visited:
    """A house with a case on a drum that was sent."""

    house: BuiltHouse
    case: str
    drum: str


@pytest.fixture(scope="module")
def built() -> Visited:
    house = BuiltHouse()
    house.do(Register("yard", {"name": "Creek", "latitude": 471230000, "longitude": 81230000}))
    house.vessel("Tank 1")
    record = {"name": "Corvane Packing", "phone": "555 0100", "email": "buyer@corvane.example"}
    house.do(Register("customer", {**record, "place": "12 Quay Street", "country": "DE"}))
    house.do(Register("customer", {"name": "Millrace Bakery"}))
    house.load("Creek", 400_000, "Tank 1")
    drum, other = (house.drum("Tank 1", 60_000) for _ in range(2))
    house.do(Dispatch("Corvane Packing", (DispatchLine(drum),), carrier="for Corvane Packing"))
    house.do(Dispatch("Millrace Bakery", (DispatchLine(other),)))
    house.do(TakeBack("Millrace Bakery", other, "Millrace Bakery had no room"))
    house.do(
        Register("customer", {**record, "place": "Pier 4", "country": "DE"}, "corvane-packing")
    )
    house.do(Complain(drum, "smells of smoke", "Ida Marlowe, Millrace Lane"))
    case = house.do(OpenRecall("found by Corvane Packing", (drum,))).given[0]
    house.do(TellConsignees(case, ("Corvane Packing",), "phone", whom="buyer@corvane.example"))
    return Visited(house, case, drum)


def visited(built: Visited) -> House:
    return House(VisitedStore(built.house.store), lambda: built.house.now_ms, lambda: "visit")  # type: ignore[arg-type]


def _records_on(view: View) -> list[object]:
    subjects = [one.subject for one in view.marked("record")]
    return [one.value for one in view.marked_on("record", subjects).values()]


def test_no_customer_and_no_coordinate_is_in_anything_that_is_read(built: Visited) -> None:
    house, now_ms = visited(built), built.house.now_ms
    case, drum = built.case, built.drum
    said = [
        house.ask(lambda view: asdict(recall_case(view, now_ms, case))),
        house.ask(lambda view: asdict(dispatch_page(view, now_ms))),
        house.ask(lambda view: asdict(lot_card(view, drum))),
        house.ask(lambda view: asdict(trace_page(view, drum))),
        house.ask(lambda view: [asdict(row) for row in complaint_rows(view)]),
        house.ask(lambda view: [dict(one.facts) for one in view.entries()]),
        house.ask(lambda view: [one.value for one in view.marked("record")]),
        house.ask(lambda view: [one.value for one in view.marks(f"recall/{case}")]),
        house.ask(_records_on),
        house.ask(lambda view: view.marked_between("record", "customer/", 0, now_ms)),
    ]
    text = json.dumps(said, default=str)
    # Places of the ledger stay: they are what names are looked up by.
    text = text.replace("customer/corvane-packing", "").replace("customer/millrace-bakery", "")
    text = text.replace("corvane-packing/", "").replace("corvane-packing", "")
    assert "Customer 1" in text
    assert "Customer 2" in text
    for secret in SECRETS:
        assert secret not in text, secret


def test_amounts_codes_and_yards_are_as_ever(built: Visited) -> None:
    house, now_ms, case = visited(built), built.house.now_ms, built.case
    seen = house.ask(lambda view: recall_case(view, now_ms, case))
    true = built.house.house.ask(lambda view: recall_case(view, now_ms, case))
    assert seen.lots == true.lots
    assert [one.has_g for one in seen.consignees] == [one.has_g for one in true.consignees]
    assert [one.name for one in seen.consignees] == ["Customer 1"]
    assert seen.consignees[0].details == {"country": "DE"}
    assert seen.upstream == ("Creek",)


def test_nothing_is_recorded(built: Visited) -> None:
    house = visited(built)
    before = built.house.house.ask(lambda view: view.head())
    sentence = (
        "This is a visit: nothing is recorded. End the visit and sign in, then enter it again."
    )
    assert refused(lambda: house.record(Register("yard", {"name": "Hill"}))) == sentence
    assert refused(lambda: house.reverse_chain(1, "no")) == sentence
    assert built.house.house.ask(lambda view: view.head()) == before
    assert not house.store.warnings()
    house.store.close()
    assert all(one.holds for one in house.store.audit())


def test_a_house_without_customers_has_nothing_to_hide() -> None:
    house = BuiltHouse()
    veil = house.house.ask(veil_of)
    assert veil.text("Corvane Packing") == "Corvane Packing"


def test_who_complained_is_hidden_and_that_somebody_did_is_not(built: Visited) -> None:
    (row,) = visited(built).ask(complaint_rows)
    assert (row.what, row.who) == ("smells of smoke", "…")


def test_whose_honey_it_is_is_told_by_its_number(built: Visited) -> None:
    house = built.house
    done = house.do(Receive((Line("Creek", 8, owner="Millrace Bakery"),)))
    pull = next(code for code in done.codes if code.startswith("S"))
    facts = visited(built).ask(lambda view: asdict(lot_card(view, pull)))
    assert "Customer 2" in str(facts)
    assert "Millrace" not in str(facts)
