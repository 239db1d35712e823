"""From what a form of the set-up says to a record, and back."""

from collections.abc import Mapping, Sequence

from honeyledger.desktop.stations.setup.asks import YES, Ask, SetupKind, Typing
from honeyledger.domain.label_stock import mm_text, parse_um
from honeyledger.domain.moments import check_zone
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import (
    MassUnit,
    format_mass,
    parse_coordinate,
    parse_count,
    parse_mass_g,
    parse_percent,
)
from honeyledger.ledger.entry import Json
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.setup import new_house
from honeyledger.services.setup_page import Registered, SetupPage

MINUTE_MS = 60_000
DEGREE = 10_000_000
NEEDS_LINE = Sentence(
    "no-line-yet",
    "There is no line called {name}. Choose one of the list, or leave it empty and add the line.",
)

NO_SUCH_VESSEL = Sentence(
    "no-such-vessel",
    "There is no vessel or line called {name}. Choose one of the list, or leave it empty.",
)
_NEW_HOUSE = ("name", "zone", "unit", "prefix")


def records_of(kind: SetupKind, page: SetupPage) -> tuple[Registered, ...]:
    """The records of one kind; the house's own counts as one."""
    if kind.key == "house":
        return (Registered("", page.house),) if page.house else ()
    rows = page.registers.get(kind.register, ())
    if kind.register != "vessel":
        return rows
    is_line = kind.sort == "line"
    return tuple(row for row in rows if _is_line(row) == is_line)


def facts_of(
    kind: SetupKind, typed: Mapping[str, str], page: SetupPage, zone: str
) -> Sequence[Register]:
    """The facts the form says: a new record, or the whole of a changed one.

    Args:
        typed: the facts as typed, by key; one that is not there stays as it is.
        zone: this computer's, where none is typed.

    Raises:
        Refusal: a fact cannot be read; its field names it.
    """
    name = typed.get("name", "").strip()
    before = known(kind, name, page)
    record: dict[str, str | int] = {
        key: value for key, value in before.record.items() if isinstance(value, str | int)
    }
    for ask in kind.asks:
        if ask.key not in typed:
            continue
        text = typed[ask.key].strip()
        if text == (shown(ask, record, page) if ask.key in record else ask.default):
            continue  # What is shown may be rounded; untouched, it stays as it is kept.
        value = _read(ask, text, page)
        if value == "" or (ask.typing is Typing.YES and not value and ask.key not in record):
            record.pop(ask.key, None)
        else:
            record[ask.key] = value
    if kind.sort:
        record["sort"] = kind.sort
    if kind.key == "house" and not page.house:
        unit: MassUnit = "lb" if record.get("unit") == "lb" else "kg"
        prefix = str(record.get("prefix", ""))
        more = {key: value for key, value in record.items() if key not in _NEW_HOUSE}
        own_zone = str(record.get("zone", zone))
        return new_house(name, own_zone, prefix=prefix, unit=unit, more=more)
    return (Register(kind.register, record, before.key),)


def known(kind: SetupKind, name: str, page: SetupPage) -> Registered:
    """The record of that name, to be changed; the house has one only."""
    if kind.key == "house":
        return Registered("", page.house)
    for row in records_of(kind, page):
        if row.name.casefold() == name.casefold():
            return row
    return Registered("", {})


def _read(ask: Ask, text: str, page: SetupPage) -> str | int:
    if not text:
        return ""
    match ask.typing:
        case Typing.ZONE:
            return check_zone(text)
        case Typing.LINE:
            return _vessel(text, page, Refusal(NEEDS_LINE, field=ask.key, name=text))
        case Typing.VESSEL:
            return _vessel(text, page, Refusal(NO_SUCH_VESSEL, field=ask.key, name=text))
        case Typing.YES:
            return int(text == YES)
        case Typing.MEASURE:
            return parse_um(text, ask.key)
        case _:
            return _number(ask, text, page)


def _number(ask: Ask, text: str, page: SetupPage) -> str | int:
    match ask.typing:
        case Typing.COUNT:
            return parse_count(text, field=ask.key)
        case Typing.MASS:
            return parse_mass_g(text, page.unit, field=ask.key)
        case Typing.GRAMS:
            return parse_mass_g(text, "g", field=ask.key)
        case Typing.MINUTES:
            return parse_count(text, "a number of minutes", field=ask.key) * MINUTE_MS
        case Typing.PERCENT:
            return round(parse_percent(text, field=ask.key) / 10)
        case Typing.DEGREES:
            return parse_coordinate(text, "latitude" if ask.key == "latitude" else "longitude")
        case _:
            return text


def _vessel(text: str, page: SetupPage, refusal: Refusal) -> str:
    for row in page.registers.get("vessel", ()):
        if text.casefold() in (row.key.casefold(), row.name.casefold()):
            return row.key
    raise refusal


def shown(ask: Ask, record: Mapping[str, Json], page: SetupPage) -> str:
    """A fact of a record as it stands in its field."""
    value = record.get(ask.key, "")
    match ask.typing:
        case Typing.LINE | Typing.VESSEL:
            names = {row.key: row.name for row in page.registers.get("vessel", ())}
            return names.get(str(value), "")
        case Typing.YES:
            return YES if value else ""
        case Typing.PEOPLE:
            names = {row.key: row.name for row in page.registers.get("operator", ())}
            codes = [code for code in str(value).split(", ") if code]
            return ", ".join(names.get(code, code) for code in codes)
        case _:
            return shown_number(ask, value, page.unit) if isinstance(value, int) else str(value)


def shown_number(ask: Ask, value: int, unit: MassUnit) -> str:
    """A number of a record as it is typed, without its unit."""
    match ask.typing:
        case Typing.MASS:
            return format_mass(value, unit).removesuffix(f" {unit}")
        case Typing.MINUTES:
            return str(value // MINUTE_MS)
        case Typing.PERCENT:
            return f"{value / 10:g}"
        case Typing.DEGREES:
            return f"{value / DEGREE:.5f}"
        case Typing.MEASURE:
            return mm_text(value)
        case _:
            return str(value)


def usual(ask: Ask, kind: SetupKind, page: SetupPage, zone: str) -> str:
    """What a new record's fact begins as."""
    if ask.typing is Typing.ZONE:
        return zone
    if ask.typing is Typing.LINE:
        lines = [row.name for row in page.registers.get("vessel", ()) if _is_line(row)]
        return lines[0] if lines else ""
    if ask.key == "name" and records_of(kind, page):
        return ""
    return ask.usual or ask.default


def _is_line(row: Registered) -> bool:
    return row.record.get("sort") == "line"
