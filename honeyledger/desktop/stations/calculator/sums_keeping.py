"""The sums about keeping: heat, drying, and the beetle's clock, as bands that certify nothing."""

from collections.abc import Callable

from honeyledger.desktop.models.asked import Ask, FormTyped, Reading
from honeyledger.desktop.stations.calculator.sums import (
    Figure,
    Reckoned,
    Sum,
    from_memory,
    second_hand,
    typed_all,
)
from honeyledger.desktop.stations.calculator.words import tr
from honeyledger.domain.air import told_balance
from honeyledger.domain.beetles import HELD_BACK, HURRY, IN_TIME, clock
from honeyledger.domain.drying_trend import hours_to
from honeyledger.domain.heat_budget import Band, Warmed, diastase_left, hmf_after, hmf_grown
from honeyledger.domain.units import (
    format_moisture,
    parse_count,
    parse_figure,
    parse_moisture,
    parse_percent,
    parse_temperature,
)

MOST_TIMES = 8
_FEWEST_TIMES = 3
_HOUR_MS = 3_600_000


def keeping_sums() -> tuple[Sum, ...]:
    """Heat, drying, beetles."""
    return (_heat(), _dry(), _beetles())


def _heat() -> Sum:
    return Sum(
        "heat",
        tr("Heat"),
        tr("How warm it was and for how many hours; what was measured before, where you know."),
        (
            (
                Ask("temperature", tr("Temperature"), unit="°C"),
                Ask("hours", tr("Hours"), unit="h"),
            ),
            (
                Ask("hmf", tr("HMF before"), unit="mg/kg"),
                Ask("diastase", tr("Diastase before")),
            ),
        ),
        typed_all("temperature", "hours"),
        _heat_of,
    )


def _heat_of(typed: FormTyped, _reading: Reading) -> Reckoned:
    hours = _tenths(typed.text("hours"), "hours", "a number of hours", 100_000)
    warmed = [Warmed(parse_temperature(typed.text("temperature")), hours)]
    times = f"White, Kushnir, Subers 1964; {second_hand()}"
    figures = [Figure(_band(hmf_grown(warmed)), tr("HMF grown by, mg/kg"), times, doubtful=True)]
    if text := typed.text("hmf"):
        found = hmf_after(_tenths(text, "hmf", "a figure of HMF", 1_000), warmed)
        figures.append(Figure(_band(found), tr("HMF then, mg/kg"), times, doubtful=True))
    if text := typed.text("diastase"):
        left = diastase_left(_tenths(text, "diastase", "a diastase number", 1_000), warmed)
        source = f"White 1964; {from_memory()}"
        figures.append(Figure(_band(left), tr("diastase left"), source, doubtful=True))
    care = tr("A band for choosing what to have measured; it certifies nothing.")
    return Reckoned(tuple(figures), care)


def _band(band: Band) -> str:
    return tr("{low} to {high}").format(low=f"{band.least:.1f}", high=f"{band.most:.1f}")


def _tenths(text: str, field: str, what: str, most: int) -> float:
    return parse_figure(text, what, "12.5", decimals=1, bounds=(0, most), field=field) / 10


def _dry() -> Sum:
    rows = [
        (
            Ask(f"hour{at}", tr("Hour of reading {n}").format(n=at), unit="h", shown=_is_next(at)),
            Ask(f"water{at}", tr("Moisture"), unit="%", shown=_is_next(at)),
        )
        for at in range(1, MOST_TIMES + 1)
    ]
    first = [f"{key}{at}" for at in range(1, _FEWEST_TIMES + 1) for key in ("hour", "water")]
    return Sum(
        "dry",
        tr("Drying"),
        tr("The moisture wanted, and three readings or more of the same combs with their hours."),
        (
            (
                Ask("target", tr("Moisture wanted"), unit="%"),
                Ask("humidity", tr("Humidity of the air, where read"), unit="%"),
            ),
            *rows,
        ),
        typed_all("target", *first),
        _dry_of,
        (("readings", "hour1"), ("moisture", "target")),
    )


def _is_next(at: int) -> Callable[[FormTyped, Reading], bool]:
    """A reading is asked for when the one before it is there; three are from the start."""
    return lambda typed, _reading: at <= _FEWEST_TIMES or bool(typed.text(f"hour{at - 1}"))


def _dry_of(typed: FormTyped, _reading: Reading) -> Reckoned:
    read = [
        (_hour_ms(typed, at), parse_moisture(typed.text(f"water{at}"), field=f"water{at}"))
        for at in range(1, MOST_TIMES + 1)
        if typed.text(f"hour{at}")
    ]
    target, balance = parse_moisture(typed.text("target"), field="target"), None
    if text := typed.text("humidity"):
        balance = told_balance(target, parse_percent(text, "a humidity", field="humidity"))
    found = hours_to(target, read, balance)
    source = tr("a straight line through the readings, Fieller's interval of 95 %: arithmetic")
    care = tr("Read it again before you rely on it: drying slows down towards the end.")
    a_day = Figure(f"{found.a_day / 100:.2f} %", tr("water lost in a day"), source)
    if found.latest <= 0:
        there = Figure(tr("it is there already"), tr("hours after the last reading"), source)
        return Reckoned((there, a_day), care)
    band = tr("{low} to {high}").format(low=f"{found.soonest:.0f}", high=f"{found.latest:.0f}")
    figures = [
        Figure(f"{found.likely:.0f}", tr("hours after the last reading, likely"), source),
        Figure(band, tr("hours after the last reading"), source),
        a_day,
    ]
    if balance is not None:
        of_air = tr("clover honey in balance, Martin 1939 after White")
        of_air = f"{of_air}; {second_hand()}"
        meaning = tr("water it comes to in this air")
        figures.append(Figure(format_moisture(balance), meaning, of_air, doubtful=True))
    return Reckoned(tuple(figures), care)


def _hour_ms(typed: FormTyped, at: int) -> int:
    key = f"hour{at}"
    parts = parse_figure(
        typed.text(key), "a number of hours", "6", decimals=2, bounds=(0, 10_000), field=key
    )
    return parts * _HOUR_MS // 100


def _beetles() -> Sum:
    return Sum(
        "beetles",
        tr("Beetles"),
        tr("How long supers have waited, and the air's lowest and highest humidity since."),
        (
            (Ask("hours", tr("Hours waited"), unit="h"),),
            (
                Ask("driest", tr("Lowest humidity, where read"), unit="%"),
                Ask("dampest", tr("Highest humidity, where read"), unit="%"),
            ),
        ),
        typed_all("hours"),
        _beetles_of,
    )


def _beetles_of(typed: FormTyped, _reading: Reading) -> Reckoned:
    air = [
        parse_percent(typed.text(key), "a humidity", field=key)
        for key in ("driest", "dampest")
        if typed.text(key)
    ]
    found = clock(parse_count(typed.text("hours"), "a number of hours", field="hours"), air)
    words = {
        IN_TIME: tr("in time"),
        HURRY: tr("hurry"),
        HELD_BACK: tr("held back by dry air"),
    }.get(found.state, tr("late"))
    source = tr("abstract 112437, Agricultural Research Service of the USDA")
    days = tr("up to 3 days in time: practice of the trade, no source")
    return Reckoned(
        (
            Figure(f"{found.left} h", tr("until damage by larvae is likely"), source),
            Figure(words, tr("how the supers stand"), f"{source}; {days}"),
        ),
        tr("Only where there is the small hive beetle. Larvae may be in them already: look."),
    )
