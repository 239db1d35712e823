"""Checks: a scale, a sieve, a magnet, or a room, a person, a delivery looked at and found right.

What is to be checked, and how often, is data of the house and its program; here is only what was
done. One that is off says since when it may have been: since it was last found right, where nobody
knows better.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.moments import format_moment, house_day, moment_at, say_day
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Json
from honeyledger.ledger.lookup import code_in, find_named, find_record
from honeyledger.ledger.places import DRUM, VESSEL, place
from honeyledger.ledger.state import Mark, State
from honeyledger.ledger.yard_log import noted, told

EQUIPMENT = "equipment"
CHECK = "check"  # the register of what a house checks, and the subject of what has no equipment
CHECKED = "check/"
RESULTS = ("ok", "off")

UNKNOWN_RESULT = Sentence("unknown-result", "{result} is no result of a check: say ok or off.")
NOTHING_CHECKED = Sentence(
    "nothing-checked", "Say what was checked, such as zero, 20 kg, or mesh."
)
OFF_SINCE_LATER = Sentence(
    "off-since-later",
    "It was found off on {found}, so it cannot have been off only since {since}. Correct the "
    "time.",
)
SINCE_LAST_GOOD = Sentence(
    "since-last-good",
    "{name} is off on {what}. It was last found right on {day}: what was done with it since is in "
    "doubt.",
)
NEVER_GOOD = Sentence(
    "never-found-right",
    "{name} is off on {what}, and was never checked before: all done with it is in doubt.",
)
SINCE_SAID = Sentence(
    "off-since-said",
    "{name} is off on {what}, by what was said since {since}: what was done with it since is in "
    "doubt.",
)


@dataclass(frozen=True, slots=True)
class Check:
    """Something is checked.

    Args:
        equipment: what, by code or name; "" where the check is of no piece of equipment.
        what: against what, or what was looked at.
        listed: which check of the house's list it is, by its key; "" for none of them.
        since_ms: found off, since when it may have been; 0: since it was last found right.
    """

    kind: ClassVar[str] = "check"
    equipment: str
    what: str
    result: str = "ok"
    value: str = ""
    note: str = ""
    listed: str = ""
    since_ms: int = 0


def book_check(facts: Check, b: Booking) -> None:
    """A dated fact of what was checked; one that is off says since when it may have been."""
    subject, name = _checked(facts, b)
    what = facts.what.strip()
    if not what:
        raise Refusal(NOTHING_CHECKED, field="what")
    if facts.result not in RESULTS:
        raise Refusal(UNKNOWN_RESULT, field="result", result=facts.result)
    value: dict[str, object] = {
        "day": b.day.isoformat(),
        "what": what,
        "result": facts.result,
        "value": facts.value,
        "note": facts.note,
    }
    if facts.listed:
        value["listed"] = facts.listed
    if facts.result != "ok":
        value["since"] = _since(facts, subject, name, what, b)
    b.mark(subject, f"{CHECKED}{b.entry_id}", value)


def _checked(facts: Check, b: Booking) -> tuple[str, str]:
    """What was checked, as marks are kept under, and what it is called."""
    if facts.listed and not facts.equipment.strip():
        return place(CHECK, facts.listed), facts.what.strip()
    subject, record = equipment_named(facts.equipment, b.state)
    return subject, str(record.get("name", ""))


def equipment_named(text: str, state: State) -> tuple[str, Mapping[str, Json]]:
    """A piece of equipment, a vessel or a container, by its code or name."""
    kinds = (EQUIPMENT, VESSEL, DRUM)
    code = code_in(state, text, "equipment") if text.strip() else None
    if code is None:
        return find_named(state, kinds, text, "equipment")
    known = [kind for kind in kinds if state.mark(place(kind, str(code)), "record")]
    return find_record(state, (known or [EQUIPMENT])[0], str(code), "equipment")


def last_good(state: State, subject: str, what: str, listed: str, before_ms: int) -> Mark | None:
    """The last time something was found right, by the same check, up to a time."""
    found = [
        mark
        for mark in noted(state, subject, CHECKED)
        if told(mark, "result") == "ok"
        and mark.at_ms <= before_ms
        and _is_same(mark, what, listed)
    ]
    return max(found, key=lambda mark: (mark.at_ms, mark.entry), default=None)


def _is_same(mark: Mark, what: str, listed: str) -> bool:
    """Whether a check was this one; of a listed check, whatever was found right without a name."""
    if listed:
        return told(mark, "listed") in (listed, "")
    return told(mark, "what").casefold() == what.casefold()


def _since(facts: Check, subject: str, name: str, what: str, b: Booking) -> int:
    """Since when it may have been off, in milliseconds; 0 for as long as it has been here."""
    zone = b.rules.zone
    if facts.since_ms > b.at_ms:
        found, since = (format_moment(moment_at(at, zone)) for at in (b.at_ms, facts.since_ms))
        raise Refusal(OFF_SINCE_LATER, field="since", found=found, since=since)
    if facts.since_ms:
        since = format_moment(moment_at(facts.since_ms, zone))
        b.note(SINCE_SAID, name=name, what=what, since=since)
        return facts.since_ms
    good = last_good(b.state, subject, what, facts.listed, b.at_ms)
    if good is None:
        b.note(NEVER_GOOD, name=name, what=what)
        return 0
    day = say_day(told(good, "day") or house_day(good.at_ms, zone).isoformat())
    b.note(SINCE_LAST_GOOD, name=name, what=what, day=day)
    return good.at_ms
