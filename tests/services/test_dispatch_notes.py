"""Notes as recorded, reversed ones too; what each customer had lately, returns taken off."""

import pytest

from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine, TakeBack
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.dispatch_notes import customer_of, lately, note_rows
from tests.support.houses import START_MS, BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.vessel("Tank 1")
    house.load(house.yard("Creek"), 900_000, "Tank 1")
    house.do(Register("product", {"name": "Clover 500", "net_g": 500}))
    for name in ("Corner Shop", "Packer"):
        house.do(Register("customer", {"name": name}))
    return house


def _jars(house: BuiltHouse, jars: int = 100) -> str:
    done = house.do(ChangeOver(product="Clover 500", feed="Tank 1"))
    lot = next(code for code in done.given if code[0] == "J")
    house.do(Bottle(lot, jars))
    return lot


def test_the_newest_note_is_first_with_its_lines(house: BuiltHouse) -> None:
    drum, jars = house.drum("Tank 1", 200_000), _jars(house)
    first = house.do(Dispatch("Packer", (DispatchLine(drum),)))
    lines = (DispatchLine(jars, jars=40), DispatchLine(jars, jars=2))
    done = house.do(Dispatch("Corner Shop", lines, "Own van", "PO 7"))
    house.do(Reverse(first.entries[0].id, "wrong customer"))
    newest, before = house.house.ask(note_rows)
    assert (newest.code, newest.entry) == (done.given[0], done.entries[0].id)
    assert (newest.customer, newest.name) == ("customer/corner-shop", "Corner Shop")
    assert (newest.state, newest.carrier, newest.reference) == ("sent", "Own van", "PO 7")
    assert (newest.jars, newest.grams, len(newest.lines)) == (42, 21_000, 1)
    line = newest.lines[0]
    assert (line.code, line.group, line.name) == (jars, "product/clover-500", "Clover 500")
    assert (before.state, before.jars, before.grams) == ("reversed", 0, 200_000)
    assert before.lines[0].name == "drums"
    assert len(house.house.ask(lambda view: note_rows(view, last=1))) == 1


def test_what_a_customer_had_lately_is_less_what_came_back(house: BuiltHouse) -> None:
    drum, jars = house.drum("Tank 1", 200_000), _jars(house)
    house.do(Dispatch("Corner Shop", (DispatchLine(jars, jars=40),)))
    last = house.do(Dispatch("Corner Shop", (DispatchLine(jars, jars=10), DispatchLine(drum))))
    house.do(TakeBack("Corner Shop", jars, "dented", jars=6))
    wrong = house.do(Dispatch("Packer", (DispatchLine(jars, jars=1),)))
    house.do(Reverse(wrong.entries[0].id, "wrong customer"))
    house.do(Dispatch("gate", (DispatchLine(jars, jars=3),)))
    found = house.house.ask(lambda view: lately(view, START_MS))
    assert set(found) == {"corner-shop", "gate"}
    had = found["corner-shop"]
    assert (had.name, had.notes, had.jars, had.grams) == ("Corner Shop", 2, 44, 222_000)
    assert had.last_ms == last.entries[0].act.happened.at_ms
    assert dict(had.asked) == {"product/clover-500": 10, "lots/D": 1}
    assert (found["gate"].jars, found["gate"].asked) == (3, (("product/clover-500", 3),))
    assert house.house.ask(lambda view: lately(view, house.now_ms + 1)) == {}


def test_all_days_of_the_gate_are_one_customer() -> None:
    assert customer_of("gate/2026-07-24") == "gate"
    assert customer_of("customer/corner-shop") == "corner-shop"
