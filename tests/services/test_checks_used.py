"""What used something since it may have been off, and one hold on all of it."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.checks import Check
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import OpenRun
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.checks_used import Used, hold_of, used_since
from tests.support.books import code_in
from tests.support.houses import MINUTE_MS, START_MS, BuiltHouse, refused


@pytest.fixture
def house() -> BuiltHouse:
    """A sieve on the tank, a drum scale, a magnet nobody has placed; drums before and after."""
    house = BuiltHouse()
    for yard in ("Creek", "Hill"):
        house.yard(yard)
    house.vessel("Tank")
    house.vessel("Other")
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    house.do(Register("equipment", {"name": "Sieve", "sort": "sieve", "at": "Tank"}))
    house.do(Register("equipment", {"name": "Drum scale", "sort": "scale", "weighs": "drums"}))
    house.do(Register("equipment", {"name": "Magnet", "sort": "magnet"}))
    return house


def _used(house: BuiltHouse, facts: Check, until_min: int = 1_000) -> Used:
    return house.house.ask(lambda view: used_since(view, facts, START_MS + until_min * MINUTE_MS))


def _ms(at_min: int) -> int:
    return START_MS + at_min * MINUTE_MS


def test_a_sieve_is_felt_in_what_went_through_since_and_not_before(house: BuiltHouse) -> None:
    house.load("Creek", 100_000, "Tank", at_min=10)
    before = house.drum("Tank", 100_000, at_min=20)
    house.wash("Tank", at_min=30)
    house.do(Check("Sieve", "whole", listed="sieve"), at_min=60)
    run = code_in(house.do(OpenRun("Tank"), at_min=90), "R")
    house.load("Hill", 200_000, "Tank", at_min=100)
    after = house.drum("Tank", 60_000, at_min=120)
    jars = code_in(house.do(ChangeOver(product="Clover", feed="Tank"), at_min=130), "J")
    house.do(Bottle(jars, 80), at_min=140)
    elsewhere = house.load("Creek", 100_000, "Other", at_min=150)
    found = _used(house, Check("Sieve", "whole", "off", listed="sieve"))
    rows = {row.code: row for row in found.rows}
    assert {after, jars} <= rows.keys()
    assert not {before, elsewhere} & rows.keys()
    assert rows[jars].jars == ((1, 80),)
    assert rows[jars].jars_text == "00001 to 00080"
    assert found.runs == (run,)
    assert (found.name, found.is_wide) == ("Sieve", False)
    assert found.since is not None
    assert found.since.at_ms == _ms(60)
    # Since when somebody says, and no later: what was there then is told by the tank's own stays.
    assert before in {
        row.code for row in _used(house, Check("Sieve", "whole", "off", since_ms=_ms(15))).rows
    }


def test_of_a_bottling_only_the_jars_since_the_last_good_check_are_named(
    house: BuiltHouse,
) -> None:
    house.load("Creek", 100_000, "Tank", at_min=10)
    house.load("Hill", 100_000, "Other", at_min=11)
    jars = code_in(house.do(ChangeOver(product="Clover", feed="Other"), at_min=20), "J")
    house.do(ChangeOver(jars, feed="Tank", jars=50), at_min=400)
    house.do(Bottle(jars, 120), at_min=900)
    # The first 50 are of a tank without a sieve, whenever that of the other one broke.
    found = _used(house, Check("Sieve", "whole", "off", since_ms=_ms(15)))
    assert {row.code: row.jars_text for row in found.rows}[jars] == "00051 to 00120"
    # A scale of the jars is felt in those that were filled after it was last right.
    house.do(Register("equipment", {"name": "Jar scale", "sort": "scale", "weighs": "jars"}))
    house.do(Check("Jar scale", "500 g"), at_min=500)
    weighed = _used(house, Check("Jar scale", "500 g", "off"))
    assert {row.code: row.jars_text for row in weighed.rows} == {jars: "00051 to 00120"}


def test_one_hold_reaches_all_of_it(house: BuiltHouse) -> None:
    house.do(Check("Sieve", "whole"), at_min=5)
    house.load("Hill", 200_000, "Tank", at_min=100)
    drum = house.drum("Tank", 60_000, at_min=120)
    facts = Check("Sieve", "whole", "off")
    off = house.do(facts, at_min=200)
    assert "Sieve is off on whole. It was last found right on" in off.notes[0]
    hold = house.house.ask(lambda view: hold_of(view, facts, _ms(200)))
    done = house.do(hold, at_min=201)
    assert len(done.entries) == 1
    found = _used(house, facts)
    assert found.free == 0
    assert all(row.held for row in found.rows)
    assert drum in {row.code for row in found.rows}
    assert hold.reason.startswith("Sieve found off on whole since 24 Jul 2026")
    # What is made of it later is held as well.
    fill = Fill("Tank", Weight(net_g=60_000), despite_hold="looked at")
    later = house.do(fill, at_min=220).codes[-1]
    assert {row.code: row.held for row in _used(house, facts).rows}[later]


def test_a_scale_is_felt_in_the_drums_alone(house: BuiltHouse) -> None:
    house.do(Check("Drum scale", "20 kg"), at_min=50)
    house.load("Hill", 200_000, "Tank", at_min=100)
    drum = house.drum("Tank", 60_000, at_min=120)
    found = _used(house, Check("Drum scale", "20 kg", "off"))
    assert [row.code for row in found.rows] == [drum]
    assert found.starts == (drum,)
    assert not found.is_wide
    earlier = _used(house, Check("Drum scale", "20 kg", "off", since_ms=_ms(130)))
    assert earlier.rows == ()
    assert refused(
        lambda: house.house.ask(
            lambda view: hold_of(
                view, Check("Drum scale", "20 kg", "off", since_ms=_ms(130)), _ms(200)
            )
        )
    ) == ("Nothing used Drum scale since then, so there is nothing to hold.")


def test_where_nobody_said_what_it_is_part_of_all_that_was_made_is_meant(
    house: BuiltHouse,
) -> None:
    house.load("Hill", 200_000, "Tank", at_min=100)
    drum = house.drum("Tank", 60_000, at_min=120)
    for facts in (
        Check("Magnet", "clean", "off"),
        Check("", "Glass and brittle plastic", "off", listed="glass"),
    ):
        found = _used(house, facts)
        assert drum in {row.code for row in found.rows}
        assert found.is_wide
        assert found.since is None


def test_a_clock_that_is_behind_still_finds_what_used_it(house: BuiltHouse) -> None:
    house.load("Hill", 200_000, "Tank", at_min=100)
    drum = house.drum("Tank", 60_000, at_min=120)
    found = _used(house, Check("Sieve", "whole", "off", since_ms=_ms(90)), until_min=80)
    assert drum not in {row.code for row in found.rows}
    assert found.since is not None
    house.do(Check("Sieve", "whole"), at_min=60)
    assert _used(house, Check("Sieve", "whole", "off"), until_min=50).is_wide is False
