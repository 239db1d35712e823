"""Quality: readings, samples, holds, clearing one lot of a hold, and releasing it."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.codes import JarCode
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass, largest_remainder
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.holds import (
    Hold,
    held_among,
    open_holds,
    target_text,
    targets_of,
    upstream_within,
)
from honeyledger.ledger.lookup import find_lot, find_record, read_code
from honeyledger.ledger.mixing import settle
from honeyledger.ledger.places import PALLET, SAMPLED, VESSEL, YARD, class_of, place
from honeyledger.ledger.signing import check_reason, check_signer
from honeyledger.ledger.sources import place_of

RANGES = {"moisture": (1000, 3000), "colour": (0, 1500), "temperature": (-200, 1000)}

NOTHING_READ = Sentence(
    "nothing-read", "Type at least one reading: moisture, colour, temperature."
)
READING_RANGE = Sentence(
    "reading-out-of-range", "A {name} of {value} cannot be right for honey. Read it again."
)
NO_SAMPLE = Sentence("no-sample", "A sample needs its lots and its grams, more than none.")
SAMPLE_TOO_BIG = Sentence(
    "sample-too-big", "{code} holds {there}: a sample of {asked} cannot come from it."
)
NOT_HELD = Sentence("not-held", "{code} is not on hold through {target}: nothing to clear.")
RELEASE_TARGET = Sentence(
    "release-target",
    "{code} is what the hold stands on: it is released, not cleared. Use release, by name.",
)
NO_OPEN_HOLD = Sentence("no-open-hold", "There is no open hold on {code}.")
DAYS_BACKWARDS = Sentence(
    "days-backwards", "The hold ends on {last}, before it begins on {first}. Correct the days."
)


@dataclass(frozen=True, slots=True)
class Measure:
    """Readings of a lot: moisture in hundredths of a percent, colour in tenths of a Pfund mm,
    temperature in tenths of a degree Celsius."""

    kind: ClassVar[str] = "measure"
    lot: str
    moisture: int | None = None
    colour: int | None = None
    temperature: int | None = None
    instrument: str = ""


@dataclass(frozen=True, slots=True)
class Sample:
    """A sample taken from one or more lots, in equal parts, with where it is kept."""

    kind: ClassVar[str] = "sample"
    lots: tuple[str, ...]
    net_g: int
    kept_at: str = ""


@dataclass(frozen=True, slots=True)
class PutOnHold:
    """A hold on a lot, a pallet's pulls, or a yard's pulls of some days (ISO, inclusive)."""

    kind: ClassVar[str] = "hold"
    target: str
    reason: str
    first_day: str = ""
    last_day: str = ""


@dataclass(frozen=True, slots=True)
class Clear:
    """One lot is freed of a hold on one of its ancestors, which stays held."""

    kind: ClassVar[str] = "clear"
    lot: str
    hold: str
    result: str
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Release:
    """A hold ends, by name and with a reason."""

    kind: ClassVar[str] = "release"
    hold: str
    reason: str


def book_measure(facts: Measure, b: Booking) -> None:
    """Dated readings on a lot."""
    lot = find_lot(b.state, facts.lot)
    readings = {name: getattr(facts, name) for name in RANGES}
    if all(value is None for value in readings.values()):
        raise Refusal(NOTHING_READ, field="moisture")
    for name, value in readings.items():
        if value is None:
            continue
        low, high = RANGES[name]
        if not low <= value <= high:
            shown = f"{value / (100 if name == 'moisture' else 10):.1f}"
            raise Refusal(READING_RANGE, field=name, name=name, value=shown)
        b.mark(lot.code, name, value)


def book_sample(facts: Sample, b: Booking) -> None:
    """Each lot gives its part; what stands mixed in a vessel is settled first."""
    if not facts.lots or facts.net_g <= 0:
        raise Refusal(NO_SAMPLE, field="net_g")
    lots = [find_lot(b.state, text) for text in facts.lots]
    parts = largest_remainder(facts.net_g, [1] * len(lots))
    origins = []
    for lot, grams in zip(lots, parts, strict=True):
        here = place_of(b, lot, "lots")
        held = next((row.grams for row in b.standing(here) if row.lot.id == lot.id), 0)
        if held < grams:
            shown, asked = format_mass(held), format_mass(grams)
            raise Refusal(SAMPLE_TOO_BIG, field="net_g", code=lot.code, there=shown, asked=asked)
        taken = settle(b, here) if class_of(here) == VESSEL else lot.id
        b.post(taken, here, -grams)
        if class_of(here) == VESSEL:
            b.draws(here, taken)
        b.touches(here)
        origins.append((taken, grams))
    sample = b.make_lot("X", facts.net_g, _merged(origins), attributes={"kept_at": facts.kept_at})
    b.post(sample.id, SAMPLED, facts.net_g)


def _merged(origins: list[tuple[int, int]]) -> list[tuple[int, int]]:
    sums: dict[int, int] = {}
    for lot, grams in origins:
        sums[lot] = sums.get(lot, 0) + grams
    return list(sums.items())


def book_hold(facts: PutOnHold, b: Booking) -> None:
    """Write down what the hold stands on; what it reaches is walked at every question."""
    check_reason(facts.reason)
    if facts.last_day and facts.last_day < facts.first_day:
        raise Refusal(DAYS_BACKWARDS, field="last_day", last=facts.last_day, first=facts.first_day)
    target, lots = _target(facts.target, b)
    value: dict[str, object] = {
        "target": target,
        "lots": lots,
        "from": facts.first_day,
        "to": facts.last_day,
        "reason": facts.reason,
        "by": b.act.operator,
    }
    b.mark(f"hold/{b.entry_id}", "hold", value)


def _target(text: str, b: Booking) -> tuple[str, list[int]]:
    """The hold's target as written down, and the lots it stands on now."""
    yards = [
        mark.subject
        for mark in b.state.marked("record", f"{YARD}/")
        if isinstance(mark.value, Mapping) and text.strip() == str(mark.value.get("name", ""))
    ]
    if yards:
        return find_record(b.state, YARD, text, "target")[0], []
    code = read_code(b.state, text, "target")
    if not isinstance(code, JarCode) and code.letter == "Y":
        return find_record(b.state, YARD, text, "target")[0], []
    if not isinstance(code, JarCode) and code.letter == "G":
        return str(code), [row.lot.id for row in b.standing(place(PALLET, str(code)))]
    lot = find_lot(b.state, text, field="target")
    return lot.code, [lot.id]


def find_hold(b: Booking, text: str) -> Hold:
    """An open hold, by its number, its target's code, or its yard's name."""
    wanted = text.strip().casefold()
    for hold in open_holds(b.state):
        number = hold.subject.partition("/")[2]
        names = (hold.subject, number, hold.target, hold.target.partition("/")[2])
        if wanted in [name.casefold() for name in (*names, target_text(b.state, hold)) if name]:
            return hold
    raise Refusal(NO_OPEN_HOLD, field="hold", code=text)


def book_clear(facts: Clear, b: Booking) -> None:
    """Freeze what was upstream, so that anything that comes upstream later holds it again."""
    check_signer(b)
    check_reason(facts.result, "result")
    lot = find_lot(b.state, facts.lot)
    hold = find_hold(b, facts.hold)
    targets = targets_of(b.state, hold)
    if lot.id in targets:
        raise Refusal(RELEASE_TARGET, field="lot", code=lot.code)
    if not any(held.hold.subject == hold.subject for held in held_among(b.state, [lot.id])):
        target = target_text(b.state, hold)
        raise Refusal(NOT_HELD, field="lot", code=lot.code, target=target)
    upstream = sorted(upstream_within(lot.id, targets, b.state.ancestry([lot.id])))
    value = {
        "lots": upstream,
        "result": facts.result,
        "reason": facts.reason,
        "by": b.act.operator,
    }
    b.mark(hold.subject, f"cleared/{lot.id}", value)


def book_release(facts: Release, b: Booking) -> None:
    """End a hold."""
    check_signer(b)
    check_reason(facts.reason)
    hold = find_hold(b, facts.hold)
    b.mark(hold.subject, "released", {"reason": facts.reason, "by": b.act.operator})
