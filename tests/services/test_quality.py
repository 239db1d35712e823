"""The quality of a lot: keeping, heat, air, colour, and the beetle's clock."""

import pytest

from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.hot_room import RoomLog
from honeyledger.ledger.verbs.measuring import Calibrate, Measure, Reported
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.warming import Warm
from honeyledger.services.quality import Quality, quality_of
from honeyledger.services.store import View
from tests.support.houses import BuiltHouse

HOUR_MIN = 60


def quality(house: BuiltHouse, code: str) -> Quality:
    def found(view: View) -> Quality:
        lot = view.lot_by_code(code)
        assert lot is not None
        return quality_of(view, lot, house.now_ms)

    return house.house.ask(found)


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    return house


@pytest.fixture
def drum(house: BuiltHouse) -> str:
    house.load("Creek", 300_000, "Tank 1")
    return house.drum("Tank 1", 290_000)


def test_nothing_read_says_nothing(house: BuiltHouse, drum: str) -> None:
    assert quality(house, drum) == Quality()


# Source: Lochhead 1933, check values 5 (S2): safe for a year by moisture and yeast.
@pytest.mark.parametrize(
    ("moisture", "yeast", "keeps"),
    [
        (17_00, "100 000", True),
        (17_50, "900", True),
        (17_50, "1 100", False),
        (18_50, "10", True),
        (18_50, "11", False),
        (19_50, "2", False),
        (20_10, "0", False),
        (18_50, "<10", True),
        (18_50, "<1 000", None),
        (18_50, ">100", False),
        (17_50, ">100", None),
        (19_50, "not detected", True),
    ],
)
def test_it_keeps_by_moisture_and_yeast(
    house: BuiltHouse, drum: str, moisture: int, yeast: str, keeps: bool | None
) -> None:
    house.do(Measure(drum, moisture=moisture, results=(Reported("yeast", yeast),)))
    found = quality(house, drum).keeps
    assert found is not None
    assert found.a_year is keeps


def test_without_a_count_of_yeast_only_its_class_is_told(house: BuiltHouse, drum: str) -> None:
    house.do(Measure(drum, moisture=18_50, colour=341))
    found = quality(house, drum)
    assert found.keeps is not None
    assert (found.keeps.name, found.keeps.yeast, found.keeps.a_year) == ("may ferment", "", None)
    # Source: USDA table I (S2): over 34 to 50 mm is Extra Light Amber.
    assert found.colour == "Extra Light Amber"


def test_an_optical_density_gives_a_class_and_no_millimetres(house: BuiltHouse, drum: str) -> None:
    house.do(Measure(drum, results=(Reported("optical density", "0.595"),)))
    assert quality(house, drum).colour == "Extra Light Amber"


def test_heat_since_it_was_measured_gives_a_band(house: BuiltHouse, drum: str) -> None:
    assert quality(house, drum).heat is None
    house.do(Measure(drum, results=(Reported("hmf", "<5"), Reported("diastase", "16"))))
    house.do(Warm(drum, 500, 48 * HOUR_MIN, "liquefying"))
    heat = quality(house, drum).heat
    assert heat is not None
    assert heat.grown is not None
    assert heat.hmf is not None
    assert heat.diastase is not None
    # 50 °C: 4 to 10 days to 30 mg/kg (S2, White 1964 and others), so 2 days are 6 to 15.
    assert (round(heat.grown.least, 1), round(heat.grown.most, 1)) == (6.0, 15.0)
    assert (round(heat.hmf.least, 1), round(heat.hmf.most, 1)) == (6.0, 20.0)
    # 50 °C: half of it in 5.38 days, White 1964, values from memory; a degree off each way.
    assert 11 < heat.diastase.least < 12.4 < heat.diastase.most < 13
    assert heat.measured
    # Measured anew it begins anew.
    house.do(Measure(drum, results=(Reported("hmf", "12.0"),)))
    heat = quality(house, drum).heat
    assert heat is not None
    assert heat.hmf is not None
    assert (heat.hmf.least, heat.hmf.most) == (12.0, 12.0)


def test_what_it_was_made_of_may_have_been_warm_and_too_hot_is_told_in_words(
    house: BuiltHouse, drum: str
) -> None:
    house.do(Warm(drum, 400, 48 * HOUR_MIN))
    house.vessel("Mixer")
    house.pour(drum, "Mixer", 290_000)
    blend = house.drum("Mixer", 100_000)
    heat = quality(house, blend).heat
    assert heat is not None
    assert heat.grown is not None
    assert heat.diastase is not None
    # 40 °C: 20 to 50 days (S2), so 2 days are 1.2 to 3.0; all of the mixer was that drum.
    assert (round(heat.grown.least, 1), round(heat.grown.most, 1)) == (1.2, 3.0)
    assert (heat.times, heat.hmf, heat.measured) == (1, None, False)
    assert heat.diastase.most < 100.0
    hot = house.do(Warm(blend, 900, 30))
    heat = quality(house, blend).heat
    assert heat is not None
    assert heat.why_not == (
        "90.0 °C is hotter than the published tables go (80.0 °C): send a sample to a laboratory."
    )
    house.do(Reverse(hot.entries[0].id, "other drum"))
    heat = quality(house, blend).heat
    assert heat is not None
    assert (heat.times, heat.why_not) == (1, "")


def test_what_the_rooms_air_does_to_supers_and_the_beetles_clock(house: BuiltHouse) -> None:
    house.do(Register("room", {"name": "Hot room"}))
    pull, _ = house.pull("Creek", 100_000)
    house.do(Measure(pull, moisture=17_80))
    air = quality(house, pull).air
    assert air is not None
    # Source: Martin 1939 by way of foodiran.net (S2), interpolated (C): 17.8 % at 58.8 %.
    assert (air.balance, air.humidity, air.does) == (58_78, None, "")
    house.do(RoomLog("Hot room", temperature=333, humidity=39_00))
    found = quality(house, pull)
    assert found.air is not None
    assert (found.air.room, found.air.humidity, found.air.does) == ("Hot room", 39_00, "dries")
    assert found.waits is not None
    assert (found.waits.hours, found.waits.state) == (0, "in time")
    house.wait(90 * HOUR_MIN)
    found = quality(house, pull)
    assert found.waits is not None
    # Sources: damage likely after 5 days (S, USDA abstract 112437); 1 to 3 days is practice.
    assert (found.waits.hours, found.waits.left, found.waits.state) == (90, 30, "hurry")


def test_a_reading_that_counts_may_be_in_doubt(house: BuiltHouse, drum: str) -> None:
    house.do(Register("equipment", {"name": "Refractometer 2"}))
    house.do(Measure(drum, moisture=17_40, instrument="Refractometer 2"))
    assert not quality(house, drum).in_doubt
    house.do(Calibrate("Refractometer 2", 18_00, 17_60))
    assert quality(house, drum).in_doubt
    assert {name: str(one) for name, one in quality(house, drum).results.items()} == {
        "moisture": "17.40"
    }
