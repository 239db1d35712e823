"""Registers: yards, vessels, containers, products, people. Each change is the full new record."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import ClassVar

from honeyledger.domain.codes import check_prefix
from honeyledger.domain.gs1 import parse_company_prefix, parse_gtin
from honeyledger.domain.label_content import check_wording
from honeyledger.domain.label_stock import check_stock
from honeyledger.domain.moments import check_zone, parse_day
from honeyledger.domain.own_rules import read_rule
from honeyledger.domain.paper_colour import (
    LEAST_PERCENT,
    SURE_PERCENT,
    contrast_percent,
    parse_paper_colour,
)
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass
from honeyledger.domain.withholding import parse_interval
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.containers import USUAL_G
from honeyledger.ledger.lookup import find_record, refuse_unknown
from honeyledger.ledger.mixing import fed_by
from honeyledger.ledger.places import CUSTOMER, DRUM, FARM_GATE, VESSEL, key_of, place
from honeyledger.ledger.stated import parts_in

KINDS = {
    "house": "",
    "yard": "Y",
    "vessel": "E",
    "drum": "E",
    "equipment": "E",
    "operator": "O",
    "product": "",
    "customer": "",
    "supplier": "",
    "box": "",
    "room": "",
    "check": "",
    "limit": "",
    "stock": "",
    "shift": "",
    "order": "",
    "wording": "",
}
MASSES = {
    "net_g": "The net content",
    "tare_g": "The tare",
    "usual_g": "The usual net weight",
    "limit_g": "The most it takes",
    "honey_g": "The usual honey of a box",
    "capacity_g": "The capacity",
}
SETTINGS = {
    "share_tolerance_permille": "The tolerance of a country's share",
    "margin_ms": "The reach margin",
    "shortfall_permille": "The largest shortfall",
    "jar_margin": "The jar margin",
    "usual_spread_permille": "The usual spread",
    "dry_first_permille": "The moisture above which honey is dried first",
    "too_wet_permille": "The moisture above which honey is too wet to sell",
    "missing_warn_permille": "The part of a recall that is missing and looked for",
    "missing_explain_permille": "The part of a recall that is missing and explained",
}

NO_NAME = Sentence("no-name", "Give the {kind} a name, such as it is called in the house.")
NAME_TAKEN = Sentence(
    "name-taken", "{name} is already the name of {code}. Choose another, or change that record."
)
UNKNOWN_KIND = Sentence("unknown-register", "There is no register of {kind}. There are: {known}.")
NOT_ABOVE_ZERO = Sentence("not-above-zero", "{name} cannot be {value}: type a weight above 0.")
NOT_A_TARE = Sentence(
    "not-a-tare", "The tare cannot be {value}: type a weight, or 0 where there is none."
)
NOT_A_SETTING = Sentence(
    "not-a-setting", "{name} cannot be {value}: type a whole number, 0 or above."
)
LIMIT_BELOW_USUAL = Sentence(
    "limit-below-usual",
    "{name} cannot take {limit} at most and usually hold {usual}. Correct one of the two.",
)
FEEDS_ITSELF = Sentence(
    "feeds-itself",
    "{name} would be fed by itself. Name the line whose honey runs into it, or none.",
)
NOT_A_TIME_OF_DAY = Sentence(
    "not-a-time-of-day", "{text} is not a time of day: type hours and minutes, such as 06:30."
)
PREFIX_PRINTED = Sentence(
    "prefix-printed",
    "Codes beginning with {prefix} have been given, so the prefix stays: labels that are printed "
    "must still be read.",
)
LITTLE_CONTRAST = Sentence(
    "little-contrast",
    "On {colour} paper black stands out by {contrast} %, and scanners want {sure}: print one "
    "label and scan it before the rest, or take white ones. Below {least} % none is printed.",
)
_TIME = re.compile(r"([01]?[0-9]|2[0-3])(?:[:.h]([0-5][0-9]))?")


@dataclass(frozen=True, slots=True)
class Register:
    """A register's record, whole. `key` names an existing one, or a new one without a code.

    Yards, vessels, containers and operators get a code; products, customers, suppliers and box
    types go by a key, made from the name where none is given.
    """

    kind: ClassVar[str] = "register"
    what: str
    record: Mapping[str, str | int] = field(default_factory=dict)
    key: str = ""


def key_from(name: str) -> str:
    """A register key from a name: lower case words joined by hyphens."""
    words = "".join(c if c.isalnum() else " " for c in name.casefold()).split()
    return "-".join(words)


def book_register(facts: Register, b: Booking) -> None:
    """Record a register's new record under its code or key."""
    if facts.what not in KINDS:
        known = ", ".join(KINDS)
        raise Refusal(UNKNOWN_KIND, field="what", kind=facts.what, known=known)
    record = dict(facts.record)
    name = str(record.get("name", "")).strip()
    if not key_from(name):
        raise Refusal(NO_NAME, field="name", kind=facts.what)
    _check_masses(record)
    if record.get("gtin"):
        parse_gtin(str(record["gtin"]))
    if record.get("claims_countries"):
        parts_in(str(record["claims_countries"]), "claims_countries")
    if facts.what == DRUM:
        _check_limit(record, name)
    if facts.what == "limit":
        read_rule(record)
    if facts.what == "stock":
        check_stock(record)
        _note_contrast(record, b)
    if facts.what == "wording":
        check_wording(record)
    if facts.what == "shift":
        _check_shift(record, b)
    if facts.what == "order":
        _check_order(record, b)
    if record.get("every"):
        parse_interval(str(record["every"]), field="every")
    if facts.what == "house":
        b.mark("house", "record", _house_record(record, b))
        return
    key = _key(facts, name, b)
    if record.get("fed_by"):
        line = find_record(b.state, VESSEL, str(record["fed_by"]), "fed_by")[0]
        if place(VESSEL, key) in (line, *fed_by(b.state, line)):
            raise Refusal(FEEDS_ITSELF, field="fed_by", name=name)
        record["fed_by"] = line.partition("/")[2]
    b.mark(place(facts.what, key), "record", record)


def _check_masses(record: Mapping[str, str | int]) -> None:
    for mass, name in MASSES.items():
        value = record.get(mass)
        if value is None or (isinstance(value, int) and value >= (mass != "tare_g")):
            continue
        if mass == "tare_g":
            raise Refusal(NOT_A_TARE, field=mass, value=value)
        raise Refusal(NOT_ABOVE_ZERO, field=mass, name=name, value=value)


def _check_limit(record: Mapping[str, str | int], name: str) -> None:
    usual, limit = record.get("usual_g", USUAL_G), record.get("limit_g")
    if isinstance(usual, int) and isinstance(limit, int) and limit < usual:
        shown = {"limit": format_mass(limit), "usual": format_mass(usual)}
        raise Refusal(LIMIT_BELOW_USUAL, field="limit_g", name=name, **shown)


def _note_contrast(record: Mapping[str, str | int], b: Booking) -> None:
    """Say of coloured label paper that codes on it may not be read."""
    colour = parse_paper_colour(str(record.get("colour", "")))
    contrast = contrast_percent(colour)
    if contrast < SURE_PERCENT:
        b.note(
            LITTLE_CONTRAST,
            colour=colour,
            contrast=contrast,
            sure=SURE_PERCENT,
            least=LEAST_PERCENT,
        )


def _check_shift(record: dict[str, str | int], b: Booking) -> None:
    """Its times are times of day, its people people of the house, kept by their codes."""
    for end in ("begins", "ends"):
        text = str(record.get(end, "")).strip()
        found = _TIME.fullmatch(text)
        if text and found is None:
            raise Refusal(NOT_A_TIME_OF_DAY, field=end, text=text)
        if found is not None:
            record[end] = f"{int(found[1]):02}:{found[2] or '00'}"
    names = [name.strip() for name in str(record.pop("people", "")).replace(";", ",").split(",")]
    people = [find_record(b.state, "operator", name, "people")[0] for name in names if name]
    if people:
        record["people"] = ", ".join(dict.fromkeys(key_of(one) for one in people))


def _check_order(record: dict[str, str | int], b: Booking) -> None:
    """Whose it is, by the register's key, and its day as the ledger keeps days."""
    customer = find_record(b.state, CUSTOMER, str(record.get("customer", "")), "customer")[0]
    record["customer"] = key_of(customer)
    if due := str(record.get("due", "")).strip():
        record["due"] = parse_day(due, b.day, field="due").isoformat()


def _house_record(record: dict[str, str | int], b: Booking) -> dict[str, str | int]:
    """The house's record; nothing in it may keep the house from working or reading its codes."""
    if record.get("zone"):
        record["zone"] = check_zone(str(record["zone"]))
    for setting, name in SETTINGS.items():
        value = record.get(setting, 0)
        if not isinstance(value, int) or value < 0:
            raise Refusal(NOT_A_SETTING, field=setting, name=name, value=value)
    record["prefix"] = check_prefix(str(record.get("prefix", "")))
    if record.get("gs1_prefix"):
        record["gs1_prefix"] = parse_company_prefix(str(record["gs1_prefix"]))
    before = b.rules.prefix
    if before and record["prefix"] != before and _has_codes(b):
        raise Refusal(PREFIX_PRINTED, field="prefix", prefix=before)
    return record


def _has_codes(b: Booking) -> bool:
    coded = [what for what, letter in KINDS.items() if letter]
    return b.state.next_lot > 1 or any(b.state.marked("record", f"{what}/") for what in coded)


def _key(facts: Register, name: str, b: Booking) -> str:
    """The code or key of the record, new where none is given; one name is one record."""
    letter = KINDS[facts.what]
    if facts.key and letter and b.state.mark(place(facts.what, facts.key), "record") is None:
        raise refuse_unknown(b.state, facts.key, "key")
    key = facts.key or ("" if letter else key_from(name))
    if facts.what == CUSTOMER and FARM_GATE in (key, key_from(name)):
        raise Refusal(NAME_TAKEN, field="name", name=name, code="the farm gate")
    for mark in b.state.marked("record", f"{facts.what}/"):
        code = mark.subject.partition("/")[2]
        if (code == key and facts.key) or not isinstance(mark.value, Mapping):
            continue
        if code == key or str(mark.value.get("name", "")).casefold() == name.casefold():
            raise Refusal(NAME_TAKEN, field="name", name=name, code=code)
    return key or b.new_code(letter)
