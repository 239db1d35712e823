"""How long a pallet that is too wet needs yet, by its own readings."""

from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.hot_room import RoomLog
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.drying import ToDry, to_dry
from honeyledger.services.hot_room_page import WaitsRow, hot_room_page
from tests.support.houses import BuiltHouse

HOUR_MS = 3_600_000
SIX_H = 6 * 60


def _row(house: BuiltHouse) -> WaitsRow:
    return house.house.ask(lambda view: hot_room_page(view, house.now_ms)).rows[0]


def test_readings_that_fall_say_from_when_to_when() -> None:
    house = BuiltHouse()
    pull, _ = house.pull(house.yard("Mill Lane"), 100_000)
    for moisture in (1_950, 1_925, 1_900, 1_875):
        house.do(Measure(pull, moisture=moisture))
        house.wait(SIX_H)
    found = _row(house).to_dry
    assert found is not None
    assert found.why_not == ""
    # At 1 % a day, 0.75 % above the 18 % take 18 h from the last reading, six of them gone.
    assert 0 < found.soonest_h <= 12 <= found.latest_h < 40
    assert found.target == 1_800


def test_dry_honey_and_honey_nobody_read_have_no_hours() -> None:
    house = BuiltHouse()
    pull, _ = house.pull(house.yard("Mill Lane"), 100_000)
    assert _row(house).to_dry is None
    house.do(Measure(pull, moisture=1_750))
    assert _row(house).to_dry is None


def test_why_nothing_can_be_said_is_told() -> None:
    house = BuiltHouse()
    house.do(Register("room", {"name": "Hot room"}))
    pull, _ = house.pull(house.yard("Mill Lane"), 100_000)
    done = house.do(Measure(pull, moisture=1_950))
    assert _row(house).to_dry == ToDry(
        1_800,
        why_not=(
            "A trend needs readings at three times or more, and there are 1: read again later."
        ),
        too_few=True,
    )
    for moisture in (1_925, 1_900):
        house.wait(SIX_H)
        house.do(Measure(pull, moisture=moisture))
    house.do(RoomLog("Hot room", 340, 6_500))
    found = _row(house).to_dry
    assert found is not None
    assert found.why_not.startswith("The air as it is brings honey no lower than ")
    house.do(Reverse(done.entries[0].id, "misread"))
    found = _row(house).to_dry
    assert found is not None
    assert "there are 2" in found.why_not, "what was reversed was not read"


def test_time_that_has_passed_since_the_last_reading_is_off_the_hours() -> None:
    readings = [(at * HOUR_MS, 1_900 - 10 * at) for at in range(0, 9, 2)]
    assert readings[-1][1] == 1_820
    soon = to_dry(readings, 8 * HOUR_MS, None, 1_800)
    later = to_dry(readings, 10 * HOUR_MS, None, 1_800)
    assert soon is not None
    assert later is not None
    assert later.latest_h == soon.latest_h - 2
    assert to_dry(readings, 10 * HOUR_MS, None, target=1_900) is None
