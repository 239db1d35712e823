"""Readings in doubt since an instrument was last found right."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.checks import Check
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.measuring import Calibrate, Measure, Reported
from honeyledger.ledger.verbs.quality import Sample
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.bottling_page import Wanted, bottling_page
from honeyledger.services.dock_page import dock_page
from honeyledger.services.drums_page import drums_page
from honeyledger.services.floor_page import floor_page
from honeyledger.services.instruments import (
    Doubts,
    Off,
    doubts_on_record,
    instruments,
    readings_in_doubt,
)
from tests.support.houses import BuiltHouse

OFF = Off("refractometer 2", "moisture", 1_800, 1_760)


def asked(house: BuiltHouse, off: Off = OFF) -> Doubts:
    return house.house.ask(lambda view: readings_in_doubt(view, off, house.house.clock()))


def begun() -> tuple[BuiltHouse, str]:
    """A house with an instrument and a drum."""
    house = BuiltHouse()
    house.yard("Mill Lane")
    house.vessel("Tank 1")
    house.load("Mill Lane", 200_000, "Tank 1")
    house.do(Register("equipment", {"name": "Refractometer 2", "sort": "refractometer"}))
    return house, house.drum("Tank 1", 100_000)


def test_readings_since_the_last_good_check_stand_with_their_corrected_values() -> None:
    house, drum = begun()
    it = "Refractometer 2"
    house.do(Measure(drum, 1_740, instrument=it), at_min=100)
    house.do(Check("Refractometer 2", "oil 18.0"), at_min=110)
    house.do(Measure(drum, 1_750, instrument=it), at_min=120)
    house.do(Measure(drum, 1_790, instrument="the other one"), at_min=121)
    house.do(Measure(drum, 1_700), at_min=122)
    wrong = house.do(Measure(drum, 1_990, instrument=it), at_min=123).entries[0].id
    house.do(Reverse(wrong, "read twice"))
    house.do(Measure(drum, 1_770, 300, instrument=it), at_min=130)
    house.do(Check("Refractometer 2", "oil 18.0", "off", "17.6"), at_min=140)
    found = asked(house)
    assert [(row.code, row.value, row.corrected) for row in found.rows] == [
        (drum, 1_750, 1_790),
        (drum, 1_770, 1_810),
    ]
    assert found.name == "Refractometer 2"
    assert found.since is not None
    assert found.unnamed == 1
    assert [row.value for row in asked(house, Off(OFF.instrument, "colour", 300, 290)).rows] == [
        300
    ]


def test_found_off_now_without_a_check_on_record_all_are_in_doubt() -> None:
    house, drum = begun()
    house.do(Measure(drum, 1_740, instrument=" REFRACTOMETER 2 "), at_min=100)
    found = asked(house)
    assert [(row.value, row.corrected) for row in found.rows] == [(1_740, 1_780)]
    assert found.since is None


def test_what_was_read_before_it_was_put_right_stays_in_doubt_no_longer() -> None:
    house, drum = begun()
    house.do(Check("Refractometer 2", "oil 18.0"), at_min=100)
    house.do(Check("Refractometer 2", "Oil 18.0"), at_min=110)
    house.do(Measure(drum, 1_740, instrument="Refractometer 2"), at_min=105)
    assert asked(house).rows == ()


def test_one_that_is_not_off_or_is_checked_on_several_things_is_refused() -> None:
    house, _ = begun()
    with pytest.raises(Refusal) as refused:
        asked(house, Off("Refractometer 2", "moisture", 1_800, 1_800))
    assert refused.value.text == (
        "Refractometer 2 reads what is known: nothing is in doubt. Type both figures again if it "
        "is."
    )
    house.do(Check("Refractometer 2", "oil 18.0"))
    house.do(Check("Refractometer 2", "glass"))
    with pytest.raises(Refusal) as refused:
        asked(house)
    assert refused.value.text == (
        "Refractometer 2 was checked on glass, oil 18.0: say which of them this is about."
    )
    assert asked(house, Off("Refractometer 2", "moisture", 1_800, 1_760, "OIL 18.0")).rows == ()


def test_what_calibrations_on_record_put_in_doubt_needs_no_figures_typed() -> None:
    house, drum = begun()
    other = house.drum("Tank 1", 50_000)
    house.do(Register("equipment", {"name": "HMF meter"}))
    it = "Refractometer 2"
    house.do(Calibrate(it, 1_800, 1_805), at_min=100)
    house.do(Measure(drum, 1_740, instrument=it), at_min=110)
    sample = house.do(Sample((drum, other), 200), at_min=112).codes[-1]
    results = (Reported("hmf", "12.4"), Reported("moisture", "17.5"))
    house.do(Measure(sample, results=results, instrument=it), at_min=115)
    house.do(Measure(drum, 1_750), at_min=116)
    assert house.house.ask(doubts_on_record) == ()
    house.do(Calibrate(it, 1_800, 1_760), at_min=120)
    (found,) = house.house.ask(doubts_on_record)
    assert (found.name, found.of, found.unnamed) == (it, "moisture", 1)
    assert [(row.code, row.value, row.corrected) for row in found.rows] == [
        (drum, 1_740, 1_780),
        (drum, 1_750, 1_790),
        (other, 1_750, 1_790),
    ]
    assert house.house.ask(lambda view: doubts_on_record(view, "hmf meter")) == ()
    house.do(Calibrate("HMF meter", 100, 150, of="hmf"), at_min=130)
    found = house.house.ask(lambda view: doubts_on_record(view, "hmf meter"))[0]
    assert (found.rows, found.unnamed, found.since) == ((), 0, None)


def test_what_a_reading_may_be_made_with_is_offered_by_name() -> None:
    house, _ = begun()
    for name, sort in (("R 2", "refractometer"), ("R 1", ""), ("Sieve", "sieve")):
        house.do(Register("equipment", {"name": name, "sort": sort}))
    found = house.house.ask(instruments)
    assert [one.name for one in found] == ["R 1", "R 2", "Refractometer 2"]
    for page in (
        house.house.ask(lambda view: dock_page(view, house.now_ms, "")),
        house.house.ask(lambda view: floor_page(view, "", house.now_ms)),
        house.house.ask(lambda view: drums_page(view, house.now_ms)),
        house.house.ask(lambda view: bottling_page(view, Wanted())),
    ):
        assert page.instruments == found
