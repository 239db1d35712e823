"""Columns into facts: what may stand in a table of yards or receipts, and what a row means.

Cells become whole units and moments here, and rows become the records and facts that the verbs
book. Whether yards and boxes exist is looked up in what the house knows.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from difflib import get_close_matches
from typing import Any

from honeyledger.domain.codes import NOT_A_CODE, Code, parse_code
from honeyledger.domain.moments import (
    Moment,
    check_day_not_future,
    check_not_future,
    day_of,
    format_day,
    house_day,
    parse_day,
    parse_moment,
)
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import (
    MassUnit,
    parse_colour,
    parse_coordinate,
    parse_count,
    parse_mass_g,
    parse_moisture,
    parse_temperature,
)
from honeyledger.exchange.delimited import Column, Row, Sheet
from honeyledger.ledger.verbs.dock import CONDITIONS, PALLET_TARE_G, Line, Receive

UNKNOWN_YARD = Sentence(
    "unknown-yard-in-file", "there is no yard {name} yet.{near} Register it first, or correct it."
)
UNKNOWN_BOX = Sentence(
    "unknown-box-in-file", "there is no box type {name}. Write one of {known}, or register it."
)
NOT_A_CONDITION = Sentence(
    "not-a-condition", "{text} is no condition. Write sealed, mixed or green."
)
TWICE_NAMED = Sentence(
    "yard-twice-in-file", "{name} stands in row {row} already. Keep one of them."
)
DIFFERS = Sentence(
    "pallet-differs",
    "{text} here, but {first} in row {row} for the same pallet. Write it once, in the first row.",
)
NOT_YES_OR_NO = Sentence("not-yes-or-no", "{text} is neither yes nor no. Write one of the two.")
EARLIER = Sentence(
    "pulled-after-arrival",
    "pulled on {pulled}, after it arrived on {arrived}. Correct one of them.",
)


@dataclass(frozen=True, slots=True)
class Setting:
    """What typed text is read by: the house's zone and unit, and what time it is."""

    zone: str
    now_ms: int
    unit: MassUnit = "kg"


@dataclass(frozen=True, slots=True)
class Known:
    """What the house knows by name: yards and boxes, names in lower case to codes or keys.

    Args:
        names: the yards' names as written.
        prefix: the letters in front of the house's codes.
    """

    yards: Mapping[str, str]
    boxes: Mapping[str, str]
    names: Sequence[str] = ()
    prefix: str = ""


@dataclass(frozen=True, slots=True)
class Pallet:
    """A pallet as it came: the facts, when, and what the file calls it."""

    facts: Receive
    happened: Moment
    name: str
    rows: tuple[Row, ...]


Reader = Callable[[str, str], Any]


def words(text: str, _unit: str) -> str:
    """Read text as it stands, blanks between words one each."""
    return " ".join(text.split())


def count_of(what: str, least: int = 0) -> Reader:
    """Make a reader of whole numbers."""
    return lambda text, _: parse_count(text, what, least=least)


def mass(setting: Setting) -> Reader:
    """Make a reader of weights, in the unit of the head, else the house's."""
    units: dict[str, MassUnit] = {"kg": "kg", "lb": "lb", "g": "g"}
    return lambda text, unit: parse_mass_g(text, units.get(unit, setting.unit))


def moisture(text: str, _unit: str) -> int:
    """Read a moisture into hundredths of a percent."""
    return parse_moisture(text)


def colour(text: str, _unit: str) -> int:
    """Read a Pfund reading into tenths of a millimetre."""
    return parse_colour(text)


def temperature(text: str, unit: str) -> int:
    """Read a temperature into tenths of a degree Celsius."""
    return parse_temperature(text, "F" if unit == "F" else "C")


def moment(setting: Setting) -> Reader:
    """Make a reader of dates with times, none in the future."""

    def read(text: str, _unit: str) -> Moment:
        read = parse_moment(text, setting.zone, setting.now_ms)
        check_not_future(read, setting.now_ms)
        return read

    return read


def day(setting: Setting) -> Reader:
    """Make a reader of days, none in the future."""

    def read(text: str, _unit: str) -> date:
        read = parse_day(text, house_day(setting.now_ms, setting.zone))
        check_day_not_future(read, setting.now_ms, setting.zone)
        return read

    return read


def yes_or_no(text: str, _unit: str) -> bool:
    """Read yes or no."""
    told = {"yes": True, "y": True, "x": True, "1": True, "no": False, "n": False, "0": False}
    if text.casefold() not in told:
        raise Refusal(NOT_YES_OR_NO, text=text)
    return told[text.casefold()]


def _condition(text: str, _unit: str) -> str:
    if text.casefold() not in CONDITIONS:
        raise Refusal(NOT_A_CONDITION, text=text)
    return text.casefold()


def yard_columns() -> tuple[Column, ...]:
    """Give the columns a table of yards may have."""
    return (
        Column("name", ("yard", "name", "yard name"), words, needed=True, example="a yard's name"),
        Column("number", ("number", "yard number", "no"), words),
        Column("colonies", ("colonies", "hives"), count_of("a number of colonies")),
        Column("forage", ("forage", "crop", "flow"), words),
        Column("place", ("place", "land", "district"), words),
        Column(
            "latitude", ("latitude", "lat"), lambda text, _: parse_coordinate(text, "latitude")
        ),
        Column(
            "longitude",
            ("longitude", "lon", "long"),
            lambda text, _: parse_coordinate(text, "longitude"),
        ),
        Column("owner", ("owner",), words),
        Column("note", ("note", "notes", "remarks"), words),
    )


def receipt_columns(setting: Setting) -> tuple[Column, ...]:
    """Give the columns a table of receipts may have: one row a pull, rows of a pallet together."""
    return (
        Column("pallet", ("pallet", "tag", "pallet tag"), words),
        Column(
            "arrived",
            ("arrived", "received", "when", "time"),
            moment(setting),
            needed=True,
            example="24 Jul 2026 14:30",
            perhaps=("date", "day"),
        ),
        Column("yard", ("yard", "from"), words, needed=True, example="a yard's name"),
        Column("pulled", ("pulled", "pull date"), day(setting), perhaps=("date", "day")),
        Column("crew", ("crew", "team"), words),
        Column(
            "count",
            ("supers", "count", "boxes"),
            count_of("a number of supers", 1),
            needed=True,
            example="24",
        ),
        Column("sheet", ("sheet", "pull sheet", "sheet count"), count_of("a number of supers")),
        Column("box", ("box", "box type", "size"), words),
        Column("gross_g", ("gross", "gross weight"), mass(setting)),
        Column("tare_g", ("tare", "tare weight"), mass(setting)),
        Column("condition", ("condition", "state"), _condition),
        Column("moisture", ("moisture", "water"), moisture),
        Column("owner", ("owner",), words),
    )


def yards_in(sheet: Sheet) -> list[dict[str, str | int]]:
    """Give the yards' records, in the order of the rows; doubled names are noted in the sheet."""
    first: dict[str, int] = {}
    records = []
    for row in sheet.rows:
        name = row.text("name")
        if at := first.get(name.casefold()):
            sheet.problem(row.number, "name", name, Refusal(TWICE_NAMED, name=name, row=at))
        if name:
            first.setdefault(name.casefold(), row.number)
        records.append({key: value for key, value in row.values.items() if value is not None})
    return records


def pallets_in(sheet: Sheet, known: Known) -> list[Pallet]:
    """Put the rows of each pallet together; what does not fit is noted in the sheet.

    A pallet is named by a number of the file's own, by a tag printed before, or not at all: a row
    without one is a pallet by itself.
    """
    groups: dict[str, list[Row]] = {}
    for row in sheet.rows:
        groups.setdefault(row.text("pallet").casefold() or f"row {row.number}", []).append(row)
    return [_pallet(rows, sheet, known) for rows in groups.values()]


def _pallet(rows: list[Row], sheet: Sheet, known: Known) -> Pallet:
    lines = tuple(_line(row, sheet, known) for row in rows)
    told = {
        name: _told_once(name, rows, sheet)
        for name in ("arrived", "gross_g", "tare_g", "condition", "moisture")
    }
    _check_pulled(rows, told["arrived"], sheet)
    tare = told["tare_g"]
    facts = Receive(
        lines=lines,
        gross_g=told["gross_g"],
        tare_g=PALLET_TARE_G if tare is None else tare,
        condition=told["condition"] or "sealed",
        moisture=told["moisture"],
        pallet=_tag(rows[0], sheet, known),
    )
    return Pallet(facts, told["arrived"], rows[0].text("pallet"), tuple(rows))


def _check_pulled(rows: Sequence[Row], arrived: Moment | None, sheet: Sheet) -> None:
    for row in rows:
        if arrived and row["pulled"] and row["pulled"] > day_of(arrived):
            pulled, came = format_day(row["pulled"]), format_day(day_of(arrived))
            refusal = Refusal(EARLIER, pulled=pulled, arrived=came)
            sheet.problem(row.number, "pulled", pulled, refusal)


def _tag(row: Row, sheet: Sheet, known: Known) -> str:
    """The tag's code, where the file names pallets by it; a number of its own is no tag."""
    text = row.text("pallet")
    try:
        code = parse_code(text, known.prefix) if text else None
    except Refusal as refusal:
        if refusal.sentence is not NOT_A_CODE:
            sheet.problem(row.number, "pallet", text, refusal)
        return ""
    return text if isinstance(code, Code) and code.letter == "G" else ""


def _told_once(name: str, rows: Sequence[Row], sheet: Sheet) -> Any:
    """A fact of the whole pallet: of the first row that has it, the same in any other."""
    first: Row | None = None
    for row in rows:
        if row[name] is None:
            continue
        if first is None:
            first = row
        elif row[name] != first[name]:
            here, there = _shown(row[name]), _shown(first[name])
            refusal = Refusal(DIFFERS, text=here, first=there, row=first.number)
            sheet.problem(row.number, name, here, refusal)
    return first[name] if first else None


def _shown(value: object) -> str:
    return "another time" if isinstance(value, Moment) else str(value)


def _line(row: Row, sheet: Sheet, known: Known) -> Line:
    yard, box = row.text("yard"), row.text("box") or "medium"
    code = known.yards.get(yard.casefold(), "")
    if yard and not code:
        near = get_close_matches(yard.casefold(), known.yards, n=2)
        offers = [known.yards[one] for one in near]
        named = {name.casefold(): name for name in known.names}
        meant = " or ".join(named.get(one, one) for one in near)
        sheet.problem(
            row.number,
            "yard",
            yard,
            Refusal(
                UNKNOWN_YARD, offers=offers, name=yard, near=f" Was it {meant}?" if meant else ""
            ),
        )
    if box.casefold() not in known.boxes:
        listed = ", ".join(sorted(known.boxes)) or "none so far"
        sheet.problem(row.number, "box", box, Refusal(UNKNOWN_BOX, name=box, known=listed))
    pulled = row["pulled"]
    return Line(
        yard=code,
        count=row["count"] or 0,
        box=known.boxes.get(box.casefold(), box),
        pulled=pulled.isoformat() if isinstance(pulled, date) else "",
        crew=row.text("crew"),
        sheet=row["sheet"],
        owner=row.text("owner"),
    )
