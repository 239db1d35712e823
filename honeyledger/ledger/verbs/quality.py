"""Quality: samples, holds, clearing one lot of a hold, and releasing it."""

from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.codes import Code
from honeyledger.domain.moments import say_day
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import largest_remainder
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.certificates import PAPERS, bring_papers
from honeyledger.ledger.entry import Json
from honeyledger.ledger.holds import (
    Hold,
    held_among,
    hold_from,
    open_holds,
    target_text,
    targets_of,
    upstream_within,
)
from honeyledger.ledger.lookup import (
    code_in,
    find_lot,
    find_named,
    find_pallet,
    find_record,
    read_iso_day,
)
from honeyledger.ledger.mixing import Taken, contents, draw, feed, name_of
from honeyledger.ledger.newly_held import note_sold
from honeyledger.ledger.offers import offer
from honeyledger.ledger.once import check_once
from honeyledger.ledger.places import (
    CUSTOMER,
    DRUM,
    JARS,
    SAMPLED,
    VESSEL,
    YARD,
    class_of,
    key_of,
)
from honeyledger.ledger.signing import check_reason, check_second, check_signer, note_unsigned
from honeyledger.ledger.sources import find_source, place_of, told_apart

NO_SAMPLE = Sentence("no-sample", "A sample needs its lots, and a gram of each at least.")
SAMPLE_TOO_BIG = Sentence(
    "sample-too-big", "{code} holds {there}: take less than {asked}, or weigh it again."
)
NOT_HELD = Sentence("not-held", "{code} is not on hold through {target}: nothing to clear.")
RELEASE_TARGET = Sentence(
    "release-target",
    "{code} is what the hold stands on: it is released, not cleared. Use release, by name.",
)
NO_OPEN_HOLD = Sentence(
    "no-open-hold", "There is no open hold on {code}. Look at the list of holds."
)
HELD_THROUGH = Sentence(
    "held-through",
    "{code} has no hold of its own: it is held through {targets}. Release that, which frees all "
    "that is made of it, or clear {code} alone by name.",
)
DAYS_BACKWARDS = Sentence(
    "days-backwards", "The hold ends on {last}, before it begins on {first}. Correct the days."
)
NOTHING_TO_HOLD = Sentence(
    "nothing-to-hold", "Nothing stands in {place}. Hold the lot that was there, by its code."
)
NO_CAUSE = Sentence("no-cause", "Say what these lots are held for: a sieve, a scale, a check.")
TWO_HOLDS = Sentence(
    "two-holds", "There are several holds on {code}: give the number of the one, {numbers}."
)


@dataclass(frozen=True, slots=True)
class Sample:
    """A sample taken from one or more lots, in equal parts, with where it is kept.

    Args:
        purpose: what it is for, such as "before shipment".
        customer: who is to judge it, see `trade.Approve`.
    """

    kind: ClassVar[str] = "sample"
    lots: tuple[str, ...]
    net_g: int
    kept_at: str = ""
    purpose: str = ""
    customer: str = ""


@dataclass(frozen=True, slots=True)
class PutOnHold:
    """A hold on a lot, a pallet's pulls, or a yard's pulls of some days (ISO, inclusive).

    Args:
        lots: what is held, where it is several lots for one cause, such as a sieve that broke;
            `target` then names the cause, by its code or as people call it.
    """

    kind: ClassVar[str] = "hold"
    target: str
    reason: str
    first_day: str = ""
    last_day: str = ""
    lots: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Clear:
    """One lot is freed of a hold on one of its ancestors, which stays held.

    Args:
        second: who agrees, where the house's record asks for two people.
    """

    kind: ClassVar[str] = "clear"
    lot: str
    hold: str
    result: str
    reason: str = ""
    second: str = ""


@dataclass(frozen=True, slots=True)
class Release:
    """A hold ends, by name and with a reason.

    Args:
        certificate, supplier_lot, country: what a bought-in lot came without; see `certificates`.
        second: who agrees, where the house's record asks for two people.
    """

    kind: ClassVar[str] = "release"
    hold: str
    reason: str
    certificate: str = ""
    supplier_lot: str = ""
    country: str = ""
    second: str = ""


def book_sample(facts: Sample, b: Booking) -> None:
    """Each lot gives its part; what stands mixed in a vessel is settled first, as by a draw."""
    if not facts.lots or facts.net_g < len(facts.lots):
        raise Refusal(NO_SAMPLE, field="net_g")
    parts = largest_remainder(facts.net_g, [1] * len(facts.lots))
    check_once(
        [_sampled_from(b, text) for text in facts.lots], "lots", lambda one: name_of(b.state, one)
    )
    origins: dict[int, int] = {}
    for text, grams in zip(facts.lots, parts, strict=True):
        for lot, part in _sampled(b, text, grams):
            origins[lot] = origins.get(lot, 0) + part
    customer = find_record(b.state, CUSTOMER, facts.customer)[0] if facts.customer else ""
    kept = {
        "kept_at": facts.kept_at,
        "purpose": facts.purpose,
        "customer": key_of(customer),
    }
    sample = b.make_lot("X", facts.net_g, list(origins.items()), attributes=kept)
    b.post(sample.id, SAMPLED, facts.net_g)
    if customer:
        lots = [b.lot(lot) for lot, grams in origins.items() if grams]
        offer(b, lots, customer, sample.code)


def _sampled_from(b: Booking, text: str) -> str:
    """The drum or vessel a sample is of, however it was named; else the lot's code."""
    code = code_in(b.state, text, "lots") if text.strip() else None
    if code is None or code.letter == "E":
        return find_source(b, text, "lots")
    lot = find_lot(b.state, text, field="lots")
    where = place_of(b, lot, "lots")
    return where if class_of(where) == DRUM else lot.code


def _sampled(b: Booking, text: str, grams: int) -> list[Taken]:
    """A sample's part from a vessel or drum, or from supers, a barrel or jars."""
    code = code_in(b.state, text, "lots") if text.strip() else None
    lot = None if code is None or code.letter == "E" else find_lot(b.state, text, field="lots")
    where = place_of(b, lot, "lots") if lot else find_source(b, text, "lots")
    if lot is None or class_of(where) in (VESSEL, DRUM):
        feed(b, where)
        _check_holds(text, b.grams_at(where), grams)
        taken = draw(b, where, grams)
        for one, part in taken:
            b.post(one, where, -part)
        return taken
    row = next(row for row in b.standing(where) if row.lot.id == lot.id)
    _check_holds(lot.code, row.grams, grams)
    b.post(lot.id, where, -grams)
    if class_of(where) == JARS:
        jars = -(-grams * row.pieces // row.grams)  # one that was opened is no jar any more
        b.pieces(lot.id, where, -jars)
        b.pieces(lot.id, SAMPLED, jars)
    b.touches(where)
    return [Taken(lot.id, grams)]


def _check_holds(code: str, there_g: int, asked_g: int) -> None:
    if there_g < asked_g:
        shown = told_apart(there_g, asked_g)
        there, asked = shown["there"], shown["asked"]
        raise Refusal(SAMPLE_TOO_BIG, field="net_g", code=code, there=there, asked=asked)


def book_hold(facts: PutOnHold, b: Booking) -> None:
    """Write down what the hold stands on; what it reaches is walked at every question."""
    check_reason(facts.reason)
    first = read_iso_day(facts.first_day, "first_day")
    last = read_iso_day(facts.last_day, "last_day")
    if last and last < first:
        raise Refusal(DAYS_BACKWARDS, field="last_day", last=say_day(last), first=say_day(first))
    target, lots = _several(facts, b) if facts.lots else _target(facts.target, b)
    value: dict[str, Json] = {
        "target": target,
        "lots": lots,
        "from": first,
        "to": last,
        "reason": facts.reason,
        "by": b.act.operator,
    }
    b.mark(f"hold/{b.entry_id}", "hold", value)
    note_sold(b, hold_from(f"hold/{b.entry_id}", value, ()))
    note_unsigned(b)


def _several(facts: PutOnHold, b: Booking) -> tuple[str, list[int]]:
    """What a hold on several lots is called by, and the lots, each once."""
    if not facts.target.strip():
        raise Refusal(NO_CAUSE, field="target")
    lots = {find_lot(b.state, code, field="lots").id for code in facts.lots}
    return facts.target.strip(), sorted(lots)


def _target(text: str, b: Booking) -> tuple[str, list[int]]:
    """The hold's target as written down, and the lots it stands on now."""
    code = code_in(b.state, text, "target") if text.strip() else None
    if code is None or code.letter in "YE":
        subject = _place_named(b, code, text)
        if class_of(subject) == YARD:
            return subject, []
        return key_of(subject), _standing_in(b, subject, contents(b, subject))
    if code.letter == "G":
        tag = find_pallet(b.state, text, "target")
        # What was on an empty pallet is meant, wherever it went.
        here = [row.lot.id for row in b.standing(tag)]
        return str(code), _standing_in(
            b, tag, here or sorted({stay.lot for stay in b.state.stays(tag, 0)})
        )
    lot = find_lot(b.state, text, field="target")
    return lot.code, [lot.id]


def _place_named(b: Booking, code: Code | None, text: str) -> str:
    if code is None:
        return find_named(b.state, (YARD, VESSEL, DRUM), text, "target")[0]
    if code.letter == "Y":
        return find_record(b.state, YARD, str(code), "target")[0]
    return find_source(b, text, "target")


def _standing_in(b: Booking, subject: str, lots: list[int]) -> list[int]:
    if not lots:
        raise Refusal(NOTHING_TO_HOLD, field="target", place=name_of(b.state, subject))
    return lots


def find_hold(b: Booking, text: str) -> Hold:
    """An open hold, by its number, its target's code, or its yard's or vessel's name."""
    wanted = text.strip().casefold()
    found = []
    for hold in open_holds(b.state):
        number = key_of(hold.subject)
        if wanted in (number.casefold(), hold.subject.casefold()):
            return hold
        names = (hold.target, key_of(hold.target), target_text(b.state, hold))
        if wanted in [name.casefold() for name in names if name]:
            found.append(hold)
    if len(found) > 1:
        numbers = " or ".join(key_of(hold.subject) for hold in found)
        raise Refusal(TWO_HOLDS, field="hold", code=text.strip(), numbers=numbers)
    if not found:
        raise _no_hold(text.strip(), b)
    return found[0]


def _no_hold(text: str, b: Booking) -> Refusal:
    """Nothing holds it; or what does stands on something that it is made of."""
    code = code_in(b.state, text, "hold") if text else None
    lot = b.state.lot_by_code(str(code)) if code else None
    held = held_among(b.state, [lot.id]) if lot else []
    if lot is None or not held:
        return Refusal(NO_OPEN_HOLD, field="hold", code=text or "that")
    targets = list(dict.fromkeys(target_text(b.state, one.hold) for one in held))
    shown = " and ".join(targets)
    return Refusal(HELD_THROUGH, field="hold", offers=targets, code=lot.code, targets=shown)


def book_clear(facts: Clear, b: Booking) -> None:
    """Freeze what was upstream, so that anything that comes upstream later holds it again."""
    check_signer(b)
    check_reason(facts.result, "result")
    second = check_second(b, facts.second)
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
    b.mark(hold.subject, f"cleared/{lot.id}", value | second)


def book_release(facts: Release, b: Booking) -> None:
    """End a hold; one on bought-in honey only with the papers it came without."""
    check_signer(b)
    check_reason(facts.reason)
    second = check_second(b, facts.second)
    hold = find_hold(b, facts.hold)
    bring_papers(b, hold, {name: getattr(facts, name) for name in PAPERS})
    b.mark(hold.subject, "released", {"reason": facts.reason, "by": b.act.operator} | second)
