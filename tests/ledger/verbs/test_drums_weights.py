"""Drums weighed again, foam skimmed, honey bought in: the scale is right."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Fill, Reweigh, Skim
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import (
    grams_at,
    holding,
    mark,
    postings,
    standing,
    turned_down,
)
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Line")
    house.vessel("Tank 1", fed_by="Line")
    house.container("17", tare_g=18_000)
    house.load("Creek", 900_000, "Tank 1")
    house.do(Register("supplier", {"name": "S9"}))
    house.do(Register("customer", {"name": "Packer"}))
    return house


def test_the_gap_goes_to_weighing_difference(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    done = house.do(Reweigh(drum, Weight(net_g=288_500)))
    assert postings(house, done) == {
        (drum, "difference", 1_500),
        (drum, f"drum/{drum}", -1_500),
    }
    assert mark(house, drum, "weighed_g") == 288_500
    house.do(Reweigh(drum, Weight(net_g=291_000)))
    assert holding(house, drum) == {f"drum/{drum}": (291_000, 0), "difference": (-1_000, 0)}


def test_the_first_weight_of_a_drum_that_was_to_follow(house: BuiltHouse) -> None:
    drum = house.do(Fill("Tank 1", container="17", pending=True)).codes[-1]
    done = house.do(Reweigh("17", Weight(gross_g=303_000)))
    assert postings(house, done) == {(drum, "difference", 5_000), (drum, "17", -5_000)}
    assert (mark(house, drum, "pending"), mark(house, drum, "weighed_g")) == (0, 285_000)
    house.do(Reweigh(drum, Weight(net_g=284_000)))
    assert mark(house, drum, "weighed_g") == 284_000


def test_the_tare_is_the_one_it_was_filled_with(house: BuiltHouse) -> None:
    weight = Weight(gross_g=308_000, tare_g=18_500)
    drum = house.do(Fill("Tank 1", weight, container="17")).codes[-1]
    house.do(Reweigh(drum, Weight(gross_g=307_500)))
    assert standing(house, "17") == {drum: 289_000}
    house.do(Reweigh(drum, Weight(gross_g=307_500, tare_g=18_000)))
    assert standing(house, "17") == {drum: 289_500}


def test_a_bought_drum_is_weighed_too(house: BuiltHouse) -> None:
    bought = house.buy("S9", 145_000)
    house.do(Reweigh(bought, Weight(net_g=144_000)))
    assert holding(house, bought)[f"drum/{bought}"] == (144_000, 0)


def test_a_drum_part_filled_from_one_vessel_is_weighed_before_it_is_closed(
    house: BuiltHouse,
) -> None:
    (fill,) = house.do(Fill("Tank 1", Weight(net_g=90_000), container="17", bung=False)).codes
    house.do(Reweigh("17", Weight(net_g=92_000)))
    assert standing(house, "17") == {fill: 92_000}


def test_what_weighing_again_refuses(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    assert turned_down(house, Reweigh(drum, Weight())) == (
        "Type the gross or the net weight from the scale."
    )
    assert turned_down(house, Reweigh(drum, Weight(gross_g=300_000))) == (
        "Nobody knows what the empty container weighs. Type its tare, or the net weight."
    )
    assert turned_down(house, Reweigh(drum, Weight(net_g=-1))) == (
        "A net weight of 0.0 kg is nothing. Weigh again."
    )
    assert turned_down(house, Reweigh("Tank 1", Weight(net_g=5_000))) == (
        "Tank 1 is not a drum. Scan the drum, or its label."
    )
    assert turned_down(house, Reweigh("17", Weight(net_g=5_000))) == (
        "The books see nothing in 17. Scan the right one, or enter first what came in."
    )
    house.do(Fill("Tank 1", Weight(net_g=90_000), container="17", bung=False))
    house.load("Creek", 10_000, "Tank 1")
    house.do(Fill("Tank 1", Weight(net_g=90_000), container="17", bung=False))
    assert turned_down(house, Reweigh("17", Weight(net_g=5_000))) == (
        "17 is part-filled, with several lots in it. Bung it first, then weigh it."
    )
    house.do(Dispatch("Packer", (DispatchLine(drum),)))
    assert turned_down(house, Reweigh(drum, Weight(net_g=289_000))) == (
        f"{drum} is no longer in the house: nothing of it is left."
    )


def test_foam_leaves_the_fill_as_discarded(house: BuiltHouse) -> None:
    pull = house.load("Creek", 100_000, "Line")
    done = house.do(Skim("Tank 1", 3_000))
    fill = done.codes[-1]
    assert standing(house, "Tank 1") == {fill: 997_000}
    assert grams_at(house, "discarded") == 3_000
    assert pull in {row.code for row in house.back(fill).lots}  # the line went over first


def test_more_foam_than_the_books_see_is_weighing_difference(house: BuiltHouse) -> None:
    house.pour("Tank 1", "Line", 2_000)
    house.do(Skim("Line", 5_000))
    assert list(standing(house, "Line").values()) == [0]
    assert grams_at(house, "discarded") == 5_000
    assert grams_at(house, "difference") == -3_000


def test_what_skimming_refuses(house: BuiltHouse) -> None:
    assert turned_down(house, Skim("Tank 1", 0)) == (
        "A net weight of 0.0 kg is nothing. Weigh again."
    )
    assert turned_down(house, Skim("Line", 1_000)) == (
        "The books see nothing in Line. Scan the right one, or enter first what came in."
    )
