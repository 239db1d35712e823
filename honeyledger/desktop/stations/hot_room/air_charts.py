"""The air of a room over the last fortnight, drawn: its humidity, and its temperature."""

from collections.abc import Sequence
from datetime import date

from honeyledger.desktop.models.charts import Chart, ChartForm, ChartHead, ChartItem, Level, Part
from honeyledger.desktop.models.days import clock_time, short_day
from honeyledger.desktop.stations.hot_room.words import tr
from honeyledger.domain.air import balance_humidity
from honeyledger.domain.moments import Moment, day_of
from honeyledger.domain.units import format_moisture, format_temperature
from honeyledger.ledger.verbs.hot_room import HOT
from honeyledger.services.hot_room_air import AirReading
from honeyledger.services.hot_room_page import HotRoomPage, RoomNow, WaitsRow

_DAY_MS = 86_400_000
_EPOCH = date(1970, 1, 1).toordinal()


def readings_of(page: HotRoomPage, room: RoomNow | None) -> Sequence[AirReading]:
    """What was read of a room lately."""
    return page.air.get(room.key, ()) if room is not None else ()


def humidity_chart(page: HotRoomPage, room: RoomNow | None, row: WaitsRow | None) -> Chart:
    """Humidity, with the line at which the pallet in hand, else the wettest, is in balance."""
    items = [
        _item(one, one.humidity / 100, format_moisture(one.humidity))
        for one in readings_of(page, room)
        if one.humidity is not None
    ]
    return Chart(
        ChartForm.DOTS,
        _titled(tr("Humidity in {room}"), room),
        tr("Humidity"),
        "%",
        _heads(tr("Humidity"), "%"),
        tuple(items),
        levels=_balance(page, row) if items else (),
        zero=False,
        joined=True,
        empty=tr("No humidity was read in the last fortnight: log it at the left."),
    )


def _balance(page: HotRoomPage, row: WaitsRow | None) -> tuple[Level, ...]:
    """Honey of that moisture is in balance with such air: above the line the air wets it."""
    moistures = [one.moisture for one in page.rows if one.moisture is not None]
    moisture = row.moisture if row is not None and row.moisture is not None else None
    moisture = max(moistures, default=None) if moisture is None else moisture
    balance = balance_humidity(moisture) if moisture is not None else None
    if moisture is None or balance is None:
        return ()
    words = tr("above it the air wets honey of {moisture} (clover)")
    return (
        Level(
            balance / 100,
            words.format(moisture=format_moisture(moisture)),
            format_moisture(balance, 0),
        ),
    )


def temperature_chart(page: HotRoomPage, room: RoomNow | None) -> Chart:
    """Temperature, with the line above which combs sag and honey suffers, where that is near."""
    read = [one for one in readings_of(page, room) if one.temperature is not None]
    items = [
        _item(one, (one.temperature or 0) / 10, format_temperature(one.temperature or 0))
        for one in read
    ]
    hottest = max((one.temperature or 0 for one in read), default=0)
    words = tr("above it combs sag")
    near = hottest > HOT - 50
    return Chart(
        ChartForm.DOTS,
        _titled(tr("Temperature in {room}"), room),
        tr("Temperature"),
        "°C",
        _heads(tr("Temp."), "°C"),
        tuple(items),
        levels=(Level(HOT / 10, words, format_temperature(HOT)),) if near else (),
        zero=False,
        joined=True,
        empty=tr("No temperature was read in the last fortnight: log it at the left."),
    )


def _titled(words: str, room: RoomNow | None) -> str:
    return words.format(room=room.name if room is not None else tr("the room"))


def _heads(what: str, unit: str) -> tuple[ChartHead, ...]:
    return (ChartHead(tr("Read"), is_number=False), ChartHead(what, unit))


def _item(one: AirReading, value: float, shown: str) -> ChartItem:
    day, clock = short_day(day_of(one.happened)), clock_time(one.happened)
    number = shown.rpartition(" ")[0]
    return ChartItem(
        key=str(one.entry),
        name=day,
        spoken=f"{day} {clock}: {shown}",
        cells=(f"{day} {clock}", number),
        parts=(Part(0, value),),
        at=_in_days(one.happened),
    )


def _in_days(moment: Moment) -> float:
    """A moment by the house's clock, in days."""
    return _EPOCH + (moment.at_ms + moment.offset_min * 60_000) / _DAY_MS
