"""The sums about work in the house: a tank's dip, jars from a weight, units, days by a label."""

from datetime import date
from fractions import Fraction

from honeyledger.desktop.models.asked import Ask, FormTyped, Reading, Typing
from honeyledger.desktop.models.days import format_day
from honeyledger.desktop.stations.calculator.sums import (
    Figure,
    Reckoned,
    Sum,
    from_memory,
    typed_all,
)
from honeyledger.desktop.stations.calculator.words import tr
from honeyledger.domain.dips import density, upright_ml, weight_g
from honeyledger.domain.jar_count import jars_from
from honeyledger.domain.moments import parse_day
from honeyledger.domain.units import (
    format_mass,
    format_number,
    format_temperature,
    format_weight,
    parse_count,
    parse_figure,
    parse_mass_g,
    parse_moisture,
    parse_temperature,
)
from honeyledger.domain.withholding import first_day, last_day_in, parse_interval

GALLON_NL = 3_785_411_784
"""A gallon of the United States in nanolitres: 231 cubic inches, exact by definition."""
OUNCE_NG = 28_349_523_125
"""An avoirdupois ounce in nanograms: a sixteenth of 453.59237 g, exact by definition."""


def house_sums() -> tuple[Sum, ...]:
    """Tank, jars, units, days."""
    return (_dip(), _jars(), _units(), _days())


def _dip() -> Sum:
    return Sum(
        "dip",
        tr("Tank dip"),
        tr("An upright round tank: its inner width, how high the honey stands, its moisture."),
        (
            (
                Ask("width", tr("Inner width"), unit="mm"),
                Ask("dip", tr("Honey stands"), unit="mm"),
            ),
            (
                Ask("moisture", tr("Moisture"), unit="%"),
                Ask("temperature", tr("Temperature"), unit="°C", usual="20"),
            ),
        ),
        typed_all("width", "dip", "moisture", "temperature"),
        _dip_of,
        (("width_mm", "width"), ("dip_mm", "dip")),
    )


def _dip_of(typed: FormTyped, reading: Reading) -> Reckoned:
    wide, high = (
        parse_count(typed.text(key), "a length in millimetres", field=key)
        for key in ("width", "dip")
    )
    water = parse_moisture(typed.text("moisture"))
    at = parse_temperature(typed.text("temperature"))
    volume = upright_ml(wide, high)
    grams, heavy = weight_g(volume, water, at), density(water, at)
    source = tr("densities of Wedmore and White, 0.6 g lighter a degree")
    source = f"{source}; {from_memory()}"
    litres = f"{format_number(Fraction(volume, 1_000), 1)} l"
    return Reckoned(
        (
            Figure(format_weight(grams, reading.unit), tr("about"), source, doubtful=True),
            Figure(litres, tr("in the tank"), tr("a cylinder, flat at the bottom: geometry")),
            Figure(f"{format_number(heavy)} g/l", tr("density"), source, doubtful=True),
        ),
        tr("An estimate: what is sold goes by a scale."),
    )


def _jars() -> Sum:
    return Sum(
        "jars",
        tr("Jars"),
        tr("How much honey, and what a jar holds; what is overfilled and lost, where you know."),
        (
            (
                Ask("mass", tr("Honey"), Typing.MASS),
                Ask("net", tr("A jar holds"), unit="g"),
            ),
            (
                Ask("over", tr("Overfilled by, a jar"), unit="g"),
                Ask("lost", tr("Stays in tank and filler"), Typing.MASS),
            ),
        ),
        typed_all("mass", "net"),
        _jars_of,
    )


def _jars_of(typed: FormTyped, reading: Reading) -> Reckoned:
    over, lost = typed.text("over"), typed.text("lost")
    found = jars_from(
        parse_mass_g(typed.text("mass"), reading.unit, field="mass"),
        parse_mass_g(typed.text("net"), "g", field="net"),
        _mg(over),
        parse_mass_g(lost, reading.unit, field="lost") if lost else 0,
    )
    source = tr("division: whole jars only")
    left = format_mass(found.left_g, "g" if found.left_g < 1_000 else reading.unit)
    return Reckoned(
        (
            Figure(format_number(found.jars), tr("jars"), source),
            Figure(left, tr("left over"), source),
        )
    )


def _mg(text: str) -> int:
    """An overfill of a jar, which may be a part of a gram."""
    if not text:
        return 0
    return parse_figure(
        text, "an overfill in grams", "2.4", decimals=3, bounds=(0, 1_000), field="over"
    )


def _units() -> Sum:
    return Sum(
        "units",
        tr("Units"),
        tr("Type one figure with its unit, such as 640 lb, 95 F or 60 gallons."),
        (
            (
                Ask("mass", tr("A weight, such as 640 lb"), Typing.MASS),
                Ask("degrees", tr("A temperature, such as 95 F")),
            ),
            (Ask("gallons", tr("Gallons (US)")), Ask("litres", tr("Litres"))),
        ),
        lambda typed: any(typed.text(key) for key in ("mass", "degrees", "gallons", "litres")),
        _units_of,
    )


def _units_of(typed: FormTyped, reading: Reading) -> Reckoned:
    figures: list[Figure] = []
    pound = tr("a pound is 453.59237 g, exact by definition")
    gallon = tr("a gallon of the United States is 3.785411784 l, exact by definition")
    if text := typed.text("mass"):
        grams = parse_mass_g(text, reading.unit, field="mass")
        ounces = f"{format_number(Fraction(grams * 10**9, OUNCE_NG), 2)} oz"
        figures += [
            Figure(format_mass(grams, "kg", 3), tr("in kilograms"), pound),
            Figure(format_mass(grams, "lb", 3), tr("in pounds"), pound),
            Figure(ounces, tr("in ounces"), pound),
        ]
    if text := typed.text("degrees"):
        tenths = parse_temperature(text, field="degrees")
        scale = tr("32 °F is 0 °C, 212 °F is 100 °C, by definition")
        figures += [
            Figure(format_temperature(tenths), tr("in Celsius"), scale),
            Figure(format_temperature(tenths, "F"), tr("in Fahrenheit"), scale),
        ]
    if text := typed.text("gallons"):
        parts = _volume(text, "gallons")
        litres = format_number(Fraction(parts * GALLON_NL, 10**12), 2)
        figures.append(Figure(f"{litres} l", tr("of those gallons"), gallon))
    if text := typed.text("litres"):
        parts = _volume(text, "litres")
        gallons = format_number(Fraction(parts * 10**6, GALLON_NL), 2)
        figures.append(Figure(tr("{n} gallons").format(n=gallons), tr("of those litres"), gallon))
    return Reckoned(tuple(figures))


def _volume(text: str, key: str) -> int:
    """A volume in thousandths."""
    return parse_figure(text, "a volume", "60", decimals=3, bounds=(0, 1_000_000), field=key)


OUT, ON = "out", "on"


def _days() -> Sum:
    return Sum(
        "days",
        tr("Days"),
        tr("Read the interval off your own label: no product's interval is known here."),
        (
            (
                Ask(
                    "from",
                    tr("You know when"),
                    Typing.BUTTONS,
                    buttons=((OUT, tr("it came out")), (ON, tr("supers are to go on"))),
                    usual=OUT,
                ),
            ),
            (
                Ask("day", tr("Day"), Typing.DAY),
                Ask("interval", tr("Interval of the label, such as 6 weeks")),
            ),
        ),
        typed_all("day", "interval"),
        _days_of,
    )


def _days_of(typed: FormTyped, reading: Reading) -> Reckoned:
    day: date = parse_day(typed.text("day"), reading.today, field="day")
    interval = parse_interval(typed.text("interval"))
    source = tr("days counted from the label as it was typed")
    care = tr("Follow the label where you are, and your local code.")
    if typed.text("from") == ON:
        last = format_day(last_day_in(day, interval))
        return Reckoned((Figure(last, tr("the last day it may come out"), source),), care)
    first = format_day(first_day(day, interval))
    meaning = tr("the first day supers may go on, or honey be pulled")
    return Reckoned((Figure(first, meaning, source),), care)
