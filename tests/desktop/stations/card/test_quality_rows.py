"""The quality part of a card, in words."""

import pytest

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.lot_card import CardQuality
from honeyledger.desktop.stations.card.quality_rows import quality_part
from honeyledger.ledger.verbs.hot_room import RoomLog
from honeyledger.ledger.verbs.measuring import Calibrate, Measure, Reported
from honeyledger.ledger.verbs.quality import Sample
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.warming import Warm
from tests.support.houses import BuiltHouse

HOUR_MIN = 60


def part(house: BuiltHouse, code: str) -> dict[str, CardQuality]:
    rows = house.house.ask(lambda view: quality_part(view, code, house.now_ms))
    return {row.label: row for row in rows}


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.load("Creek", 300_000, "Tank 1")
    house.do(Register("house", {"name": "Test House", "zone": "UTC", "markets": "eu"}))
    house.do(Register("equipment", {"name": "Refractometer 2"}))
    return house


def test_nothing_read_has_no_part(house: BuiltHouse) -> None:
    assert part(house, house.drum("Tank 1", 100_000)) == {}


def test_readings_have_mean_spread_odd_one_and_what_they_would_be(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    for value in (18_40, 18_40, 18_50, 18_30, 18_40, 20_10):
        house.do(Measure(drum, moisture=value, instrument="Refractometer 2"))
    house.do(Calibrate("Refractometer 2", 18_00, 17_60))
    row = part(house, drum)["Moisture"]
    assert (row.value, row.mark) == ("20.1 %", Mark.WARNING)
    assert row.notes == (
        "Refractometer 2, O26-0001-X, 24 Jul 2026 08:55",
        "6 readings: mean 18.68 %, spread 0.7 %, 18.3 % to 20.1 %",
        "20.1 % does not belong: read it again. Without it the mean is 18.4 %.",
        "In doubt: Refractometer 2 was found off. With it off all the time this would be 20.5 %.",
    )


def test_a_composite_is_told_with_its_laboratory(house: BuiltHouse) -> None:
    one, other = house.drum("Tank 1", 140_000), house.drum("Tank 1", 140_000)
    sample = house.do(Sample((one, other), 200)).codes[-1]
    facts = Measure(
        sample, results=(Reported("hmf", "<5"),), laboratory="Bench", sampled="2026-07-20"
    )
    house.do(facts)
    found = part(house, other)
    assert (found["HMF"].value, found["HMF"].mark) == ("<5 mg/kg", None)
    assert found["HMF"].notes == (
        f"Bench, sampled 20 Jul 2026, 24 Jul 2026 08:52, a composite of 2 lots ({sample}): any "
        "one may be off it",
    )
    europe = found["Composition of honey, European Union"]
    assert "In part by a composite of several lots." in europe.notes


def test_keeping_is_a_guide_and_warns(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    house.do(Measure(drum, moisture=18_00, colour=340))
    found = part(house, drum)
    # Lochhead's table (S2): 18.0 is still in the class to 18.0, 18.1 is not.
    assert (found["Keeping"].value, found["Keeping"].mark) == ("keeps with little yeast", None)
    assert found["Keeping"].notes == ("By a table seen at second hand: a guide, no promise.",)
    assert found["Colour class"].value == "White"
    house.do(Measure(drum, moisture=18_10, results=(Reported("yeast", "5"),)))
    keeping = part(house, drum)["Keeping"]
    assert (keeping.value, keeping.mark) == ("keeps a year", None)
    assert keeping.notes[0].startswith("With 5 /g of yeast. By a table")
    house.do(Measure(drum, results=(Reported("yeast", "11"),)))
    keeping = part(house, drum)["Keeping"]
    assert (keeping.value, keeping.mark) == ("may ferment", Mark.WARNING)


def test_heat_is_a_band_and_certifies_nothing(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    house.do(Warm(drum, 500, 48 * HOUR_MIN))
    row = part(house, drum)["Heat"]
    # 50 °C: 4 to 10 days to 30 mg/kg (S2); half the diastase in 5.38 days (M).
    assert row.value.startswith("HMF grown by 6.0 to 15.0 mg/kg, diastase 7")
    assert row.notes[-1] == "A band for choosing what to have measured; it certifies nothing."
    house.do(Measure(drum, results=(Reported("hmf", "10.0"), Reported("diastase", "16.0"))))
    assert part(house, drum)["Heat"].value == "HMF now 10.0 mg/kg, diastase 16.0"


def test_rules_of_the_houses_markets_say_pass_fail_or_not_known(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    house.do(Measure(drum, moisture=17_40, results=(Reported("hmf", "41"),)))
    row = part(house, drum)["Composition of honey, European Union"]
    assert row.value == "not known yet"
    missing = "fructose and glucose, sucrose, insolubles, conductivity and 2 more"
    assert row.notes[0] == f"Not measured: {missing}."
    # EU 2001/110 annex II (S): insolubles at most 0.1 g/100 g, pressed 0.5.
    house.do(Measure(drum, results=(Reported("insolubles", "0.6"),)))
    row = part(house, drum)["Composition of honey, European Union"]
    assert (row.value, row.mark) == ("fails", Mark.WARNING)
    assert row.notes[0] == "Insolubles 0.6 g/100 g, and the limit is at most 0.1 g/100 g."
    assert row.notes[-1] == "What counts is the text in force where the honey is sold."


def test_rules_nobody_has_seen_decide_nothing(house: BuiltHouse) -> None:
    house.do(Register("house", {"name": "Test House", "zone": "UTC", "markets": "codex"}))
    drum = house.drum("Tank 1", 290_000)
    house.do(Measure(drum, moisture=25_00))
    row = part(house, drum)["Other rules"]
    assert (row.value, row.mark) == ("decide nothing", None)
    assert row.notes == (
        "Composition of honey, Codex: nobody has seen the text, so nothing passes or fails by it.",
    )


def test_air_and_the_beetles_clock_of_supers_that_wait(house: BuiltHouse) -> None:
    house.do(Register("room", {"name": "Hot room"}))
    pull, _ = house.pull("Creek", 100_000)
    house.do(Measure(pull, moisture=18_60))
    house.do(RoomLog("Hot room", temperature=333, humidity=70_00))
    air = part(house, pull)["Air"]
    # Clover honey, Martin 1939 (S2): 18.6 % lies between 58 and 66 % of humidity.
    assert air.value == "in balance with air of 60 %"
    assert air.notes[0] == "Hot room at 70 % makes it wetter."
    assert air.mark is Mark.WARNING
    assert "Hive beetle" not in part(house, pull)
    house.wait(90 * HOUR_MIN)
    row = part(house, pull)["Hive beetle"]
    assert (row.value, row.mark) == ("waits 90 h", Mark.WARNING)
    assert row.notes == ("30 h until damage by larvae is likely.",)
