"""Registers: yards, vessels, containers, products, people. Each change is the full new record."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import ClassVar

from honeyledger.domain.codes import check_prefix
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.lookup import find_record
from honeyledger.ledger.places import VESSEL, place

KINDS = {
    "house": "",
    "yard": "Y",
    "vessel": "E",
    "drum": "E",
    "operator": "O",
    "product": "",
    "customer": "",
    "supplier": "",
    "box": "",
}
MASSES = ("net_g", "tare_g", "usual_g", "limit_g", "honey_g", "capacity_g")

NO_NAME = Sentence("no-name", "Give the {kind} a name, such as it is called in the house.")
NAME_TAKEN = Sentence(
    "name-taken", "{name} is already the name of {code}. Choose another, or change that record."
)
UNKNOWN_KIND = Sentence("unknown-register", "There is no register of {kind}. There are: {known}.")
NOT_ABOVE_ZERO = Sentence(
    "not-above-zero", "{name} must be above zero grams; it is {value}. Type it again."
)
FEEDS_ITSELF = Sentence(
    "feeds-itself", "{name} cannot be fed by itself. Name the line whose honey runs into it."
)


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
    if not name:
        raise Refusal(NO_NAME, field="name", kind=facts.what)
    for mass in MASSES:
        value = record.get(mass)
        if value is not None and (not isinstance(value, int) or value < (mass != "tare_g")):
            raise Refusal(NOT_ABOVE_ZERO, field=mass, name=mass, value=value)
    if facts.what == "house":
        record["prefix"] = check_prefix(str(record.get("prefix", "")))
        b.mark("house", "record", record)
        return
    key = facts.key or _new_key(facts.what, name, b)
    _check_name_free(facts.what, name, key, b)
    if record.get("fed_by"):
        line = find_record(b.state, VESSEL, str(record["fed_by"]), "fed_by")[0]
        if line == place(VESSEL, key):
            raise Refusal(FEEDS_ITSELF, field="fed_by", name=name)
        record["fed_by"] = line.partition("/")[2]
    b.mark(place(facts.what, key), "record", record)


def _new_key(what: str, name: str, b: Booking) -> str:
    letter = KINDS[what]
    return b.new_code(letter) if letter else key_from(name)


def _check_name_free(what: str, name: str, key: str, b: Booking) -> None:
    for mark in b.state.marked("record", f"{what}/"):
        code = mark.subject.partition("/")[2]
        if code == key or not isinstance(mark.value, Mapping):
            continue
        if str(mark.value.get("name", "")).casefold() == name.casefold():
            raise Refusal(NAME_TAKEN, field="name", name=name, code=code)
