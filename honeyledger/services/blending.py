"""The sheet of a blend: each part as planned and as weighed, and what the readings say of it."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from honeyledger.domain.blend import mean_moisture
from honeyledger.domain.moments import Moment
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Entry, Json, Lot
from honeyledger.ledger.lookup import find_vessel
from honeyledger.ledger.mixing import name_of
from honeyledger.ledger.places import VESSEL, place
from honeyledger.services.holding import noun_of, reading
from honeyledger.services.store import View

_MARK = "blend/"  # as the ledger marks a vessel in which a blend was made


@dataclass(frozen=True, slots=True)
class PartRow:
    """A part of a blend; `planned_g` is None where nothing was planned.

    Args:
        share: of all that went in with it.
        moisture: its last reading, hundredths of a percent.
    """

    code: str
    noun: str
    planned_g: int | None
    net_g: int
    share: float
    moisture: int | None
    seed: bool


@dataclass(frozen=True, slots=True)
class BlendSheet:
    """One blend in a vessel.

    Args:
        moisture: of its parts by mass, hundredths of a percent; None where one was not read.
        measured: what was read of it since, by mass where several lots of it were read; `read_on`
            are those lots.
    """

    entry: int
    happened: Moment
    purpose: str
    note: str
    parts: tuple[PartRow, ...]
    moisture: int | None
    measured: int | None = None
    read_on: tuple[str, ...] = ()

    @property
    def net_g(self) -> int:
        """All that went in."""
        return sum(row.net_g for row in self.parts)

    @property
    def planned_g(self) -> int | None:
        """What was planned; of a part without a plan what went in. None where nothing was."""
        if all(row.planned_g is None for row in self.parts):
            return None
        return sum(row.net_g if row.planned_g is None else row.planned_g for row in self.parts)


@dataclass(frozen=True, slots=True)
class BlendsOf:
    """The blends made in a vessel, newest first."""

    vessel: str
    name: str
    sheets: tuple[BlendSheet, ...]


def blends_of(view: View, text: str, last: int = 0) -> BlendsOf:
    """The blends made in a vessel, those reversed left out; `last` keeps the newest so many.

    Raises:
        Refusal: there is no such vessel.
    """
    vessel = find_vessel(view, text)
    marks = [mark for mark in view.marks(vessel) if mark.name.startswith(_MARK)]
    numbers = sorted((mark.entry for mark in marks), reverse=True)
    kept = numbers[:last] if last else numbers
    # What was drawn up to the next blend in there is of this one.
    ends = dict(zip(numbers, (0, *numbers), strict=False))
    entries = [view.entry(number) for number in kept]
    sheets = [_sheet(view, vessel, one, ends[one.id]) for one in entries if one is not None]
    sheets.sort(key=lambda sheet: (-sheet.happened.at_ms, -sheet.entry))
    return BlendsOf(vessel.partition("/")[2], name_of(view, vessel), tuple(sheets))


def newest_blends(view: View, vessels: Iterable[str], since_ms: int) -> dict[str, BlendSheet]:
    """The newest blend of each of these vessels since then, by its code, where there was one."""
    lately = [
        code
        for code in vessels
        if any(
            mark.name.startswith(_MARK) and mark.at_ms >= since_ms
            for mark in view.marks(place(VESSEL, code))
        )
    ]
    return {code: blends_of(view, code, 1).sheets[0] for code in lately}


def _sheet(view: View, vessel: str, entry: Entry, end: int) -> BlendSheet:
    value = next(row[2] for row in rows_of(entry, "marks") if row[0] == vessel)
    assert isinstance(value, Mapping)
    said = value["parts"]
    assert isinstance(said, Sequence)
    total = sum(_number(part, "net_g") or 0 for part in said)
    rows = tuple(_part(view, part, total) for part in said)
    honey = [(row.net_g, row.moisture) for row in rows if row.noun != "ingredient"]
    read = _read_since(view, vessel, entry, end)
    return BlendSheet(
        entry=entry.id,
        happened=entry.act.happened,
        purpose=str(value["purpose"]),
        note=str(value.get("note", "")),
        parts=rows,
        moisture=mean_moisture(honey),
        measured=mean_moisture([(lot.made_g, moisture) for lot, moisture in read]),
        read_on=tuple(lot.code for lot, _ in read),
    )


def _read_since(view: View, vessel: str, entry: Entry, end: int) -> list[tuple[Lot, int]]:
    """What was read of a blend: of what was drawn from it, else of the drums filled with that."""
    drawn = [
        lot
        for lot in view.lots(
            {stay.lot for stay in view.stays(vessel, entry.act.happened.at_ms)}
        ).values()
        if lot.kind == "T" and lot.made_by > entry.id and not (end and lot.made_by >= end)
    ]
    children = {edge.child for edge in view.descent(sorted(lot.id for lot in drawn)) if edge.grams}
    filled = [lot for lot in view.lots(children).values() if lot.kind in "DJ"] if drawn else []
    for lots in (drawn, filled):
        read = [(lot, reading(view, lot.code, "moisture")) for lot in lots]
        known = [(lot, moisture) for lot, moisture in read if moisture is not None]
        if known:
            return known
    return []


def _part(view: View, part: Json, total: int) -> PartRow:
    lot = view.lot(_number(part, "lot") or 0)
    net_g = _number(part, "net_g") or 0
    return PartRow(
        code=lot.code,
        noun=noun_of(view, lot),
        planned_g=_number(part, "planned_g"),
        net_g=net_g,
        share=net_g / total,
        moisture=reading(view, lot.code, "moisture"),
        seed=bool(_number(part, "seed")),
    )


def _number(part: Json, name: str) -> int | None:
    value = part.get(name) if isinstance(part, Mapping) else None
    return value if isinstance(value, int) else None
