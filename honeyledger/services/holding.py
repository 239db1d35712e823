"""What is held just now, found from the holds forward: for the line, the stations, the cards."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from honeyledger.domain.codes import LOT_LETTERS
from honeyledger.domain.moments import format_day, house_day
from honeyledger.domain.phrases import phrase
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.composite import COMPOSITE, latest
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.holds import (
    Hold,
    open_holds,
    reach_of,
    target_text,
    targets_of,
    way_of,
    way_text,
)
from honeyledger.ledger.places import UNKNOWN
from honeyledger.ledger.sources import is_unknown, sources_of
from honeyledger.services.store import View

NOT_KNOWN = phrase("source not known")


@dataclass(frozen=True, slots=True)
class HoldRow:
    """An open hold: what it stands on, why, and what of its reach is on hand.

    Args:
        number: what it is called by; `target` is the code it stands on, `name` as people say it.
        on_hand: codes of the lots it reaches that are in the house, with their grams together.
    """

    number: str
    target: str
    name: str
    first_day: str
    last_day: str
    reason: str
    on_hand: tuple[str, ...]
    grams: int


def hold_rows(view: View) -> tuple[HoldRow, ...]:
    """All open holds, oldest first.

    A yard's hold whose days were over when anything was recorded last, and that no pull came
    under, is left out: there is nothing to release.
    """
    today = last_recorded_day(view)
    held = held_lots(view)
    here = view.on_hand() if held else ()
    rows = []
    for hold in open_holds(view):
        if _is_spent(view, hold, today):
            continue
        reached = [row for row in here if hold in held.get(row.lot.id, ())]
        rows.append(
            HoldRow(
                number=hold.subject.partition("/")[2],
                target=hold.target.removeprefix("yard/"),
                name=target_text(view, hold),
                first_day=hold.first_day,
                last_day=hold.last_day,
                reason=hold.reason,
                on_hand=tuple(dict.fromkeys(row.lot.code for row in reached)),
                grams=sum(row.grams for row in reached),
            )
        )
    return tuple(sorted(rows, key=lambda row: (int(row.number.partition("-")[0]), row.number)))


def last_recorded_day(view: View) -> str:
    """The local day on which the newest entry was recorded, ISO; "" in an empty ledger."""
    newest = view.entries(last=1)
    if not newest:
        return ""
    return house_day(newest[-1].recorded_ms, rules_of(view).zone).isoformat()


def _is_spent(view: View, hold: Hold, today: str) -> bool:
    """Whether a hold's days are over and nothing came under it."""
    return bool(hold.last_day) and hold.last_day < today and not targets_of(view, hold)


def held_lots(view: View) -> dict[int, tuple[Hold, ...]]:
    """Every lot a hold reaches, with its holds; cleared lots and what follows them are free."""
    held: dict[int, tuple[Hold, ...]] = {}
    for hold in open_holds(view):
        targets = targets_of(view, hold)
        edges = view.descent(sorted(targets)) if targets else ()
        for lot in reach_of(hold, targets, edges):
            held[lot] = (*held.get(lot, ()), hold)
    return held


def hold_sentence(view: View, hold: Hold) -> str:
    """A hold in words: what it stands on and why."""
    return phrase("{target}: {reason}", target=target_text(view, hold), reason=hold.reason)


def held_sentence(view: View, lot: Lot, hold: Hold) -> str:
    """A hold in words as it reaches a lot: by which way it comes from what it stands on."""
    return sentence_by_way(view, hold, way_of(view, lot, hold))


def sentence_by_way(view: View, hold: Hold, way: Sequence[str]) -> str:
    """A hold in words with the steps of a way; without any it is told by what it stands on."""
    if not way:
        return hold_sentence(view, hold)
    return phrase(
        "{target}, by way of {way}: {reason}",
        target=target_text(view, hold),
        way=way_text(way),
        reason=hold.reason,
    )


def name_in(view: View, subject: str, default: str = "") -> str:
    """The name in a register's record, the default where there is none."""
    mark = view.mark(subject, "record")
    value = mark.value if mark else None
    return str(value.get("name", default)) if isinstance(value, Mapping) else default


def noun_of(view: View, lot: Lot) -> str:
    """What a lot is; honey that nobody can name the source of is not called a pull."""
    if is_unknown(lot) and sources_of(view, lot).get(UNKNOWN, 0) > 0:
        return NOT_KNOWN
    return str(lot.attributes.get("sort", "")) or LOT_LETTERS.get(lot.kind, "lot")


def gate_name(day: str) -> str:
    """What the farm gate of a day, ISO, is called, where a customer's name would stand."""
    return phrase("farm gate, {day}", day=format_day(date.fromisoformat(day)))


def own_reading(view: View, code: str, name: str) -> int | None:
    """The latest reading of a lot alone: what is said of it to others is never a composite's."""
    mark = view.mark(code, name)
    return mark.value if mark and isinstance(mark.value, int) else None


def values_on(view: View, name: str, codes: Collection[str]) -> dict[str, Json]:
    """What the latest mark of this name says on each of these codes, where it says anything."""
    marks = view.marked_on(name, codes)
    return {code: mark.value for code, mark in marks.items() if mark.value}


def readings(view: View, codes: Collection[str], name: str) -> dict[str, int]:
    """As `reading`, of many lots; those without one are left out."""
    found = dict(view.marked_on(name, codes))
    rest = [code for code in codes if code not in found]
    found |= view.marked_on(f"{COMPOSITE}{name}", rest)
    return {code: mark.value for code, mark in found.items() if isinstance(mark.value, int)}


def reading(view: View, code: str, name: str) -> int | None:
    """What counts of a lot: hundredths of a percent, tenths of a millimetre or degree.

    Its own latest reading, else that of a composite it has part in.
    """
    return latest(view, code, name)
