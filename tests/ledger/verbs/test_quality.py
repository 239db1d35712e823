"""Readings and samples."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Cappings, Load
from honeyledger.ledger.verbs.quality import Sample
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import (
    attributes,
    code_in,
    holding,
    origins,
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
    house.vessel("Line")
    house.vessel("Tank 1", fed_by="Line")
    return house


def test_a_sample_of_a_drum(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Tank 1")
    drum = house.drum("Tank 1", 290_000)
    done = house.do(Sample((drum,), 250, kept_at="shelf 3"))
    (sample,) = done.codes
    assert origins(house, sample) == {drum: 250}
    assert postings(house, done) == {
        (drum, f"drum/{drum}", -250),
        (sample, "sampled", 250),
    }
    assert attributes(house, sample)["kept_at"] == "shelf 3"
    assert house.shares(sample) == {"Creek": 1.0}


def test_one_sample_of_several_drums_has_equal_parts(house: BuiltHouse) -> None:
    house.load("Creek", 900_000, "Tank 1")
    drums = tuple(house.drum("Tank 1", 290_000) for _ in range(3))
    (sample,) = house.do(Sample(drums, 200)).codes
    assert list(origins(house, sample).values()) == [67, 67, 66]


def test_a_sample_from_a_vessel_is_of_all_that_stands_there(house: BuiltHouse) -> None:
    """By any of its lots or by the vessel's name; what is in the line goes over first."""
    creek = house.load("Creek", 60_000, "Tank 1")
    hill = house.load("Hill", 40_000, "Line")
    line_fill, fill, sample = house.do(Sample((creek,), 500)).codes
    assert origins(house, line_fill) == {hill: 40_000}
    assert origins(house, fill) == {creek: 60_000, line_fill: 40_000}
    assert origins(house, sample) == {fill: 500}
    (again,) = house.do(Sample(("Tank 1",), 500)).codes
    assert origins(house, again) == {fill: 500}
    assert standing(house, "Tank 1") == {fill: 99_000}


def test_two_lots_that_stand_in_one_vessel(house: BuiltHouse) -> None:
    creek = house.load("Creek", 60_000, "Tank 1")
    hill = house.load("Hill", 40_000, "Tank 1")
    fill, sample = house.do(Sample((creek, hill), 500)).codes
    assert origins(house, sample) == {fill: 500}
    assert standing(house, "Tank 1") == {fill: 99_500}


def test_a_sample_typed_late_has_in_reach_what_stood_there_then(house: BuiltHouse) -> None:
    creek = house.load("Creek", 60_000, "Tank 1", at_min=10)
    house.wash("Tank 1", at_min=40, remains="rinse")
    house.load("Hill", 40_000, "Tank 1", at_min=50)
    sample = house.do(Sample(("Tank 1",), 500), at_min=30).codes[-1]
    assert origins(house, sample)[creek] == 0


def test_a_late_load_reaches_samples_drawn_since(house: BuiltHouse) -> None:
    house.load("Creek", 60_000, "Tank 1", at_min=10)
    sample = house.do(Sample(("Tank 1",), 500), at_min=30).codes[-1]
    _, tag = house.pull("Hill", 50_000, at_min=31)
    house.do(Load(tag, "Tank 1"), at_min=20)
    assert house.shares(sample) == {"Creek": 1.0, "Hill": 0.0}


def test_samples_of_supers_barrels_and_jars(house: BuiltHouse) -> None:
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    pull, tag = house.pull("Creek", 100_000)
    (comb,) = house.do(Sample((pull,), 30)).codes
    assert origins(house, comb) == {pull: 30}
    assert holding(house, pull)[f"pallet/{tag}"] == (99_970, 10)
    house.load("Hill", 100_000, "Line")
    wax = house.do(Cappings("Line", 10_000)).codes[0]
    assert origins(house, house.do(Sample((wax,), 100)).codes[0]) == {wax: 100}
    lot = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    house.do(Bottle(lot, 10))
    house.do(Sample((lot,), 500))
    assert holding(house, lot) == {"jars": (4_500, 9), "sampled": (0, 1)}
    house.do(Sample((lot,), 20))  # a jar that was opened is no jar to sell
    assert holding(house, lot) == {"jars": (4_480, 8), "sampled": (0, 2)}


def test_what_a_sample_refuses(house: BuiltHouse) -> None:
    house.load("Creek", 900_000, "Tank 1")
    drum = house.drum("Tank 1", 290_000)
    (sample,) = house.do(Sample((drum,), 250)).codes
    nothing = "A sample needs its lots, and a gram of each at least."
    too_little = (Sample((drum,), 0), Sample((drum,), -5), Sample((drum, "Line"), 1))
    for facts in (Sample((), 250), *too_little):
        assert turned_down(house, facts) == nothing
    assert turned_down(house, Sample((drum,), 300_000)) == (
        f"{drum} holds 289.8 kg: take less than 300.0 kg, or weigh it again."
    )
    assert turned_down(house, Sample(("Tank 1",), 610_001)) == (
        "Tank 1 holds 610.000 kg: take less than 610.001 kg, or weigh it again."
    )
    assert turned_down(house, Sample((sample,), 50)) == (
        f"{sample} is no longer in the house: nothing of it is left."
    )
    # Together they are more than there is: the second part is refused, and nothing is taken.
    assert "take less than" in turned_down(house, Sample((drum, "Tank 1"), 610_002))


def test_a_sample_is_reversed(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Tank 1")
    drum = house.drum("Tank 1", 290_000)
    done = house.do(Sample((drum,), 250))
    house.do(Reverse(done.entries[0].id, "not taken"))
    assert holding(house, drum) == {f"drum/{drum}": (290_000, 0)}
    assert house.do(Fill(drum, Weight(net_g=290_000), into="Tank 1")).codes == ()


def test_one_drum_gives_to_a_sample_once(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Tank 1")
    house.container("Blue 1")
    drum = house.do(Fill("Tank 1", Weight(net_g=290_000), container="Blue 1")).codes[-1]
    for lots, named in (
        ((drum, drum), "Blue 1"),
        ((drum, "Blue 1"), "Blue 1"),
        (("Tank 1", "Tank 1"), "Tank 1"),
    ):
        assert turned_down(house, Sample(lots, 300)) == (
            f"{named} stands twice on this list. Leave it there once, with its whole amount."
        )
