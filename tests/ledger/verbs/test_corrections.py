"""Reversing: what nothing builds on is negated, the rest newest first or not at all."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.corrections import Amend, Reverse, chain_of
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Fill, Reweigh
from honeyledger.ledger.verbs.floor import Load, OpenRun
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import (
    code_in,
    grams_at,
    holding,
    mark,
    origins,
    place,
    postings,
    standing,
    turned_down,
)
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    house.yard("Hill")
    house.vessel("Tank 1")
    house.vessel("Tank 2")
    house.do(Register("customer", {"name": "Packer"}))
    return house


def _head(house: BuiltHouse) -> int:
    return house.house.ask(lambda view: view.head().entry)


def test_an_entry_is_negated_and_stays_on_record(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 100_000)
    load = house.do(Load(tag, "Tank 1"))
    done = house.do(Reverse(load.entries[0].id, "wrong pallet"))
    assert postings(house, done) == {
        (pull, "Tank 1", -100_000),
        (pull, f"pallet/{tag}", 100_000),
    }
    (entry,) = done.entries
    assert (entry.kind, entry.reverses, entry.facts["said"]) == (
        "reverse",
        load.entries[0].id,
        {"entry": load.entries[0].id, "reason": "wrong pallet"},
    )
    assert holding(house, pull)[f"pallet/{tag}"] == (100_000, 10)
    assert house.house.ask(lambda view: view.entry(load.entries[0].id)) == load.entries[0]
    assert house.house.ask(lambda view: view.reversed_by(load.entries[0].id)) == entry.id


def test_what_builds_on_it_is_named(house: BuiltHouse) -> None:
    _, tag = house.pull("Creek", 300_000)
    receipt = _head(house)
    house.do(Load(tag, "Tank 1"))
    house.drum("Tank 1", 100_000)
    assert turned_down(house, Reverse(receipt, "wrong yard")) == (
        f"Entry {receipt} is built on by entry {receipt + 1} (load), entry {receipt + 2} (fill). "
        "Reverse those first, newest first, or reverse the whole chain."
    )
    for _ in range(8):
        house.drum("Tank 1", 10_000)
    assert turned_down(house, Reverse(receipt + 2, "wrong tank")).endswith(
        f"entry {receipt + 8} (fill) and 2 more. Reverse those first, newest first, or reverse "
        "the whole chain."
    )


def test_a_later_entry_on_its_vessel_blocks_it(house: BuiltHouse) -> None:
    _, tag = house.pull("Creek", 300_000)
    load = house.do(Load(tag, "Tank 1")).entries[0].id
    house.load("Hill", 10_000, "Tank 1")
    assert f"is built on by entry {_head(house)} (load)" in turned_down(
        house, Reverse(load, "wrong tank")
    )


def test_readings_holds_and_notes_do_not_block(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Tank 1")
    fill = house.do(Fill("Tank 1", Weight(net_g=100_000)))
    drum = fill.codes[-1]
    house.do(Measure(drum, moisture=17_50))
    house.do(PutOnHold(drum, "smoke"))
    house.do(Reverse(fill.entries[0].id, "wrong tank"))
    assert holding(house, drum) == {}


def test_reversed_pairs_do_not_block(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Tank 1")
    fill = house.do(Fill("Tank 1", Weight(net_g=100_000)))
    drum = fill.codes[-1]
    again = house.do(Reweigh(drum, Weight(net_g=99_000))).entries[0].id
    assert "(reweigh)" in turned_down(house, Reverse(fill.entries[0].id, "wrong tank"))
    house.do(Reverse(again, "other drum"))
    house.do(Reverse(fill.entries[0].id, "wrong tank"))
    assert grams_at(house, "difference") == 0


def test_a_later_amendment_of_the_lot_blocks_it(house: BuiltHouse) -> None:
    pull, _ = house.pull("Creek", 100_000)
    receipt = _head(house)
    amend = house.do(Amend(pull, "misread", yard="Hill")).entries[0].id
    assert f"is built on by entry {amend} (amend)" in turned_down(house, Reverse(receipt, "x"))


def test_the_whole_chain_newest_first_as_one_command(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 300_000)
    receipt = _head(house)
    house.do(Load(tag, "Tank 1"))
    drum = house.drum("Tank 1", 100_000)
    house.do(Dispatch("Packer", (DispatchLine(drum),)))
    free, _ = house.pull("Hill", 50_000)
    chain = house.house.ask(lambda view: chain_of(view, receipt))
    assert chain == [receipt + 3, receipt + 2, receipt + 1, receipt]
    assert [entry.id for entry in house.house.chain(receipt)] == chain
    done = house.house.reverse_chain(receipt, "never came")
    assert [entry.reverses for entry in done.entries] == chain
    assert [entry.part for entry in done.entries] == [0, 1, 2, 3]
    assert len({entry.act.command for entry in done.entries}) == 1
    for code in (pull, drum):
        assert holding(house, code) == {}
    assert holding(house, free) != {}


def test_the_opening_of_a_run_has_its_entries_behind_it(house: BuiltHouse) -> None:
    run = code_in(house.do(OpenRun("Tank 1")), "R")
    opened = _head(house)
    _, tag = house.pull("Creek", 300_000)
    load = house.do(Load(tag, "Tank 1"), run=run).entries[0].id
    assert turned_down(house, Reverse(opened, "wrong line")) == (
        f"Entry {opened} is built on by entry {load} (load). Reverse those first, newest first, "
        "or reverse the whole chain."
    )
    assert house.house.ask(lambda view: chain_of(view, opened)) == [load, opened]


def test_a_record_in_use_is_changed_not_taken_away(house: BuiltHouse) -> None:
    creek, tank = 3, 5  # the house, a box, Creek, Hill, Tank 1
    house.load("Creek", 300_000, "Tank 1")
    said = "Entry {} registered {}, which is in use. Change its record instead."
    assert turned_down(house, Reverse(1, "x")) == said.format(1, "Test House")
    assert turned_down(house, Reverse(creek, "x")) == said.format(creek, "Creek")
    assert turned_down(house, Reverse(tank, "x")) == said.format(tank, "Tank 1")
    code = place(house, "Tank 1").partition("/")[2]
    change = house.do(Register("vessel", {"name": "Sump"}, key=code)).entries[0].id
    house.do(Reverse(change, "it is a tank"))
    assert mark(house, f"vessel/{code}", "record")["name"] == "Tank 1"
    house.do(Reverse(tank + 1, "never bought"))  # nothing was done with Tank 2
    assert turned_down(house, Fill("Tank 2", whole=True)).startswith("There is no vessel")


def test_what_reversing_refuses(house: BuiltHouse) -> None:
    _, tag = house.pull("Creek", 300_000)
    load = house.do(Load(tag, "Tank 1")).entries[0].id
    assert turned_down(house, Reverse(load, "  ")) == "Give the reason in a word or two."
    for entry in (0, -3, 999):
        assert turned_down(house, Reverse(entry, "x")) == (
            f"There is no entry {entry}. Look it up in the lot's history."
        )
    undone = house.do(Reverse(load, "wrong pallet")).entries[0].id
    assert turned_down(house, Reverse(load, "again")) == (
        f"Entry {load} is already reversed, by entry {undone}. Nothing is left to do."
    )
    assert turned_down(house, Reverse(undone, "it was right")) == (
        f"Entry {undone} is a reversal itself. Enter again what was reversed, as it should be."
    )


def test_reversing_an_amendment_gives_the_old_place_back(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 100_000)
    amend = house.do(Amend(pull, "misread", yard="Hill")).entries[0].id
    house.do(Reverse(amend, "it was right"))
    assert house.shares(pull) == {"Creek": 1.0}
    assert mark(house, pull, "amended") is None
    house.do(Load(tag, "Tank 1"))
    assert origins(house, house.drum("Tank 1", 100_000)) == {
        next(iter(standing(house, "Tank 1"))): 100_000
    }
