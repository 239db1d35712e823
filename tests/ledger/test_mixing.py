"""What honey does in a vessel: several lots until something is drawn, then one tank fill."""

import pytest

from honeyledger.ledger.booking import HouseRules
from honeyledger.ledger.mixing import few
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import (
    attributes,
    effects,
    grams_at,
    holding,
    origins,
    place,
    postings,
    standing,
)
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """Three yards and two tanks; the reach margin is 0."""
    house = BuiltHouse()
    for yard in ("Creek", "Hill", "Moor"):
        house.yard(yard)
    house.vessel("Tank 1")
    house.vessel("Tank 2")
    return house


def test_a_fill_is_made_at_the_first_draw(house: BuiltHouse) -> None:
    creek = house.load("Creek", 40_000, "Tank 1")
    hill = house.load("Hill", 160_000, "Tank 1")
    done = house.do(Fill("Tank 1", Weight(net_g=150_000)))
    fill, drum = done.codes
    assert origins(house, fill) == {creek: 40_000, hill: 160_000}
    assert origins(house, drum) == {fill: 150_000}
    assert standing(house, "Tank 1") == {fill: 50_000}
    assert attributes(house, fill)["vessel"] == place(house, "Tank 1").partition("/")[2]
    assert postings(house, done) == {
        (creek, "Tank 1", -40_000),
        (hill, "Tank 1", -160_000),
        (fill, "Tank 1", 50_000),
        (drum, f"drum/{drum}", 150_000),
    }
    assert effects(done, "drawn") == [[place(house, "Tank 1"), 3]]


def test_an_unchanged_fill_is_drawn_again(house: BuiltHouse) -> None:
    house.load("Creek", 200_000, "Tank 1")
    fill, _ = house.do(Fill("Tank 1", Weight(net_g=50_000))).codes
    (drum,) = house.do(Fill("Tank 1", Weight(net_g=60_000))).codes
    assert origins(house, drum) == {fill: 60_000}
    assert standing(house, "Tank 1") == {fill: 90_000}


def test_a_heel_is_a_row_of_the_next_fill(house: BuiltHouse) -> None:
    house.load("Creek", 200_000, "Tank 1")
    first, _ = house.do(Fill("Tank 1", Weight(net_g=150_000))).codes
    moor = house.load("Moor", 100_000, "Tank 1")
    assert standing(house, "Tank 1") == {first: 50_000, moor: 100_000}
    second, _ = house.do(Fill("Tank 1", Weight(net_g=150_000))).codes
    assert origins(house, second) == {first: 50_000, moor: 100_000}


def test_a_vessel_run_empty_keeps_its_last_fill_at_0_g(house: BuiltHouse) -> None:
    house.load("Creek", 80_000, "Tank 1")
    first, _ = house.do(Fill("Tank 1", Weight(net_g=80_000))).codes
    assert standing(house, "Tank 1") == {first: 0}
    hill = house.load("Hill", 80_000, "Tank 1")
    second, drum = house.do(Fill("Tank 1", Weight(net_g=80_000))).codes
    assert origins(house, second) == {first: 0, hill: 80_000}
    assert [row.how for row in house.back(drum).ancestors] == [("grams",), ("heel",)]


def test_a_transfer_moves_the_fill_itself(house: BuiltHouse) -> None:
    pull = house.load("Creek", 80_000, "Tank 1")
    (fill,) = house.pour("Tank 1", "Tank 2", 60_000).codes
    assert origins(house, fill) == {pull: 80_000}
    assert standing(house, "Tank 2") == {fill: 60_000}
    second, drum = house.do(Fill("Tank 2", Weight(net_g=60_000))).codes
    # It is Tank 2's own fill from its first draw on, so that rows between fills of one vessel
    # are always heels.
    assert origins(house, second) == {fill: 60_000}
    assert house.back(drum).ancestors[0].how == ("grams",)


def test_a_small_shortfall_is_weighing_difference_and_the_origins_stay(house: BuiltHouse) -> None:
    """The books saw 240 kg and 300 kg were weighed: 60 of 300 is one fifth, the most allowed."""
    pull = house.load("Creek", 240_000, "Tank 1")
    done = house.do(Fill("Tank 1", Weight(net_g=300_000)))
    fill, drum = done.codes
    assert done.notes == (
        "The books saw 240.0 kg in Tank 1; the missing 60.0 kg is booked as weighing difference.",
    )
    assert origins(house, fill) == {pull: 240_000}
    assert origins(house, drum) == {fill: 300_000}
    assert grams_at(house, "difference") == -60_000
    assert standing(house, "Tank 1") == {fill: 0}
    assert house.shares(drum) == {"Creek": 1.0}


def test_jars_that_hold_more_than_there_was_may_be_counted_wrongly(house: BuiltHouse) -> None:
    house.load("Creek", 100_000, "Tank 1")
    house.do(Register("product", {"name": "Jar", "net_g": 500}))
    bottling = house.do(ChangeOver(product="Jar", feed="Tank 1")).given[0]
    done = house.do(Bottle(bottling, jars=400, mean_net_mg=500_000))
    unknown = done.codes[0]
    assert done.notes[0] == (
        f"The books saw 100.0 kg in Tank 1, 100.0 kg too little. {unknown} stands for the rest, "
        "on hold: amend it to the pallet it came from, or count the jars again."
    )


def test_a_larger_shortfall_is_unknown_honey_on_hold(house: BuiltHouse) -> None:
    pull = house.load("Creek", 240_000, "Tank 1")
    _, tag = house.pull("Hill", 90_000)
    done = house.do(Fill("Tank 1", Weight(net_g=301_000)))
    unknown, fill, drum = done.codes
    assert done.notes[0] == (
        f"The books saw 240.0 kg in Tank 1, 61.0 kg too little. {unknown} stands for the rest, on "
        f"hold: amend it to the pallet it came from ({tag} still stand here)."
    )
    assert origins(house, fill) == {pull: 240_000, unknown: 61_000}
    assert holding(house, unknown) == {"unknown": (-61_000, 0)}
    kept = attributes(house, unknown)
    assert (kept["source"], kept["candidates"]) == ("unknown", [tag])
    assert kept["place"] == place(house, "Tank 1")
    trace = house.back(drum)
    assert [(row.kind, row.code) for row in trace.ancestors][1] == ("unknown", unknown)
    assert not trace.reach_complete


def test_the_newest_pallets_are_the_candidates(house: BuiltHouse) -> None:
    tags = [house.pull("Hill", 90_000)[1] for _ in range(7)]
    unknown = house.do(Fill("Tank 1", Weight(net_g=301_000))).codes[0]
    assert attributes(house, unknown)["candidates"] == tags[:1:-1]


def test_unknown_honey_stands_beside_the_last_fill(house: BuiltHouse) -> None:
    house.load("Creek", 100_000, "Tank 1")
    fill, _ = house.do(Fill("Tank 1", Weight(net_g=100_000))).codes
    unknown, second, _ = house.do(Fill("Tank 1", Weight(net_g=50_000))).codes
    assert origins(house, second) == {fill: 0, unknown: 50_000}


def test_how_much_may_be_missing_is_a_setting(house: BuiltHouse) -> None:
    house.do(Register("house", {"name": "Test House", "zone": "UTC", "shortfall_permille": 0}))
    house.load("Creek", 100_000, "Tank 1")
    made = house.do(Fill("Tank 1", Weight(net_g=100_001))).codes
    assert [code[0] for code in made] == ["S", "T", "D"]
    assert HouseRules().shortfall_permille == 200


def test_shares_through_heels_are_exact_and_reach_is_whole(house: BuiltHouse) -> None:
    """40 kg of a heel of Creek, 160 of Hill; 150 drawn, 100 of Moor loaded, 150 drawn."""
    house.load("Creek", 40_000, "Tank 1")
    house.load("Hill", 160_000, "Tank 1")
    house.drum("Tank 1", 150_000)
    house.load("Moor", 100_000, "Tank 1")
    second = house.drum("Tank 1", 150_000)
    assert house.shares(second) == pytest.approx(
        {"Creek": 1 / 15, "Hill": 4 / 15, "Moor": 2 / 3}, abs=1e-12
    )


def test_a_drum_keeps_its_lot_when_honey_is_drawn_from_it(house: BuiltHouse) -> None:
    house.load("Creek", 290_000, "Tank 1")
    drum = house.drum("Tank 1", 290_000)
    done = house.pour(drum, "Tank 2", 100_000)
    assert done.codes == ()
    assert holding(house, drum) == {f"drum/{drum}": (190_000, 0), "Tank 2": (100_000, 0)}


def test_a_sentence_names_a_few_codes() -> None:
    assert few(["A"]) == "A"
    assert few(list("ABCD")) == "A, B, C, D"
    assert few(list("ABCDEF")) == "A, B, C, D and 2 more"
