"""Drums are vessels to entries that come late: what slipped out of their reach, in small."""

import pytest

from honeyledger.ledger.verbs.bought_in import Purchase
from honeyledger.ledger.verbs.corrections import Amend
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Bung, Fill, Weight
from honeyledger.ledger.verbs.quality import Sample
from tests.support.doubt import doubtful_house, fill, minutes_from_now, reach
from tests.support.houses import MINUTE_MS, BuiltHouse, refused

HOUR_MS = 60 * MINUTE_MS
BOUGHT = Purchase("Trader", Weight(net_g=50_000), "7", "AR", "Drum 1", certificate="C 31")


@pytest.fixture
def house() -> BuiltHouse:
    """A house with one of each thing."""
    return doubtful_house()


def test_a_drum_topped_up_before_it_was_poured(house: BuiltHouse) -> None:
    """The pour was scanned at once, the topping up half an hour later."""
    house.load("A", 400_000, "Tank")
    drum = fill(house, "Tank", "Drum 1")
    house.wash("Tank")
    house.wait(120)
    house.load("B", 400_000, "Tank")
    house.pour("Drum 1", "Bottling tank", 20_000)
    other = house.drum("Bottling tank", 20_000)
    fill(house, "Tank", "Drum 1", top_up=True)

    assert reach(house, other) == {"A", "B"}
    assert reach(house, drum) == {"A", "B"}


def test_a_drum_topped_up_before_it_was_sent_or_sampled(house: BuiltHouse) -> None:
    house.load("A", 400_000, "Tank")
    drum = fill(house, "Tank", "Drum 1")
    house.wash("Tank")
    house.wait(120)
    house.load("B", 400_000, "Tank")
    sample = house.do(Sample((drum,), 200)).codes[0]
    house.do(Dispatch("Shop", (DispatchLine(drum),)))
    fill(house, "Tank", "Drum 1", washed=False)

    assert reach(house, sample) == {"A", "B"}
    assert reach(house, drum) == {"A", "B"}


def test_a_drum_filled_before_the_top_up_that_was_scanned_first(house: BuiltHouse) -> None:
    house.load("A", 400_000, "Tank")
    house.load("B", 400_000, "Bottling tank")
    first_written = fill(house, "Tank", "Drum 1", top_up=True)
    fill(house, "Bottling tank", "Drum 1", top_up=True)

    assert reach(house, first_written) == {"A", "B"}


def test_a_drum_typed_late_into_a_container_that_is_filled_again(house: BuiltHouse) -> None:
    """On paper: filled and poured in the morning. Scanned: filled again at noon, unwashed."""
    house.load("A", 400_000, "Tank")
    house.load("B", 400_000, "Bottling tank")
    house.wait(600)
    noon = fill(house, "Bottling tank", "Drum 1")
    morning = house.do(
        Fill("Tank", Weight(net_g=50_000), container="Drum 1"), minutes_from_now(house, -300)
    ).codes[-1]

    assert reach(house, morning) >= {"A"}
    assert reach(house, noon) == {"A", "B"}
    assert house.shares(noon)["B"] == 1


def test_a_late_fill_washes_nothing_out_of_its_container(house: BuiltHouse) -> None:
    """The answer "washed" was true before it, and says nothing of what came after."""
    house.load("A", 400_000, "Tank")
    house.load("B", 400_000, "Bottling tank")
    house.wait(600)
    fill(house, "Bottling tank", "Drum 1")
    house.pour("Drum 1", "Fed tank")
    late = Fill("Tank", Weight(net_g=50_000), container="Drum 1", washed=True)
    house.do(late, minutes_from_now(house, -300))
    house.pour("Drum 1", "Fed tank")
    again = fill(house, "Tank", "Drum 1", washed=False)

    assert reach(house, again) == {"A", "B"}


def test_a_drum_whose_container_is_amended(house: BuiltHouse) -> None:
    """It stood in Drum 1, on B's rest, and its own rest is in what came into Drum 1 next."""
    for yard, tank in (("A", "Tank"), ("B", "Bottling tank"), ("C", "Fed tank")):
        house.load(yard, 400_000, tank)
    fill(house, "Bottling tank", "Drum 1")
    house.pour("Drum 1", "Bottling tank")
    house.wait(120)
    drum = fill(house, "Tank", "Drum 2")
    house.wait(120)
    after = fill(house, "Fed tank", "Drum 1", washed=True)
    house.do(Amend(drum, "it was the other drum", container="Drum 1"))

    assert reach(house, drum) >= {"A", "B"}
    assert reach(house, after) >= {"A", "C"}


def test_bought_in_honey_in_an_unwashed_container(house: BuiltHouse) -> None:
    house.load("A", 400_000, "Tank")
    fill(house, "Tank", "Drum 1")
    house.pour("Drum 1", "Bottling tank")
    bought = house.do(BOUGHT).codes[0]

    assert reach(house, bought) == {"A", "Trader"}
    assert house.shares(bought) == {"A": 0, "Trader": 1}


def test_an_old_rest_does_not_ask_for_topping_up(house: BuiltHouse) -> None:
    """A waiting drum is filled on without a question about the drum that was in it before."""
    house.load("A", 400_000, "Tank")
    fill(house, "Tank", "Drum 1")
    house.pour("Drum 1", "Bottling tank")
    house.do(Fill("Tank", Weight(net_g=9_000), container="Drum 1", washed=False, bung=False))

    assert reach(house, fill(house, "Tank", "Drum 1")) == {"A"}


def test_a_part_poured_before_the_rest_was_sent(house: BuiltHouse) -> None:
    """The pour of a one-way drum was scanned half an hour after the dispatch of all of it."""
    house.load("A", 400_000, "Tank")
    drum = house.drum("Tank", 50_000)
    house.load("B", 400_000, "Bottling tank")
    house.do(Dispatch("Shop", (DispatchLine(drum),)))
    house.wait(30)
    house.pour(drum, "Bottling tank", 20_000)
    done = house.do(Fill("Bottling tank", Weight(net_g=50_000), despite_hold="looked at"))
    assert reach(house, done.codes[-1]) >= {"A", "B"}

    house.wait(120)
    sentence = f"{drum} is no longer in the house: nothing of it is left."
    assert refused(lambda: house.pour(drum, "Bottling tank", 1_000)) == sentence


def test_a_part_poured_before_the_rest_was_poured(house: BuiltHouse) -> None:
    house.load("A", 400_000, "Tank")
    drum = house.drum("Tank", 50_000)
    house.pour(drum, "Fed tank")
    house.pour(drum, "Bottling tank", 20_000)
    done = house.do(Fill("Bottling tank", Weight(net_g=20_000), despite_hold="looked at"))

    assert reach(house, done.codes[-1]) >= {"A"}


def test_jars_from_a_late_drum_whose_tank_is_amended(house: BuiltHouse) -> None:
    """The jars came from the drum, whatever is put right about it after they were filled."""
    house.load("A", 400_000, "Tank")
    house.load("B", 400_000, "Bottling tank")
    house.wait(120)
    poured = house.do(Fill("Drum 1", Weight(net_g=20_000), into="Fed tank")).codes[-1]
    drum = fill(house, "Tank", "Drum 1", washed=False)
    house.do(Amend(drum, "wrong tank", source="Bottling tank"))

    assert reach(house, poured) >= {"A", "B"}


def test_a_late_drum_in_a_container_that_waits_for_more(house: BuiltHouse) -> None:
    """Its rest is in what waits there now, and in the drum that this becomes."""
    house.load("A", 400_000, "Tank")
    house.load("B", 400_000, "Bottling tank")
    house.wait(600)
    fill(house, "Bottling tank", "Drum 1", bung=False)
    morning = Fill("Tank", Weight(net_g=50_000), container="Drum 1")
    house.do(morning, minutes_from_now(house, -300))
    waited = house.do(Bung("Drum 1")).codes[0]

    assert reach(house, waited) == {"A", "B"}


def test_what_came_into_a_container_shortly_before_its_wash_was_written(house: BuiltHouse) -> None:
    """Washed, filled, emptied, then bought honey in it: its scan came first, then the fill's."""
    house.load("A", 400_000, "Tank")
    house.do(BOUGHT)
    house.pour("Drum 1", "Bottling tank")
    drum = fill(house, "Tank", "Drum 1", washed=True)

    assert reach(house, drum) == {"A", "Trader"}


def test_a_late_fill_of_a_container_that_held_something_before_it(house: BuiltHouse) -> None:
    """What the books see there came before: its pouring is not written yet, so they ask."""
    house.load("A", 400_000, "Tank")
    house.do(BOUGHT)
    house.wait(300)
    filled = minutes_from_now(house, 0)
    house.wait(300)
    house.do(Sample(("Drum 1",), 200))
    late = Fill("Tank", Weight(net_g=50_000), container="Drum 1", washed=True)

    asks = refused(lambda: house.do(late, filled))
    assert asks.endswith("say that you top it up, or take another container.")


def test_a_fill_before_the_wash_that_was_written_first(house: BuiltHouse) -> None:
    """On A's rest came B, then the drum was washed for C; C's scan came first, then B's."""
    for yard, tank in (("A", "Tank"), ("B", "Bottling tank"), ("C", "Fed tank")):
        house.load(yard, 400_000, tank)
    fill(house, "Tank", "Drum 1")
    house.pour("Drum 1", "Tank")
    house.wait(120)
    fill(house, "Fed tank", "Drum 1", washed=True)
    drum = fill(house, "Bottling tank", "Drum 1", top_up=True, washed=False)

    assert reach(house, drum) == {"A", "B", "C"}


def test_drums_poured_one_after_another_into_a_container_stay_what_they_are(
    house: BuiltHouse,
) -> None:
    """What comes on top of a drum's honey in another container never was in that drum."""
    house.container("Tote")
    house.load("A", 400_000, "Tank")
    house.load("B", 400_000, "Bottling tank")
    first, second = fill(house, "Tank", "Drum 1"), house.drum("Bottling tank", 50_000)
    for drum in (first, second):
        house.do(Fill(drum, Weight(net_g=50_000), container="Tote", bung=False))
    (tote,) = house.do(Bung("Tote")).codes

    assert reach(house, tote) == {"A", "B"}
    assert reach(house, first) == {"A"}
    assert reach(house, second) == {"B"}


def test_what_was_drawn_from_the_container_before_has_what_came_within_the_margin(
    house: BuiltHouse,
) -> None:
    house.container("Tote")
    house.load("A", 400_000, "Tank")
    house.load("B", 400_000, "Bottling tank")
    first = fill(house, "Tank", "Drum 1")
    house.do(Fill(first, Weight(net_g=50_000), container="Tote", bung=False))
    sample = house.do(Sample(("Tote",), 200)).codes[0]
    house.do(Fill("Bottling tank", Weight(net_g=50_000), container="Tote", bung=False))

    assert reach(house, sample) == {"A", "B"}
