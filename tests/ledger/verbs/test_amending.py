"""Amending: the honey is gone and the books were wrong. Codes stay, old and new are in reach."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Amend, Reverse
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Cappings, Load
from honeyledger.ledger.verbs.quality import Release
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import (
    code_in,
    holding,
    late,
    mark,
    origins,
    place,
    postings,
    refusal_of,
    standing,
    turned_down,
)
from tests.support.houses import BuiltHouse


def _house(margin_min: int = 0) -> BuiltHouse:
    """Three yards; a line that feeds Tank 1; Tank 2; containers 17 and 18; a product."""
    house = BuiltHouse(margin_min)
    for yard in ("Creek", "Hill", "Moor"):
        house.yard(yard)
    house.vessel("Line")
    house.vessel("Tank 1", fed_by="Line")
    house.vessel("Tank 2")
    house.container("17")
    house.container("18")
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    house.do(Register("supplier", {"name": "S9"}))
    return house


def _ways(house: BuiltHouse, code: str) -> dict[str, tuple[str, ...]]:
    return {row.name: row.how for row in house.back(code).ancestors}


def test_a_yard_typed_wrong_gives_the_new_one_the_grams() -> None:
    house = _house()
    pull = house.load("Creek", 300_000, "Tank 1")
    drum = house.drum("Tank 1", 290_000)
    done = house.do(Amend(pull, "Y41 typed for Y14", yard="Hill"))
    assert postings(house, done) == {(pull, "Hill", -300_000), (pull, "Creek", 300_000)}
    assert house.shares(drum) == {"Hill": 1.0, "Creek": 0.0}
    assert _ways(house, drum) == {"Hill": ("grams", "amended"), "Creek": ("amended",)}
    assert {row.code for row in house.forward("Creek").lots} == {
        row.code for row in house.forward("Hill").lots
    }
    assert mark(house, pull, "amended") == done.entries[0].id


def test_amended_twice_every_yard_it_was_ever_booked_from_is_in_reach() -> None:
    house = _house()
    pull, _ = house.pull("Creek", 100_000)
    house.do(Amend(pull, "misread", yard="Hill"))
    house.do(Amend(pull, "misread again", yard="Moor"))
    assert house.shares(pull) == {"Moor": 1.0, "Creek": 0.0, "Hill": 0.0}
    back = house.do(Amend(pull, "it was right", yard="Creek"))
    assert house.shares(pull) == {"Creek": 1.0, "Hill": 0.0, "Moor": 0.0}
    house.do(Reverse(back.entries[0].id, "no, it was not"))
    assert house.shares(pull) == {"Moor": 1.0, "Creek": 0.0, "Hill": 0.0}


def test_a_yard_of_a_reversed_amendment_is_out_of_reach_forward_too() -> None:
    house = _house()
    pull, _ = house.pull("Creek", 100_000)
    amend = house.do(Amend(pull, "misread", yard="Hill")).entries[0].id
    house.do(Reverse(amend, "it was right"))
    assert [row.code for row in house.forward("Hill").lots] == []
    assert [row.code for row in house.forward("Creek").lots] == [pull]


def test_bought_honey_of_another_supplier() -> None:
    house = _house()
    house.do(Register("supplier", {"name": "S8"}))
    bought = house.buy("S9", 145_000)
    house.do(Amend(bought, "wrong note", supplier="S8"))
    assert house.shares(bought) == {"S8": 1.0, "S9": 0.0}


def test_unknown_honey_takes_over_the_places_of_the_pallet_that_was_never_scanned() -> None:
    """2 supers of Creek and 6 of Hill stood on it: 118.4 kg by estimate, 120 kg unknown."""
    house = _house()
    done = house.do(Receive((Line("Creek", 2), Line("Hill", 6))))
    creek, hill = done.codes
    tag = code_in(done, "G")
    unknown, fill, drum = house.do(Fill("Tank 1", Weight(net_g=120_000)), at_min=60).codes
    amend = house.do(Amend(unknown, "was not scanned", pallet=tag), at_min=50)
    assert postings(house, amend) == {
        (unknown, "Creek", -30_000),
        (unknown, "Hill", -90_000),
        (unknown, "unknown", 120_000),
        (creek, f"pallet/{tag}", -29_600),
        (creek, "Creek", 29_600),
        (hill, f"pallet/{tag}", -88_800),
        (hill, "Hill", 88_800),
    }
    assert standing(house, f"pallet/{tag}") == {}
    assert origins(house, unknown) == {creek: 0, hill: 0}
    assert late(house, fill) == {creek, hill}
    assert house.shares(drum) == pytest.approx(
        {"Hill": 0.75, "Creek": 0.25, "source not known": 0.0}
    )
    assert amend.notes[-1] == f"{unknown} stays on hold until someone releases it by name."
    entry = amend.entries[0].id
    assert turned_down(house, Load(tag, "Tank 1")) == (
        f"Nothing stands on {tag} any more: it was booked as the source of unknown honey with "
        f"entry {entry}. Scan the tag of the next pallet."
    )
    house.do(Release(unknown, "found the pallet"))
    assert house.shares(creek) == {"Creek": 1.0}  # given away whole, it keeps its first place


def test_unknown_honey_amended_reaches_the_barrels_of_its_line() -> None:
    house = _house()
    house.load("Moor", 100_000, "Line", at_min=0)
    pull, tag = house.pull("Creek", 120_000, at_min=1)
    barrel = house.do(Cappings("Line", 5_000), at_min=20).codes[0]
    unknown = house.do(Fill("Line", Weight(net_g=300_000)), at_min=30).codes[0]
    house.do(Amend(unknown, "was not scanned", pallet=tag), at_min=10)
    assert origins(house, barrel)[pull] == 0


def test_unknown_honey_out_of_a_drum_is_amended_there() -> None:
    house = _house()
    house.load("Moor", 50_000, "Tank 1")
    house.do(Fill("Tank 1", Weight(net_g=50_000), container="17"))
    pull, tag = house.pull("Creek", 120_000)
    unknown = house.do(Fill("17", Weight(net_g=150_000), into="Tank 2")).codes[0]
    house.do(Amend(unknown, "was not scanned", pallet=tag))
    assert standing(house, "17")[pull] == 0
    house.do(Release(unknown, "found the pallet"))
    drum = house.drum("Tank 2", 150_000)
    assert house.shares(drum) == pytest.approx(
        {"Creek": 2 / 3, "Moor": 1 / 3, "source not known": 0.0}
    )


def test_a_load_into_the_wrong_vessel_puts_the_right_one_in_reach() -> None:
    house = _house()
    house.load("Moor", 100_000, "Tank 2", at_min=0)
    pull, tag = house.pull("Creek", 120_000, at_min=1)
    load = house.do(Load(tag, "Tank 1"), at_min=10).entries[0].id
    before = house.drum("Tank 2", 10_000, at_min=5)
    house.load("Moor", 1_000, "Tank 2", at_min=15)
    since = house.drum("Tank 2", 10_000, at_min=20)
    done = house.do(Amend(load=load, vessel="Tank 2", reason="scanned the other tank"))
    assert done.notes[-1] == (
        f"The shares stay as they were booked. In reach from now on: {pull}."
    )
    assert set(house.shares(before)) == {"Moor"}
    assert house.shares(since) == {"Moor": 1.0, "Creek": 0.0}
    assert _ways(house, since)["Creek"] == ("amended",)
    assert standing(house, "Tank 2")[pull] == 0
    assert mark(house, pull, "amended") == done.entries[0].id


def test_a_pour_into_the_wrong_vessel_is_a_load_too() -> None:
    house = _house()
    house.load("Creek", 120_000, "Line", at_min=0)
    pour = house.pour("Line", "Tank 1", 60_000, at_min=5)
    house.load("Moor", 100_000, "Tank 2", at_min=6)
    drum = house.drum("Tank 2", 50_000, at_min=10)
    house.do(Amend(load=pour.entries[0].id, vessel="Tank 2", reason="hose was in Tank 2"))
    assert house.shares(drum) == {"Moor": 1.0, "Creek": 0.0}


def test_a_drum_filled_from_another_vessel_has_what_stood_there_in_reach() -> None:
    house = _house()
    house.load("Hill", 100_000, "Line", at_min=0)
    house.load("Moor", 100_000, "Tank 2", at_min=0)
    drum = house.drum("Tank 2", 50_000, at_min=10)
    later = house.load("Creek", 100_000, "Line", at_min=20)
    done = house.do(Amend(drum, "hose was in Tank 1", source="Tank 1"))
    hill = done.entries[0].origins[0].parent
    assert [(row.parent, row.grams, row.late) for row in done.entries[0].origins] == [
        (hill, 0, True)
    ]
    assert house.shares(drum) == {"Moor": 1.0, "Hill": 0.0}
    assert _ways(house, drum)["Hill"] == ("amended",)
    assert later not in origins(house, drum)
    assert done.notes[0].startswith(
        "The shares stay as they were booked. In reach from now on: S26-"
    )


def test_jars_filled_from_another_vessel_have_what_stood_there_meanwhile() -> None:
    house = _house()
    house.load("Moor", 100_000, "Tank 2", at_min=0)
    hill = house.load("Hill", 100_000, "Tank 1", at_min=0)
    lot = code_in(house.do(ChangeOver(product="Clover", feed="Tank 2"), at_min=10), "J")
    house.wash("Tank 1", at_min=40)
    creek = house.load("Creek", 100_000, "Tank 1", at_min=50)
    house.do(Bottle(lot, 100), at_min=60)
    house.load("Moor", 100_000, "Tank 1", at_min=90)
    house.do(Amend(lot, "pump stood at Tank 1", source="Tank 1"))
    assert late(house, lot) == {hill, creek}


def test_the_container_day_and_product_on_a_label() -> None:
    house = _house()
    house.load("Moor", 300_000, "Tank 2")
    drum = house.do(Fill("Tank 2", Weight(net_g=100_000), container="17")).codes[-1]
    house.do(Amend(drum, "number misread", container="18", filled_on="2026-07-23"))
    assert mark(house, drum, "container") == place(house, "18").partition("/")[2]
    assert mark(house, drum, "filled_on") == "2026-07-23"
    lot = code_in(house.do(ChangeOver(product="Clover", feed="Tank 2")), "J")
    house.do(Bottle(lot, 10))
    house.do(Register("product", {"name": "Heather", "net_g": 500}))
    house.do(Amend(lot, "label roll mixed up", product="heather"))
    assert mark(house, lot, "product") == "heather"


def test_a_drum_stands_in_the_container_it_is_amended_to() -> None:
    """Container 17 is free for the next fill then, and 18 is not."""
    house = _house()
    house.load("Creek", 50_000, "Tank 1")
    house.do(Fill("Tank 1", Weight(net_g=50_000), container="17"))
    house.do(Fill("17", into="Tank 2", whole=True))
    house.wash("Tank 2", remains="discarded")
    house.load("Moor", 300_000, "Tank 2")
    washed = Fill("Tank 2", Weight(net_g=100_000), container="17", washed=True)
    drum = house.do(washed).codes[-1]
    house.do(Amend(drum, "number misread", container="18"))
    assert standing(house, "18") == {drum: 100_000}
    assert standing(house, "17")[drum] == 0
    # The wash was of container 18 as well: 17 keeps what it held before.
    assert len(standing(house, "17")) == 2
    assert turned_down(house, Fill("Tank 2", Weight(net_g=100_000), container="18")) == (
        f"18 holds {drum} with 100.0 kg. Filling it on makes a new lot and {drum}'s label void: "
        "say that you top it up, or take another container."
    )
    second = house.do(Fill("Tank 2", Weight(net_g=90_000), container="17", washed=False)).codes[-1]
    assert set(house.shares(second)) == {"Moor", "Creek"}


def test_two_drums_whose_numbers_were_taken_for_each_other_change_places() -> None:
    house = _house()
    house.load("Moor", 300_000, "Tank 2")
    first = house.do(Fill("Tank 2", Weight(net_g=100_000), container="17")).codes[-1]
    second = house.do(Fill("Tank 2", Weight(net_g=120_000), container="18")).codes[-1]
    done = house.do(Amend(first, "number misread", container="18"))
    assert done.notes[-1] == (
        f"18 holds {second} in the books. Amend the container of {second} as well: the two change "
        "places then."
    )
    assert standing(house, "17")[first] == 100_000
    house.do(Amend(second, "number misread", container="17"))
    assert {code: g for code, g in standing(house, "17").items() if g} == {second: 120_000}
    assert {code: g for code, g in standing(house, "18").items() if g} == {first: 100_000}


def test_a_fill_with_an_amended_label_is_not_reversed() -> None:
    house = _house()
    house.load("Moor", 300_000, "Tank 2")
    done = house.do(Fill("Tank 2", Weight(net_g=100_000), container="17"))
    house.do(Amend(done.codes[-1], "number misread", container="18"))
    assert refusal_of(house, Reverse(done.entries[0].id, "x")).key == "built-on"


def test_what_amending_refuses() -> None:
    house = _house()
    pull, tag = house.pull("Creek", 100_000)
    load = house.do(Load(tag, "Tank 1")).entries[0].id
    drum = house.drum("Tank 1", 90_000)
    fill = house.house.ask(lambda view: view.head().entry)
    _, other = house.pull("Hill", 100_000)
    undone = house.do(Load(other, "Tank 2")).entries[0].id
    reversal = house.do(Reverse(undone, "x")).entries[0].id
    said = {
        "no reason": turned_down(house, Amend(pull, " ", yard="Hill")),
        "nothing": turned_down(house, Amend(pull, "x")),
        "two": turned_down(house, Amend(pull, "x", yard="Hill", supplier="S9")),
        "three": turned_down(
            house, Amend(drum, "x", load=load, vessel="Tank 2", source="Tank 2", product="Clover")
        ),
        "no load": turned_down(house, Amend(pull, "x", vessel="Tank 2")),
        "same": turned_down(house, Amend(pull, "x", yard="creek")),
        "not a pull": turned_down(house, Amend(drum, "x", yard="Hill")),
        "known": turned_down(house, Amend(pull, "x", pallet=other)),
        "not a load": turned_down(house, Amend(load=fill, vessel="Tank 2", reason="x")),
        "no entry": turned_down(house, Amend(load=999, vessel="Tank 2", reason="x")),
        "same vessel": turned_down(house, Amend(load=load, vessel="Tank 1", reason="x")),
        "reversed": turned_down(house, Amend(load=undone, vessel="Tank 1", reason="x")),
        "empty then": turned_down(house, Amend(drum, "x", source="Tank 2")),
        "a pull's vessel": turned_down(house, Amend(pull, "x", source="Tank 2")),
        "day": turned_down(house, Amend(drum, "x", filled_on="2026-07-25")),
        "no day": turned_down(house, Amend(drum, "x", filled_on="yesterday")),
        "container": turned_down(house, Amend(drum, "x", container="99")),
    }
    assert said == {
        "no reason": "Give the reason in a word or two.",
        "nothing": "Say what was wrong: the yard, the supplier, the pallet, the vessel of a "
        "load, the vessel a drum was filled from, its container, its day, the product, or the "
        "run of an entry.",
        "two": "The yard and the supplier are put right apart: amend one of them, and then the "
        "other.",
        "three": "The load and the vessel it was filled from are put right apart: amend one of "
        "them, and then the other.",
        "no load": "Say which load went into Tank 2: give its entry's number.",
        "same": f"{pull} is already booked so. Nothing was changed.",
        "not a pull": f"{drum} is a drum, but a pull or drum bought in is needed here. Scan that "
        "code instead.",
        "known": f"{pull} does not stand for honey of unknown source. Amend its yard instead.",
        "not a load": f"Entry {fill} put nothing into a vessel. Name the load that did.",
        "no entry": "There is no entry 999. Look it up in the lot's history.",
        "same vessel": f"{pull} is already booked so. Nothing was changed.",
        "reversed": f"Entry {undone} is already reversed, by entry {reversal}. Nothing is left to "
        "do.",
        "empty then": f"Nothing stood in Tank 2 when {drum} was filled. Name another vessel.",
        "a pull's vessel": f"{pull} is a pull, but a drum, jar lot or comb honey is needed here. "
        "Scan that code instead.",
        "day": "It cannot have been filled on 25 Jul 2026, which is still to come. Correct the "
        "day.",
        "no day": "yesterday is not a day: write it like 2026-07-24.",
        "container": "There is no container called 99. Choose one, such as 17 or 18, or register "
        "it first.",
    }


def test_a_pull_whose_honey_stands_under_another_code() -> None:
    house = _house()
    pull, tag = house.pull("Creek", 100_000)
    unknown = house.do(Fill("Tank 1", Weight(net_g=90_000))).codes[0]
    house.do(Amend(unknown, "was not scanned", pallet=tag))
    assert holding(house, pull) == {}
    # What has the pull in reach without the unknown lot is from the right yard, too.
    done = house.do(Amend(pull, "the yard was wrong", yard="Hill"))
    assert done.notes == (
        f"{pull} has no honey of its own in the books any more: amend the lot that stands for it, "
        "too.",
    )
    assert house.shares(pull) == {"Creek": 1.0, "Hill": 0.0}
    assert turned_down(house, Amend(pull, "x", yard="Hill")) == (
        f"{pull} is already booked so. Nothing was changed."
    )
    house.do(Amend(unknown, "and its yard, too", yard="Hill"))
    assert house.shares(unknown)["Hill"] == 1.0
    house.do(Reverse(done.entries[0].id, "it was right"))
    assert house.shares(pull) == {"Creek": 1.0}
