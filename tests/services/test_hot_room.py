"""The log of a room, newest first."""

from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.hot_room import RoomLog
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.hot_room import RoomAir, room_air
from tests.support.books import turned_down
from tests.support.houses import BuiltHouse


def _air(house: BuiltHouse, room: str) -> RoomAir:
    return house.house.ask(lambda view: room_air(view, room))


def test_the_log_of_one_room_by_when_it_was_read() -> None:
    house = BuiltHouse()
    for name in ("Hot room", "Drum room"):
        house.do(Register("room", {"name": name}))
    operator = house.do(Register("operator", {"name": "Ann Reed"})).given[0]
    house.do(RoomLog("Hot room", 340, 4_500, "fan on"), at_min=60, operator=operator)
    house.do(RoomLog("Drum room", 190, 5_000), at_min=61)
    wrong = house.do(RoomLog("Hot room", 520), at_min=62).entries[0].id
    house.do(Reverse(wrong, "read in the sun"))
    house.do(RoomLog("Hot room", humidity=4_900), at_min=30)
    house.do(Register("room", {"name": "Warm room"}, key="hot-room"))
    air = _air(house, "Warm room")
    assert (air.key, air.name) == ("hot-room", "Warm room")
    assert [(row.temperature, row.humidity, row.note, row.by) for row in air.log] == [
        (340, 4_500, "fan on", "Ann Reed"),
        (None, 4_900, "", "O26-0001-X"),
    ]
    assert turned_down(house, RoomLog("Hot room", 340)) == (
        "There is no room called Hot room. Choose one, such as Drum room or Warm room, or "
        "register it first."
    )
