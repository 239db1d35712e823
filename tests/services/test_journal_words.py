"""Each entry in one sentence a person of the house would say."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.checks import Check
from honeyledger.ledger.verbs.corrections import Amend, Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill, Reweigh, Skim
from honeyledger.ledger.verbs.floor import OpenRun, Wash
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.quality import Clear, PutOnHold, Release
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.house import Recorded
from honeyledger.services.journal_words import EntryRow, EntryTeller
from tests.support.books import code_in
from tests.support.houses import BuiltHouse


class Told:
    """A house with a yard, a tank and a person, and what is said of its entries."""

    def __init__(self) -> None:
        self.house = BuiltHouse()
        self.person = self.house.do(Register("operator", {"name": "Ann Reed"})).given[0]
        self.yard = self.house.yard("Creek")
        self.tank = self.house.vessel("Tank 1")

    def row(self, done: Recorded) -> EntryRow:
        """The last entry of what was recorded."""
        entry = done.entries[-1]
        return self.house.house.ask(lambda view: EntryTeller(view, "kg").row(entry))

    def says(self, done: Recorded) -> str:
        """What is said of it."""
        return self.row(done).sentence


@pytest.fixture
def told() -> Told:
    return Told()


def test_supers_that_came(told: Told) -> None:
    done = told.house.do(Receive((Line("Creek", 10),), moisture=1810), operator=told.person)
    pull, tag = done.codes[0], code_in(done, "G")
    row = told.row(done)
    assert row.sentence == (
        f"Received: {pull}; 10 supers, 148.0 kg of Creek on pallet {tag}; moisture 18.1 %."
    )
    assert (row.code, row.by, row.station, row.late) == (pull, "Ann Reed", "", False)
    assert (row.reverses, row.reversed_by) == (0, 0)


def test_a_drum_that_was_filled_and_weighed_again(told: Told) -> None:
    told.house.load("Creek", 300_000, told.tank)
    told.house.container("Drum 7", tare_g=18_000)
    done = told.house.do(Fill(told.tank, Weight(net_g=280_000), container="Drum 7"))
    drum = code_in(done, "D")
    assert told.says(done) == f"Filled: {drum}, 280.0 kg from Tank 1 in Drum 7."
    assert told.row(done).code == drum
    done = told.house.do(Reweigh(drum, Weight(net_g=281_000)))
    assert told.says(done) == "Weighed again: 1.0 kg from weighing difference to Drum 7."


def test_foam_is_told_without_the_honey_that_came_over_from_the_line(told: Told) -> None:
    line = told.house.vessel("Line 1", sort="line")
    tank = told.house.vessel("Settling tank", fed_by=line)
    told.house.do(OpenRun(line, tank))
    told.house.load("Creek", 300_000, line)
    done = told.house.do(Skim(tank, 5_000))
    assert told.says(done) == "Skimmed: 5.0 kg from Settling tank."
    again = told.house.do(Skim(tank, 2_000))
    assert told.says(again) == "Skimmed: 2.0 kg from Settling tank."


def test_jars_from_their_feed_to_the_customer(told: Told) -> None:
    told.house.load("Creek", 300_000, told.tank)
    told.house.do(Register("product", {"name": "Clover", "net_g": 500}))
    told.house.do(Register("customer", {"name": "Corner Shop"}))
    lot = code_in(told.house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    done = told.house.do(Bottle(lot, 100))
    assert told.says(done).startswith(f"Bottled: {lot}; 100 jars, 50.0 kg from ")
    assert told.says(done).endswith(" to the jar store.")
    done = told.house.do(Dispatch("Corner Shop", (DispatchLine(lot, jars=40),)))
    assert told.says(done) == "Dispatched: 40 jars, 20.0 kg from the jar store to Corner Shop."


def test_what_moves_no_honey_names_its_run_or_its_vessels(told: Told) -> None:
    line = told.house.vessel("Line A", sort="line")
    done = told.house.do(OpenRun(line))
    assert told.says(done) == f"Run opened: {code_in(done, 'R')}."
    told.house.load("Creek", 10_000, line)
    assert told.says(told.house.do(Wash((line, told.tank), "never"))).startswith("Washed: ")


def test_readings_and_decisions(told: Told) -> None:
    told.house.load("Creek", 300_000, told.tank)
    drum = told.house.drum("Tank 1", 280_000)
    done = told.house.do(Measure(drum, colour=340, moisture=1790))
    assert told.says(done) == f"Measured: {drum}, moisture 17.9 %; {drum}, colour 34 mm."
    done = told.house.do(PutOnHold("Creek", "residue"), operator=told.person)
    assert told.says(done) == "Put on hold: Creek (residue)."
    assert told.row(done).code == told.yard
    done = told.house.do(Clear(drum, "Creek", "nothing found"), operator=told.person)
    assert told.says(done) == f"Cleared: {drum}."
    done = told.house.do(Release("Creek", "all is well"), operator=told.person)
    assert told.says(done) == "Hold released (all is well)."


def test_registers(told: Told) -> None:
    done = told.house.do(Register("yard", {"name": "Hill"}))
    assert told.says(done) == f"Registered: yard Hill, {done.given[0]}."
    changed = told.house.do(Register("yard", {"name": "Hill 2"}, done.given[0]))
    assert told.says(changed) == "Record changed: yard Hill 2."
    assert told.row(changed).code == done.given[0]
    assert told.says(told.house.do(Register("customer", {"name": "Shop"}))) == (
        "Registered: customer Shop."
    )


def test_mistakes_put_right(told: Told) -> None:
    pull = told.house.load("Creek", 300_000, told.tank)
    told.house.yard("Hill")
    done = told.house.do(Amend(pull, "misread", yard="Hill"))
    assert told.says(done) == f"Amended: {pull}, 300.0 kg of Hill, not Creek (misread)."
    done = told.house.do(Receive((Line("Creek", 10),)))
    undone = told.house.do(Reverse(done.entries[0].id, "typed twice"))
    assert told.says(undone) == f"Entry {done.entries[0].id} reversed (typed twice)."
    assert told.row(undone).reverses == done.entries[0].id
    assert told.row(done).reversed_by == undone.entries[0].id


def test_what_was_typed_much_later_is_late(told: Told) -> None:
    told.house.wait(600)
    assert (
        told.row(
            told.house.do(
                Receive((Line("Creek", 10),)),
            )
        ).late
        is False
    )
    done = told.house.do(Receive((Line("Creek", 10),)), at_min=5)
    assert told.row(done).late


def test_of_many_the_first_are_named(told: Told) -> None:
    lines = tuple(Line(told.house.yard(f"Yard {n}"), 2) for n in range(5))
    done = told.house.do(Receive(lines))
    assert " and 3 more; 10 supers, 148.0 kg of Yard 0, Yard 1 and 3 more" in told.says(done)


def test_a_check_and_the_hold_on_what_used_it(told: Told) -> None:
    sieve = told.house.do(Register("equipment", {"name": "Sieve", "at": "Tank 1"})).given[0]
    assert told.says(told.house.do(Check("Sieve", "mesh", "off", note="a hole"))) == (
        "Check: Sieve, mesh: off (a hole)."
    )
    done = told.house.do(Check("", "Chemicals and grease", listed="chemicals"))
    assert told.says(done) == "Check: Chemicals and grease: right."
    told.house.load("Creek", 300_000, told.tank)
    drum = told.house.drum(told.tank, 100_000)
    assert told.says(told.house.do(PutOnHold(sieve, "a hole", lots=(drum,)))) == (
        "Put on hold: Sieve (a hole)."
    )
