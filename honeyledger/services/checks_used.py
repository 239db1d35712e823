"""What used something since it may have been off: its runs, drums and jars, and what to hold.

What a piece of equipment is part of says where its honey went. Where nobody has said it, or where
the check is of a room or of people, all that was made since is meant: wide, and told so.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from honeyledger.domain.moments import Moment, format_moment, moment_at
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.places import DRUM, VESSEL, class_of, key_of, place
from honeyledger.ledger.verbs.checks import (
    CHECK,
    CHECKED,
    EQUIPMENT,
    Check,
    equipment_named,
    last_good,
)
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.yard_log import noted, told
from honeyledger.services.holding import held_lots, name_in, noun_of
from honeyledger.services.store import View
from honeyledger.services.through import through

NOTHING_USED = Sentence(
    "nothing-used-it", "Nothing used {name} since then, so there is nothing to hold."
)
WEIGHS = {"supers": "S", "drums": "D", "jars": "J"}
ALL_MADE = "TDJKW"
_SHOWN = "SPDJKW"
_MAKERS = (
    *("receive", "purchase", "fill", "bung", "cappings", "melt", "cut", "chunk", "blend"),
    *("bottle", "sample", "change-over", "dispatch"),
)


@dataclass(frozen=True, slots=True)
class UsedRow:
    """A lot that used it; of a jar lot, which serials, first and last of each stretch."""

    code: str
    noun: str
    jars: tuple[tuple[int, int], ...]
    held: bool

    @property
    def jars_text(self) -> str:
        """The serials, as they are printed."""
        return ", ".join(f"{first:05d} to {last:05d}" for first, last in self.jars)


@dataclass(frozen=True, slots=True)
class Used:
    """What used a thing.

    Args:
        code: what a hold on all of it is called by.
        since: None for as long as it has been here.
        starts: the lots a hold stands on, by code; all others come of them.
        is_wide: all that was made since is meant, as nobody said what it is part of.
    """

    code: str
    name: str
    since: Moment | None
    runs: tuple[str, ...]
    rows: tuple[UsedRow, ...]
    starts: tuple[str, ...]
    is_wide: bool

    @property
    def free(self) -> int:
        """How many of the lots are on no hold."""
        return sum(not row.held for row in self.rows)


def used_since(view: View, facts: Check, until_ms: int) -> Used:
    """What used what a check is of, since it may have been off.

    Raises:
        Refusal: nothing is called so.
    """
    if facts.listed and not facts.equipment.strip():
        subject, record = place(CHECK, facts.listed), dict[str, Json]()
    else:
        subject, found = equipment_named(facts.equipment, view)
        record = dict(found)
    name = str(record.get("name", "")) or name_in(view, subject, facts.what or key_of(subject))
    since_ms = facts.since_ms or _last_right_ms(view, subject, facts, until_ms)
    # Another station's clock may be a little ahead of this one.
    until_ms = max(until_ms, since_ms)
    where = str(record.get("at", "")) if class_of(subject) == EQUIPMENT else ""
    if class_of(subject) in (VESSEL, DRUM):
        where = key_of(subject)
    rules = rules_of(view)
    if where:
        reach = _in_place(view, where, since_ms, until_ms)
    else:
        kinds = WEIGHS.get(str(record.get("weighs", "")), ALL_MADE)
        reach = _made_since(view, since_ms - rules.margin_ms, until_ms, kinds)
    return Used(
        code=key_of(subject),
        name=name,
        since=moment_at(since_ms, rules.zone) if since_ms else None,
        runs=reach.runs,
        rows=_rows(view, reach),
        starts=tuple(lot.code for lot in view.lots(reach.starts).values()),
        is_wide=not where and not record.get("weighs"),
    )


def hold_of(view: View, facts: Check, until_ms: int) -> PutOnHold:
    """One hold on all that used it; refused as `hold_on` is."""
    return hold_on(used_since(view, facts, until_ms), facts.what.strip())


def hold_on(used: Used, what: str) -> PutOnHold:
    """One hold on all of it; `what` is the check by which it was found off.

    Raises:
        Refusal: nothing used it.
    """
    if not used.starts:
        raise Refusal(NOTHING_USED, field="hold", name=used.name)
    since = f" since {format_moment(used.since)}" if used.since else ""
    reason = f"{used.name} found off on {what or 'a check'}{since}"
    if what == used.name:
        reason = f"{what} found off{since}"
    return PutOnHold(used.code, reason, lots=used.starts)


def _last_right_ms(view: View, subject: str, facts: Check, until_ms: int) -> int:
    """When it was last found right; by any of its checks where none is named."""
    if facts.what.strip() or facts.listed:
        good = last_good(view, subject, facts.what.strip(), facts.listed, until_ms)
        return good.at_ms if good else 0
    right = [one.at_ms for one in noted(view, subject, CHECKED) if told(one, "result") == "ok"]
    return max(right, default=0)


@dataclass(frozen=True, slots=True)
class _Reach:
    """Lots that used it themselves, all lots that were made of them, and of jars since when."""

    starts: Collection[int]
    lots: Collection[int]
    runs: tuple[str, ...]
    jars_since_ms: int | None


def _in_place(view: View, where: str, since_ms: int, until_ms: int) -> _Reach:
    """All that stood in a vessel or went through it, and what came of it."""
    found = through(view, where, since_ms, until_ms)
    lots = [row.id for row in found.forward.lots]
    starts = [lot for lot, _ in found.forward.starts]
    return _Reach(starts, lots, _runs_of(view, lots), None)


def _made_since(view: View, since_ms: int, until_ms: int, kinds: str) -> _Reach:
    """All lots of these kinds that were made meanwhile."""
    made: list[int] = []
    runs: dict[str, None] = {}
    for entry in view.entries(_MAKERS, since_ms):
        if entry.act.happened.at_ms > until_ms or view.reversed_by(entry.id):
            continue
        lots = [lot.id for lot in entry.lots if lot.kind in kinds]
        made += lots
        if lots and entry.act.run:
            runs.setdefault(entry.act.run)
    return _Reach(made, made, tuple(runs), since_ms)


def _runs_of(view: View, lots: Collection[int]) -> tuple[str, ...]:
    """The runs in which these lots were made."""
    entries = {lot.made_by for lot in view.lots(lots).values()}
    found = [view.entry(one) for one in sorted(entries)]
    return tuple(dict.fromkeys(one.act.run for one in found if one and one.act.run))


def _rows(view: View, reach: _Reach) -> tuple[UsedRow, ...]:
    """The lots as people handle them: fills of tanks are in the drums and jars made of them."""
    held = held_lots(view)
    lots = [lot for lot in view.lots(reach.lots).values() if lot.kind in _SHOWN]
    return tuple(
        UsedRow(lot.code, noun_of(view, lot), _jars(view, lot, reach), lot.id in held)
        for lot in sorted(lots, key=lambda lot: lot.id)
    )


def _jars(view: View, lot: Lot, reach: _Reach) -> tuple[tuple[int, int], ...]:
    """The serials of a jar lot that are meant; the whole lot where no counter bounds them."""
    if lot.kind != "J":
        return ()
    found: dict[tuple[int, int], None] = {}
    for mark in view.marks(place("bottling", lot.code)):
        if not mark.name.startswith("segment/") or not isinstance(mark.value, Mapping):
            continue
        fills = mark.value.get("lots", ())
        assert isinstance(fills, tuple | list)
        if reach.jars_since_ms is None:
            meant = any(int(str(fill)) in reach.lots for fill in fills)
        else:
            meant = mark.at_ms >= reach.jars_since_ms
        if meant:
            first, last = (int(str(mark.value[name])) for name in ("first", "last"))
            found.setdefault((first, last))
    return tuple(sorted(found))
