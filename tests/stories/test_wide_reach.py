"""When in doubt the reach is wide: one small case for each way a yard could slip out of it.

Most were found by the truth test, which compares whole seasons with a simulated house.
"""

import pytest

from honeyledger.domain.codes import make_jar_code, parse_code
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Amend
from honeyledger.ledger.verbs.dock import Join, Line, Receive
from honeyledger.ledger.verbs.drums import Fill, Weight
from honeyledger.ledger.verbs.floor import Cappings, Load
from tests.support.books import code_in
from tests.support.doubt import doubtful_house, fill, minutes_from_now, reach
from tests.support.houses import MINUTE_MS, BuiltHouse, refused

HOUR_MS = 60 * MINUTE_MS


@pytest.fixture
def house() -> BuiltHouse:
    """A house with one of each thing."""
    return doubtful_house()


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


def test_whose_supers_are_left_after_a_part_was_taken_pro_rata(house: BuiltHouse) -> None:
    """The books guess three of A left and take them by name; one of them is still there."""
    lines = (Line("A", 5), Line("B", 5))
    done = house.do(Receive(lines, gross_g=200_000, tare_g=0))
    tag, pull = code_in(done, "G"), done.codes[0]
    house.do(Load(tag, "Tank", count=4))
    house.wait(120)
    house.do(Load(tag, "Tank", count=3, pull=pull))
    house.wait(120)
    house.do(Load(tag, "Bottling tank"))

    assert reach(house, house.drum("Bottling tank", 10_000)) == {"A", "B"}


def test_whose_supers_are_left_where_none_were_guessed(house: BuiltHouse) -> None:
    """All of A went by name, and nothing was taken without a name: the rest is B's alone."""
    lines = (Line("A", 5), Line("B", 5))
    done = house.do(Receive(lines, gross_g=200_000, tare_g=0))
    tag, pull = code_in(done, "G"), done.codes[0]
    house.do(Load(tag, "Tank", pull=pull))
    house.wait(120)
    house.do(Load(tag, "Bottling tank"))

    assert reach(house, house.drum("Bottling tank", 10_000)) == {"B"}


def test_a_part_left_on_a_pallet_and_loaded_after_a_wash(house: BuiltHouse) -> None:
    """The books had all of the pallet in the line before; some of it was still there."""
    _, tag = house.pull("A", 400_000)
    load = house.do(Load(tag, "Tank")).entries[0].id
    house.wait(300)
    house.wash("Tank")
    house.wait(300)
    house.do(Amend(load=load, vessel="Tank", reason="some of it was left"))
    house.load("B", 400_000, "Tank")

    assert reach(house, house.drum("Tank", 50_000)) == {"A", "B"}


def test_pallets_joined_before_a_load_that_was_amended(house: BuiltHouse) -> None:
    """Wherever the load went in truth, what had been put onto its pallet went with it."""
    _, first = house.pull("A", 200_000)
    _, second = house.pull("B", 200_000)
    load = house.do(Load(second, "Tank")).entries[0].id
    house.do(Amend(load=load, vessel="Bottling tank", reason="it was the other"))
    house.do(Join(first, second))
    assert reach(house, house.drum("Bottling tank", 50_000)) >= {"A", "B"}

    other = house.do(Amend(load=load, vessel="Fed tank", reason="it was neither"))
    assert other.entries[0].kind == "amend"
    assert reach(house, house.drum("Fed tank", 50_000)) >= {"A", "B"}


def test_a_barrel_after_one_whose_time_is_not_sure(house: BuiltHouse) -> None:
    """The barrel before it may have been taken away earlier: A was uncapped into this one."""
    house.load("C", 400_000, "Line")
    house.wait(300)
    house.load("A", 400_000, "Line")
    house.wait(30)
    house.wash("Line")
    house.wait(300)
    unsure = Cappings("Line", 40_000)
    house.do(unsure, minutes_from_now(house, -120), unsure_ms=5 * HOUR_MS)
    house.load("B", 400_000, "Line")
    barrel = house.do(Cappings("Line", 40_000)).codes[0]

    assert reach(house, barrel) >= {"A", "B"}
