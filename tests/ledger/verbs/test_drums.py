"""Drums are filled from vessels by weight; fill and bung are one step unless said otherwise."""

import pytest

from honeyledger.ledger.seals import SEAL, seal_of
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Bung, Fill
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import (
    attributes,
    grams_at,
    holding,
    mark,
    origins,
    place,
    postings,
    refusal_of,
    standing,
    turned_down,
)
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """600 kg of Creek in Tank 1, which a line feeds; Tank 2 and container 17 stand empty."""
    house = BuiltHouse()
    house.yard("Creek")
    house.yard("Hill")
    house.vessel("Line")
    house.vessel("Tank 1", fed_by="Line")
    house.vessel("Tank 2")
    house.container("17", tare_g=18_000, usual_g=200_000, limit_g=230_000)
    house.load("Creek", 600_000, "Tank 1")
    return house


def _drum(house: BuiltHouse, facts: Fill) -> str:
    return next(code for code in house.do(facts).codes if code[0] == "D")


def test_a_container_by_its_gross_and_the_tare_on_record(house: BuiltHouse) -> None:
    fill, drum = house.do(Fill("Tank 1", Weight(gross_g=218_500), container="17")).codes
    assert origins(house, drum) == {fill: 200_500}
    assert standing(house, "17") == {drum: 200_500}
    kept = attributes(house, drum)
    assert kept == {"container": place(house, "17").partition("/")[2], "gross_g": 218_500}


def test_a_seal_is_kept_with_the_drum_it_closes(house: BuiltHouse) -> None:
    drum = _drum(house, Fill("Tank 1", Weight(net_g=200_000), container="17", seal=" A  104 "))
    assert mark(house, drum, SEAL) == "A 104"
    house.container("18", tare_g=18_000, usual_g=200_000, limit_g=230_000)
    house.do(Fill("Tank 1", Weight(net_g=150_000), container="18", bung=False))
    assert mark(house, house.do(Bung("18", "A 105")).codes[0], SEAL) == "A 105"
    bare = house.drum("Tank 1", 200_000)
    assert house.house.ask(lambda view: seal_of(view, bare)) == ""


def test_a_seal_on_what_is_not_closed_and_one_too_long_are_refused(house: BuiltHouse) -> None:
    open_still = Fill("Tank 1", Weight(net_g=9_000), container="17", bung=False, seal="A 104")
    for facts in (open_still, Fill("Tank 1", Weight(net_g=9_000), into="Tank 2", seal="A 104")):
        assert refusal_of(house, facts).text == (
            "A seal goes on when a drum is closed: close it, or leave the seal for when you do."
        )
    long = Fill("Tank 1", Weight(net_g=200_000), container="17", seal="A" * 41)
    assert refusal_of(house, long).text == (
        "The number of a seal has 40 signs at most: read it again."
    )


def test_a_tare_weighed_anew_stands_above_the_record(house: BuiltHouse) -> None:
    drum = _drum(house, Fill("Tank 1", Weight(gross_g=218_500, tare_g=18_250), container="17"))
    assert standing(house, "17") == {drum: 200_250}
    assert attributes(house, drum)["tare_g"] == 18_250


def test_a_one_way_drum_stands_at_its_own_code(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    assert holding(house, drum) == {f"drum/{drum}": (290_000, 0)}
    assert "container" not in attributes(house, drum)


def test_a_weight_that_is_to_follow(house: BuiltHouse) -> None:
    drum = _drum(house, Fill("Tank 1", container="17", pending=True))
    assert standing(house, "17") == {drum: 200_000}  # the container's usual net
    assert mark(house, drum, "pending") == 1
    one_way = _drum(house, Fill("Tank 1", pending=True))
    assert holding(house, one_way) == {f"drum/{one_way}": (290_000, 0)}


def test_all_that_is_there(house: BuiltHouse) -> None:
    """What is still in the line goes over first, so it is in the drum too and not lost."""
    hill = house.load("Hill", 50_000, "Line")
    done = house.do(Fill("Tank 1", whole=True))
    drum = done.codes[-1]
    assert holding(house, drum) == {f"drum/{drum}": (650_000, 0)}
    assert hill in {row.code for row in house.back(drum).lots}
    assert grams_at(house, "difference") == 0
    assert "in all is unusual" in done.notes[0]


def test_what_clings_when_a_vessel_is_run_empty_is_difference(house: BuiltHouse) -> None:
    drum = _drum(house, Fill("Tank 1", Weight(net_g=590_000), whole=True))
    assert holding(house, drum) == {f"drum/{drum}": (590_000, 0)}
    assert list(standing(house, "Tank 1").values()) == [0]
    assert grams_at(house, "difference") == 10_000


def test_a_drum_waits_for_more_and_is_bunged(house: BuiltHouse) -> None:
    first = house.do(Fill("Tank 1", Weight(net_g=120_000), container="17", bung=False))
    (fill,) = first.codes
    assert first.notes == ()  # a part fill is no unusual weight
    assert standing(house, "17") == {fill: 120_000}
    hill = house.load("Hill", 80_000, "Tank 2")
    (second,) = house.do(Fill("Tank 2", whole=True, container="17", bung=False)).codes
    done = house.do(Bung("17"))
    (drum,) = done.codes
    assert origins(house, second) == {hill: 80_000}
    assert origins(house, drum) == {fill: 120_000, second: 80_000}
    assert standing(house, "17") == {drum: 200_000}
    assert postings(house, done) == {
        (fill, "17", -120_000),
        (second, "17", -80_000),
        (drum, "17", 200_000),
    }


def test_a_part_fill_not_weighed_makes_a_drum_not_weighed(house: BuiltHouse) -> None:
    house.do(Fill("Tank 1", container="17", pending=True, bung=False))
    (drum,) = house.do(Bung("17")).codes
    assert mark(house, drum, "pending") == 1
    again = house.container("18")
    house.do(Fill("Tank 1", Weight(net_g=50_000), container=again, bung=False))
    (weighed,) = house.do(Bung(again)).codes
    assert mark(house, weighed, "pending") is None


@pytest.mark.parametrize(("washed", "kept"), [(True, False), (False, True)])
def test_a_container_used_again_asks_whether_it_was_washed(
    house: BuiltHouse, washed: bool, kept: bool
) -> None:
    old = _drum(house, Fill("Tank 1", Weight(net_g=200_000), container="17"))
    house.do(Register("customer", {"name": "Packer"}))
    house.do(Dispatch("Packer", (DispatchLine(old),)))
    house.load("Hill", 200_000, "Tank 2")
    facts = Fill("Tank 2", whole=True, container="17")
    assert turned_down(house, facts) == (
        f"17 held {old} before. Say whether it was washed since; if not, {old} stays in reach."
    )
    assert refusal_of(house, facts).field == "washed"
    new = _drum(house, Fill("Tank 2", whole=True, container="17", washed=washed))
    assert (old in origins(house, new)) == kept
    assert set(house.shares(new)) == ({"Hill", "Creek"} if kept else {"Hill"})
    assert house.shares(new)["Hill"] == 1.0


def test_a_drum_poured_over_into_another(house: BuiltHouse) -> None:
    old = house.drum("Tank 1", 200_000)
    new = _drum(house, Fill(old, Weight(net_g=199_000), container="17", whole=True))
    assert origins(house, new) == {old: 199_000}
    assert holding(house, old) == {"difference": (1_000, 0)}


def test_more_than_the_books_see_goes_on(house: BuiltHouse) -> None:
    done = house.do(Fill("Tank 1", Weight(net_g=610_000)))
    assert done.notes[0] == (
        "The books saw 600.0 kg in Tank 1; the missing 10.0 kg is booked as weighing difference."
    )
    assert grams_at(house, "difference") == -10_000


def test_an_unusual_weight_is_said_and_taken(house: BuiltHouse) -> None:
    said = (
        "{} in all is unusual for this container (usual 200.0 kg): check pounds against "
        "kilograms, and gross against tare."
    )
    light = house.do(Fill("Tank 1", Weight(net_g=99_999), container="17"))
    assert light.notes == (said.format("100.0 kg"),)
    house.container("18", usual_g=200_000)
    heavy = house.do(Fill("Tank 1", Weight(net_g=300_001), container="18"))
    assert heavy.notes == (said.format("300.0 kg"),)
    house.container("19", usual_g=200_000)
    assert house.do(Fill("Tank 1", Weight(net_g=150_000), container="19")).notes == ()


def test_a_fill_is_reversed_and_its_code_is_not_given_again(house: BuiltHouse) -> None:
    done = house.do(Fill("Tank 1", Weight(net_g=200_000), container="17"))
    house.do(Reverse(done.entries[0].id, "wrong container"))
    assert standing(house, "17") == {}
    assert sum(standing(house, "Tank 1").values()) == 600_000
    again = _drum(house, Fill("Tank 1", Weight(net_g=200_000), container="17"))
    assert again != done.codes[-1]
    assert origins(house, again).keys().isdisjoint(done.codes)


def test_held_honey_is_filled_only_when_a_named_person_says_why(house: BuiltHouse) -> None:
    """The held pull still stands in the line when the drum is filled from the tank."""
    hill = house.load("Hill", 50_000, "Line")
    house.do(PutOnHold(hill, "smells of smoke"))
    facts = Fill("Tank 1", Weight(net_g=200_000))
    asked = (
        f"{hill} is on hold through {hill}: smells of smoke. It can go on only if a named person "
        "says why."
    )
    assert turned_down(house, facts) == asked
    assert turned_down(house, Fill("Tank 1", Weight(net_g=5), into="Tank 2")) == asked
    allowed = Fill("Tank 1", Weight(net_g=200_000), despite_hold="tank needed")
    assert turned_down(house, allowed, operator="") == asked
    assert house.do(allowed).notes == (
        f"{hill} went on although held through {hill}: tank needed.",
    )


def test_what_a_fill_refuses(house: BuiltHouse) -> None:
    said = {
        "no weight": turned_down(house, Fill("Tank 1", container="17")),
        "no weight into a vessel": turned_down(house, Fill("Tank 1", into="Tank 2")),
        "net": turned_down(house, Fill("Tank 1", Weight(net_g=0))),
        "below zero": turned_down(house, Fill("Tank 1", Weight(net_g=-5_000))),
        "swapped": turned_down(
            house, Fill("Tank 1", Weight(gross_g=18_000, tare_g=218_000), container="17")
        ),
        "no tare": turned_down(house, Fill("Tank 1", Weight(gross_g=310_000))),
        "odd tare": turned_down(house, Fill("Tank 1", Weight(gross_g=310_000, tare_g=-1_000))),
        "itself": turned_down(house, Fill("Tank 1", whole=True, into="Tank 1")),
        "no container": turned_down(house, Fill("Tank 1", Weight(net_g=90_000), bung=False)),
        "empty": turned_down(house, Fill("Tank 2", whole=True)),
        "nowhere": turned_down(house, Fill("Tank 8", whole=True)),
        "unnamed": turned_down(house, Fill("", whole=True)),
    }
    assert said == {
        "no weight": "Type the gross or net weight, or say that the weight is to follow.",
        "no weight into a vessel": "Type the net weight, or say that all of it goes.",
        "net": "A net weight of 0.0 kg is nothing. Weigh again.",
        "below zero": "A net weight of −5.0 kg is nothing. Weigh again.",
        "swapped": "Gross 18.0 kg is not above the tare of 218.0 kg. Weigh again, or correct the "
        "tare.",
        "no tare": "Nobody knows what the empty container weighs. Type its tare, or the net "
        "weight.",
        "odd tare": "A tare of −1.0 kg cannot be: weigh the empty container, or leave it at 0.",
        "itself": "Tank 1 cannot be filled from itself. Name another one.",
        "no container": "A drum that waits for more needs a container's number. Scan the "
        "container.",
        "empty": "The books see nothing in Tank 2. Scan the right one, or enter first what came "
        "in.",
        "nowhere": "There is no vessel or container called Tank 8. Choose one, such as Tank 2 or "
        "Tank 1, or register it first.",
        "unnamed": "Name the vessel or container, or scan its code.",
    }


def test_what_a_bung_refuses(house: BuiltHouse) -> None:
    assert turned_down(house, Bung("17")) == (
        "The books see nothing in 17. Scan the right one, or enter first what came in."
    )
    drum = _drum(house, Fill("Tank 1", Weight(net_g=200_000), container="17"))
    assert turned_down(house, Bung("17")) == (
        f"17 is already closed as {drum}. Scan the drum that waits."
    )
    assert turned_down(house, Bung("99")) == (
        "There is no container called 99. Choose one, such as 17, or register it first."
    )


def test_more_than_any_container_takes_is_a_slip(house: BuiltHouse) -> None:
    """5,000 kg typed for 500: no drum, nor a tote, holds more than 1.5 t."""
    said = (
        "5\u202f000.0 kg does not go into {}, which takes {} at most: check pounds against "
        "kilograms, and gross against tare."
    )
    facts = Fill("Tank 1", Weight(net_g=5_000_000))
    assert turned_down(house, facts) == said.format("a drum", "1\u202f500.0 kg")
    facts = Fill("Tank 1", Weight(net_g=5_000_000), container="17")
    assert turned_down(house, facts) == said.format("17", "230.0 kg")
    house.do(Fill("Tank 1", Weight(net_g=230_000), container="17"))
