"""When in doubt the reach is wide: one small case for each way a yard could slip out of it.

Most were found by the truth test, which compares whole seasons with a simulated house.
"""

import pytest

from honeyledger.domain.codes import make_jar_code, parse_code
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Amend
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.dock import Join
from honeyledger.ledger.verbs.drums import Bung, Fill, Purchase, Weight
from honeyledger.ledger.verbs.floor import Cappings, Load
from honeyledger.ledger.verbs.quality import Sample
from honeyledger.ledger.verbs.registers import Register
from tests.support.houses import MINUTE_MS, BuiltHouse, refused

HOUR_MS = 60 * MINUTE_MS


@pytest.fixture
def house() -> BuiltHouse:
    """Two lines, one of which feeds a tank; a bottling tank; two drums; yards A to D."""
    house = BuiltHouse(60)
    line = house.vessel("Line", sort="line")
    house.vessel("Fed tank", fed_by=line)
    for name in ("Tank", "Bottling tank"):
        house.vessel(name)
    for name in ("Drum 1", "Drum 2"):
        house.container(name, limit_g=900_000)
    for name in "ABCD":
        house.yard(name)
    house.do(Register("product", {"name": "Jar", "net_g": 500}))
    house.do(Register("customer", {"name": "Shop"}))
    house.do(Register("supplier", {"name": "Trader"}))
    house.wait(24 * 60)
    return house


def reach(house: BuiltHouse, code: str) -> set[str]:
    """The names of all first ancestors."""
    return {row.name for row in house.back(code).ancestors}


def fill(house: BuiltHouse, source: str, container: str, **more: bool) -> str:
    """A registered container filled from a vessel: the drum's code."""
    done = house.do(Fill(source, Weight(net_g=50_000), container=container, **more))
    return done.codes[-1]


def minutes_from_now(house: BuiltHouse, minutes: int) -> int:
    """A time for `at_min`, so many minutes from now."""
    return (house.now_ms - BuiltHouse(0).now_ms) // MINUTE_MS + minutes + 7


# Drums are vessels to late entries.


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
    bought = house.do(Purchase("Trader", Weight(net_g=50_000), container="Drum 1")).codes[0]

    assert reach(house, bought) == {"A", "Trader"}
    assert house.shares(bought) == {"A": 0, "Trader": 1}


def test_an_old_rest_does_not_ask_for_topping_up(house: BuiltHouse) -> None:
    """A waiting drum is filled on without a question about the drum that was in it before."""
    house.load("A", 400_000, "Tank")
    fill(house, "Tank", "Drum 1")
    house.pour("Drum 1", "Bottling tank")
    house.do(Fill("Tank", Weight(net_g=9_000), container="Drum 1", washed=False, bung=False))

    assert reach(house, fill(house, "Tank", "Drum 1")) == {"A"}


# Lines, tanks and washes.


def test_what_a_wash_sent_over_and_washed_out_at_once(house: BuiltHouse) -> None:
    """Drawn from the line before its wash, and scanned after it."""
    house.load("A", 400_000, "Line")
    house.wait(300)
    house.wash("Line")
    drum = house.drum("Line", 50_000)

    assert "A" in reach(house, drum)


def test_a_tank_washed_before_its_line_ran_over(house: BuiltHouse) -> None:
    """The tank was washed, A ran over from the line, the line was washed; then the scans came."""
    house.load("A", 400_000, "Line")
    house.wait(300)
    house.wash("Line")
    house.wash("Fed tank")
    house.wait(300)

    assert "A" in reach(house, house.drum("Fed tank", 50_000))


def test_a_wash_after_a_load_whose_time_is_not_sure(house: BuiltHouse) -> None:
    """The load, by its paper two hours off, may have been after the wash: it stays in reach."""
    house.wait(600)
    _, tag = house.pull("A", 400_000)
    load = Load(tag, "Tank")
    house.do(load, minutes_from_now(house, -180), unsure_ms=2 * HOUR_MS + 60 * MINUTE_MS)
    house.wash("Tank", at_min=minutes_from_now(house, -30))
    house.wait(600)

    assert reach(house, house.drum("Tank", 300_000)) >= {"A"}


def test_cappings_keep_what_clings_in_the_line(house: BuiltHouse) -> None:
    """The line was not washed after A, so A clings to B's cappings, which drain into a tank."""
    house.load("A", 400_000, "Line")
    house.wait(300)
    house.do(Cappings("Line", 40_000))
    house.wait(300)
    house.load("B", 400_000, "Line")
    barrel = house.do(Cappings("Line", 40_000)).codes[0]

    assert house.shares(barrel) == {"A": 0, "B": 1}
    house.pour(barrel, "Bottling tank", 20_000)
    assert reach(house, house.drum("Bottling tank", 20_000)) == {"A", "B"}


def test_a_barrel_typed_late_is_of_the_pulls_before_it(house: BuiltHouse) -> None:
    """A later barrel is written already: this one is not of that one's pulls."""
    house.load("A", 400_000, "Line")
    house.wait(300)
    noon = minutes_from_now(house, 0)
    house.wait(300)
    house.load("B", 400_000, "Line")
    house.do(Cappings("Line", 40_000))
    late = house.do(Cappings("Line", 40_000), noon).codes[0]

    assert house.shares(late)["A"] == 1


def test_pallets_joined_before_they_were_loaded(house: BuiltHouse) -> None:
    """The load of both was scanned at once, the joining half an hour later."""
    _, first = house.pull("A", 200_000)
    _, second = house.pull("B", 200_000)
    house.do(Load(second, "Tank"))
    drum = house.drum("Tank", 150_000)
    house.wait(20)
    house.do(Join(first, second))

    assert reach(house, drum) == {"A", "B"}


# Bottling.


def test_jars_hold_what_was_washed_out_since_they_began(house: BuiltHouse) -> None:
    """A morning's jars, a wash at ten, other honey at eleven; the change-over only at two."""
    house.load("A", 100_000, "Bottling tank")
    lot = house.do(ChangeOver(product="Jar", feed="Bottling tank")).given[0]
    house.wait(60)
    house.wash("Bottling tank")
    house.wait(60)
    house.load("B", 100_000, "Bottling tank")
    house.wait(180)
    house.do(Bottle(lot, 100))

    assert reach(house, lot) == {"A", "B"}


def test_the_filler_is_not_washed_between_two_drums(house: BuiltHouse) -> None:
    """Far behind the change-over a jar is all B by grams, and A clings in the filler."""
    for yard, tank in (("A", "Tank"), ("B", "Bottling tank")):
        house.load(yard, 400_000, tank)
    first, second = fill(house, "Tank", "Drum 1"), fill(house, "Bottling tank", "Drum 2")
    lot = house.do(ChangeOver(product="Jar", feed=first)).given[0]
    house.do(ChangeOver(lot, feed=second, jars=90))
    house.do(Bottle(lot, 180))
    late_jar = str(make_jar_code(parse_code(lot), 170))
    early_jar = str(make_jar_code(parse_code(lot), 10))

    assert house.shares(late_jar) == {"A": 0, "B": 1}
    assert reach(house, early_jar) == {"A"}


# Amendments.


def test_an_unknown_lot_in_a_fed_tank_was_loaded_into_the_line(house: BuiltHouse) -> None:
    """The line keeps a film of the pallet found, though the tank was washed meanwhile."""
    _, tag = house.pull("A", 400_000)
    loaded = minutes_from_now(house, 0)
    house.wait(120)
    unknown = house.do(Fill("Fed tank", Weight(net_g=50_000))).codes[0]
    house.wait(120)
    house.wash("Fed tank")
    house.do(Amend(unknown, "found empty", pallet=tag), loaded)
    house.wait(120)
    house.load("B", 400_000, "Line")
    house.wash("Fed tank", remains="never")
    house.wait(120)

    assert reach(house, house.drum("Fed tank", 50_000)) == {"A", "B"}


def test_a_pallet_found_now_was_loaded_before_its_honey_was_missed(house: BuiltHouse) -> None:
    """Nobody said when: then it may have been at any time since the pallet came."""
    house.load("B", 60_000, "Tank")
    _, tag = house.pull("A", 400_000)
    house.wait(120)
    first = house.drum("Tank", 50_000)
    house.wait(120)
    done = house.do(Fill("Tank", Weight(net_g=50_000)))
    house.wait(120)
    house.do(Amend(done.codes[0], "found empty", pallet=tag))

    assert reach(house, first) == {"A", "B"}


def test_the_right_vessel_gets_all_that_was_poured_into_the_wrong_one(house: BuiltHouse) -> None:
    """A drum topped up: what clung in the tank it came from, washed meanwhile, was in the pour."""
    house.load("A", 60_000, "Tank")
    house.wait(120)
    house.wash("Tank")
    house.load("B", 60_000, "Tank")
    poured = house.pour("Tank", "Fed tank", 50_000).entries[0].id
    house.do(Amend(load=poured, vessel="Bottling tank", reason="wrong tank"))

    assert reach(house, house.drum("Bottling tank", 40_000)) >= {"A", "B"}


def test_a_load_typed_after_the_drums_tank_was_amended(house: BuiltHouse) -> None:
    """The drum counts as drawn from the right tank, for whatever is typed later about it."""
    house.load("B", 400_000, "Bottling tank")
    house.load("C", 400_000, "Tank")
    _, tag = house.pull("A", 400_000)
    loaded = minutes_from_now(house, 0)
    house.wait(120)
    drum = house.drum("Bottling tank", 50_000)
    house.do(Amend(drum, "wrong tank", source="Tank"))
    house.do(Load(tag, "Tank"), loaded)

    assert reach(house, drum) == {"A", "B", "C"}


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


def test_a_part_loaded_earlier_than_the_rest_that_was_typed_first(house: BuiltHouse) -> None:
    """The rest took the whole pallet in the books; the part, into the same tank, was before."""
    _, tag = house.pull("A", 400_000)
    house.load("B", 60_000, "Tank")
    part = minutes_from_now(house, 0)
    house.wait(120)
    drum = house.drum("Tank", 50_000)
    house.wait(120)
    rest = house.do(Load(tag, "Tank")).entries[0].id
    amend = Amend(load=rest, vessel="Tank", reason="part of it went in before")

    assert refused(lambda: house.do(amend)).endswith("is already booked so. Nothing was changed.")
    house.do(amend, part)
    assert reach(house, drum) == {"A", "B"}


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
    house.do(Purchase("Trader", Weight(net_g=50_000), container="Drum 1"))
    house.pour("Drum 1", "Bottling tank")
    drum = fill(house, "Tank", "Drum 1", washed=True)

    assert reach(house, drum) == {"A", "Trader"}


def test_cappings_of_a_line_that_was_emptied_into_itself(house: BuiltHouse) -> None:
    """What leaves the line in the entry that brings it back does not weigh against it."""
    house.load("A", 400_000, "Line")
    house.wait(600)
    house.drum("Fed tank", 10_000)
    house.load("B", 100_000, "Line")
    back = Fill("Fed tank", Weight(net_g=50_000), into="Line")
    house.do(back, minutes_from_now(house, -300))
    barrel = house.do(Cappings("Line", 10_000), minutes_from_now(house, -200)).codes[0]

    assert house.shares(barrel) == {"A": 1, "B": 0}


def test_two_loads_of_a_pallet_whose_scans_changed_places(house: BuiltHouse) -> None:
    """A's supers went into the tank first; the rest of the pallet, into the other, was scanned.

    Then other supers were put on the tag, and the first load was scanned: the books took those.
    """
    _, tag = house.pull("A", 200_000)
    _, other = house.pull("B", 200_000)
    house.do(Load(tag, "Bottling tank"))
    house.do(Join(other, tag))
    house.do(Load(tag, "Tank", count=4))

    assert reach(house, house.drum("Tank", 50_000)) == {"A", "B"}
