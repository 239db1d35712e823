"""Traces of what was put right since, and what cannot be traced."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from honeyledger.domain.codes import Code, make_jar_code, parse_code
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Amend, Reverse
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.registers import Register
from honeyledger.persistence.store import open_store
from honeyledger.services.house import House, Said
from honeyledger.services.tracing import trace_back, trace_forward
from tests.support.books import code_in
from tests.support.houses import BuiltHouse, refused


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    house.yard("Hill")
    house.vessel("Tank 1")
    return house


def test_a_reversed_lot_is_not_traced(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Tank 1")
    done = house.do(Fill("Tank 1", Weight(net_g=290_000)))
    drum = done.codes[-1]
    undone = house.do(Reverse(done.entries[0].id, "wrong tank")).entries[0].id
    for trace in (house.back, house.forward):
        assert refused(lambda trace=trace: trace(drum)) == (
            f"{drum} was reversed with entry {undone} and stands for nothing. Take its label off, "
            "and use the code that came after it."
        )


def test_a_receipt_that_was_reversed_is_not_in_its_yards_reach(house: BuiltHouse) -> None:
    kept, _ = house.pull("Creek", 100_000)
    house.pull("Creek", 200_000)
    head = house.house.ask(lambda view: view.head().entry)
    house.do(Reverse(head, "counted twice"))
    assert [row.code for row in house.forward("Creek").lots] == [kept]
    assert house.forward("Creek").on_hand_g == 100_000


def test_a_pull_given_away_whole_is_still_of_its_first_place(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 100_000)
    unknown = house.do(Fill("Tank 1", Weight(net_g=90_000))).codes[0]
    house.do(Amend(unknown, "was not scanned", pallet=tag))
    assert pull in {row.code for row in house.forward("Creek").lots}
    assert house.shares(pull) == {"Creek": 1.0}


def test_days_are_read_or_refused(house: BuiltHouse) -> None:
    house.pull("Creek", 100_000)

    def lots(first: str, last: str) -> int:
        return house.house.ask(lambda view: len(trace_forward(view, "Creek", first, last).lots))

    assert (lots("20260724", ""), lots("2026-07-25", ""), lots("", "2026-07-23")) == (1, 0, 0)
    assert refused(lambda: lots("24.7.2026", "")) == (
        "24.7.2026 is not a day: write it like 2026-07-24."
    )
    assert refused(lambda: lots("2026-07-25", "2026-07-24")) == (
        "The days from 2026-07-25 to 2026-07-24 run backwards. Give the earlier one first."
    )


@pytest.mark.parametrize("days", [("2026-07-24", ""), ("", "2026-07-24")])
def test_a_lot_has_no_days(house: BuiltHouse, days: tuple[str, str]) -> None:
    pull, _ = house.pull("Creek", 100_000)
    said = refused(lambda: house.house.ask(lambda view: trace_forward(view, pull, *days)))
    assert said == (
        f"{pull} is a lot, and days are for the pulls of a yard. Leave them out, or name a yard."
    )


def test_a_name_nothing_has_gets_names_to_choose_from(house: BuiltHouse) -> None:
    house.do(Register("supplier", {"name": "S9"}))
    assert refused(lambda: house.forward("Crek")) == (
        "There is no yard or supplier called Crek. Choose one, such as Creek, or register it "
        "first."
    )


def test_what_is_no_lot_is_named(house: BuiltHouse) -> None:
    _, tag = house.pull("Creek", 100_000)
    said = f"{tag} is a pallet tag, but a lot is needed here. Scan that code instead."
    assert refused(lambda: house.back(tag)) == said
    assert refused(lambda: house.forward(tag)) == said


def test_the_serial_a_lot_never_had(house: BuiltHouse) -> None:
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    house.load("Creek", 300_000, "Tank 1")
    lot = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    house.do(Bottle(lot, 120))
    code = parse_code(lot)
    assert isinstance(code, Code)
    for serial in (0, 121):
        jar = str(make_jar_code(code, serial))
        assert refused(lambda jar=jar: house.back(jar)) == (
            f"Lot {lot} has 120 jars, so there is no serial {serial:05d}. Scan it again."
        )
    assert house.shares(str(make_jar_code(code, 120))) == {"Creek": 1.0}


def test_a_jar_not_labelled_in_line_names_only_its_bottling(house: BuiltHouse) -> None:
    house.vessel("Tank 2")
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    house.load("Creek", 300_000, "Tank 1")
    house.load("Hill", 300_000, "Tank 2")
    lot = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    house.do(ChangeOver(lot, feed="Tank 2", jars=100))
    house.do(Bottle(lot, 200, in_line=False))
    code = parse_code(lot)
    assert isinstance(code, Code)
    jar = str(make_jar_code(code, 1))
    assert house.shares(jar) == {"Creek": 0.5, "Hill": 0.5}
    assert [row.code for row in house.forward(jar).lots] == [lot]


def test_a_trace_asked_again_is_never_older_than_what_other_programs_wrote(tmp_path: Path) -> None:
    path = str(tmp_path / "north.honeyledger")
    house = BuiltHouse(store=open_store(path, create=True))
    ida = house.do(Register("operator", {"name": "Ida"})).given[0]
    house.yard("Creek")
    hill = house.yard("Hill")
    house.vessel("Tank 1")
    pull = house.load("Creek", 300_000, "Tank 1")
    drum = house.drum("Tank 1", 290_000)

    def shares() -> dict[str, float]:
        """Kept from the second time on; as a program says that has kept nothing."""
        again = [house.back(drum) for _ in range(3)]
        store = open_store(path)
        with store.reading() as view:
            anew = trace_back(view, drum)
        store.close()
        assert again == [anew] * 3
        return {row.name: row.share for row in anew.ancestors}

    assert shares() == {"Creek": 1.0}
    typed = f"amend {pull} --yard Hill --reason misread --operator {ida} --json"
    amended = subprocess.run(
        [sys.executable, "-m", "honeyledger", "--house", path, *typed.split()],
        capture_output=True,
        check=True,
        text=True,
    )
    entry = json.loads(amended.stdout)["entries"][0]
    assert shares() == {"Creek": 0.0, "Hill": 1.0}
    other = House(open_store(path), lambda: house.now_ms, lambda: "other")
    other.record(Register("yard", {"name": "Hill Top"}, hill), Said(operator="O26-0001-X"))
    assert shares() == {"Creek": 0.0, "Hill Top": 1.0}
    other.store.close()
    house.do(Reverse(entry, "not misread"))
    assert shares() == {"Creek": 1.0}
    house.store.close()
