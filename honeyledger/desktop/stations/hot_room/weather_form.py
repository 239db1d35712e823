"""The form on which a day's weather is noted beside the room's air, of all yards or of one."""

from collections.abc import Sequence

from honeyledger.desktop.models.asked import Ask, FormSpec, FormTyped, Reading, Typing
from honeyledger.desktop.stations.hot_room.words import tr
from honeyledger.domain.moments import parse_day
from honeyledger.domain.units import parse_temperature
from honeyledger.ledger.verbs.weather import Weather

WEATHER, ALL_YARDS = "weather", "yards"


def weather_form() -> FormSpec:
    """What the weather was: buttons for what is usual, a note for the rest."""
    return FormSpec(
        WEATHER,
        tr("Weather"),
        tr("Note a day's weather: a season's yields are read by it."),
        tr("Keep the note"),
        (
            (Ask("sort", tr("It was"), Typing.BUTTONS, buttons=_sorts()),),
            (
                Ask("day", tr("Day, blank for today"), Typing.DAY),
                Ask("high", tr("Highest"), unit="°C"),
            ),
            (Ask("yard", tr("Where, blank for everywhere"), Typing.FREE, offers=ALL_YARDS),),
            (Ask("note", tr("Note")),),
        ),
        _noted,
        lambda _typed, _done, _reading: tr("The weather is noted."),
    )


def _sorts() -> tuple[tuple[str, str], ...]:
    return (
        ("sun", tr("sun")),
        ("heat", tr("heat")),
        ("rain", tr("rain")),
        ("cold", tr("cold")),
    )


def _noted(typed: FormTyped, reading: Reading) -> Sequence[Weather]:
    day, high = typed.text("day"), typed.text("high")
    return [
        Weather(
            typed.text("sort"),
            parse_day(day, reading.today, field="day").isoformat() if day else "",
            typed.text("yard"),
            parse_temperature(high, field="high") if high else None,
            typed.text("note"),
        )
    ]
