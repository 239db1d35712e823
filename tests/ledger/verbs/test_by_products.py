"""Cappings by drainer, spinner and melter to wax and heated honey."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.by_products import Melt
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Cappings, Wash
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.services.cards import lot_card
from honeyledger.services.house import Recorded
from honeyledger.services.stock import lot_balance
from tests.support.books import (
    attributes,
    code_in,
    grams_at,
    holding,
    mark,
    origins,
    standing,
    turned_down,
)
from tests.support.houses import BuiltHouse

HOT_WAX = (
    "Hot wax burns and catches fire: a water jacket and never an open flame, gloves, and a lid at "
    "hand."
)


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    house.yard("Hill")
    house.vessel("Line", sort="line")
    for name in ("Drainer", "Spinner", "Melter", "Tank 3"):
        house.vessel(name)
    return house


def _sound(house: BuiltHouse) -> None:
    assert [one for one in house.store.audit() if not one.holds] == []


def _barrel(house: BuiltHouse, grams: int) -> str:
    return house.do(Cappings("Line", grams)).codes[0]


def _sorts(house: BuiltHouse, done: Recorded) -> dict[str, str]:
    """Codes of the lots made, by what they are."""
    sorts = {str(attributes(house, code).get("sort", "")): code for code in done.codes}
    return {sort: code for sort, code in sorts.items() if sort}


def test_cappings_of_two_runs_by_drainer_and_spinner_to_the_melter(house: BuiltHouse) -> None:
    """60 kg of cappings: 30 drain, 14 are spun out, wax 6, melter honey 8, residue 1, 1 gone."""
    creek = house.load("Creek", 300_000, "Line")
    first = _barrel(house, 40_000)
    hill = house.load("Hill", 200_000, "Line")
    second = _barrel(house, 20_000)
    for barrel in (first, second):
        house.pour(barrel, "Drainer")
    house.pour("Drainer", "Tank 3", 30_000)
    house.pour("Drainer", "Spinner")
    house.pour("Spinner", "Tank 3", 14_000)
    house.pour("Spinner", "Melter")
    done = house.do(Melt("Melter", 6_000, 8_000, 1_000, temperature=720))
    made = _sorts(house, done)
    wax, honey = made["wax"], made["melter honey"]
    assert holding(house, wax) == {f"barrel/{wax}": (6_000, 0)}
    assert holding(house, honey) == {f"barrel/{honey}": (8_000, 0)}
    assert grams_at(house, "discarded") == 1_000
    assert standing(house, "Melter") == {done.codes[0]: 0}
    fill_g = 16_000
    balance = house.house.ask(lambda view: lot_balance(view, done.codes[0]))
    assert balance.gap_g == 0
    assert {part.name or part.code: part.grams for part in (*balance.places, *balance.later)} == {
        "discarded": 1_000,
        "weighing difference": fill_g - 15_000,
        wax: 6_000,
        honey: 8_000,
    }
    for lot in (wax, honey):
        assert {creek, hill, first, second} <= {row.code for row in house.back(lot).lots}
        assert mark(house, lot, "heated")["temperature"] == 720
    _sound(house)


def test_what_melter_honey_goes_into_is_heated(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Line")
    house.pour(_barrel(house, 40_000), "Melter")
    done = house.do(Melt("Melter", 10_000, 29_000, into="Tank 3"))
    honey = _sorts(house, done)["melter honey"]
    assert standing(house, "Tank 3") == {honey: 29_000}
    assert done.notes == (
        "The books still saw 1.0 kg in Melter: it counts as clinging there, and goes to weighing "
        "difference.",
        f"{honey} is heated honey, darker and higher in HMF: what it goes into says so. Do not "
        "feed it to bees.",
        HOT_WAX,
    )
    house.load("Creek", 100_000, "Tank 3")
    drum = house.drum("Tank 3", 120_000)
    assert house.house.ask(lambda view: lot_card(view, drum)).heated == (honey,)
    prime = house.drum("Line", 200_000)
    assert house.house.ask(lambda view: lot_card(view, prime)).heated == ()
    _sound(house)


def test_a_melter_that_goes_on_keeps_the_rest(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Line")
    house.pour(_barrel(house, 40_000), "Melter")
    facts = Melt("Melter", wax_g=10_000)
    assert turned_down(house, facts) == (
        "The books see 40.0 kg in Melter, and 10.0 kg is all that came out? 30.0 kg cannot cling. "
        "Weigh again, or say only what was drawn, and record what became of the rest."
    )
    done = house.do(Melt("Melter", wax_g=10_000, goes_on=True))
    assert standing(house, "Melter") == {done.codes[0]: 30_000}
    assert done.notes == (HOT_WAX,)
    house.do(Melt("Melter", wax_g=4_000, honey_g=26_000))
    assert standing(house, "Melter") == {done.codes[0]: 0}
    _sound(house)


def test_more_than_the_books_hold_is_honey_nobody_knows(house: BuiltHouse) -> None:
    """A barrel was tipped in that nobody scanned."""
    house.load("Creek", 300_000, "Line")
    house.pour(_barrel(house, 40_000), "Melter")
    done = house.do(Melt("Melter", 20_000, 60_000))
    unknown = code_in(done, "S")
    assert origins(house, done.codes[1])[unknown] == 40_000
    assert any("stands for the rest, on hold" in note for note in done.notes)


def test_the_melters_own_heel_is_in_reach(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Line")
    house.pour(_barrel(house, 40_000), "Melter")
    first = house.do(Melt("Melter", 10_000, 30_000))
    house.load("Hill", 300_000, "Line")
    house.pour(_barrel(house, 40_000), "Melter")
    wax = _sorts(house, house.do(Melt("Melter", 10_000, 30_000)))["wax"]
    assert first.codes[0] in {row.code for row in house.back(wax).lots}


def test_melting_is_reversed(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Line")
    barrel = _barrel(house, 40_000)
    house.pour(barrel, "Melter")
    done = house.do(Melt("Melter", 10_000, 29_000))
    honey = _sorts(house, done)["melter honey"]
    pour = house.pour(honey, "Tank 3")
    entry = done.entries[0].id
    assert turned_down(house, Reverse(entry, "weighed wrongly")) == (
        f"Entry {entry} is built on by entry {pour.entries[0].id} (fill). Reverse those first, "
        "newest first, or reverse the whole chain."
    )
    house.do(Reverse(pour.entries[0].id, "weighed wrongly"))
    house.do(Reverse(entry, "weighed wrongly"))
    assert standing(house, "Melter") == {barrel: 40_000}
    _sound(house)


def test_what_melting_refuses(house: BuiltHouse) -> None:
    assert turned_down(house, Melt("Melter")) == (
        "Weigh what came out of the melter: wax, honey or residue."
    )
    assert turned_down(house, Melt("Melter", wax_g=10_000, honey_g=-500)) == (
        "Honey cannot weigh −0.5 kg: weigh it again, or leave it out."
    )
    assert turned_down(house, Melt("Melter", 10, 10, into="Melter")) == (
        "Melter cannot be filled from itself. Name another one."
    )
    assert turned_down(house, Melt("Melter", 10, temperature=1_001)) == (
        "A temperature of 100.1 °C cannot be right for honey. Read it again."
    )
    creek = house.load("Creek", 300_000, "Line")
    house.pour(_barrel(house, 40_000), "Melter")
    house.do(PutOnHold(creek, "treated"))
    assert turned_down(house, Melt("Melter", 10_000, 29_000)).endswith(
        "It can go on only if a named person says why."
    )


def test_a_card_tells_of_wax(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Line")
    house.pour(_barrel(house, 40_000), "Melter")
    wax = _sorts(house, house.do(Melt("Melter", 12_000, 28_000, temperature=720)))["wax"]
    card = house.house.ask(lambda view: lot_card(view, wax))
    assert (card.noun, card.heated) == ("wax", (wax,))


def test_a_washed_melter_starts_anew(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Line")
    house.pour(_barrel(house, 40_000), "Melter")
    first = house.do(Melt("Melter", 10_000, 30_000)).codes[0]
    house.do(Wash(("Melter",)))
    house.load("Hill", 300_000, "Tank 3")
    house.do(Fill("Tank 3", Weight(net_g=40_000), into="Melter"))
    wax = _sorts(house, house.do(Melt("Melter", 10_000, 30_000)))["wax"]
    assert first not in {row.code for row in house.back(wax).lots}
