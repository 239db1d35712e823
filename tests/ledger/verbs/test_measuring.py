"""Readings, a laboratory's results, composites, and instruments read against known ones."""

from collections.abc import Mapping
from typing import Any

import pytest

from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.measuring import Calibrate, Measure, Refraction, Reported
from honeyledger.ledger.verbs.quality import Sample
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.house import Recorded
from tests.support.books import mark, place, refusal_of, standing, turned_down
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    house.yard("Hill")
    house.vessel("Line")
    house.vessel("Tank 1", fed_by="Line")
    return house


WET = "Above 18 %: dry first, wet honey ferments."


def notes(done: Recorded) -> list[str]:
    return list(done.notes)


def test_readings_are_dated_facts_and_move_nothing(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Tank 1")
    drum = house.drum("Tank 1", 290_000)
    first = house.do(Measure(drum, moisture=17_80, colour=341, temperature=225))
    assert first.entries[0].postings == ()
    house.do(Measure(drum, moisture=17_60, instrument="E26-0009-A"))
    found = {name: mark(house, drum, name) for name in ("moisture", "colour", "temperature")}
    assert found == {"moisture": 17_60, "colour": 341, "temperature": 225}
    house.do(Reverse(first.entries[0].id, "other drum"))
    assert mark(house, drum, "colour") is None
    assert mark(house, drum, "moisture") == 17_60


def test_what_measuring_refuses(house: BuiltHouse) -> None:
    pull, _ = house.pull("Creek", 100_000)
    assert turned_down(house, Measure(pull)) == (
        "Type at least one reading: moisture, colour, temperature."
    )
    readings = {
        "moisture": (31_00, "31.0 %"),
        "colour": (1_501, "150.1 mm"),
        "temperature": (-201, "−20.1 °C"),
    }
    for name, (value, shown) in readings.items():
        refusal = refusal_of(house, Measure(pull, **{name: value}))
        assert refusal.text == f"A {name} of {shown} cannot be right for honey. Read it again."
        assert refusal.field == name
    assert refusal_of(house, Measure(pull, moisture=1_75)).text == (
        "A moisture of 1.75 % cannot be right for honey. Read it again."
    )


def test_what_a_refractometer_shows_is_kept_and_its_moisture_told(house: BuiltHouse) -> None:
    pull, _ = house.pull("Creek", 100_000)
    house.do(Register("equipment", {"name": "R 1"}))
    # Source: check values 6 (C): 1.4900 at 25 °C is 1.49115 at 20 °C, 18.139 % of water.
    done = house.do(Measure(pull, shown=Refraction("index", 1_490_000, 250), instrument="R 1"))
    assert mark(house, pull, "moisture") == 18_14
    assert notes(done) == ["That is 18.14 % of water.", WET]
    said = done.entries[0].facts["said"]
    assert isinstance(said, Mapping)
    as_read = {"scale": "index", "value": 1_490_000, "temperature": 250, "corrects_itself": 0}
    assert said["shown"] == as_read
    # An instrument that corrects by itself is left alone: row 1, source Bogdanov, table point (S).
    house.do(Measure(pull, shown=Refraction("index", 1_490_000, 250, corrects_itself=True)))
    assert mark(house, pull, "moisture") == 18_60
    # Brix of honey are its solids: value from memory, and said so.
    done = house.do(Measure(pull, shown=Refraction("honey", 81_40, 200)))
    assert mark(house, pull, "moisture") == 18_60
    assert notes(done) == ["That is 18.60 % of water, by a value from memory.", WET]


def test_outside_its_table_a_refractometer_is_refused_never_extrapolated(
    house: BuiltHouse,
) -> None:
    pull, _ = house.pull("Creek", 100_000)
    for value in (1_504_500, 1_473_900):
        facts = Measure(pull, shown=Refraction("index", value, 200))
        assert refusal_of(house, facts).key == "off-the-refraction-table"
    facts = Measure(pull, shown=Refraction("index", 1_490_000))
    assert refusal_of(house, facts).key == "no-temperature-read"
    assert turned_down(house, Measure(pull, shown=Refraction("oechsle", 1, 200))) == (
        "No refractometer shows oechsle: choose of index, water, honey, sucrose."
    )
    both = Measure(pull, moisture=17_80, shown=Refraction("index", 1_490_000, 200))
    assert turned_down(house, both) == (
        "Type the moisture, or what the refractometer showed, not both."
    )


def test_results_of_a_laboratory_are_kept_as_reported(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Tank 1")
    drum = house.drum("Tank 1", 290_000)
    results = (
        Reported("hmf", "<5"),
        Reported("insolubles", "n.d. (<0.01)"),
        Reported("diastase", "18.4"),
        Reported("Moisture", "17.6"),
        Reported("yeast", "1 200"),
    )
    done = house.do(
        Measure(drum, results=results, laboratory="Prairie Bench", report="26-118", sampled="")
    )
    names = ("hmf", "insolubles", "diastase", "moisture", "yeast")
    assert [mark(house, drum, name) for name in names] == [
        "<5",
        "not detected (<0.01)",
        "18.4",
        17_60,
        "1200",
    ]
    said = done.entries[0].facts["said"]
    assert isinstance(said, Mapping)
    assert (said["laboratory"], said["report"]) == ("Prairie Bench", "26-118")


def test_a_conductivity_is_brought_to_20_degrees_where_it_was_read_otherwise(
    house: BuiltHouse,
) -> None:
    pull, _ = house.pull("Creek", 100_000)
    # 3.2 % a degree: value from memory (see domain.conductivity).
    house.do(Measure(pull, results=(Reported("conductivity", "0.640", 225),)))
    assert mark(house, pull, "conductivity") == "0.589"
    house.do(Measure(pull, results=(Reported("conductivity", "0.640"),)))
    assert mark(house, pull, "conductivity") == "0.640"


def test_what_results_are_refused(house: BuiltHouse) -> None:
    pull, _ = house.pull("Creek", 100_000)

    def why(*results: Reported, **more: Any) -> str:
        return turned_down(house, Measure(pull, results=results, **more))

    wanted = "{} is kept as a figure: type what was read, without < or >."
    assert why(Reported("moisture", "<18")) == wanted.format("Moisture")
    assert why(Reported("conductivity", "<0.2", 225)) == wanted.format("Conductivity")
    assert why(Reported("hmf", "<5"), sampled="2099-01-01") == (
        "1 Jan 2099 is still to come. Type the day on which it was done."
    )
    assert why(Reported("moisture", "9")) == (
        "9 % cannot be right for moisture: it lies between 10.00 and 30.00 %. Look at the "
        "report again."
    )


def test_a_sample_of_several_lots_gives_each_a_composite(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Tank 1")
    one = house.drum("Tank 1", 150_000)
    other = house.drum("Tank 1", 150_000)
    house.do(Measure(one, moisture=17_20))
    sample = house.do(Sample((one, other), 200)).codes[-1]
    done = house.do(Measure(sample, moisture=17_80, results=(Reported("hmf", "<5"),)))
    assert notes(done) == [
        f"One reading of 2 lots together, {one}, {other}: it belongs to each as a composite, and "
        "any one of them may be off it."
    ]
    assert mark(house, sample, "hmf") == "<5"
    for drum in (one, other):
        assert mark(house, drum, "composite/hmf") == "<5"
        assert mark(house, drum, "composite/moisture") == 17_80
        assert mark(house, drum, "hmf") is None
    assert mark(house, one, "moisture") == 17_20  # its own reading is not hidden
    house.do(Reverse(done.entries[0].id, "other report"))
    assert mark(house, other, "composite/hmf") is None


def test_a_sample_of_one_lot_is_that_lots_own(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Tank 1")
    drum = house.drum("Tank 1", 290_000)
    sample = house.do(Sample((drum,), 200)).codes[-1]
    assert notes(house.do(Measure(sample, results=(Reported("diastase", "16"),)))) == []
    assert mark(house, drum, "diastase") == mark(house, sample, "diastase") == "16"


def test_what_stands_together_in_a_tank_or_on_a_pallet_is_read_together(
    house: BuiltHouse,
) -> None:
    first, tag = house.pull("Creek", 100_000)
    house.do(Measure(tag, moisture=17_90))
    assert mark(house, first, "moisture") == 17_90
    assert turned_down(house, Measure("Tank 1", moisture=17_00)) == (
        "The books see nothing in Tank 1. Scan the right one, or enter first what came in."
    )
    creek, hill = house.load("Creek", 100_000, "Line"), house.load("Hill", 100_000, "Tank 1")
    house.do(Measure("tank 1", moisture=17_40))
    assert [mark(house, pull, "composite/moisture") for pull in (creek, hill)] == [17_40, 17_40]
    house.drum("Tank 1", 100_000)
    house.do(Measure(place(house, "Tank 1").partition("/")[2], temperature=301))
    (fill,) = standing(house, "Tank 1")
    assert mark(house, fill, "temperature") == 301


def calibrated(house: BuiltHouse, read: int, **said: Any) -> Recorded:
    return house.do(Calibrate("Refractometer 2", 18_00, read, against="oil 18.0"), **said)


def test_an_instrument_found_off_is_told_with_when_it_was_last_right(house: BuiltHouse) -> None:
    code = house.do(Register("equipment", {"name": "Refractometer 2"})).given[0]
    # 0.1 % is right still: common practice, no source.
    first = calibrated(house, 17_90)
    assert notes(first) == []
    found = mark(house, f"equipment/{code}", f"check/{first.entries[0].id}")
    assert (found["what"], found["result"], found["of"]) == ("calibration", "ok", "moisture")
    off = calibrated(house, 17_60)
    assert notes(off) == [
        "Refractometer 2 read 17.6 % where 18.0 % is known: what was read with it since it was "
        "last found right is in doubt, and is shown with its corrected value.",
        "Refractometer 2 is off on calibration. It was last found right on 24 Jul 2026: what was "
        "done with it since is in doubt.",
    ]
    pull, _ = house.pull("Creek", 100_000)
    done = house.do(Measure(pull, moisture=17_80, instrument=code))
    assert notes(done) == [
        "Refractometer 2 was found off on 24 Jul 2026 and not right since: this reading is in "
        "doubt. Have it put right, then calibrate it."
    ]
    assert notes(house.do(Measure(pull, colour=340, instrument="refractometer 2"))) == []
    calibrated(house, 18_00)
    assert notes(house.do(Measure(pull, moisture=17_80, instrument="refractometer 2"))) == []


def test_an_instrument_nobody_registered_is_said_and_a_near_one_offered(
    house: BuiltHouse,
) -> None:
    pull, _ = house.pull("Creek", 100_000)
    done = house.do(Measure(pull, moisture=17_80, instrument="Spoon"))
    assert notes(done) == [
        "Spoon is not in the register of equipment: put it there, or this reading is not in doubt "
        "when Spoon is found off."
    ]
    for name in ("Refractometer 1", "Refractometer 2", "Scale"):
        house.do(Register("equipment", {"name": name}))
    done = house.do(Measure(pull, moisture=17_80, instrument="Refractmeter 2"))
    assert notes(done) == [
        "Refractmeter 2 is not in the register of equipment: did you mean Refractometer 2 or "
        "Refractometer 1? Under another name this reading is not in doubt when it is found off."
    ]
    assert notes(house.do(Measure(pull, moisture=17_80, instrument=" refractometer 2 "))) == []
    assert notes(house.do(Measure(pull, moisture=17_80))) == []
    results = (Reported("hmf", "12"),)
    named = Measure(pull, results=results, laboratory="Bench", instrument="their own")
    assert notes(house.do(named)) == [], "a laboratory's own is not ours to register"


def test_a_calibration_is_of_an_instrument_and_a_quantity(house: BuiltHouse) -> None:
    assert refusal_of(house, Calibrate("Spoon", 18_00, 18_00)).field == "instrument"
    house.do(Register("equipment", {"name": "Colour meter"}))
    assert refusal_of(house, Calibrate("Colour meter", 1, 1, of="taste")).field == "of"
