"""Registers: what a house knows of its yards, vessels, containers, products and people.

One table says which facts each register has; the commands are made from it.
"""

from collections.abc import Mapping
from typing import Any, NamedTuple

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking, Recording
from honeyledger.commandline.output import Column
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


class Fact(NamedTuple):
    """One fact of a register: its option, its name in the record, how it is typed, its help."""

    option: str
    key: str
    typed: str
    help: str


TEXT, MASS, GRAMS, COUNT, MINUTES, PERCENT, DEGREES, ZONE, PLACE, YES, MEASURE = (
    *("text", "weight", "grams", "count", "minutes", "percent", "degrees", "zone", "vessel"),
    *("yes or no", "mm"),
)
NUMBER = Fact("number", "number", TEXT, "The number painted on it.")
NOTE = Fact("note", "note", TEXT, "Anything worth knowing.")
WHERE = Fact("place", "place", TEXT, "Town, district or land description.")
ORGANIC = Fact("organic", "organic", YES, "yes where its honey is certified organic.")
NOT_FOR = Fact("not-for", "not_for", TEXT, "Markets its honey is not eligible for.")

FACTS: Mapping[str, tuple[Fact, ...]] = {
    "yard": (
        Fact("number", "number", TEXT, "The yard's own number."),
        Fact("colonies", "colonies", COUNT, "How many colonies stand there."),
        Fact("forage", "forage", TEXT, "What the bees work."),
        WHERE,
        Fact("region", "region", TEXT, "The region a label may name."),
        Fact("country", "country", TEXT, "Its country, where not the house's."),
        ORGANIC,
        NOT_FOR,
        Fact("latitude", "latitude", DEGREES, "Decimal degrees, north above zero."),
        Fact("longitude", "longitude", DEGREES, "Decimal degrees, east above zero."),
        Fact("owner", "owner", TEXT, "Whose bees they are, where not the house's."),
        Fact("certified", "certified", YES, "yes where moving its supers needs a certificate."),
        NOTE,
    ),
    "vessel": (
        Fact("sort", "sort", TEXT, "line, tank, sump, drainer ..."),
        Fact("fed-by", "fed_by", PLACE, "The line whose honey runs into it."),
        Fact("capacity", "capacity_g", MASS, "What it holds."),
        Fact("depth", "depth_cm", COUNT, "How deep it is inside, cm: a dip is read by it."),
        NOTE,
    ),
    "drum": (
        NUMBER,
        Fact("sort", "sort", TEXT, "drum, tote or pail."),
        Fact("tare", "tare_g", MASS, "Weight of the empty container."),
        Fact("usual", "usual_g", MASS, "Usual net content; 290 kg where nothing is said."),
        Fact("limit", "limit_g", MASS, "Most it may hold."),
        NOTE,
    ),
    "product": (
        Fact("net", "net_g", GRAMS, "Declared net content; in grams unless a unit is typed."),
        Fact("gtin", "gtin", TEXT, "Its GTIN, where it has one."),
        Fact("label", "label", TEXT, "What its label calls it, where not by its name."),
        Fact("origin", "origin", TEXT, "The origin line on its label."),
        Fact("best-before", "best_before", TEXT, "The best-before line on its label."),
        Fact("us-dual", "us_dual", YES, "yes to show ounces and pounds beside grams."),
        Fact("crop", "crop", COUNT, "The crop year its label says."),
        Fact("claims-organic", "claims_organic", YES, "yes where its label says organic."),
        Fact("claims-region", "claims_region", TEXT, "The one region its label says."),
        Fact("claims-yard", "claims_yard", TEXT, "The one yard its label says."),
        Fact("claims-floral", "claims_floral", TEXT, "The floral kind its label says."),
        Fact(
            "claims-countries",
            "claims_countries",
            TEXT,
            "The countries its label says, such as Argentina 60, Uruguay 40.",
        ),
        Fact("for-markets", "for_markets", TEXT, "Markets its jars are labelled for."),
        Fact("kinds", "kinds", TEXT, "What honey it is sold as, for limits: heather, pressed."),
        Fact("keeps", "keeps_months", COUNT, "Months from bottling to best before."),
        NOTE,
    ),
    "customer": (WHERE, NOTE),
    "supplier": (
        Fact("country", "country", TEXT, "Where its honey is from."),
        ORGANIC,
        NOT_FOR,
        WHERE,
        NOTE,
    ),
    "box": (
        Fact("honey", "honey_g", MASS, "Usual honey in a full one."),
        Fact("tare", "tare_g", MASS, "Weight of an empty one with its frames."),
        Fact("frames", "frames", COUNT, "Frames in it."),
    ),
    "equipment": (
        Fact("sort", "sort", TEXT, "scale, refractometer, sieve ..."),
        Fact("part-of", "at", PLACE, "The vessel or line it is part of, such as a sieve's."),
        Fact("weighs", "weighs", TEXT, "Of a scale: supers, drums or jars, where only those."),
        NUMBER,
        NOTE,
    ),
    "room": (Fact("sort", "sort", TEXT, "hot room, drum room, store ..."), NOTE),
    "check": (
        Fact("every", "every", TEXT, "How often, such as 2 weeks."),
        Fact("look", "look", TEXT, "What is looked at."),
        Fact("sort", "sort", TEXT, "Of which sort of equipment, each piece by itself."),
        Fact("source", "source", TEXT, "Where the interval is from."),
        Fact("left-out", "left_out", YES, "yes: this house does not make it."),
    ),
    "operator": (Fact("role", "role", TEXT, "What the person does."), NOTE),
    "shift": (
        Fact("begins", "begins", TEXT, "When it begins, such as 06:00."),
        Fact("ends", "ends", TEXT, "When it ends."),
        Fact("people", "people", TEXT, "Who is on it: names or badges, with commas between."),
        NOTE,
    ),
    "stock": (
        Fact("paper", "paper", TEXT, "a4, letter, sheet (of another size) or roll."),
        Fact("width", "width_um", MEASURE, "Width of one label, mm."),
        Fact("height", "height_um", MEASURE, "Height of one label, or its length on the roll."),
        Fact("columns", "columns", COUNT, "Labels side by side."),
        Fact("rows", "rows", COUNT, "Labels one under another."),
        Fact("left", "left_um", MEASURE, "Margin at the left of the sheet."),
        Fact("top", "top_um", MEASURE, "Margin at the top of the sheet."),
        Fact("gap-across", "gap_x_um", MEASURE, "Gap between columns."),
        Fact("gap-down", "gap_y_um", MEASURE, "Gap between rows."),
        Fact("sheet-width", "sheet_width_um", MEASURE, "Of a sheet of another size: its width."),
        Fact("sheet-height", "sheet_height_um", MEASURE, "Its height."),
        NOTE,
    ),
    "house": (
        Fact("zone", "zone", ZONE, "Time zone, such as Europe/Berlin."),
        Fact("prefix", "prefix", TEXT, "Two or three letters in front of every code."),
        Fact("weighs-in", "unit", TEXT, "kg or lb."),
        Fact("reach-margin", "margin_ms", MINUTES, "Minutes a scan may come late; 60 at first."),
        Fact("jar-margin", "jar_margin", COUNT, "Jars a change-over may be off; 24 at first."),
        Fact(
            "tolerance", "usual_spread_permille", PERCENT, "What a run may be out by; 6 at first."
        ),
        Fact("shortfall", "shortfall_permille", PERCENT, "What books may lack; 20 at first."),
        Fact("dry-first", "dry_first_permille", PERCENT, "Honey above is dried; 18 at first."),
        Fact("too-wet", "too_wet_permille", PERCENT, "Honey above is not sold; 20 at first."),
        Fact("markets", "markets", TEXT, "Markets it sells in; limits of others are not shown."),
        Fact(
            "share-tolerance",
            "share_tolerance_permille",
            PERCENT,
            "What a country's share on a label may be off; 5 at first.",
        ),
        Fact(
            "share-tolerance-relative",
            "share_tolerance_relative",
            YES,
            "yes where that is of the share, not in points of percent.",
        ),
        Fact("two-free", "two_free", YES, "yes: two people clear and release what is on hold."),
        Fact("producer", "producer", TEXT, "Who answers for a jar, as on its label."),
        Fact("web", "web", TEXT, "Web address carried in the QR of jars, such as https://..."),
        Fact("country", "country", TEXT, "Where its honey is from."),
        WHERE,
    ),
}
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
