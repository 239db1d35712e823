"""The forms in which a reading or a result is typed, and an instrument is calibrated.

They are the same wherever honey is handled.

What is measured is chosen by buttons, and what that needs to be asked follows from it. What it
comes to, such as a moisture from a refractive index, is said while it is typed, by the ledger.
"""

from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.models.asked import Ask, FormSpec, FormTyped, Reading, Typing
from honeyledger.domain.moments import parse_day
from honeyledger.domain.quantities import Quantity, figure_of, quantity
from honeyledger.domain.units import (
    parse_colour,
    parse_figure,
    parse_moisture,
    parse_percent,
    parse_temperature,
)
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.verbs.measuring import Calibrate, Measure, Refraction, Reported
from honeyledger.services.house import Recorded

MEASURE, CALIBRATE = "measure", "calibrate"
INSTRUMENTS = "instruments"
"""The list of instruments, which every station with these forms offers."""
READ = "DPTJKSXWEG"
"""The letters of the codes that can be read."""
MOISTURE, COLOUR, CONDUCTIVITY, LABORATORY = "moisture", "colour", "conductivity", "laboratory"
WATER, INDEX, HONEY, SUCROSE = "as water", "index", "honey", "sucrose scale"
MILLIMETRES, DENSITY = "mm", "optical density"
ITSELF = "itself"


def tr(text: str) -> str:
    """A text of the form."""
    return QCoreApplication.translate("reading", text)


def reading_form(label: str, offers: str = "") -> FormSpec:
    """The form.

    Args:
        label: what stands above the code that is read: a drum, a pallet, a tank.
        offers: which list of the station it chooses from; "" where codes are scanned or typed.
    """
    lot = Ask("lot", label, Typing.FREE, offers=offers) if offers else Ask("lot", label)
    return FormSpec(
        MEASURE,
        tr("Measure"),
        tr("Scan what was read, choose what was measured, type what the instrument shows."),
        tr("Keep the reading"),
        (
            (lot,),
            (_kind_ask(),),
            (_scale(),),
            (_colour(),),
            (_result(),),
            (
                Ask("value", tr("Shows"), part=3),
                Ask("at", tr("Read at"), unit="°C", part=2, shown=_is_corrected),
            ),
            (
                Ask(
                    "corrects",
                    tr("Temperature"),
                    Typing.BUTTONS,
                    buttons=(("typed", tr("typed here")), (ITSELF, tr("corrects by itself"))),
                    usual="typed",
                    shown=_is_refraction,
                ),
            ),
            (
                Ask(
                    "instrument",
                    tr("Instrument"),
                    Typing.FREE,
                    offers=INSTRUMENTS,
                    shown=_is_own,
                ),
            ),
            (
                Ask("laboratory", tr("Laboratory"), part=3, shown=_is_laboratory),
                Ask("report", tr("Report"), part=2, shown=_is_laboratory),
            ),
            (Ask("sampled", tr("Sampled on"), Typing.DAY, shown=_is_laboratory),),
        ),
        _facts,
        _done,
        scan="lot",
        fields=dict.fromkeys(_VALUE_FIELDS, "value") | {"temperature": "at"},
    )


def calibration_form() -> FormSpec:
    """The form in which an instrument is read against something known."""
    known = (
        (MOISTURE, tr("Moisture")),
        (COLOUR, tr("Colour")),
        ("temperature", tr("Temperature")),
        (CONDUCTIVITY, tr("Conductivity")),
    )
    return FormSpec(
        CALIBRATE,
        tr("Calibrate"),
        tr("Read an oil, a glass or a standard: what it should read, and what it reads."),
        tr("Keep the calibration"),
        (
            (Ask("instrument", tr("Instrument"), Typing.FREE, offers=INSTRUMENTS),),
            (
                Ask(
                    "of",
                    tr("It reads"),
                    Typing.BUTTONS,
                    buttons=known,
                    usual=MOISTURE,
                    in_row=2,
                ),
            ),
            (Ask("known", tr("Should read")), Ask("read", tr("Reads"))),
            (Ask("against", tr("Read against")),),
        ),
        _calibrated,
        lambda typed, _done, _reading: tr("{name} is calibrated.").format(
            name=typed.text("instrument")
        ),
        scan="instrument",
    )


def _calibrated(typed: FormTyped, _reading: Reading) -> Sequence[Calibrate]:
    of = quantity(typed.text("of") or MOISTURE)
    known, read = (_parts(of, typed.text(key), key) for key in ("known", "read"))
    return [Calibrate(typed.text("instrument"), known, read, of.name, typed.text("against"))]


def _parts(of: Quantity, text: str, field: str) -> int:
    match of.name:
        case "moisture":
            return parse_moisture(text, field=field)
        case "colour":
            return parse_colour(text, field=field)
        case "temperature":
            return parse_temperature(text, field=field)
    return figure_of(of, text, field=field)


_VALUE_FIELDS = (
    *("shown", "moisture", "colour", "optical density", "conductivity", "hmf", "diastase"),
    *("free acid", "fructose and glucose", "sucrose", "insolubles", "yeast", "result"),
)


def _kind_ask() -> Ask:
    kinds = (
        (MOISTURE, tr("Moisture")),
        (COLOUR, tr("Colour")),
        (CONDUCTIVITY, tr("Conductivity")),
        (LABORATORY, tr("Laboratory")),
    )
    what = tr("Measured")
    return Ask("kind", what, Typing.BUTTONS, buttons=kinds, usual=MOISTURE, in_row=2)


def _scale() -> Ask:
    buttons = (
        (WATER, tr("% water")),
        (INDEX, tr("index")),
        (HONEY, tr("Brix, honey")),
        (SUCROSE, tr("Brix, sugar")),
    )
    return Ask(
        "scale",
        tr("It shows"),
        Typing.BUTTONS,
        buttons=buttons,
        usual=WATER,
        in_row=2,
        shown=_is_moisture,
    )


def _colour() -> Ask:
    buttons = ((MILLIMETRES, tr("mm Pfund")), (DENSITY, tr("optical density")))
    return Ask(
        "colour_as",
        tr("It shows"),
        Typing.BUTTONS,
        buttons=buttons,
        usual=MILLIMETRES,
        shown=lambda typed, _reading: _kind(typed) == COLOUR,
    )


def _result() -> Ask:
    buttons = (
        ("hmf", tr("HMF")),
        ("diastase", tr("diastase")),
        ("free acid", tr("free acid")),
        ("fructose and glucose", tr("fructose + glucose")),
        ("sucrose", tr("sucrose")),
        ("insolubles", tr("insolubles")),
        ("yeast", tr("yeast")),
        ("moisture", tr("moisture")),
    )
    return Ask(
        "result_of",
        tr("Result of"),
        Typing.BUTTONS,
        buttons=buttons,
        in_row=2,
        shown=_is_laboratory,
    )


def _kind(typed: FormTyped) -> str:
    return typed.text("kind") or MOISTURE


def _is_moisture(typed: FormTyped, _reading: Reading) -> bool:
    return _kind(typed) == MOISTURE


def _is_laboratory(typed: FormTyped, _reading: Reading) -> bool:
    return _kind(typed) == LABORATORY


def _is_own(typed: FormTyped, _reading: Reading) -> bool:
    """Whether it was read in the house, with an instrument of its own."""
    return _kind(typed) != LABORATORY


def _is_refraction(typed: FormTyped, _reading: Reading | None = None) -> bool:
    """Whether a refractometer's scale was read that may need the temperature."""
    return _kind(typed) == MOISTURE and typed.text("scale") in (INDEX, HONEY, SUCROSE)


def _is_corrected(typed: FormTyped, _reading: Reading | None = None) -> bool:
    """Whether the temperature is asked: the instrument does not correct by itself."""
    return _kind(typed) == CONDUCTIVITY or (
        _is_refraction(typed) and typed.text("corrects") != ITSELF
    )


def _facts(typed: FormTyped, reading: Reading) -> Sequence[Measure]:
    lot, value = typed.text("lot"), typed.text("value")
    own = typed.text("instrument")
    if _is_laboratory(typed, reading):
        what = typed.text("result_of") or "hmf"
        day = typed.text("sampled")
        sampled = parse_day(day, reading.today, field="sampled").isoformat() if day else ""
        papers = typed.text("laboratory"), typed.text("report"), sampled
        return [Measure(lot, None, None, None, "", None, (Reported(what, value),), *papers)]
    at = typed.text("at") if _is_corrected(typed) else ""
    degrees = parse_temperature(at, field="at") if at else None
    if _kind(typed) == CONDUCTIVITY:
        return [Measure(lot, results=(Reported(CONDUCTIVITY, value, degrees),), instrument=own)]
    if _kind(typed) == COLOUR:
        if typed.text("colour_as") == DENSITY:
            return [Measure(lot, results=(Reported(DENSITY, value),), instrument=own)]
        return [Measure(lot, colour=parse_colour(value, field="value"), instrument=own)]
    if not _is_refraction(typed):
        return [Measure(lot, parse_moisture(value, field="value"), instrument=own)]
    return [Measure(lot, shown=_shown(typed, value, degrees), instrument=own)]


def _shown(typed: FormTyped, value: str, degrees: int | None) -> Refraction:
    scale = typed.text("scale")
    itself = typed.text("corrects") == ITSELF
    if scale == INDEX:
        parts = parse_figure(
            value, "a refractive index", "1.4900", decimals=6, bounds=(1, 2), field="value"
        )
        return Refraction(INDEX, parts, degrees, itself)
    parts = parse_percent(value, "a reading", field="value")
    return Refraction("honey" if scale == HONEY else "sucrose", parts, degrees, itself)


def _done(typed: FormTyped, done: Recorded, _reading: Reading) -> str:
    codes = {str(subject) for subject, _, _ in rows_of(done.entries[0], "marks")}
    lots = [code for code in codes if len(codes) == 1 or not code.startswith("X")]
    if len(lots) > 1:
        words = tr("{code} is read: it counts for {n} lots.")
        return words.format(code=typed.text("lot"), n=len(lots))
    return tr("{code} is read.").format(code=typed.text("lot"))
