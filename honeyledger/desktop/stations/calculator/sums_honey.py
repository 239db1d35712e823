"""The sums about what honey is: its moisture, its colour, a blend of it, and the air around it."""

from collections.abc import Callable
from fractions import Fraction

from honeyledger.desktop.language import say
from honeyledger.desktop.models.asked import Ask, FormTyped, Reading, Typing
from honeyledger.desktop.stations.calculator.sums import (
    Figure,
    Reckoned,
    Sum,
    from_memory,
    second_hand,
    typed_all,
)
from honeyledger.desktop.stations.calculator.words import tr
from honeyledger.domain.air import (
    DRIES,
    HOLDS,
    WETS,
    balance_humidity,
    balance_moisture,
    told_air,
)
from honeyledger.domain.blend import Part, expected
from honeyledger.domain.colour import class_of as colour_class
from honeyledger.domain.colour import class_of_density, density_of
from honeyledger.domain.keeping import class_of as keeping_class
from honeyledger.domain.refraction import Scale, Shown, moisture_of
from honeyledger.domain.units import (
    format_colour,
    format_moisture,
    format_number,
    format_weight,
    parse_colour,
    parse_figure,
    parse_mass_g,
    parse_moisture,
    parse_percent,
    parse_temperature,
)

YES, NO = "yes", "no"
BLEND = "blend"
MOST_PARTS = 5


def honey_sums() -> tuple[Sum, ...]:
    """Moisture, colour, blend, air."""
    return (_moisture(), _colour(), _blend(), _air())


def _moisture() -> Sum:
    return Sum(
        "moisture",
        tr("Moisture"),
        tr("Type what the refractometer shows, and how warm honey and prism are."),
        (
            (
                Ask(
                    "scale",
                    tr("It shows"),
                    Typing.BUTTONS,
                    buttons=(
                        ("index", tr("index")),
                        ("water", tr("water")),
                        ("honey", tr("Brix, honey")),
                        ("sucrose", tr("Brix, sucrose")),
                    ),
                    usual="index",
                ),
            ),
            (
                Ask("figure", tr("Reading, such as 1.4900 or 17.8")),
                Ask("temperature", tr("Temperature"), unit="°C", shown=_asks_degrees),
            ),
            (
                Ask(
                    "corrected",
                    tr("It corrects by itself"),
                    Typing.BUTTONS,
                    buttons=((NO, tr("no")), (YES, tr("yes"))),
                    usual=NO,
                ),
            ),
        ),
        lambda typed: bool(
            typed.text("figure") and (typed.text("temperature") or typed.text("corrected") == YES)
        ),
        _moisture_of,
        (("value", "figure"),),
    )


def _asks_degrees(typed: FormTyped, _reading: Reading) -> bool:
    return typed.text("corrected") != YES


def _moisture_of(typed: FormTyped, _reading: Reading) -> Reckoned:
    scale = {
        "index": Scale.INDEX,
        "water": Scale.WATER,
        "honey": Scale.HONEY,
        "sucrose": Scale.SUCROSE,
    }[typed.text("scale") or "index"]
    text = typed.text("figure")
    value = (
        parse_figure(
            text, "a refractive index", "1.4900", decimals=6, bounds=(1, 2), field="figure"
        )
        if scale is Scale.INDEX
        else parse_percent(text, field="figure")
    )
    corrects = typed.text("corrected") == YES
    at = None if corrects else parse_temperature(typed.text("temperature"))
    found = moisture_of(Shown(scale, value, at, corrects))
    table = tr("Chataway 1932 with Wedmore 1955, as in Bogdanov, Book of Honey, chapter 4")
    source = table if found.verified else f"{table}; {from_memory()}"
    keeps = keeping_class(found.moisture)
    index = format_number(Fraction(found.index, 1_000_000), 5)
    return Reckoned(
        (
            Figure(format_moisture(found.moisture, 2), tr("water"), source, not found.verified),
            Figure(index, tr("refractive index at 20 °C"), source, not found.verified),
            Figure(
                say(keeps.name),
                tr("whether it keeps"),
                f"Lochhead 1933; {second_hand()}",
                doubtful=True,
            ),
        )
    )


def _colour() -> Sum:
    return Sum(
        "colour",
        tr("Colour"),
        tr("Type a reading; its class stands beside."),
        (
            (
                Ask(
                    "as",
                    tr("It is"),
                    Typing.BUTTONS,
                    buttons=(
                        ("pfund", tr("Pfund mm")),
                        ("density", tr("optical density")),
                        ("light", tr("% of light through")),
                    ),
                    usual="pfund",
                ),
            ),
            (Ask("reading", tr("Reading")),),
        ),
        typed_all("reading"),
        _colour_of,
        (("transmittance", "reading"),),
    )


def _colour_of(typed: FormTyped, _reading: Reading) -> Reckoned:
    text = typed.text("reading")
    source = tr("United States Standards for Grades of Extracted Honey 1985, table I")
    source = f"{source}; {second_hand()}"
    figures = []
    match typed.text("as"):
        case "density":
            parts = parse_figure(
                text, "an optical density", "0.595", decimals=4, bounds=(0, 10), field="reading"
            )
            found = class_of_density(parts)
        case "light":
            density = density_of(parse_percent(text, field="reading"))
            found = class_of_density(density)
            shown = format_number(Fraction(density, 10_000), 3)
            figures.append(Figure(shown, tr("optical density"), tr("logarithm of the light")))
        case _:
            found = colour_class(parse_colour(text, field="reading"))
    figures.insert(0, Figure(found.name, tr("class"), source, doubtful=True))
    if found.upto is not None:
        darkest = tr("the darkest Pfund reading in it")
        figures.append(Figure(format_colour(found.upto), darkest, source, doubtful=True))
    return Reckoned(tuple(figures))


def _blend() -> Sum:
    rows = [
        (
            Ask(f"net{at}", _part_label(at), Typing.MASS, shown=_is_next(at)),
            Ask(f"water{at}", tr("Moisture"), unit="%", shown=_is_next(at)),
            Ask(f"colour{at}", tr("Colour"), unit="mm", shown=_is_next(at)),
        )
        for at in range(1, MOST_PARTS + 1)
    ]
    return Sum(
        BLEND,
        tr("Blend"),
        tr("Type each part's weight and moisture, its colour where it was read; or scan its lot."),
        tuple(rows),
        lambda typed: all(typed.text(key) for key in ("net1", "water1", "net2", "water2")),
        _blend_of,
    )


def _part_label(at: int) -> str:
    return tr("Part {n}").format(n=at)


def _is_next(at: int) -> Callable[[FormTyped, Reading], bool]:
    """A part is asked for when the one before it is there; two are from the start."""
    return lambda typed, _reading: at <= 2 or bool(typed.text(f"net{at - 1}"))


def _blend_of(typed: FormTyped, reading: Reading) -> Reckoned:
    parts = []
    for at in range(1, MOST_PARTS + 1):
        net, water, colour = (typed.text(f"{key}{at}") for key in ("net", "water", "colour"))
        if net:
            parts.append(
                Part(
                    parse_mass_g(net, reading.unit, field=f"net{at}"),
                    parse_moisture(water, field=f"water{at}"),
                    parse_colour(colour, field=f"colour{at}") if colour else None,
                )
            )
    found = expected(parts)
    by_weight = tr("water and solids mix by weight: arithmetic")
    figures = [Figure(format_weight(found.grams, reading.unit), tr("of honey"), by_weight)]
    if found.moisture is not None and found.solids_g is not None:
        figures.append(Figure(format_moisture(found.moisture, 2), tr("water"), by_weight))
        solids = format_weight(found.solids_g, reading.unit)
        figures.append(Figure(solids, tr("of solids"), by_weight))
        keeps = say(keeping_class(found.moisture).name)
        figures.append(
            Figure(keeps, tr("whether it keeps"), f"Lochhead 1933; {second_hand()}", doubtful=True)
        )
    if found.lightest is not None and found.darkest is not None:
        words = tr("{lightest} to {darkest}").format(
            lightest=format_colour(found.lightest), darkest=format_colour(found.darkest)
        )
        source = tr("between its parts; colour does not mix by weight")
        figures.append(Figure(words, tr("colour"), source))
    return Reckoned(tuple(figures), tr("Measure the blend when it is made."))


def _air() -> Sum:
    return Sum(
        "air",
        tr("Air"),
        tr("Type the honey's moisture and the air's humidity: does it dry, or take up water?"),
        (
            (
                Ask("moisture", tr("Moisture of the honey"), unit="%"),
                Ask("humidity", tr("Humidity of the air"), unit="%"),
            ),
        ),
        typed_all("moisture", "humidity"),
        _air_of,
    )


def _air_of(typed: FormTyped, _reading: Reading) -> Reckoned:
    water = parse_moisture(typed.text("moisture"))
    damp = parse_percent(typed.text("humidity"), "a humidity", field="humidity")
    does, even, comes = told_air(water, damp), balance_humidity(water), balance_moisture(damp)
    source = tr("clover honey in balance, Martin 1939 after White")
    source = f"{source}; {second_hand()}"
    words = {
        DRIES: tr("dries it"),
        WETS: tr("wets it"),
        HOLDS: tr("leaves it as it is"),
    }[does]
    figures = [Figure(words, tr("what this air does"), source, doubtful=True)]
    if even is not None:
        meaning = tr("humidity in balance with this honey")
        figures.append(Figure(format_moisture(even), meaning, source, doubtful=True))
    if comes is not None:
        meaning = tr("water it comes to in this air")
        figures.append(Figure(format_moisture(comes), meaning, source, doubtful=True))
    return Reckoned(tuple(figures), tr("Other honeys differ by a percent or so: read it again."))
