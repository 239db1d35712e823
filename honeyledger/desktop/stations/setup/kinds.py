"""From what a form of the set-up says to a record, and back."""

from collections.abc import Mapping, Sequence

from honeyledger.desktop.models.command_lines import Command
from honeyledger.desktop.stations.setup.asks import YES, Ask, SetupKind, Typing, setup_kinds, tr
from honeyledger.domain.moments import check_zone
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import MassUnit, format_mass, parse_count, parse_mass_g
from honeyledger.ledger.entry import Json
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.setup import Registered, SetupPage, new_house

NEEDS_LINE = Sentence(
    "no-line-yet",
    "There is no line called {name}. Choose one of the list, or leave it empty and add the line.",
)

NO_SUCH_VESSEL = Sentence(
    "no-such-vessel",
    "There is no vessel or line called {name}. Choose one of the list, or leave it empty.",
)


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
        typed: the facts as typed, by key.
        zone: this computer's, where none is typed.

    Raises:
        Refusal: a fact cannot be read; its field names it.
    """
    name = typed.get("name", "").strip()
    before = _known(kind, name, page)
    record: dict[str, str | int] = {
        key: value for key, value in before.record.items() if isinstance(value, str | int)
    }
    for ask in kind.asks:
        text = typed.get(ask.key, "").strip()
        if ask.key in record and text == shown(ask, record, page):
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
        return new_house(name, str(record.get("zone", zone)), prefix=prefix, unit=unit)
    return (Register(kind.register, record, before.key),)


def _known(kind: SetupKind, name: str, page: SetupPage) -> Registered:
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
        case Typing.COUNT:
            return parse_count(text, field=ask.key)
        case Typing.MASS:
            return parse_mass_g(text, page.unit, field=ask.key)
        case Typing.GRAMS:
            return parse_mass_g(text, "g", field=ask.key)
        case Typing.ZONE:
            return check_zone(text)
        case Typing.LINE:
            return _line(text, page)
        case Typing.VESSEL:
            return _vessel(text, page)
        case Typing.YES:
            return int(text == YES)
        case _:
            return text


def _line(text: str, page: SetupPage) -> str:
    for row in page.registers.get("vessel", ()):
        if text.casefold() in (row.key.casefold(), row.name.casefold()):
            return row.key
    raise Refusal(NEEDS_LINE, field="fed_by", name=text)


def _vessel(text: str, page: SetupPage) -> str:
    for row in page.registers.get("vessel", ()):
        if text.casefold() in (row.key.casefold(), row.name.casefold()):
            return row.key
    raise Refusal(NO_SUCH_VESSEL, field="at", name=text)


def shown(ask: Ask, record: Mapping[str, Json], page: SetupPage) -> str:
    """A fact of a record as it stands in its field."""
    value = record.get(ask.key, "")
    if ask.typing is Typing.MASS and isinstance(value, int):
        return format_mass(value, page.unit).removesuffix(f" {page.unit}")
    if ask.typing in (Typing.LINE, Typing.VESSEL):
        names = {row.key: row.name for row in page.registers.get("vessel", ())}
        return names.get(str(value), "")
    if ask.typing is Typing.YES:
        return YES if value else ""
    return str(value)


def next_kind(after: str, page: SetupPage) -> SetupKind | None:
    """What a house still needs after one kind was seen to; None when the first pallet can come.

    People are asked for once, behind the tank: nobody's work waits for them.
    """
    kinds = setup_kinds()
    order = [kind.key for kind in kinds]
    at = order.index(after) + 1 if after in order else 0
    for kind in (*kinds[at:], *kinds[:at]):
        wanted = kind.needed or (kind.key == "operator" and after == "tank")
        if wanted and not records_of(kind, page):
            return kind
    return None


def usual(ask: Ask, kind: SetupKind, page: SetupPage, zone: str) -> str:
    """What a new record's fact begins as."""
    if ask.typing is Typing.ZONE:
        return zone
    if ask.typing is Typing.LINE:
        lines = [row.name for row in page.registers.get("vessel", ()) if _is_line(row)]
        return lines[0] if lines else ""
    if ask.key == "name" and records_of(kind, page):
        return ""
    return ask.usual


def _is_line(row: Registered) -> bool:
    return row.record.get("sort") == "line"


def commands() -> tuple[Command, ...]:
    """What the terminal does of a house's set-up until this page does."""
    return (
        Command(
            tr("Copy the house, while others work"), "honeyledger backup house-copy.honeyledger"
        ),
        Command(tr("Check the whole ledger"), "honeyledger audit"),
        Command(
            tr("Minutes a scan may come late before reach widens"),
            "honeyledger register house change --reach-margin 60",
        ),
        Command(
            tr("What stands on jars: producer and web address"),
            'honeyledger register house change --producer "Hill House" --web https://example.com',
        ),
        Command(tr("Take in a table of yards"), "honeyledger import yards yards.csv"),
        Command(
            tr("Print on another label stock"),
            "honeyledger labels {code} -o tag.pdf --paper a4",
            "G",
        ),
        Command(tr("Put the guards back"), "honeyledger upkeep guards"),
    )
