"""Water leaves honey, computed on its solids; the log of the room's air."""

from collections.abc import Mapping

import pytest

from honeyledger.ledger.run_balance import balance_of
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dock import Line, Receive, Split
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import CloseRun, Heel, Load, OpenRun
from honeyledger.ledger.verbs.hot_room import Dry, RoomLog
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import (
    code_in,
    effects,
    grams_at,
    holding,
    mark,
    postings,
    refusal_of,
    standing,
    turned_down,
)
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.do(Register("room", {"name": "Hot room"}))
    house.yard("Creek")
    house.yard("Hill")
    line = house.vessel("Line", sort="line")
    house.vessel("Tank 1", fed_by=line)
    return house


def _sound(house: BuiltHouse) -> None:
    assert [one for one in house.store.audit() if not one.holds] == []


def test_water_is_computed_on_solids(house: BuiltHouse) -> None:
    """1,000 kg at 20 % hold 800 kg of solids: at 18 % that is 975.61 kg, by hand."""
    pull, tag = house.pull("Creek", 1_000_000)
    done = house.do(Dry(tag, before=2_000, after=1_800, room="Hot room", hours=40))
    assert postings(house, done) == {
        (pull, f"pallet/{tag}", -24_390),
        (pull, "evaporated", 24_390),
    }
    assert mark(house, pull, "moisture") == 1_800
    assert done.notes == ("24.4 kg of water went out: 975.6 kg of honey stand there at 18.0 %.",)
    assert mark(house, pull, "dried") == {
        "lot": 1,
        "grams": 1_000_000,
        "before": 2_000,
        "after": 1_800,
        "by_scale": 0,
        "room": "hot-room",
        "hours": 40,
    }
    _sound(house)


def test_each_pull_keeps_its_solids_and_the_pallet_is_as_one(house: BuiltHouse) -> None:
    lines = (Line("Creek", 7), Line("Hill", 2), Line("Creek", 1))
    done = house.do(Receive(lines, gross_g=207_001, tare_g=0, moisture=1_930))
    tag = code_in(done, "G")
    before = standing(house, f"pallet/{tag}")
    house.do(Dry(tag, after=1_790))
    after = standing(house, f"pallet/{tag}")
    assert sum(before.values()) == 147_001
    assert sum(after.values()) == round(147_001 * 8_070 / 8_210)
    for code, grams in before.items():
        assert abs(after[code] - grams * 8_070 / 8_210) < 1
    assert grams_at(house, "evaporated") == 147_001 - sum(after.values())
    _sound(house)


def test_each_pull_dries_from_its_own_reading(house: BuiltHouse) -> None:
    done = house.do(Receive((Line("Creek", 5), Line("Hill", 5))))
    creek, hill = done.codes
    house.do(Measure(creek, moisture=2_000))
    house.do(Measure(hill, moisture=1_850))
    house.do(Dry(code_in(done, "G"), after=1_800))
    assert holding(house, creek)["evaporated"] == (74_000 - round(74_000 * 8_000 / 8_200), 0)
    assert holding(house, hill)["evaporated"] == (74_000 - round(74_000 * 8_150 / 8_200), 0)
    _sound(house)


def test_one_pull_dries_on_all_its_pallets(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 100_000)
    new = code_in(house.do(Split(tag, 3)), "G")
    house.do(Dry(pull, 1_900, 1_800))
    water_g = 100_000 - round(100_000 * 8_100 / 8_200)
    assert standing(house, f"pallet/{tag}") == {pull: 70_000 - round(water_g * 0.7)}
    assert standing(house, f"pallet/{new}") == {pull: 30_000 - round(water_g * 0.3)}
    _sound(house)


def test_by_the_scale_alone_the_moisture_after_follows(house: BuiltHouse) -> None:
    """10 supers at 6 kg and 100 kg of honey are 175 kg with their pallet, and 172 kg later."""
    pull, tag = house.pull("Creek", 100_000)
    done = house.do(Dry(tag, before=1_950, weight=Weight(gross_g=172_000)))
    assert holding(house, pull)[f"pallet/{tag}"] == (97_000, 10)
    assert holding(house, pull)["evaporated"] == (3_000, 0)
    assert mark(house, pull, "moisture") == 10_000 - round(80_500 * 10_000 / 97_000)
    assert done.notes == ("3.0 kg of water went out: 97.0 kg of honey stand there at 17.0 %.",)
    _sound(house)


def test_scale_and_both_moistures_tell_water_from_a_wrong_estimate(house: BuiltHouse) -> None:
    """97 kg at 17.5 % were 99.407 kg at 19.5 %: 593 g of the estimate were never there."""
    pull, tag = house.pull("Creek", 100_000)
    house.do(Dry(tag, 1_950, 1_750, Weight(net_g=97_000)))
    assert holding(house, pull) == {
        "Creek": (-100_000, 0),
        f"pallet/{tag}": (97_000, 10),
        "difference": (590, 0),
        "evaporated": (2_410, 0),
    }
    _sound(house)


def test_supers_that_stood_too_damp_take_up_water(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 100_000)
    done = house.do(Dry(tag, 1_750, 1_850))
    assert holding(house, pull)["evaporated"] == (-1_227, 0)
    assert done.notes == (
        "It took up 1.2 kg of water: 101.2 kg of honey stand there at 18.5 %. Look at the room's "
        "humidity.",
        "Above 18 %: dry first, wet honey ferments.",
    )
    _sound(house)


def test_a_drum_dries_and_its_shares_stay(house: BuiltHouse) -> None:
    house.load("Creek", 200_000, "Line")
    house.load("Hill", 100_000, "Line")
    drum = house.drum("Tank 1", 290_000)
    shares = house.shares(drum)
    house.do(Measure(drum, moisture=1_900))
    house.do(Dry(drum, after=1_780))
    assert holding(house, drum) == {
        f"drum/{drum}": (285_766, 0),
        "evaporated": (4_234, 0),
    }
    assert house.shares(drum) == shares
    _sound(house)


def test_a_drum_on_the_scale_has_its_containers_tare(house: BuiltHouse) -> None:
    house.container("Drum 7", tare_g=18_000)
    house.load("Creek", 300_000, "Line")
    done = house.do(Fill("Tank 1", Weight(gross_g=308_000), container="Drum 7"))
    drum = code_in(done, "D")
    house.do(Dry("Drum 7", before=1_900, weight=Weight(gross_g=304_000)))
    assert holding(house, drum)["evaporated"] == (4_000, 0)
    assert mark(house, drum, "moisture") == 10_000 - round(290_000 * 8_100 / 286_000)


def test_what_stands_in_a_vessel_dries_as_one_fill(house: BuiltHouse) -> None:
    creek = house.load("Creek", 200_000, "Line")
    hill = house.load("Hill", 100_000, "Line")
    done = house.do(Dry("Tank 1", 1_900, 1_800))
    fill = done.codes[-1]
    assert standing(house, "Tank 1") == {fill: 300_000 - 3_659}
    assert {creek, hill} <= {row.code for row in house.back(fill).lots}
    _sound(house)


def test_typed_late_the_water_is_of_what_stands_there_now(house: BuiltHouse) -> None:
    house.load("Creek", 200_000, "Line", at_min=30)
    house.drum("Tank 1", 100_000, at_min=60)
    done = house.do(Dry("Tank 1", 1_900, 1_800), at_min=40)
    assert done.notes == (
        "Typed later than other entries on Tank 1: the water is computed on what the books see "
        "there now.",
        "1.2 kg of water went out: 98.8 kg of honey stand there at 18.0 %.",
    )


def test_drying_is_reversed(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 100_000)
    house.do(Measure(pull, moisture=1_950))
    done = house.do(Dry(tag, after=1_800))
    house.do(Reverse(done.entries[0].id, "wrong pallet"))
    assert holding(house, pull) == {"Creek": (-100_000, 0), f"pallet/{tag}": (100_000, 10)}
    assert mark(house, pull, "moisture") == 1_950
    assert mark(house, pull, "dried") is None
    _sound(house)


def test_a_loaded_pallets_drying_stays_until_the_load_is_reversed(house: BuiltHouse) -> None:
    _, tag = house.pull("Creek", 100_000)
    done = house.do(Dry(tag, 1_950, 1_800))
    load = house.do(Load(tag, "Line")).entries[0].id
    entry = done.entries[0].id
    assert turned_down(house, Reverse(entry, "wrong pallet")) == (
        f"Entry {entry} is built on by entry {load} (load). Reverse those first, newest first, or "
        "reverse the whole chain."
    )


def test_unusual_figures_are_told(house: BuiltHouse) -> None:
    _, tag = house.pull("Creek", 100_000)
    done = house.do(Dry(tag, 2_000, 1_650, Weight(net_g=60_000)))
    assert done.notes[0] == (
        f"{tag} weighed 100.0 kg by the books and 62.6 kg on the scale: check gross against tare, "
        "and pounds against kilograms."
    )
    assert done.notes[2] == (
        "From 20.0 % to 16.5 % at once is unusual: read both again, at one temperature and with "
        "one refractometer."
    )


def test_what_drying_refuses(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 100_000)
    assert turned_down(house, Dry(tag, before=1_950)) == (
        "Read the moisture after drying, or weigh it again: one of the two says how much water "
        "left."
    )
    assert turned_down(house, Dry(tag, after=1_800)) == (
        f"Nobody has read the moisture of {pull} yet. Give the one it had before drying."
    )
    assert turned_down(house, Dry(tag, 1_800, 1_800)) == (
        "18.00 % before and after is no drying: there is nothing to book. Read again."
    )
    assert turned_down(house, Dry(tag, 1_950, 180)) == (
        "A moisture of 1.8 % cannot be right for honey. Read it again."
    )
    weight = Weight(net_g=150_000)
    assert turned_down(house, Dry(tag, before=1_950, weight=weight)) == (
        "From 100.0 kg to 150.0 kg cannot be water alone: 46.3 % of it would be left. Weigh "
        "again, or type the moisture after drying as well."
    )
    assert turned_down(house, Dry("Tank 1", 1_950, 1_800)) == (
        "The books see nothing in Tank 1. Scan the right one, or enter first what came in."
    )
    assert turned_down(house, Dry(tag, 1_950, 1_800, room="Attic")) == (
        "There is no room called Attic. Choose one, such as Hot room, or register it first."
    )
    assert refusal_of(house, Dry("", 1_950, 1_800)).field == "what"
    house.do(Load(tag, "Line"))
    for gone in (tag, pull):
        assert turned_down(house, Dry(gone, 1_950, 1_800)) == (
            f"Nothing of {gone} stands in supers any more: what was loaded is dried in its vessel "
            "or drum, and a reading alone is noted with measure."
        )


def test_water_out_of_a_tank_is_no_loss_of_the_run(house: BuiltHouse) -> None:
    facts = Dry("Tank 1", 1_900, 1_800)
    assert turned_down(house, facts, run="R26-0009-X") == (
        "R26-0009-X is not a run of this house. Open a run first."
    )
    run = code_in(house.do(OpenRun("Line")), "R")
    _, tag = house.pull("Creek", 300_000)
    house.do(Dry(tag, 1_950, 1_900), run=run)  # before it is loaded: no part of the balance
    house.do(Load(tag, "Line"), run=run)
    house.do(facts, run=run)
    balance = house.house.ask(lambda view: balance_of(view, run))
    loaded_g = round(300_000 * 8_050 / 8_100)
    assert balance.evaporated_g == loaded_g - round(loaded_g * 8_100 / 8_200)
    assert (balance.in_g, balance.out_g) == (loaded_g, balance.evaporated_g)
    heel = Heel("Tank 1", loaded_g - balance.evaporated_g)
    house.do(CloseRun(run, (heel,)))
    assert house.house.ask(lambda view: balance_of(view, run)).estimate_gap_g == 0


def test_the_air_of_a_room(house: BuiltHouse) -> None:
    done = house.do(RoomLog("Hot room", temperature=348, humidity=4_200, note="fan on"))
    assert done.notes == ()
    assert effects(done, "marks") == [
        ["room/hot-room", "temperature", 348],
        ["room/hot-room", "humidity", 4_200],
    ]
    house.do(RoomLog("hot-room", humidity=4_900))
    assert mark(house, "room/hot-room", "temperature") == 348
    assert mark(house, "room/hot-room", "humidity") == 4_900


def test_too_hot_and_too_damp_are_told(house: BuiltHouse) -> None:
    assert house.do(RoomLog("Hot room", 412, 6_100)).notes == (
        "Hot room is at 41.2 °C: above 40 °C combs sag and honey suffers. Let it cool, and mind "
        "the people who work in it.",
        "At 61.0 % humidity the air in Hot room wets honey of 18 % instead of drying it. Dry the "
        "air first, or keep the supers out.",
    )
    assert house.do(RoomLog("Hot room", 400, 5_900)).notes == ()


def test_what_the_rooms_log_refuses(house: BuiltHouse) -> None:
    assert turned_down(house, RoomLog("Hot room", note="fan on")) == (
        "Read the temperature or the humidity of Hot room."
    )
    assert turned_down(house, RoomLog("Hot room", temperature=3_480)) == (
        "A temperature of 348.0 °C cannot be right for a room. Read it again."
    )
    assert turned_down(house, RoomLog("Hot room", humidity=10_001)) == (
        "A humidity of 100.0 % cannot be right for a room. Read it again."
    )


def test_a_reading_of_the_room_is_reversed(house: BuiltHouse) -> None:
    house.do(RoomLog("Hot room", temperature=340))
    wrong = house.do(RoomLog("Hot room", temperature=430)).entries[0].id
    house.do(Reverse(wrong, "read in the sun"))
    assert mark(house, "room/hot-room", "temperature") == 340


def test_a_moisture_before_that_was_read_otherwise_is_asked_about(house: BuiltHouse) -> None:
    """18.9 % was read; up to half a point is how far two readings of one honey may differ."""
    pull, tag = house.pull("Creek", 100_000)
    house.do(Measure(pull, moisture=1_890))
    assert turned_down(house, Dry(tag, 1_820, 1_750)) == (
        f"{pull} was last read at 18.90 %, and not at 18.20 %: read it again before it is dried, "
        "or say why this counts."
    )
    assert refusal_of(house, Dry(tag, 1_820, 1_750)).field == "before"
    house.do(Dry(tag, 1_840, 1_800))
    done = house.do(Dry(tag, 1_900, 1_750, despite_reading="it stood in damp air"))
    said = done.entries[0].facts["said"]
    assert isinstance(said, Mapping)
    assert said["despite_reading"] == "it stood in damp air"
    plain = house.do(Dry(tag, 1_750, 1_740)).entries[0].facts["said"]
    assert isinstance(plain, Mapping)
    assert "despite_reading" not in plain


def test_a_reading_taken_when_it_was_dry_already_is_no_contradiction(house: BuiltHouse) -> None:
    """It was 19.6 %, is read at 18.0 %, and only then is the drying typed; of either pallet."""
    pull, tag = house.pull("Creek", 100_000)
    other = code_in(house.do(Split(tag, 4)), "G")
    house.do(Measure(pull, moisture=1_800))
    house.do(Dry(tag, 1_960, 1_800))
    house.do(Dry(other, 1_960, 1_800))
    assert mark(house, pull, "moisture") == 1_800
