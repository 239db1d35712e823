"""The air of the last fortnight, room by room."""

from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.hot_room import RoomLog
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.hot_room_air import LATELY_DAYS, air_lately
from tests.support.houses import BuiltHouse

DAY_MIN = 24 * 60


def test_each_room_has_its_readings_oldest_first() -> None:
    house = BuiltHouse()
    for name in ("Hot room", "Drum room"):
        house.do(Register("room", {"name": name}))
    house.do(RoomLog("Hot room", 500, 9_000), at_min=0)
    house.wait((LATELY_DAYS + 1) * DAY_MIN)
    at_min = (LATELY_DAYS + 1) * DAY_MIN
    house.do(RoomLog("Hot room", 340, 4_500), at_min=at_min + 60)
    house.do(RoomLog("Drum room", 190), at_min=at_min + 61)
    wrong = house.do(RoomLog("Hot room", 520), at_min=at_min + 62).entries[0].id
    house.do(Reverse(wrong, "read in the sun"))
    house.do(RoomLog("Hot room", humidity=4_900), at_min=at_min + 30)
    found = house.house.ask(lambda view: air_lately(view, house.now_ms))
    told = {key: [(row.temperature, row.humidity) for row in rows] for key, rows in found.items()}
    assert told == {"hot-room": [(None, 4_900), (340, 4_500)], "drum-room": [(190, None)]}


def test_a_house_without_a_log_has_no_air() -> None:
    house = BuiltHouse()
    assert house.house.ask(lambda view: air_lately(view, house.now_ms)) == {}
