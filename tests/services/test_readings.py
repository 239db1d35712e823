"""What was read of a lot: every reading, together, composites, and those in doubt."""

import pytest

from honeyledger.domain.results import figure
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.hot_room import Dry
from honeyledger.ledger.verbs.measuring import Calibrate, Measure, Reported
from honeyledger.ledger.verbs.quality import Sample
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.holding import reading, readings
from honeyledger.services.readings import Readings, readings_of, results_of
from honeyledger.services.store import View
from tests.support.houses import BuiltHouse


def read(house: BuiltHouse, code: str) -> dict[str, Readings]:
    def found(view: View) -> dict[str, Readings]:
        lot = view.lot_by_code(code)
        assert lot is not None
        return {row.quantity.name: row for row in readings_of(view, lot)}

    return house.house.ask(found)


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.load("Creek", 300_000, "Tank 1")
    house.do(Register("equipment", {"name": "Refractometer 2"}))
    return house


def test_several_readings_have_a_mean_a_spread_and_an_odd_one(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    entries = [
        house.do(Measure(drum, moisture=value)).entries[0].id
        for value in (17_40, 17_40, 17_50, 17_30, 17_40, 19_80)
    ]
    found = read(house, drum)["moisture"]
    assert found.together is not None
    # Grubbs' test at 5 %; see domain.repeated.
    assert (found.together.mean, found.together.mean_without) == (17_80, 17_40)
    assert found.odd == entries[-1]
    assert found.counts.entry == entries[-1]  # it is shown, never left out by the program
    house.do(Reverse(entries[-1], "read again"))
    found = read(house, drum)["moisture"]
    assert (len(found.rows), found.odd) == (5, 0)
    assert [row.by for row in found.rows] == ["O26-0001-X"] * 5


def test_one_reading_alone_has_no_spread_and_a_laboratory_stands_beside_it(
    house: BuiltHouse,
) -> None:
    drum = house.drum("Tank 1", 290_000)
    results = (Reported("hmf", "<5"), Reported("diastase", "18.4"))
    house.do(
        Measure(drum, results=results, laboratory="Bench", report="26-118", sampled="2026-07-20")
    )
    found = read(house, drum)
    assert list(found) == ["hmf", "diastase"]
    row = found["hmf"].counts
    assert (str(row.result), row.parts, row.of) == ("<5", None, "")
    assert (row.laboratory, row.report, row.sampled) == ("Bench", "26-118", "2026-07-20")
    assert found["diastase"].together is None
    assert {name: str(one) for name, one in results_of(tuple(found.values())).items()} == {
        "hmf": "<5",
        "diastase": "18.4",
    }


def test_a_composite_counts_only_where_the_lot_has_no_reading_of_its_own(
    house: BuiltHouse,
) -> None:
    one, other = house.drum("Tank 1", 140_000), house.drum("Tank 1", 140_000)
    house.do(Measure(one, moisture=17_20))
    sample = house.do(Sample((one, other), 200)).codes[-1]
    house.do(Measure(sample, moisture=17_80))
    mine, theirs = read(house, one)["moisture"], read(house, other)["moisture"]
    assert (mine.counts.result, len(mine.rows)) == (figure(17_20, 2), 2)
    assert (theirs.counts.result, theirs.counts.of) == (figure(17_80, 2), sample)
    assert theirs.counts.lots == 2
    codes = [one, other, house.drum("Tank 1", 10_000)]
    many = house.house.ask(lambda view: readings(view, codes, "moisture"))
    assert many == {one: 17_20, other: 17_80}
    each = [
        house.house.ask(lambda view, code=code: reading(view, code, "moisture")) for code in codes
    ]
    assert each == [17_20, 17_80, None]


def test_what_was_dried_since_is_no_reading_of_the_same_honey(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 100_000)
    for value in (18_90, 18_80):
        house.do(Measure(pull, moisture=value))
    house.do(Dry(tag, after=17_60))
    house.do(Measure(pull, moisture=17_70))
    found = read(house, pull)["moisture"]
    assert found.together is not None
    assert (len(found.rows), found.together.count, found.together.mean) == (4, 2, 17_65)


def test_a_reading_since_the_last_good_calibration_stands_with_its_corrected_value(
    house: BuiltHouse,
) -> None:
    drum = house.drum("Tank 1", 290_000)
    house.do(Measure(drum, moisture=17_40, instrument="refractometer 2"))
    house.do(Calibrate("Refractometer 2", 18_00, 18_00))
    house.do(Measure(drum, moisture=17_50, instrument="Refractometer 2"))
    house.do(Measure(drum, moisture=17_60, instrument="another"))
    assert [row.corrected for row in read(house, drum)["moisture"].rows] == [None] * 3
    off = house.do(Calibrate("Refractometer 2", 18_00, 17_60)).entries[0].id
    found = read(house, drum)["moisture"]
    assert [row.corrected for row in found.rows] == [None, 17_90, None]
    assert [row.right_ms > 0 for row in found.rows] == [False, True, False]
    house.do(Reverse(off, "wrong oil"))
    assert [row.corrected for row in read(house, drum)["moisture"].rows] == [None] * 3
