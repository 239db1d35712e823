"""Bottling: jars leave their feed at each change-over, and become one lot at the end."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.drums import Bung, Fill
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import (
    attributes,
    code_in,
    grams_at,
    holding,
    late,
    mark,
    origins,
    place,
    postings,
    standing,
    turned_down,
)
from tests.support.houses import BuiltHouse


def _house(margin_min: int = 0) -> BuiltHouse:
    """Creek in Tank 1, Hill in Tank 2, a line that feeds Tank 1, a product of 500 g."""
    house = BuiltHouse(margin_min)
    house.yard("Creek")
    house.yard("Hill")
    house.vessel("Line")
    house.vessel("Tank 1", fed_by="Line")
    house.vessel("Tank 2")
    house.load("Creek", 300_000, "Tank 1")
    house.load("Hill", 300_000, "Tank 2")
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    return house


def _start(house: BuiltHouse, feed: str = "Tank 1") -> str:
    return code_in(house.do(ChangeOver(product="Clover", feed=feed)), "J")


def test_a_start_gives_the_code_and_moves_nothing() -> None:
    house = _house()
    done = house.do(ChangeOver(product="clover", feed="Tank 1"))
    lot = code_in(done, "J")
    assert (done.codes, done.entries[0].postings) == ((), ())
    assert mark(house, f"bottling/{lot}", "open") == {
        "product": "clover",
        "net_g": 500,
        "feed": place(house, "Tank 1"),
        "jars": 0,
    }


def test_one_feed_one_segment() -> None:
    house = _house()
    lot = _start(house)
    done = house.do(Bottle(lot, 200))
    fill, jars = done.codes
    assert jars == lot
    assert origins(house, lot) == {fill: 100_000}
    assert holding(house, lot) == {"jars": (100_000, 200)}
    assert attributes(house, lot) == {
        "product": "clover",
        "net_g": 500,
        "jars": 200,
        "margin": 24,
        "segments": [[3, 1, 200]],
    }
    assert (fill, "Tank 1", 200_000) in postings(house, done)
    assert standing(house, f"filling/{lot}") == {}
    assert mark(house, f"bottling/{lot}", "open") == 0


def test_a_change_over_moves_the_jars_so_far_before_anything_is_added() -> None:
    house = _house(margin_min=60)
    lot = _start(house)
    done = house.do(ChangeOver(lot, feed="Tank 2", jars=120))
    (creek,) = done.codes
    assert standing(house, f"filling/{lot}") == {creek: 60_000}
    hill, _ = house.do(Bottle(lot, 200, rejects=3)).codes
    assert origins(house, lot) == {creek: 60_000, hill: 40_000}
    kept = attributes(house, lot)
    # The filler is not washed between them: what ran first is in the later jars' reach.
    assert kept["segments"] == [[3, 1, 120], [4, 121, 200], [3, 121, 200]]
    assert kept["margin"] == 27  # 24 jars, and the rejects
    assert house.shares(lot) == {"Creek": 0.6, "Hill": 0.4}


def test_the_same_feed_goes_on_after_it_was_topped_up() -> None:
    house = _house()
    lot = _start(house)
    house.do(ChangeOver(lot, jars=100))
    hill = house.load("Hill", 250_000, "Tank 1")
    house.do(ChangeOver(lot, jars=150))
    house.do(Bottle(lot, 150))
    first, second = origins(house, lot)
    assert origins(house, second) == {first: 250_000, hill: 250_000}
    assert attributes(house, lot)["segments"] == [[3, 1, 100], [5, 101, 150]]


def test_jars_weigh_what_was_checked() -> None:
    house = _house()
    lot = _start(house)
    house.do(ChangeOver(lot, jars=100, mean_net_mg=503_250))
    assert sum(standing(house, f"filling/{lot}").values()) == 50_325
    house.do(Bottle(lot, 103, mean_net_mg=499_500))  # 1498.5 g: halves go up
    assert holding(house, lot) == {"jars": (51_824, 103)}


def test_drum_empty_zeroes_what_clings() -> None:
    house = _house()
    drum = house.drum("Tank 1", 60_000)
    lot = _start(house, drum)
    house.do(ChangeOver(lot, feed="Tank 2", jars=118, empty=True))
    assert holding(house, drum) == {
        f"filling/{lot}": (59_000, 0),
        "difference": (1_000, 0),
    }
    house.do(Bottle(lot, 130))
    assert origins(house, lot)[drum] == 59_000


def test_a_feed_that_ran_empty_before_the_first_jar() -> None:
    house = _house()
    house.load("Hill", 5_000, "Line")
    lot = _start(house)
    house.do(ChangeOver(lot, feed="Tank 2", jars=0, empty=True))
    assert sum(standing(house, "Tank 1").values()) == 0
    assert grams_at(house, "difference") == 305_000


def test_bottling_straight_from_a_drum() -> None:
    house = _house()
    drum = house.drum("Tank 1", 60_000)
    lot = _start(house, drum)
    house.do(Bottle(lot, 100))
    assert origins(house, lot) == {drum: 50_000}
    assert holding(house, drum) == {f"drum/{drum}": (10_000, 0)}


def test_two_bottlings_open_on_one_tank() -> None:
    house = _house()
    one, two = _start(house), _start(house)
    house.do(ChangeOver(one, jars=100))
    house.do(ChangeOver(two, jars=50))
    house.do(Bottle(one, 110))
    house.do(Bottle(two, 60))
    (fill,) = origins(house, one)
    assert origins(house, one) == {fill: 55_000}
    assert origins(house, two) == {fill: 30_000}
    assert standing(house, "Tank 1") == {fill: 215_000}


def test_jars_not_labelled_in_line_have_no_segments() -> None:
    house = _house(margin_min=60)
    lot = _start(house)
    house.do(ChangeOver(lot, feed="Tank 2", jars=120))
    house.do(Bottle(lot, 200, in_line=False))
    assert attributes(house, lot)["segments"] == []


def test_more_jars_than_the_books_see_honey_for() -> None:
    house = _house()
    lot = _start(house)
    done = house.do(ChangeOver(lot, jars=640))  # 320 kg of 300
    assert done.notes == (
        "The books saw 300.0 kg in Tank 1; the missing 20.0 kg is booked as weighing difference.",
    )
    assert grams_at(house, "difference") == -20_000


def test_a_bottling_typed_late_has_in_reach_what_came_in_since() -> None:
    house = _house()
    lot = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1"), at_min=100), "J")
    moor = house.load("Hill", 10_000, "Tank 1", at_min=130)
    house.do(ChangeOver(lot, jars=10), at_min=120)
    house.do(Bottle(lot, 20), at_min=140)
    assert origins(house, lot)[moor] == 0
    assert moor in late(house, lot)


def test_a_part_filled_drum_typed_late_says_so_when_it_is_bunged() -> None:
    house = _house()
    house.container("17")
    house.wash("Tank 2", at_min=50)
    house.load("Creek", 100_000, "Tank 2", at_min=60)
    house.do(Fill("Tank 2", Weight(net_g=50_000), container="17", bung=False), at_min=40)
    (drum,) = house.do(Bung("17"), at_min=70).codes
    assert set(house.shares(drum)) == {"Creek", "Hill"}
    # Neither is a heel: both are there because of when it was typed.
    ways = {row.name: row.how for row in house.back(drum).ancestors}
    assert ways == {"Creek": ("grams", "margin"), "Hill": ("margin",)}


def test_a_change_over_is_reversed() -> None:
    house = _house()
    lot = _start(house)
    done = house.do(ChangeOver(lot, feed="Tank 2", jars=120))
    house.do(Reverse(done.entries[0].id, "counter misread"))
    assert standing(house, f"filling/{lot}") == {}
    assert mark(house, f"bottling/{lot}", "open")["jars"] == 0
    house.do(ChangeOver(lot, feed="Tank 2", jars=102))
    house.do(Bottle(lot, 150))
    assert holding(house, lot) == {"jars": (75_000, 150)}


def test_a_start_is_reversed_only_before_jars_were_filled() -> None:
    house = _house()
    lot = _start(house)
    entry = house.house.ask(lambda view: view.head().entry)
    house.do(ChangeOver(lot, jars=10))
    assert turned_down(house, Reverse(entry, "wrong product")) == (
        f"Entry {entry} is built on by entry {entry + 1} (change-over). Reverse those first, "
        "newest first, or reverse the whole chain."
    )
    house.house.reverse_chain(entry, "wrong product")
    assert turned_down(house, Bottle(lot, 10)) == (
        f"{lot} is not an open bottling. Start one: name the product and the vessel."
    )


def test_held_honey_is_bottled_only_when_a_named_person_says_why() -> None:
    house = _house()
    lot = _start(house)
    pull = house.load("Hill", 50_000, "Line")
    house.do(PutOnHold(pull, "smoke"))
    asked = (
        f"{pull} is on hold through {pull}: smoke. It can go on only if a named person says why."
    )
    for facts in (
        ChangeOver(product="Clover", feed="Tank 1"),
        ChangeOver(lot, jars=10),
        Bottle(lot, 10),
    ):
        assert turned_down(house, facts) == asked
    house.do(Bottle(lot, 10, despite_hold="goes to the lab"))


def test_what_bottling_refuses() -> None:
    house = _house()
    house.do(Register("product", {"name": "Comb"}))
    lot = _start(house)
    house.do(ChangeOver(lot, jars=100))
    said = {
        "unnamed": turned_down(house, ChangeOver(feed="Tank 1")),
        "no feed": turned_down(house, ChangeOver(product="Clover")),
        "product": turned_down(house, ChangeOver(product="Lime", feed="Tank 1")),
        "no net": turned_down(house, ChangeOver(product="Comb", feed="Tank 1")),
        "back": turned_down(house, ChangeOver(lot, jars=99)),
        "end": turned_down(house, ChangeOver(lot, jars=100_000)),
        "mean": turned_down(house, Bottle(lot, 110, mean_net_mg=249_999)),
        "rejects": turned_down(house, Bottle(lot, 110, rejects=-1)),
    }
    assert said == {
        "unnamed": "Name the product and the vessel or drum it is filled from.",
        "no feed": "Name the product and the vessel or drum it is filled from.",
        "product": "There is no product called Lime. Choose one, such as Clover or Comb, or "
        "register it first.",
        "no net": "Comb has no net content on record. Put it into its record first.",
        "back": "The counter stood at 100 before and cannot be 99 now. Read it again, or reverse "
        "the wrong change-over.",
        "end": "One jar lot has serials up to 99999. Close this bottling and start another.",
        "mean": "A mean net of 250.0 g does not fit jars of 500 g. Weigh the sample again, jar by "
        "jar.",
        "rejects": "-1 rejects cannot be: type 0 or more.",
    }
    empty = _start(house)
    assert turned_down(house, Bottle(empty, 0)) == (
        "No jars were filled: reverse the start of this bottling instead."
    )
    house.do(Bottle(lot, 100))
    assert turned_down(house, Bottle(lot, 100)) == (
        f"{lot} is not an open bottling. Start one: name the product and the vessel."
    )


@pytest.mark.parametrize("jars", [1, 99_999])
def test_from_one_jar_to_the_last_serial(jars: int) -> None:
    house = _house()
    house.do(Register("product", {"name": "Taster", "net_g": 1}))
    lot = code_in(house.do(ChangeOver(product="Taster", feed="Tank 1")), "J")
    house.do(Bottle(lot, jars))
    assert holding(house, lot) == {"jars": (jars, jars)}
