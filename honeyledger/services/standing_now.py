"""What there is at each place of the house just now, as plain rows: jars.

These are the tables of the stations, and what a person looks for first in each of them.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from honeyledger.domain.moments import day_of, house_day
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.entry import Entry, Json
from honeyledger.ledger.places import (
    CUSTOMER,
    FILLING,
    GATE,
    JARS,
    VESSEL,
    class_of,
    key_of,
    place,
)
from honeyledger.services.holding import held_lots
from honeyledger.services.line import DAY_MS, day_start_ms
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View

DAYS = 14


@dataclass(frozen=True, slots=True)
class JarsNow:
    """A jar lot on hand: `state` is "ready" or "hold"; one still open is "being bottled"."""

    code: str
    product: str
    state: str
    jars: int
    grams: int


@dataclass(frozen=True, slots=True)
class DayNow:
    """What a day did, in grams at each step; supers and jars by count."""

    day: date
    supers: int
    received: int
    loaded: int
    drummed: int
    jars: int
    sent: int


def _whole(record: Mapping[str, Json], name: str) -> int:
    value = record.get(name, 0)
    return value if isinstance(value, int) else 0


def jars_now(view: View) -> tuple[JarsNow, ...]:
    """Bottlings still open, then the jars on hand by product, held ones first."""
    held = held_lots(view)
    names = PlaceNames(view)
    rows = []
    for row in view.on_hand([JARS]):
        product = str(row.lot.attributes.get("product", ""))
        state = "hold" if row.lot.id in held else "ready"
        name = names.of_record(f"product/{product}") if product else ""
        rows.append(JarsNow(row.lot.code, name, state, row.pieces, row.grams))
    filling: dict[str, tuple[int, int]] = {}
    for row in view.on_hand([FILLING]):
        jars, grams = filling.get(row.place, (0, 0))
        filling[row.place] = (jars + row.pieces, grams + row.grams)
    for where, (jars, grams) in filling.items():
        mark = view.mark(place("bottling", key_of(where)), "open")
        record = mark.value if mark and isinstance(mark.value, Mapping) else {}
        name = names.of_record(f"product/{record.get('product', '')}")
        rows.append(JarsNow(key_of(where), name, "being bottled", jars, grams))
    order = {"being bottled": 0, "hold": 1}
    return tuple(
        sorted(rows, key=lambda row: (order.get(row.state, 2), row.product.casefold(), row.code))
    )


def days_now(view: View, now_ms: int) -> tuple[DayNow, ...]:
    """The last fortnight, newest day first; days without work are left out."""
    since_ms = day_start_ms(view, now_ms) - (DAYS - 1) * DAY_MS
    found: dict[date, list[Entry]] = {}
    for entry in view.entries(since_ms=since_ms):
        day = day_of(entry.act.happened)
        if not entry.reverses and not view.reversed_by(entry.id):
            found.setdefault(day, []).append(entry)
    first = house_day(now_ms, rules_of(view).zone) - timedelta(days=DAYS - 1)
    rows = [_day(day, entries) for day, entries in found.items() if day >= first]
    return tuple(sorted((row for row in rows if _worked(row)), key=lambda row: row.day)[::-1])


def _worked(row: DayNow) -> bool:
    return any((row.supers, row.received, row.loaded, row.drummed, row.jars, row.sent))


def _day(day: date, entries: list[Entry]) -> DayNow:
    made = [(entry.kind, lot) for entry in entries for lot in entry.lots]
    pulls = [lot for kind, lot in made if kind == "receive"]
    return DayNow(
        day=day,
        supers=sum(_whole(lot.attributes, "count") for lot in pulls),
        received=sum(lot.made_g for lot in pulls),
        loaded=_came([entry for entry in entries if entry.kind == "load"], VESSEL),
        drummed=sum(lot.made_g for kind, lot in made if lot.kind == "D" and kind != "amend"),
        jars=sum(_whole(lot.attributes, "jars") for _, lot in made if lot.kind == "J"),
        sent=_came([entry for entry in entries if entry.kind == "dispatch"], CUSTOMER, GATE),
    )


def _came(entries: list[Entry], *classes: str) -> int:
    """Grams that came to places of these classes."""
    return sum(
        posting.grams
        for entry in entries
        for posting in entry.postings
        if class_of(posting.place) in classes and posting.grams > 0
    )
