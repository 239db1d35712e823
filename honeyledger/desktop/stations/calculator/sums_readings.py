"""The sums about what was read: gravity and density, conductivity, several readings, a code."""

import re
from fractions import Fraction

from honeyledger.desktop.models.asked import Ask, FormTyped, Reading
from honeyledger.desktop.stations.calculator.sums import (
    Figure,
    Reckoned,
    Sum,
    from_memory,
    typed_all,
)
from honeyledger.desktop.stations.calculator.words import tr
from honeyledger.domain.code_facts import code_facts
from honeyledger.domain.conductivity import at_20
from honeyledger.domain.dips import gravity_by_bottle
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.repeated import FEWEST, MOST, together
from honeyledger.domain.units import (
    format_moisture,
    format_number,
    parse_count,
    parse_figure,
    parse_moisture,
    parse_percent,
    parse_temperature,
)

ONE_READING = Sentence(
    "one-reading", "There is one reading: type two or more, with blanks between them."
)
# Water at 20 °C: 998.2 grams a litre, value from memory.
_WATER = Fraction(9_982, 10)


def reading_sums() -> tuple[Sum, ...]:
    """Several readings, gravity, conductivity, a code."""
    return (_readings(), _gravity(), _conductivity(), _code())


def _readings() -> Sum:
    return Sum(
        "readings",
        tr("Readings"),
        tr("Several moistures of one lot, with blanks between: mean, spread, and the odd one."),
        (
            (Ask("moistures", tr("Moistures, such as 17.4 17.5 17.3")),),
            (Ask("repeats", tr("The instrument repeats to"), unit="%", usual="0.2"),),
        ),
        typed_all("moistures", "repeats"),
        _readings_of,
    )


def _readings_of(typed: FormTyped, _reading: Reading) -> Reckoned:
    parts = [one.strip(",") for one in re.split(r"[\s;]+", typed.text("moistures"))]
    read = [parse_moisture(one, field="moistures") for one in parts if one not in ("", "%")]
    if len(read) < 2:
        raise Refusal(ONE_READING, field="moistures")
    found = together(read, parse_percent(typed.text("repeats"), field="repeats"))
    source = tr("mean and standard deviation: arithmetic")
    between = tr("{low} to {high}").format(
        low=format_moisture(found.lowest), high=format_moisture(found.highest)
    )
    figures = [
        Figure(format_moisture(found.mean, 2), tr("mean"), source),
        Figure(format_moisture(found.spread, 2), tr("spread"), source),
        Figure(between, tr("lowest to highest"), tr("as read")),
    ]
    test = tr("Grubbs' test at 5 %, both sides, of {least} to {most} readings")
    test = test.format(least=FEWEST, most=MOST)
    if found.odd is not None and found.mean_without is not None:
        odd, others = format_moisture(read[found.odd]), format_moisture(found.mean_without, 2)
        figures.append(Figure(odd, tr("does not belong: read it again"), test))
        figures.append(Figure(others, tr("mean without it"), source))
    elif FEWEST <= found.count <= MOST:
        figures.append(Figure(tr("none"), tr("does not belong"), test))
    return Reckoned(tuple(figures))


def _gravity() -> Sum:
    return Sum(
        "gravity",
        tr("Gravity"),
        tr("Weigh a bottle empty, full of water, and full of honey, at 20 °C."),
        (
            (Ask("empty", tr("Bottle empty"), unit="g"),),
            (
                Ask("with_water", tr("With water"), unit="g"),
                Ask("with_honey", tr("With honey"), unit="g"),
            ),
        ),
        typed_all("empty", "with_water", "with_honey"),
        _gravity_of,
    )


def _gravity_of(typed: FormTyped, _reading: Reading) -> Reckoned:
    weights = [
        parse_figure(
            typed.text(key),
            "a weight in grams",
            "28.4773",
            decimals=4,
            bounds=(0, 100_000),
            field=key,
        )
        for key in ("empty", "with_water", "with_honey")
    ]
    found = Fraction(gravity_by_bottle(*weights), 100_000)
    water = tr("water of 998.2 g/l at 20 °C")
    return Reckoned(
        (
            Figure(
                format_number(found, 4),
                tr("specific gravity"),
                tr("weight of honey by that of as much water: arithmetic"),
            ),
            Figure(
                f"{format_number(found * _WATER)} g/l",
                tr("density"),
                f"{water}; {from_memory()}",
                doubtful=True,
            ),
        ),
        tr("Bubbles make honey look lighter: let it stand first."),
    )


def _conductivity() -> Sum:
    return Sum(
        "conductivity",
        tr("Conductivity"),
        tr("What the meter shows, and how warm the solution is, 15 to 25 °C."),
        (
            (
                Ask("microsiemens", tr("Conductivity"), unit="µS/cm"),
                Ask("temperature", tr("Temperature"), unit="°C"),
            ),
        ),
        typed_all("microsiemens", "temperature"),
        _conductivity_of,
    )


def _conductivity_of(typed: FormTyped, _reading: Reading) -> Reckoned:
    read = parse_count(typed.text("microsiemens"), "a conductivity", field="microsiemens")
    found = at_20(read, parse_temperature(typed.text("temperature")))
    source = tr("3.2 % a degree, method of the International Honey Commission")
    shown = f"{format_number(Fraction(found, 1000), 3)} mS/cm"
    return Reckoned(
        (Figure(shown, tr("at 20 °C"), f"{source}; {from_memory()}", doubtful=True),),
        tr("Of a solution of 20 g of dry honey in 100 ml."),
    )


def _code() -> Sum:
    return Sum(
        "code",
        tr("Code"),
        tr("Type a number or a code: its check characters, whether its end fits, what it says."),
        ((Ask("text", tr("Code, such as 6291041500213")),),),
        typed_all("text"),
        _code_of,
    )


def _code_of(typed: FormTyped, _reading: Reading) -> Reckoned:
    found = code_facts(typed.text("text"))
    gs1 = tr("GS1 General Specifications")
    if found.elements:
        return Reckoned(
            tuple(Figure(value, f"({ai})", gs1) for ai, value in found.elements.items())
        )
    figures = []
    if found.fits_gs1 is not None:
        fits = tr("fits") if found.fits_gs1 else tr("does not fit")
        figures.append(Figure(fits, tr("its last digit as a GS1 check digit"), gs1))
    mod_37, mod_97 = "ISO/IEC 7064 MOD 37,36", "ISO/IEC 7064 MOD 97-10"
    for ends, name in ((found.ends_in_character, mod_37), (found.ends_in_pair, mod_97)):
        if ends:
            figures.append(Figure(tr("fits"), tr("its end by {norm}").format(norm=name), name))
    if found.gs1:
        figures.append(Figure(found.gs1, tr("GS1 check digit to put behind it"), gs1))
    figures.append(Figure(found.character, tr("character to put behind it"), mod_37))
    figures.append(Figure(found.pair, tr("digits to put behind it"), mod_97))
    return Reckoned(tuple(figures))
