"""The air as it is drawn, with what it does to the honey that waits."""

from dataclasses import replace
from datetime import date

from honeyledger.desktop.models.charts import Level, Part
from honeyledger.desktop.stations.hot_room.air_charts import (
    humidity_chart,
    readings_of,
    temperature_chart,
)
from honeyledger.domain.moments import moment_at
from honeyledger.services.hot_room_air import AirReading
from tests.desktop.stations.hot_room.pages import HELD, OLD, PAGE, ROOM, STORE
from tests.support.houses import START_MS

DAY_MS = 86_400_000
READ = (
    AirReading(5, moment_at(START_MS - DAY_MS, "UTC"), 330, 4_700),
    AirReading(6, moment_at(START_MS, "UTC"), 345, None),
)
LOGGED = replace(PAGE, air={"hot-room": READ})


def test_humidity_with_the_balance_of_the_wettest_pallet() -> None:
    chart = humidity_chart(LOGGED, ROOM, None)
    assert chart.title == "Humidity in Hot room"
    (item,) = chart.items
    assert (item.spoken, item.cells) == ("23 Jul 08:40: 47.0 %", ("23 Jul 08:40", "47.0"))
    assert item.parts == (Part(0, 47.0),)
    whole, part = divmod(item.at, 1)
    assert whole == date(2026, 7, 23).toordinal()
    assert round(part * 24 * 60) == 8 * 60 + 40
    # 17.4 % at 58 % and 21.5 % at 66 %: 19.0 % is in balance between them.
    words = "above it the air wets honey of 19.0 % (clover)"
    assert chart.levels == (Level(61.12, words, "61 %"),)
    assert chart.joined


def test_the_pallet_in_hand_has_its_own_line() -> None:
    (level,) = humidity_chart(LOGGED, ROOM, OLD).levels
    assert "honey of 17.5 %" in level.words
    (other,) = humidity_chart(LOGGED, ROOM, HELD).levels
    assert "honey of 19.0 %" in other.words, "nobody read it: the wettest counts"
    dry = replace(LOGGED, rows=(HELD,))
    assert humidity_chart(dry, ROOM, None).levels == ()


def test_temperature_warns_only_where_it_is_near() -> None:
    chart = temperature_chart(LOGGED, ROOM)
    assert [item.parts[0].value for item in chart.items] == [33.0, 34.5]
    assert chart.levels == ()
    hot = AirReading(7, moment_at(START_MS, "UTC"), 386, 4_000)
    near = temperature_chart(replace(PAGE, air={"hot-room": (hot,)}), ROOM)
    assert near.levels == (Level(40.0, "above it combs sag", "40.0 °C"),)


def test_a_room_nobody_read_says_so() -> None:
    assert readings_of(LOGGED, STORE) == readings_of(LOGGED, None) == ()
    empty = humidity_chart(LOGGED, STORE, None)
    assert (empty.items, empty.levels) == ((), ())
    assert empty.empty == "No humidity was read in the last fortnight: log it at the left."
    assert temperature_chart(PAGE, None).title == "Temperature in the room"
