"""The dock: what arrived today, the yard in hand, and what there is to choose from."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from honeyledger.domain.moments import house_day
from honeyledger.domain.phrases import phrase
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.entry import Entry, Json, Lot
from honeyledger.ledger.places import PALLET, YARD, class_of, key_of, place
from honeyledger.ledger.sources import sources_of
from honeyledger.ledger.wetness import dry_first_over, limit_words
from honeyledger.services.holding import held_lots, hold_sentence, name_in, reading
from honeyledger.services.line import day_start_ms
from honeyledger.services.store import View


@dataclass(frozen=True, slots=True)
class Choice:
    """Something of a register to choose from."""

    code: str
    name: str
    detail: str = ""


@dataclass(frozen=True, slots=True)
class Arrival:
    """A pull that arrived: masses in grams, moisture in hundredths of a percent.

    `state` is "ready", "dry first", "green", "count off" or "hold"; `reason` says why in words.
    `sheet` is the count on the pull sheet, 0 where none was said; `pulled` an ISO day.
    """

    entry: int
    pull: str
    pallet: str
    state: str
    reason: str
    yard: str
    at_ms: int
    supers: int
    grams: int
    moisture: int | None
    weighed: bool
    sheet: int = 0
    crew: str = ""
    box: str = ""
    pulled: str = ""


@dataclass(frozen=True, slots=True)
class DockDay:
    """Today's arrivals, newest first, with their totals and the count against the pull sheets."""

    arrivals: tuple[Arrival, ...]
    supers: int
    grams: int
    moisture: int | None
    sheet_supers: int
    last: Mapping[str, Json] | None


@dataclass(frozen=True, slots=True)
class YardSeason:
    """What a yard has given this season."""

    code: str
    name: str
    colonies: int
    pulls: int
    supers: int
    grams: int
    moisture: int | None
    colour: int | None


def choices(view: View, kind: str) -> tuple[Choice, ...]:
    """All records of a register, by name."""
    rows = []
    for mark in view.marked("record", f"{kind}/"):
        if isinstance(mark.value, Mapping):
            record = mark.value
            colonies = record.get("colonies")
            detail: str = str(record.get("number", ""))
            if colonies:
                detail = phrase("{n} colonies", n=colonies)
            rows.append(Choice(key_of(mark.subject), str(record.get("name", "")), detail))
    return tuple(sorted(rows, key=lambda row: row.name.casefold()))


def dock_day(view: View, now_ms: int) -> DockDay:
    """What arrived on the house's local day."""
    since_ms = day_start_ms(view, now_ms)
    entries = [
        entry for entry in view.entries(["receive"], since_ms) if not view.reversed_by(entry.id)
    ]
    held = held_lots(view)
    reasons = {lot: hold_sentence(view, holds[0]) for lot, holds in held.items()}
    rows = [
        _arrival(view, entry, lot, reasons.get(lot.id)) for entry in entries for lot in entry.lots
    ]
    rows.sort(key=lambda row: (-row.at_ms, -row.entry, row.pull))
    return DockDay(
        arrivals=tuple(rows),
        supers=sum(row.supers for row in rows),
        grams=sum(row.grams for row in rows),
        moisture=_mean(rows),
        sheet_supers=sum(_sheet(entry) for entry in entries),
        last=_said(entries[-1]) if entries else None,
    )


def _arrival(view: View, entry: Entry, lot: Lot, held: str | None) -> Arrival:
    moisture = reading(view, lot.code, "moisture")
    pallet = next(
        (
            key_of(p.place)
            for p in entry.postings
            if p.lot == lot.id and class_of(p.place) == PALLET
        ),
        "",
    )
    condition = view.mark(place(PALLET, pallet), "condition")
    state, reason = phrase("ready"), ""
    if held:
        state, reason = phrase("hold"), held
    elif moisture is not None and moisture > dry_first_over(view):
        state, reason = (
            phrase("dry first"),
            phrase("above {limit}", limit=limit_words(dry_first_over(view))),
        )
    elif condition and condition.value == "green" and moisture is None:
        state, reason = phrase("green"), phrase("moisture not read")
    line = _line_of(entry, lot)
    supers, sheet = _whole(lot.attributes, "count"), _whole(line, "sheet")
    if sheet and sheet != supers and state == "ready":
        state, reason = phrase("count off"), phrase("{n} on its sheet", n=sheet)
    return Arrival(
        entry=entry.id,
        pull=lot.code,
        pallet=pallet,
        state=state,
        reason=reason,
        yard=name_in(view, place(YARD, str(lot.attributes.get("yard", "")))),
        at_ms=entry.act.happened.at_ms,
        supers=supers,
        grams=lot.made_g,
        moisture=moisture,
        weighed=lot.attributes.get("basis") == "weighed",
        sheet=sheet,
        crew=str(line.get("crew", "")),
        box=str(lot.attributes.get("box", "")),
        pulled=str(lot.attributes.get("pulled", "")),
    )


def _line_of(entry: Entry, lot: Lot) -> Mapping[str, Json]:
    """What was said of the yard a pull is from: a receipt's lines and its lots are in order."""
    lines = _said(entry).get("lines", ())
    assert isinstance(lines, Sequence)
    at = [one.id for one in entry.lots].index(lot.id)
    line = lines[at] if len(lines) == len(entry.lots) else {}
    return line if isinstance(line, Mapping) else {}


def supers_on_sheet(view: View, lot: Lot) -> int:
    """How many supers the pull sheet of a pull says; what was counted where none was said."""
    entry = view.entry(lot.made_by)
    said = _whole(_line_of(entry, lot), "sheet") if entry and entry.kind == "receive" else 0
    return said or _whole(lot.attributes, "count")


def _mean(rows: Sequence[Arrival]) -> int | None:
    """Mean moisture by mass of what was read."""
    read = [(row.moisture, row.grams) for row in rows if row.moisture is not None]
    total = sum(grams for _, grams in read)
    return sum(moisture * grams for moisture, grams in read) // total if total else None


def _said(entry: Entry) -> Mapping[str, Json]:
    said = entry.facts.get("said", {})
    assert isinstance(said, Mapping)
    return said


def _sheet(entry: Entry) -> int:
    lines = _said(entry).get("lines", ())
    assert isinstance(lines, Sequence)
    return sum(_whole(line, "sheet") or _whole(line, "count") for line in lines)


def _whole(values: object, name: str) -> int:
    value = values.get(name, 0) if isinstance(values, Mapping) else 0
    return value if isinstance(value, int) else 0


def yard_season(view: View, code: str, now_ms: int) -> YardSeason:
    """A yard's figures over the pulls of this season."""
    year = house_day(now_ms, rules_of(view).zone).year
    where = place(YARD, code)
    mark = view.mark(where, "record")
    record = mark.value if mark and isinstance(mark.value, Mapping) else {}
    # A receipt that was reversed, and a pull amended to another yard, gave nothing from here.
    given = [
        (lot, grams)
        for lot in view.source_lots(where)
        if lot.season == year and (grams := sources_of(view, lot)[where]) > 0
    ]
    read = {
        name: [
            (value, grams)
            for lot, grams in given
            if (value := reading(view, lot.code, name)) is not None
        ]
        for name in ("moisture", "colour")
    }
    return YardSeason(
        code=code,
        name=str(record.get("name", "")),
        colonies=_whole(record, "colonies"),
        pulls=len(given),
        supers=sum(_whole(lot.attributes, "count") for lot, _ in given),
        grams=sum(grams for _, grams in given),
        moisture=_by_mass(read["moisture"]),
        colour=_by_mass(read["colour"]),
    )


def _by_mass(rows: Sequence[tuple[int, int]]) -> int | None:
    total = sum(grams for _, grams in rows)
    return sum(value * grams for value, grams in rows) // total if total else None
