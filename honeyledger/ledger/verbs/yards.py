"""Yards by dates: supers put on, treatments, feeding, disease, certificates.

Labels, withholding times and what must be reported differ by country: the days are typed by the
person who reads the label, and the program only keeps them and holds what they put in doubt.
"""

from dataclasses import asdict, dataclass
from datetime import date, timedelta
from typing import ClassVar

from honeyledger.domain.moments import say_day
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass
from honeyledger.domain.withholding import clear_day
from honeyledger.ledger.bee_feed import feed_honey, note_fed
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.holds import ask_held
from honeyledger.ledger.lookup import code_in, find_lot, find_record, read_iso_day
from honeyledger.ledger.mixing import few, name_of
from honeyledger.ledger.packs import Asked, counted
from honeyledger.ledger.places import FED as BEES
from honeyledger.ledger.places import YARD, key_of, place
from honeyledger.ledger.signing import check_signer
from honeyledger.ledger.sources import counted_in
from honeyledger.ledger.verbs.dispatch import carry, part_of, shelf
from honeyledger.ledger.yard_log import (
    CERTIFICATE,
    DISEASE,
    FED,
    SUPERS_ON,
    TREATED,
    flag_of,
    noted,
    past_day,
    told,
    were_on,
    where_empties_went,
)

NO_PRODUCT_NAMED = Sentence(
    "no-treatment-product", "Say what the colonies were treated with, as its label calls it."
)
OUT_BEFORE_IN = Sentence(
    "out-before-in", "It cannot have come out on {last}, before it went in on {first}."
)
CLEAR_BEFORE_OUT = Sentence(
    "clear-before-out",
    "By what was typed the honey would be clear on {clear}, before the treatment was out on "
    "{last}. Read the label again.",
)
HOW_MANY_FED = Sentence(
    "how-many-fed", "Say how many {things} of {code} are given, or that all of them are."
)
FED_BY_WEIGHT = Sentence(
    "fed-by-weight",
    "Jars are counted, {source} goes by weight: type the net weight, or say that all of it goes.",
)
CERTIFICATE_BACKWARDS = Sentence(
    "certificate-backwards",
    "A certificate that is good from {first} cannot end on {last}. Read it again.",
)
NO_SUCH_TREATMENT = Sentence(
    "no-such-treatment",
    "Entry {entry} is no treatment of {yard}. Give the number of the entry that began it.",
)
FOLLOW_LABEL = Sentence(
    "follow-label", "Follow the label and your local code; the days here are as they were typed."
)
NOT_CLEAR = Sentence(
    "yard-not-clear",
    "Pulls of {yard} are held from {first} {until}: {reason}.",
)
NOTHING_FED = Sentence("nothing-fed", "Say what the colonies were fed.")
NO_SUPERS_PUT_ON = Sentence(
    "no-supers-put-on",
    "Count the supers put on {yard}: {count} is none, and there is at least one.",
)
SUPERS_TOO_EARLY = Sentence(
    "supers-too-early",
    "{yard} was treated with {product}, not clear until {clear}. Supers that go on before are "
    "against the label: what is pulled from them is to be held by name.",
)
NO_DISEASE = Sentence("no-disease", "Name the disease, or say that the flag is lifted.")
NOT_FLAGGED = Sentence("not-flagged", "{yard} is not flagged for a disease. Nothing was changed.")
REPORT_DISEASE = Sentence(
    "report-disease",
    "Bee diseases may have to be reported: follow your local law and your inspector.",
)
EMPTIES_WENT = Sentence("empties-went", "Empties of {yard} since {day} went to: {places}.")
NO_NUMBER = Sentence("no-certificate-number", "Type the certificate's number.")


@dataclass(frozen=True, slots=True)
class SupersOn:
    """Supers are put on a yard's colonies."""

    kind: ClassVar[str] = "supers on"
    yard: str
    count: int
    day: str = ""
    box: str = ""


@dataclass(frozen=True, slots=True)
class Treat:
    """A yard's colonies are treated; the days are read off the label by a person.

    Args:
        first_day: when it went in; last_day: when it came out, "" while it is in.
        clear_day: the first day on which honey may be pulled again, where the label says a day.
        interval: what the label says instead, such as "6 weeks", counted from the day it came out;
            what was said as it went in holds when it comes out.
        supers_on: whether supers were on the colonies meanwhile.
        completes: the entry that began this treatment, whose record this is, whole.
    """

    kind: ClassVar[str] = "treat"
    yard: str
    product: str
    active: str = ""
    first_day: str = ""
    last_day: str = ""
    clear_day: str = ""
    supers_on: bool | None = None
    completes: int = 0
    note: str = ""
    interval: str = ""


@dataclass(frozen=True, slots=True)
class FeedYard:
    """A yard's colonies are fed; what is given while supers are on may be in the honey.

    Args:
        source: honey of the house is given: its drum, pail or jars, or the vessel it stands in.
        whole: all of that; else `net_g` says how much, or `jars` how many (pieces of cut comb).
        despite_hold: why held honey is given, by name.
    """

    kind: ClassVar[str] = "feed"
    yard: str
    what: str = ""
    day: str = ""
    net_g: int | None = None
    supers_on: bool | None = None
    source: str = ""
    whole: bool = False
    despite_hold: str = ""
    jars: int | None = None


@dataclass(frozen=True, slots=True)
class Disease:
    """A yard is flagged for a disease, or the flag is lifted (`until`), by name."""

    kind: ClassVar[str] = "disease"
    yard: str
    disease: str = ""
    since: str = ""
    until: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Certify:
    """A certificate for moving a yard's colonies or supers."""

    kind: ClassVar[str] = "certify"
    yard: str
    number: str
    issued_by: str = ""
    first_day: str = ""
    last_day: str = ""


def book_supers_on(facts: SupersOn, b: Booking) -> None:
    """A dated fact of the yard."""
    yard, record = find_record(b.state, YARD, facts.yard)
    name = str(record.get("name", ""))
    if facts.count < 1:
        raise Refusal(NO_SUPERS_PUT_ON, field="count", yard=name, count=facts.count)
    day = past_day(b, facts.day, "day")
    if facts.box:
        find_record(b.state, "box", facts.box)
    value = {"day": day, "count": facts.count, "box": facts.box}
    b.mark(yard, f"{SUPERS_ON}{b.entry_id}", value)
    for mark in noted(b.state, yard, TREATED):
        if told(mark, "first_day") <= day < told(mark, "clear_day"):
            shown = {"product": told(mark, "product"), "clear": say_day(told(mark, "clear_day"))}
            b.note(SUPERS_TOO_EARLY, yard=name, **shown)


def book_treat(facts: Treat, b: Booking) -> None:
    """A dated fact of the yard, and a hold on the pulls it puts in doubt."""
    yard, record = find_record(b.state, YARD, facts.yard)
    if not facts.product.strip():
        raise Refusal(NO_PRODUCT_NAMED, field="product")
    number = _treatment(facts, yard, str(record.get("name", "")), b)
    first = past_day(b, facts.first_day, "first_day")
    last = read_iso_day(facts.last_day, "last_day") and past_day(b, facts.last_day, "last_day")
    interval = facts.interval.strip() or _interval_before(facts, yard, b)
    told_clear = read_iso_day(facts.clear_day, "clear_day")
    out = date.fromisoformat(last) if last else None
    clear = clear_day(out, told_clear, interval)
    if last and last < first:
        raise Refusal(OUT_BEFORE_IN, field="last_day", last=say_day(last), first=say_day(first))
    if clear and clear < (last or first):
        shown = {"clear": say_day(clear), "last": say_day(last or first)}
        raise Refusal(CLEAR_BEFORE_OUT, field="clear_day", **shown)
    on = were_on(b, yard, first, facts.supers_on)
    said = asdict(facts) | {"yard": "", "completes": 0, "supers_on": int(on)}
    said["interval"] = interval
    dated = {"first_day": first, "last_day": last, "clear_day": clear}
    b.mark(yard, f"{TREATED}{number}", {k: v for k, v in (said | dated).items() if v})
    reason = f"treated with {facts.product.strip()} on {say_day(first)}"
    if on:
        _hold_yard(b, yard, number, (first, ""), f"{reason} with supers on")
    elif clear:
        until = (date.fromisoformat(clear) - timedelta(days=1)).isoformat()
        _hold_yard(b, yard, number, (first, until), f"{reason}, not clear until {say_day(clear)}")
    else:
        _hold_yard(b, yard, number, (first, last), f"{reason}{_no_end(last, interval)}")
    b.note(FOLLOW_LABEL)


def _interval_before(facts: Treat, yard: str, b: Booking) -> str:
    """What the label said as it went in, where it says no day now."""
    begun = b.state.mark(yard, f"{TREATED}{facts.completes}") if facts.completes else None
    return told(begun, "interval") if begun and not facts.clear_day else ""


def _no_end(last: str, interval: str) -> str:
    """Why a treatment without a day it is clear holds pulls all the same."""
    if last:
        return f", out on {say_day(last)}"
    return f", not out yet, then {interval}" if interval else ", not out yet"


def _treatment(facts: Treat, yard: str, name: str, b: Booking) -> int:
    """The number a treatment goes by: that of the entry that began it."""
    if not facts.completes:
        return b.entry_id
    if b.state.mark(yard, f"{TREATED}{facts.completes}") is None:
        raise Refusal(NO_SUCH_TREATMENT, field="completes", entry=facts.completes, yard=name)
    return facts.completes


def _hold_yard(b: Booking, yard: str, number: int, days: tuple[str, str], reason: str) -> None:
    """Pulls of these days are held, those already in and those to come."""
    first, last = days
    value = {
        "target": yard,
        "lots": [],
        "from": first,
        "to": last,
        "reason": reason,
        "by": b.act.operator,
    }
    b.mark(f"hold/{number}", "hold", value)
    until = f"to {say_day(last)}" if last else "on, until someone releases them"
    b.note(
        NOT_CLEAR, yard=name_of(b.state, yard), first=say_day(first), until=until, reason=reason
    )


def book_feed(facts: FeedYard, b: Booking) -> None:
    """A dated fact of the yard; with supers on, its pulls from that day on are held."""
    yard, _ = find_record(b.state, YARD, facts.yard)
    given = facts.source.strip()
    what = facts.what.strip() or ("honey" if given else "")
    if not what:
        raise Refusal(NOTHING_FED, field="what")
    day = past_day(b, facts.day, "day")
    on = were_on(b, yard, day, facts.supers_on)
    net = facts.net_g
    if lot := _by_count(given, b):
        net = _feed_jars(facts, lot, yard, b)
    elif facts.jars is not None:
        raise Refusal(FED_BY_WEIGHT, field="jars", source=given or what)
    elif given:
        net = feed_honey(b, given, yard, net, facts.despite_hold, whole=facts.whole)
    value = {"day": day, "what": what, "net_g": net, "supers_on": int(on)}
    b.mark(yard, f"{FED}{b.entry_id}", value)
    if on:
        amount = f"{format_mass(net)} of " if net else ""
        _hold_yard(
            b, yard, b.entry_id, (day, ""), f"fed {amount}{what} on {say_day(day)} with supers on"
        )


def _by_count(given: str, b: Booking) -> Lot | None:
    """The lot of jars or comb that a code names, where it names one."""
    code = code_in(b.state, given, "source") if given else None
    return find_lot(b.state, given, "JK", "source") if code and code.letter in "JK" else None


def _feed_jars(facts: FeedYard, lot: Lot, yard: str, b: Booking) -> int:
    """Jars go by their count, and weigh their part of what stands there; the grams that went."""
    asked = counted(b, Asked(facts.source.strip(), facts.jars, facts.net_g))
    if asked.jars is None and asked.net_g is None and not facts.whole:
        raise Refusal(HOW_MANY_FED, field="jars", things=counted_in(lot), code=lot.code)
    here = shelf(b, lot)
    ask_held(b, [lot.id], facts.despite_hold, "source")
    grams, jars = part_of(lot, here, asked.jars, asked.net_g)
    carry(b, lot, here.place, place(BEES, key_of(yard)), grams, jars)
    note_fed(b, [lot.id], yard)
    return grams


def book_disease(facts: Disease, b: Booking) -> None:
    """Flag a yard, or lift its flag; where its empties went since is told."""
    yard, record = find_record(b.state, YARD, facts.yard)
    name = str(record.get("name", ""))
    check_signer(b)
    flag = flag_of(b.state, yard)
    until = read_iso_day(facts.until, "until") and past_day(b, facts.until, "until")
    if until and flag is None:
        raise Refusal(NOT_FLAGGED, field="until", yard=name)
    disease = facts.disease.strip() or (told(flag, "name") if flag and until else "")
    if not disease:
        raise Refusal(NO_DISEASE, field="disease")
    since = told(flag, "since") if flag and until else past_day(b, facts.since, "since")
    value = {"name": disease, "since": since, "until": until, "by": b.act.operator}
    b.mark(yard, DISEASE, value | {"note": facts.note})
    if until:
        return
    b.note(REPORT_DISEASE)
    if places := where_empties_went(b.state, yard, since):
        b.note(EMPTIES_WENT, yard=name, day=say_day(since), places=few(places))


def book_certify(facts: Certify, b: Booking) -> None:
    """A dated fact of the yard."""
    yard, _ = find_record(b.state, YARD, facts.yard)
    if not facts.number.strip():
        raise Refusal(NO_NUMBER, field="number")
    first = read_iso_day(facts.first_day, "first_day") or b.day.isoformat()
    last = read_iso_day(facts.last_day, "last_day")
    if last and last < first:
        raise Refusal(
            CERTIFICATE_BACKWARDS, field="last_day", last=say_day(last), first=say_day(first)
        )
    value = {"number": facts.number.strip(), "by": facts.issued_by, "from": first, "to": last}
    b.mark(yard, f"{CERTIFICATE}{b.entry_id}", value)
