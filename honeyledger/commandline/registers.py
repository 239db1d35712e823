"""Registers: what a house knows of its yards, vessels, containers, products and people.

One table, `register_facts`, says which facts each register has; the commands are made from it.
"""

from collections.abc import Mapping
from typing import Any

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking, Recording
from honeyledger.commandline.output import Column
from honeyledger.commandline.register_facts import FACTS, TEXT, ZONE, Fact
from honeyledger.domain.label_stock import mm_text, parse_um
from honeyledger.domain.moments import check_zone
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import (
    format_mass,
    parse_coordinate,
    parse_count,
    parse_mass_g,
    parse_percent,
)
from honeyledger.ledger.entry import Json
from honeyledger.ledger.lookup import find_record
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.store import View

MINUTE_MS = 60_000
NOTHING_TO_CHANGE = Sentence(
    "nothing-to-change", "Say what is different about {name}: name at least one of its facts."
)

NOT_YES_OR_NO = Sentence(
    "yes-or-no", "{text} is neither yes nor no: say one of them for {option}."
)


HELP = {
    "yard": "Yards, where the bees stand.",
    "vessel": "Vessels and lines: extractor, sump, tanks.",
    "drum": "Containers used again and again: drums, totes, pails.",
    "product": "What is bottled: name and net content.",
    "customer": "Who honey goes to.",
    "supplier": "Who honey is bought from.",
    "box": "Box types, with their usual honey and empty weight.",
    "equipment": "What is checked: scales, refractometers, sieves, magnets.",
    "room": "Rooms of the house: hot room, drum room, store.",
    "check": "What this house checks besides, or otherwise than, the list it comes with.",
    "operator": "The people who work here.",
    "shift": "Shifts: their hours, and who is on them.",
    "order": "Orders of customers, until they are sent: the day sheet lists what is due.",
    "limit": "Limits of the house's own, over those of markets and grades.",
    "wording": "What labels say by market, besides or otherwise than shipped.",
    "stock": "Label stock of the house's own, by its sizes in mm.",
    "house": "The house itself: its name, zone, units and margins.",
}


EXAMPLES = {
    "yard": ("Mill Lane", "--colonies 24"),
    "vessel": ("Tank 2", '--fed-by "Line A"'),
    "drum": ("Drum 7", "--tare 18.2"),
    "product": ("Summer honey 340", "--net 340"),
    "customer": ("Corner shop", '--place "High Street"'),
    "supplier": ("River Bees", "--country Argentina"),
    "box": ("deep", "--honey 28 --tare 8.5"),
    "equipment": ("Drum scale", "--sort scale"),
    "room": ("Hot room", '--sort "hot room"'),
    "check": ("Pests", '--every "2 weeks"'),
    "operator": ("Ann Reed", "--role extracts"),
    "shift": ("Early", '--begins 06:00 --ends 14:00 --people "Ann Reed"'),
    "order": ("PO 118", '--customer "Corner shop" --due "30 Jul" --goods "12 drums"'),
    "limit": ("Our moisture", "--property moisture --highest 17.5"),
    "wording": ("Storage for the EU", "--market EU --item storage"),
    "stock": ("Drum roll", "--paper roll --width 105 --height 148"),
    "house": ("", "--reach-margin 30"),
}
"""A name and an option of each kind, for the help."""
PLURALS = {"box": "boxes", "equipment": "equipment", "stock": "label stock"}
VOWELS = "aeiou"


def _plural(what: str) -> str:
    return PLURALS.get(what, f"{what}s")


def _help(line: str, example: str, undo: str = "") -> str:
    """A command's help, with an example of it and how it is undone."""
    undone = f"\nUndo: {undo}" if undo else ""
    return f"{line}\n\n\b\nExample: honeyledger register {example}{undone}"


def _read(fact: Fact, text: str, desk: Desk) -> str | int:
    match fact.typed:
        case "weight":
            return desk.the_mass(text, fact.key)
        case "grams":
            return parse_mass_g(text, "g", field=fact.key)
        case "count":
            return parse_count(text, field=fact.key)
        case "minutes":
            return parse_count(text, "a number of minutes", field=fact.key) * MINUTE_MS
        case "percent":
            return round(parse_percent(text, f"the {fact.option}", field=fact.key) / 10)
        case "degrees":
            return parse_coordinate(text, "latitude" if fact.key == "latitude" else "longitude")
        case "zone":
            return check_zone(text)
        case "mm":
            return parse_um(text, fact.key)
        case "yes or no":
            return _yes(text, fact)
        case _:
            return text.strip()


def _yes(text: str, fact: Fact) -> int:
    answer = text.strip().casefold()
    if answer not in ("yes", "no"):
        raise Refusal(NOT_YES_OR_NO, field=fact.key, text=text, option=fact.option)
    return int(answer == "yes")


def _typed(what: str, given: Mapping[str, str | None], desk: Desk) -> dict[str, str | int]:
    """The facts that were typed, read."""
    record: dict[str, str | int] = {}
    for fact in FACTS[what]:
        text = given.get(fact.option.replace("-", "_"))
        if text is not None:
            record[fact.key] = _read(fact, text, desk)
    return record


def _options(what: str) -> list[click.Parameter]:
    return [
        click.Option([f"--{fact.option}"], metavar=fact.typed.upper(), help=fact.help)
        for fact in FACTS[what]
    ]


def _add(what: str) -> click.Command:
    @click.pass_obj
    def add(desk: Desk, /, name: str, **given: str | None) -> None:
        desk.record(Register(what, {"name": name, **_typed(what, given, desk)}))

    params = [click.Argument(["name"]), *_options(what)]
    name, option = EXAMPLES[what]
    text = _help(
        f"Add a record to the {_plural(what)}.",
        f'{what} add "{name}" {option}',
        "reverse the entry, while nothing uses the record.",
    )
    return Recording("add", callback=add, params=params, help=text)


def _change(what: str) -> click.Command:
    @click.pass_obj
    def change(
        desk: Desk, /, which: str = "", name: str | None = None, **given: str | None
    ) -> None:
        typed = _typed(what, given, desk)
        if name is not None:
            typed["name"] = name
        subject, record = desk.ask(lambda view: _found(view, what, which))
        if not typed:
            raise Refusal(NOTHING_TO_CHANGE, field="name", name=record.get("name", what))
        key = subject.partition("/")[2]
        desk.record(Register(what, {**_plain(record), **typed}, key))

    name = click.Option(["--name"], help="Its new name.")
    which = [] if what == "house" else [click.Argument(["which"], metavar="CODE-or-NAME")]
    article = "the" if what == "house" else "an" if what[0] in VOWELS else "a"
    noun = f"{article} {what}'s record"
    known, option = EXAMPLES[what]
    text = _help(
        f"Change {noun}.",
        f"""{what} change {f'"{known}" ' if known else ""}{option}""",
        "change it back, or reverse the entry; what it was stays on record.",
    )
    params = [*which, name, *_options(what)]
    return Recording("change", callback=change, params=params, help=text)


def _found(view: View, what: str, which: str) -> tuple[str, Mapping[str, Json]]:
    if what != "house":
        return find_record(view, what, which)
    mark = view.mark("house", "record")
    return "house", mark.value if mark and isinstance(mark.value, Mapping) else {}


def _plain(record: Mapping[str, Json]) -> dict[str, str | int]:
    return {key: value for key, value in record.items() if isinstance(value, str | int)}


def _list(what: str) -> click.Command:
    @click.pass_obj
    def show(desk: Desk, /) -> None:
        records = desk.ask(lambda view: _records(view, what))
        code = "code" if what in ("yard", "vessel", "drum", "equipment", "operator") else "key"
        facts = [fact for fact in FACTS[what] if any(fact.key in one for _, one in records)]
        columns = [Column(code), Column("name")]
        columns += [Column(fact.option, right=fact.typed not in (TEXT, ZONE)) for fact in facts]
        rows = [
            [key, str(one.get("name", "")), *(_shown(fact, one, desk) for fact in facts)]
            for key, one in records
        ]
        value = [{"code": key, **_plain(one)} for key, one in records]
        desk.answer_rows({_plural(what): value}, columns, rows, f"No {what} is registered yet.")

    listed = "Show the house's record." if what == "house" else f"List the {_plural(what)}."
    return Asking("list", callback=show, help=_help(listed, f"{what} list"))


def _records(view: View, what: str) -> list[tuple[str, Mapping[str, Json]]]:
    if what == "house":
        return [("", _found(view, what, "")[1])]
    marks = view.marked("record", f"{what}/")
    found = [
        (mark.subject.partition("/")[2], mark.value)
        for mark in marks
        if isinstance(mark.value, Mapping)
    ]
    return sorted(found, key=lambda pair: str(pair[1].get("name", "")).casefold())


def _shown(fact: Fact, record: Mapping[str, Json], desk: Desk) -> str:
    value = record.get(fact.key)
    if not isinstance(value, int):
        return "" if value is None else str(value)
    match fact.typed:
        case "weight":
            return desk.shown(value)
        case "grams":
            return format_mass(value, "g")
        case "minutes":
            return f"{value // MINUTE_MS} min"
        case "percent":
            return f"{value / 10:g} %"
        case "degrees":
            return f"{value / 10_000_000:.5f}"
        case "mm":
            return f"{mm_text(value)} mm"
        case _:
            return str(value)


def _register() -> click.Group:
    group = click.Group(
        "register",
        help="Yards, vessels, products, people: list, add, change.",
        no_args_is_help=True,
    )
    for what, text in HELP.items():
        of_kind = click.Group(what, help=text, no_args_is_help=True)
        for command in (_list(what), _change(what)):
            of_kind.add_command(command)
        if what != "house":
            of_kind.add_command(_add(what))
        group.add_command(of_kind)
    return group


register: Any = _register()
