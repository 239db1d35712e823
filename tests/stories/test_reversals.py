"""Reversing gives back exactly what was: holdings, what stands where, registers, and reach."""

from typing import Any

import pytest

from honeyledger.ledger.verbs.corrections import Amend, Narrow, Reverse
from honeyledger.ledger.verbs.drums import Fill, Weight
from honeyledger.ledger.verbs.floor import Load, Wash
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.house import Said
from tests.support.doubt import doubtful_house, minutes_from_now, reach
from tests.support.houses import BuiltHouse, refused
from tests.support.random_house import DEEDS, RandomHouse
from tests.support.raw_books import picture, reversed_entries

SIGNED = Said("O26-0001-X")
LINES_OF_WORK = [deed for deed in DEEDS if deed != "chain"]


@pytest.fixture
def house() -> BuiltHouse:
    """A house with one of each thing."""
    return doubtful_house()


def _head(house: BuiltHouse) -> int:
    return house.house.ask(lambda view: view.head().entry)


def _undo_since(house: BuiltHouse, entry: int) -> None:
    """Reverse all that was recorded after an entry, each with what is built on it."""
    while True:
        gone = reversed_entries(house.store)
        left = [one for one in range(entry + 1, _head(house) + 1) if one not in gone]
        if not left:
            return
        house.wait(1)
        house.house.reverse_chain(left[-1], "entered wrongly", SIGNED)


def test_the_refusal_names_what_is_built_on_it_and_changes_nothing(house: BuiltHouse) -> None:
    house.load("A", 400_000, "Tank")
    load = _head(house)
    drum = house.drum("Tank", 50_000)
    house.pour(drum, "Bottling tank")
    before = picture(house.store)

    sentence = refused(lambda: house.do(Reverse(load, "wrong pallet")))
    assert sentence == (
        f"Entry {load} is built on by entry {load + 1} (fill). Reverse those first, newest first, "
        "or reverse the whole chain."
    )
    assert picture(house.store) == before
    assert _head(house) == load + 2


def test_the_preview_is_what_is_then_reversed_newest_first(house: BuiltHouse) -> None:
    """What was done elsewhere meanwhile stays as it is."""
    twin = doubtful_house()
    for one in (house, twin):
        one.pull("A", 400_000)
        one.pull("C", 100_000)
    house.do(Load("G26-0001-3", "Tank"))
    load = _head(house)
    drum = house.drum("Tank", 50_000)
    for one in (house, twin):
        one.do(Load("G26-0002-1", "Line"), minutes_from_now(one, 0))
    house.pour(drum, "Bottling tank")

    chain = [(load + 3, "fill"), (load + 1, "fill"), (load, "load")]
    assert [(entry.id, entry.kind) for entry in house.house.chain(load)] == chain
    done = house.house.reverse_chain(load, "wrong pallet", SIGNED)
    assert [(entry.reverses, entry.kind) for entry in done.entries] == [
        (entry, "reverse") for entry, _ in chain
    ]
    there, wanted = picture(house.store), picture(twin.store)
    assert [row[:3] for row in there["held"]] == [row[:3] for row in wanted["held"]]
    assert [row[:2] for row in there["standing"]] == [row[:2] for row in wanted["standing"]]
    assert there["origins"] == wanted["origins"]


class Undoable(RandomHouse):
    """A house worked at random that leaves alone what was recorded up to an entry."""

    keep = 0

    def say(self, facts: Any, run: str = "") -> list[str]:
        """Anything but the reversal of what is to be kept."""
        if isinstance(facts, Reverse) and facts.entry <= self.keep:
            return []
        return super().say(facts, run)


@pytest.mark.long_on_server
@pytest.mark.parametrize("seed", range(8))
def test_reversing_all_that_came_after_gives_the_house_back(seed: int) -> None:
    """Whatever was done, in whatever order and however late: not one row is another."""
    season = Undoable(seed)
    house = season.built
    for _ in range(25):
        season.deed(season.random.choice(LINES_OF_WORK))
    before, season.keep = picture(house.store), _head(house)
    for _ in range(20):
        season.deed(season.random.choice(LINES_OF_WORK))
    assert _head(house) > season.keep + 5
    _undo_since(house, season.keep)

    assert picture(house.store) == before
    assert [finding for finding in house.store.audit() if not finding.holds] == []


def test_reversing_a_late_load_narrows_the_reach_again(house: BuiltHouse) -> None:
    _, tag = house.pull("A", 100_000)
    loaded = minutes_from_now(house, 0)
    house.wait(10)
    house.load("B", 400_000, "Line")
    drum = house.drum("Fed tank", 50_000)
    house.wait(300)
    assert reach(house, drum) == {"B"}

    house.do(Load(tag, "Line"), loaded)
    late = _head(house)
    assert reach(house, drum) == {"A", "B"}
    assert [row.how for row in house.back(drum).ancestors] == [("grams",), ("late",)]
    house.do(Reverse(late, "another line"))
    assert reach(house, drum) == {"B"}
    assert drum not in {row.code for row in house.forward("A").lots}


def test_reversing_an_amendment_narrows_the_reach_again(house: BuiltHouse) -> None:
    house.load("A", 100_000, "Tank")
    house.load("B", 100_000, "Bottling tank")
    drum = house.drum("Tank", 50_000)
    house.do(Amend(drum, "it was the other", source="Bottling tank"))
    amended = _head(house)
    assert reach(house, drum) == {"A", "B"}
    house.do(Reverse(amended, "it was not"))
    assert reach(house, drum) == {"A"}


def test_reversing_a_narrowing_widens_the_reach_again(house: BuiltHouse) -> None:
    house.load("A", 100_000, "Tank")
    house.drum("Tank", 100_000)
    house.wait(120)
    house.load("B", 100_000, "Tank")
    drum = house.do(Fill("Tank", Weight(net_g=50_000)))
    fill = drum.entries[0]
    heel = next(one for one in fill.origins if one.grams == 0)
    code = fill.lots[0].code
    house.do(Narrow(code, "washed, and not written down", entry=fill.id, line=heel.line))
    assert reach(house, drum.codes[-1]) == {"B"}
    house.do(Reverse(_head(house), "not washed after all"))
    assert reach(house, drum.codes[-1]) == {"A", "B"}


def test_reversing_a_wash_opens_the_chain_again(house: BuiltHouse) -> None:
    house.load("A", 100_000, "Tank")
    house.drum("Tank", 100_000)
    house.wait(120)
    before = picture(house.store)
    house.do(Wash(("Tank",)))
    house.do(Reverse(_head(house), "it was another tank"))
    assert picture(house.store) == before
    house.load("B", 100_000, "Tank")
    assert reach(house, house.drum("Tank", 50_000)) == {"A", "B"}


def test_what_a_wash_kept_of_a_load_is_built_on_it(house: BuiltHouse) -> None:
    """The tank keeps the pull at 0 g, since it came into its line shortly before."""
    house.pull("A", 100_000)
    before = picture(house.store)
    house.do(Load("G26-0001-3", "Line"))
    load = _head(house)
    house.do(Wash(("Fed tank",)))

    assert f"entry {load + 1} (wash)" in refused(lambda: house.do(Reverse(load, "other line")))
    house.house.reverse_chain(load, "other line", SIGNED)
    assert picture(house.store) == before


def test_a_record_reversed_brings_the_one_before_back(house: BuiltHouse) -> None:
    before = picture(house.store)
    code = next(one for one in house.house.ask(lambda view: view.marked("record", "yard/")))
    key = code.subject.partition("/")[2]
    house.do(Register("yard", {"name": "Under the hill"}, key=key))
    change = _head(house)
    pull, _ = house.pull(key, 50_000)
    assert reach(house, pull) == {"Under the hill"}
    house.do(Reverse(change, "misspelt"))
    assert reach(house, pull) == {"A"}
    _undo_since(house, change - 1)
    assert picture(house.store) == before
