"""What heat may have done: the log, rooms, tanks and melters, as a band and never a figure.

Source of the times to 30 mg/kg HMF: White, Kushnir & Subers 1964 and two others, seen at second
hand (S2); of diastase: White 1964, values from memory (M). None of them passes or fails anything.
"""

from math import inf

import pytest

from honeyledger.domain.phrases import Phrase
from honeyledger.ledger.verbs.by_products import Melt
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.hot_room import RoomLog
from honeyledger.ledger.verbs.measuring import Measure, Reported
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.stocktake import Move
from honeyledger.ledger.verbs.warming import Warm
from honeyledger.services import heat_history
from honeyledger.services.heat_history import HeatBudget
from honeyledger.services.quality import quality_of
from honeyledger.services.store import View
from tests.support.houses import BuiltHouse

HOUR = 60


def heat_of(house: BuiltHouse, code: str) -> HeatBudget:
    def found(view: View) -> HeatBudget | None:
        lot = view.lot_by_code(code)
        assert lot is not None
        return quality_of(view, lot, house.now_ms).heat

    heat = house.house.ask(found)
    assert heat is not None
    return heat


def grown(heat: HeatBudget) -> tuple[float, float]:
    assert heat.grown is not None
    return round(heat.grown.least, 1), round(heat.grown.most, 1)


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.do(Register("room", {"name": "Hot room"}))
    return house


def test_supers_were_at_most_as_warm_as_their_room_while_they_stood_there(
    house: BuiltHouse,
) -> None:
    house.do(RoomLog("Hot room", 400), at_min=0)
    pull, tag = house.pull("Creek", 100_000)
    house.wait(24 * HOUR)
    house.do(RoomLog("Hot room", 300))
    house.wait(24 * HOUR)
    heat = heat_of(house, pull)
    # Two days: the first at 40 °C at most (20 to 50 days to 30 mg/kg), the second at 30 °C (60 to
    # 300): 30/20 + 30/60 mg/kg. It may have been colder than the air, so the lower end is none.
    assert (heat.times, grown(heat)) == (0, (0.0, 2.0))
    assert heat.counted == ("the air of its rooms, up to 40.0 °C",)
    house.do(Load(tag, "Tank 1"))
    drum = house.drum("Tank 1", 50_000)
    house.wait(72 * HOUR)
    house.do(RoomLog("Hot room", 400))
    house.wait(24 * HOUR)
    assert grown(heat_of(house, drum)) == (0.0, 2.0), "out of the room it is not counted"
    house.do(Measure(drum, results=(Reported("hmf", "8"),)))
    assert grown(heat_of(house, drum)) == (0.0, 0.0), "measured since"


def test_a_drum_counts_the_room_it_was_put_into_and_a_reversed_reading_does_not(
    house: BuiltHouse,
) -> None:
    house.load("Creek", 300_000, "Tank 1")
    drum = house.drum("Tank 1", 290_000)
    house.do(Move((drum,), "Hot room"))
    wrong = house.do(RoomLog("Hot room", 400)).entries[0].id
    house.wait(48 * HOUR)
    assert grown(heat_of(house, drum)) == (0.0, 3.0)
    house.do(Reverse(wrong, "other room"))
    assert quality_of_nothing(house, drum)


def quality_of_nothing(house: BuiltHouse, code: str) -> bool:
    def found(view: View) -> bool:
        lot = view.lot_by_code(code)
        assert lot is not None
        return quality_of(view, lot, house.now_ms).heat is None

    return house.house.ask(found)


def test_a_tank_was_as_warm_as_it_was_read_for_as_long_as_it_stood_there(
    house: BuiltHouse,
) -> None:
    house.load("Creek", 300_000, "Tank 1")
    house.wait(24 * HOUR)
    house.do(Measure("Tank 1", temperature=400))
    house.wait(24 * HOUR)
    drum = house.drum("Tank 1", 290_000)
    house.wait(48 * HOUR)
    heat = heat_of(house, drum)
    assert (heat.times, grown(heat)) == (0, (0.0, 3.0))
    assert heat.counted == ("tanks as warm as read, up to 40.0 °C",)


def test_ways_through_the_lots_are_not_added_up(house: BuiltHouse) -> None:
    """Half from a drum of a warm day, half from one of two: no drop was warm for three days."""
    house.vessel("Mixer")
    for days in (1, 2):
        house.load("Creek", 100_000, "Tank 1")
        drum = house.drum("Tank 1", 100_000)
        house.do(Warm(drum, 400, days * 24 * HOUR))
        house.pour(drum, "Mixer", 100_000)
    blend = house.drum("Mixer", 100_000)
    # 40 °C: 20 to 50 days (S2). One day at least, two at most.
    assert grown(heat_of(house, blend)) == (0.6, 3.0)
    house.do(Warm(blend, 400, 24 * HOUR))
    assert grown(heat_of(house, blend)) == (1.2, 4.5), "its own comes on top of either"


def test_honey_of_a_melter_has_no_upper_end(
    house: BuiltHouse, monkeypatch: pytest.MonkeyPatch
) -> None:
    house.vessel("Melter", sort="melter")
    house.load("Creek", 100_000, "Melter")
    done = house.do(Melt("Melter", honey_g=90_000, wax_g=10_000, temperature=720))
    honey = next(code for code in done.codes if "W" in code or "K" in code)
    heat = heat_of(house, honey)
    assert heat.grown is not None
    assert heat.diastase is not None
    assert (heat.grown.least, heat.grown.most, heat.is_open) == (0.0, inf, True)
    assert heat.diastase.least == 0.0
    assert heat.counted == ("no upper end: honey of a melter, its hours on no record",)
    assert all(isinstance(one, Phrase) for one in heat.counted)
    monkeypatch.setattr(heat_history, "MOST_LOTS", 1)
    assert heat_of(house, honey).is_open, "of very many lots, too"


def test_of_very_many_lots_it_says_what_was_not_looked_through(
    house: BuiltHouse, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(heat_history, "MOST_LOTS", 1)
    house.do(RoomLog("Hot room", 400), at_min=0)
    house.load("Creek", 300_000, "Tank 1")
    drum = house.drum("Tank 1", 290_000)
    house.do(Warm(drum, 400, 48 * HOUR))
    heat = heat_of(house, drum)
    assert grown(heat) == (1.2, 3.0)
    assert heat.counted == ("not rooms and tanks: it is made of more than 1 lots",)
    wrong = house.do(Warm(drum, 900, 60)).entries[0].id
    assert heat_of(house, drum).why_not
    house.do(Reverse(wrong, "other drum"))
    assert grown(heat_of(house, drum)) == (1.2, 3.0)
