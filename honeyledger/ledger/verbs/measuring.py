"""Measuring: readings and a laboratory's results of lots, and instruments read against known ones.

A reading is a dated fact of a lot. What stands together in a tank, on a pallet or in a sample of
several lots has one reading together: it belongs to all of them, and each is told that it is a
composite, under a name of its own, so that it never hides what was read of the lot alone.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.conductivity import at_20
from honeyledger.domain.moments import say_day
from honeyledger.domain.quantities import IN_PARTS, Quantity, figure_of, quantity, reported
from honeyledger.domain.refraction import Scale, Shown, moisture_of
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_colour, format_moisture, format_temperature
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.composite import COMPOSITE
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.lookup import code_in, find_lot, find_pallet, find_record, near_names
from honeyledger.ledger.mixing import fed_by, few, name_of
from honeyledger.ledger.sources import NOTHING_THERE, find_source
from honeyledger.ledger.state import Mark, State
from honeyledger.ledger.verbs.checks import CHECKED, EQUIPMENT, SINCE_LAST_GOOD
from honeyledger.ledger.wetness import note_wet
from honeyledger.ledger.yard_log import noted, past_day, told

RANGES = {"moisture": (1000, 3000), "colour": (0, 1500), "temperature": (-200, 1000)}
SHOWN: dict[str, Callable[[int], str]] = {
    "moisture": lambda value: format_moisture(value, 2 if value % 10 else 1),  # as it was typed
    "colour": format_colour,
    "temperature": format_temperature,
}
CALIBRATION = "calibration"
MAY_BE_OFF: Mapping[str, int] = {"moisture": 10, "colour": 10, "temperature": 5}
"""How far an instrument may be off and is right still, in parts: common practice, no source."""

NOTHING_READ = Sentence(
    "nothing-read", "Type at least one reading: moisture, colour, temperature."
)
READING_RANGE = Sentence(
    "reading-out-of-range", "A {name} of {value} cannot be right for honey. Read it again."
)
NO_SUCH_SCALE = Sentence(
    "no-such-scale", "No refractometer shows {scale}: choose of index, water, honey, sucrose."
)
ONE_MOISTURE = Sentence(
    "one-moisture", "Type the moisture, or what the refractometer showed, not both."
)
READS_AS = Sentence("reads-as", "That is {moisture} of water{unsure}.")
UNVERIFIED = ", by a value from memory"
TOGETHER = Sentence(
    "composite-of",
    "One reading of {count} lots together, {codes}: it belongs to each as a composite, and any "
    "one of them may be off it.",
)
FOUND_OFF = Sentence(
    "instrument-found-off",
    "{name} read {read} where {known} is known: what was read with it since it was last found "
    "right is in doubt, and is shown with its corrected value.",
)
READ_WITH_OFF = Sentence(
    "read-with-one-off",
    "{name} was found off on {day} and not right since: this reading is in doubt. Have it put "
    "right, then calibrate it.",
)
NOT_ON_RECORD = Sentence(
    "instrument-not-on-record",
    "{instrument} is not in the register of equipment: put it there, or this reading is not in "
    "doubt when {instrument} is found off.",
)
NEAR_INSTRUMENT = Sentence(
    "instrument-near",
    "{instrument} is not in the register of equipment: did you mean {near}? Under another name "
    "this reading is not in doubt when it is found off.",
)


@dataclass(frozen=True, slots=True)
class Refraction:
    """What a refractometer showed; see `domain.refraction`.

    Args:
        scale: "index", "water", "honey" or "sucrose".
        value: millionths of an index, else hundredths of a percent.
        temperature: of honey and prism, tenths of a degree Celsius.
        corrects_itself: the instrument has corrected for the temperature already.
    """

    scale: str
    value: int
    temperature: int | None = None
    corrects_itself: bool = False


@dataclass(frozen=True, slots=True)
class Reported:
    """A result as it was reported, such as "12.4", "<5" or "not detected".

    Args:
        what: a quantity by its name; see `domain.quantities`.
        temperature: of the solution, of a conductivity that is not at 20 °C yet.
    """

    what: str
    result: str
    temperature: int | None = None


@dataclass(frozen=True, slots=True)
class Measure:
    """Readings of a lot, or of all that stands together in a vessel or on a pallet.

    Moisture in hundredths of a percent, colour in tenths of a Pfund mm, temperature in tenths of
    a degree Celsius.

    Args:
        shown: instead of the moisture, what a refractometer showed.
        results: everything else, as it was reported.
        laboratory, report: who found them, and the report's number.
        sampled: the day the sample was taken, ISO.
    """

    kind: ClassVar[str] = "measure"
    lot: str
    moisture: int | None = None
    colour: int | None = None
    temperature: int | None = None
    instrument: str = ""
    shown: Refraction | None = None
    results: tuple[Reported, ...] = ()
    laboratory: str = ""
    report: str = ""
    sampled: str = ""


@dataclass(frozen=True, slots=True)
class Calibrate:
    """An instrument was read against something known, both in the parts of its quantity.

    Args:
        of: the quantity it reads; see `domain.quantities`.
        against: what it was read against, such as a standard oil.
    """

    kind: ClassVar[str] = "calibrate"
    instrument: str
    known: int
    read: int
    of: str = "moisture"
    against: str = ""


def book_measure(facts: Measure, b: Booking) -> None:
    """Dated readings: of one lot its own, of several a composite of each."""
    readings = _readings(facts, b)
    if not readings:
        raise Refusal(NOTHING_READ, field="moisture")
    if facts.sampled:
        past_day(b, facts.sampled, "sampled")
    sample, lots = _measured(facts.lot, b)
    if sample is not None:
        for name, value in readings.items():
            b.mark(sample.code, name, value)
    for lot in lots:
        for name, value in readings.items():
            b.mark(lot.code, name if len(lots) == 1 else f"{COMPOSITE}{name}", value)
    if len(lots) > 1:
        b.note(TOGETHER, count=len(lots), codes=few([lot.code for lot in lots]))
    moisture = readings.get("moisture")
    if isinstance(moisture, int):
        note_wet(b, moisture)
    if facts.instrument.strip() and not facts.laboratory.strip():
        _tell_unknown(b, facts.instrument.strip())
    for name in readings:
        _tell_off(b, facts.instrument, name)


def check_reading(name: str, value: int) -> None:
    """A reading can be right for honey: moisture, colour or temperature, in the ledger's units.

    Raises:
        Refusal: it cannot.
    """
    low, high = RANGES[name]
    if not low <= value <= high:
        raise Refusal(READING_RANGE, field=name, name=name, value=SHOWN[name](value))


def _readings(facts: Measure, b: Booking) -> dict[str, Json]:
    """What was read, by name: parts of those that are figures, the others as reported."""
    found: dict[str, Json] = {}
    for name in IN_PARTS:
        value = getattr(facts, name)
        if value is not None:
            check_reading(name, value)
            found[name] = value
    if facts.shown is not None:
        if "moisture" in found:
            raise Refusal(ONE_MOISTURE, field="moisture")
        found["moisture"] = _by_refraction(facts.shown, b)
    for one in facts.results:
        of = quantity(one.what, field="results")
        found[of.name] = _result(of, one)
    return found


def _by_refraction(shown: Refraction, b: Booking) -> int:
    scale = next((one for one in Scale if one.name.lower() == shown.scale), None)
    if scale is None:
        raise Refusal(NO_SUCH_SCALE, field="scale", scale=shown.scale or "nothing")
    read = Shown(scale, shown.value, shown.temperature, shown.corrects_itself)
    found = moisture_of(read)
    b.note(
        READS_AS,
        moisture=format_moisture(found.moisture, 2),
        unsure="" if found.verified else UNVERIFIED,
    )
    return found.moisture


def _result(of: Quantity, one: Reported) -> Json:
    """A result as it is kept: in parts where the house goes by it, else as it was reported."""
    if of.name in IN_PARTS:
        parts = figure_of(of, one.result, field=of.name)
        check_reading(of.name, parts)
        return parts
    if one.temperature is not None and of.name == "conductivity":
        parts = figure_of(of, one.result, field=of.name)
        return str(of.result(at_20(parts, one.temperature)))
    return str(reported(of, one.result, field=of.name))


def _measured(text: str, b: Booking) -> tuple[Lot | None, list[Lot]]:
    """What a reading is of: the sample it was made of, if any, and the lots it belongs to."""
    code = code_in(b.state, text, "lot") if text.strip() else None
    if code is not None and code.letter == "G":
        return None, _standing(b, find_pallet(b.state, text, "lot"))
    if code is None or code.letter == "E":
        where = find_source(b, text, "lot")
        return None, _standing(b, where)
    lot = find_lot(b.state, text)
    if lot.kind != "X":
        return None, [lot]
    parents = [edge.parent for edge in b.state.origins(lot.id) if edge.grams]
    return lot, list(b.state.lots(parents).values())


def _standing(b: Booking, where: str) -> list[Lot]:
    """The lots with grams in a place, and in the lines that run into it."""
    places = (where, *fed_by(b.state, where))
    lots = [row.lot for one in places for row in b.standing(one) if row.grams > 0]
    if not lots:
        raise Refusal(NOTHING_THERE, field="lot", place=name_of(b.state, where))
    return list({lot.id: lot for lot in lots}.values())


def book_calibrate(facts: Calibrate, b: Booking) -> None:
    """A dated fact of the instrument, beside its other checks."""
    subject, record = find_record(b.state, EQUIPMENT, facts.instrument, "instrument")
    of = quantity(facts.of, field="of")
    name = str(record.get("name", ""))
    off_by = MAY_BE_OFF.get(of.name, of.repeats_to)
    right = abs(facts.read - facts.known) <= off_by
    known, read = (of.said(one) for one in (facts.known, facts.read))
    value = {
        "day": b.day.isoformat(),
        "what": CALIBRATION,
        "result": "ok" if right else "off",
        "value": f"{known}: {read}",
        "note": facts.against.strip(),
        "of": of.name,
        "known": facts.known,
        "read": facts.read,
        "may_be_off": off_by,
    }
    good = [one for one in calibrations(b.state, subject, of.name) if told(one, "result") == "ok"]
    b.mark(subject, f"{CHECKED}{b.entry_id}", value)
    if right:
        return
    b.note(FOUND_OFF, name=name, read=read, known=known)
    if good:
        b.note(SINCE_LAST_GOOD, name=name, what=CALIBRATION, day=say_day(told(good[-1], "day")))


def calibrations(state: State, instrument: str, of: str) -> list[Mark]:
    """An instrument's calibrations for a quantity, the oldest first."""
    marks = [mark for mark in noted(state, instrument, CHECKED) if told(mark, "of") == of]
    return sorted(marks, key=lambda mark: (mark.at_ms, mark.entry))


def instrument_called(state: State, text: str) -> str:
    """The subject of the instrument a text names; "" where it is on no record."""
    wanted = text.strip().casefold()
    for mark in state.marked("record", f"{EQUIPMENT}/") if wanted else ():
        if wanted in (told(mark, "name").casefold(), mark.subject.partition("/")[2].casefold()):
            return mark.subject
    return ""


def _tell_unknown(b: Booking, instrument: str) -> None:
    """An instrument nobody registered is said; where a name is near, that one is offered."""
    if instrument_called(b.state, instrument):
        return
    near = near_names(b.state, EQUIPMENT, instrument)
    if near:
        b.note(NEAR_INSTRUMENT, instrument=instrument, near=near)
    else:
        b.note(NOT_ON_RECORD, instrument=instrument)


def _tell_off(b: Booking, instrument: str, of: str) -> None:
    """A reading with an instrument that was found off last is told to be in doubt."""
    subject = instrument_called(b.state, instrument)
    if not subject:
        return
    marks = [one for one in calibrations(b.state, subject, of) if one.at_ms <= b.at_ms]
    if marks and told(marks[-1], "result") != "ok":
        name, day = name_of(b.state, subject), say_day(told(marks[-1], "day"))
        b.note(READ_WITH_OFF, name=name, day=day)
