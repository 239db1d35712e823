"""What is done in the hot room, as small forms: air logged, pallets dried, supers set aside."""

from collections.abc import Sequence

from honeyledger.desktop.models.asked import Ask, FormSpec, FormTyped, Reading, Typing
from honeyledger.desktop.models.room_asks import (
    ROOM,
    ROOMS,
    room_ask,
    room_first,
    stranger_ask,
)
from honeyledger.desktop.stations.hot_room.weather_form import weather_form
from honeyledger.desktop.stations.hot_room.words import counted, tr
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import (
    format_moisture,
    format_temperature,
    parse_count,
    parse_mass_g,
    parse_moisture,
    parse_percent,
    parse_temperature,
)
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.hot_room import OFF_POINTS, Dry, RoomLog
from honeyledger.ledger.verbs.leftovers import BEES, ENDS, STAYS, SetAside
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.hot_room_page import HotRoomPage
from honeyledger.services.house import Recorded

LOG, DRY, ASIDE = "log", "dry", "aside"
PALLETS, YARDS, REASONS = "pallets", "yards", "reasons"
READ_OFF, SINCE = "off", "since"
# As the ledger keeps it.
_WHY = {READ_OFF: "the reading was off", SINCE: "it changed since"}


def hot_room_forms() -> tuple[FormSpec, ...]:
    """The forms, in the order of the day."""
    return (_log(), _dry(), _aside(), weather_form())


def _log() -> FormSpec:
    return FormSpec(
        LOG,
        tr("Air"),
        tr("Read the room's air. Scan pallets in the order in which they go into the next run."),
        tr("Keep the reading"),
        (
            (room_ask(),),
            (stranger_ask(),),
            (
                Ask("temperature", tr("Temperature"), unit="°C"),
                Ask("humidity", tr("Humidity"), unit="%"),
            ),
            (Ask("note", tr("Note")),),
        ),
        _logged,
        _logged_words,
    )


def _logged(typed: FormTyped, reading: Reading) -> Sequence[Register | RoomLog]:
    temperature, humidity = typed.text("temperature"), typed.text("humidity")
    return [
        *room_first(typed, reading),
        RoomLog(
            typed.text(ROOM),
            parse_temperature(temperature) if temperature else None,
            parse_percent(humidity, "a humidity", field="humidity") if humidity else None,
            typed.text("note"),
        ),
    ]


def _logged_words(typed: FormTyped, _done: Recorded, _reading: Reading) -> str:
    parts = []
    if typed.text("temperature"):
        parts.append(format_temperature(parse_temperature(typed.text("temperature"))))
    if typed.text("humidity"):
        parts.append(format_moisture(parse_percent(typed.text("humidity"), "a humidity")))
    return tr("{room}: {air}.").format(room=typed.text(ROOM), air=", ".join(parts))


def _pallet(label: str, key: str) -> Ask:
    return Ask(key, label, Typing.FREE, offers=PALLETS)


def _dry() -> FormSpec:
    return FormSpec(
        DRY,
        tr("Dry"),
        tr("Scan the pallet that was dried, and read its moisture again, or weigh it."),
        tr("Keep what dried"),
        (
            (_pallet(tr("Dried: scan it"), "what"),),
            (
                Ask("before", tr("Before, blank as read"), unit="%"),
                Ask("after", tr("After"), unit="%"),
                Ask("gross", tr("or gross"), Typing.MASS),
            ),
            (
                Ask(
                    "despite",
                    tr("It was read otherwise: why this counts"),
                    Typing.BUTTONS,
                    buttons=((READ_OFF, tr("reading was off")), (SINCE, tr("changed since"))),
                    shown=reads_otherwise,
                ),
            ),
            (
                Ask(ROOM, tr("Room"), Typing.CHOICE, offers=ROOMS, part=3),
                Ask("hours", tr("Hours"), Typing.COUNT, part=2),
            ),
        ),
        _dried,
        lambda typed, _done, _reading: tr("{code} was dried.").format(code=typed.text("what")),
        scan="what",
        fields={"gross_g": "gross", "net_g": "gross", "moisture": "after"},
    )


def reads_otherwise(typed: FormTyped, reading: Reading) -> bool:
    """Whether what was read last is neither the moisture before nor the one after.

    Of what does not wait here nobody knows that before the ledger is asked.
    """
    before, after = (_moisture(typed.text(key)) for key in ("before", "after"))
    if before is None:
        return False
    rows = reading.page.rows if isinstance(reading.page, HotRoomPage) else ()
    what = typed.text("what").upper()
    found = next((row for row in rows if row.code == what), None)
    if found is None:
        return True
    said = [one for one in (before, after) if one is not None]
    return found.moisture is not None and all(
        abs(found.moisture - one) > OFF_POINTS for one in said
    )


def _moisture(text: str) -> int | None:
    try:
        return parse_moisture(text, field="before") if text else None
    except Refusal:
        return None


def _dried(typed: FormTyped, reading: Reading) -> Sequence[Dry]:
    before, after = typed.text("before"), typed.text("after")
    gross, hours = typed.text("gross"), typed.text("hours")
    return [
        Dry(
            typed.text("what"),
            parse_moisture(before, field="before") if before else None,
            parse_moisture(after, field="after") if after else None,
            Weight(gross_g=parse_mass_g(gross, reading.unit, field="gross_g") if gross else None),
            typed.text(ROOM),
            parse_count(hours, "a number of hours", field="hours") if hours else None,
            _WHY.get(typed.text("despite"), ""),
        )
    ]


def _aside() -> FormSpec:
    ends = {STAYS: tr("stays"), BEES: tr("bees"), "scrap": tr("scrap")}
    return FormSpec(
        ASIDE,
        tr("Set aside"),
        tr("Scan the pallet; count the supers, or the frames, that do not go through."),
        tr("Set them aside"),
        (
            (_pallet(tr("Pallet: scan it"), "pallet"),),
            (
                Ask("count", tr("Supers"), Typing.COUNT),
                Ask("frames", tr("or frames"), Typing.COUNT),
            ),
            (Ask("why", tr("Why"), Typing.CHOICE, offers=REASONS),),
            (
                Ask(
                    "to",
                    tr("Goes to"),
                    Typing.BUTTONS,
                    buttons=tuple((end, ends[end]) for end in ENDS),
                    usual=STAYS,
                ),
            ),
            (Ask("yard", tr("Whose bees"), Typing.CHOICE, offers=YARDS, shown=_feeds),),
            (Ask("despite", tr("Why bees get held honey, by name"), shown=_asks_why),),
            (Ask("note", tr("Note")),),
        ),
        _set_aside,
        _aside_words,
        scan="pallet",
        fields={"despite_hold": "despite"},
    )


def reasons() -> dict[str, str]:
    """Why supers do not go through, as the ledger has it and in words."""
    return {
        "brood": tr("brood"),
        "set": tr("set in the comb"),
        "green": tr("green"),
        "left over": tr("left over"),
        "spoilt": tr("spoilt"),
    }


def _feeds(typed: FormTyped, _reading: Reading | None = None) -> bool:
    return typed.text("to") == BEES


def _asks_why(typed: FormTyped, reading: Reading) -> bool:
    """Whether bees would get honey that is on hold."""
    if reading.page is None or not _feeds(typed):
        return False
    page: HotRoomPage = reading.page
    row = page.row(typed.text("pallet"))
    return row is not None and bool(row.held)


def _set_aside(typed: FormTyped, _reading: Reading) -> Sequence[SetAside]:
    count, frames = typed.text("count"), typed.text("frames")
    return [
        SetAside(
            typed.text("pallet"),
            typed.text("why"),
            typed.text("to") or STAYS,
            parse_count(count, "a number of supers") if count else None,
            parse_count(frames, "a number of frames", field="frames") if frames else None,
            yard=typed.text("yard") if _feeds(typed) else "",
            note=typed.text("note"),
            despite_hold=typed.text("despite"),
        )
    ]


def _aside_words(typed: FormTyped, _done: Recorded, _reading: Reading) -> str:
    if typed.text("count"):
        number = parse_count(typed.text("count"))
        what = counted(number, tr("One super"), tr("{n} supers"))
    else:
        number = parse_count(typed.text("frames"))
        what = counted(number, tr("One frame"), tr("{n} frames"))
    return tr("{what} of {pallet} set aside.").format(what=what, pallet=typed.text("pallet"))
