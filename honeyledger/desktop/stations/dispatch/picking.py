"""What a scan does to an open note, and what is still to pick: plain functions, no widgets."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum

from honeyledger.desktop.stations.dispatch.typed import NoteTyped, Picked, jars_of
from honeyledger.services.dispatch_page import DispatchPage
from honeyledger.services.dispatching import PRODUCT, OnShelf, Pick


class Scanned(Enum):
    """What a scan did."""

    ADDED = "added"
    ANOTHER_JAR = "another jar"
    TWICE = "twice"
    COUNTED = "counted"


@dataclass(frozen=True, slots=True)
class Rest:
    """A line of an order with what was picked for it."""

    group: str
    wanted: int
    picked: int

    @property
    def left(self) -> int:
        """How many are still to pick."""
        return max(0, self.wanted - self.picked)


def pick(note: NoteTyped, found: Pick, page: DispatchPage | None) -> tuple[NoteTyped, Scanned]:
    """The note after a scan: the same code again adds nothing."""
    before = note.find(found.row.code)
    if before is None:
        return note.with_picked(_first(note, found, page)), Scanned.ADDED
    if not found.serial:
        return note, Scanned.TWICE
    if not before.serials:
        # Counted by hand already: which jars they are nobody has said.
        return note, Scanned.COUNTED
    if found.serial in before.serials:
        return note, Scanned.TWICE
    serials = (*before.serials, found.serial)
    after = replace(before, serials=serials, jars=str(_jars(serials, before.is_span)))
    return note.with_picked(after), Scanned.ANOTHER_JAR


def _first(note: NoteTyped, found: Pick, page: DispatchPage | None) -> Picked:
    row = found.row
    if found.serial:
        return Picked(row.code, row.kind, jars="1", serials=(found.serial,))
    if row.kind == "J":
        return Picked(row.code, row.kind, jars=_suggested(note, row, page))
    if row.kind == "K" and row.jars:
        return Picked(row.code, row.kind, jars=_suggested(note, row, page) or str(row.jars))
    return Picked(row.code, row.kind)


def _suggested(note: NoteTyped, row: OnShelf, page: DispatchPage | None) -> str:
    """So many jars as the order still wants and the lot has; nothing where nothing is wanted."""
    left = sum(one.left for one in rests(note, page) if one.group == row.group)
    return str(min(left, row.jars)) if left else ""


def _jars(serials: Sequence[int], is_span: bool) -> int:
    return max(serials) - min(serials) + 1 if is_span else len(serials)


def with_span(note: NoteTyped, code: str, is_span: bool) -> NoteTyped:
    """The serials scanned are the first and the last of what goes, or the very jars."""
    before = note.find(code)
    if before is None or len(before.serials) < 2:
        return note
    jars = str(_jars(before.serials, is_span))
    return note.with_picked(replace(before, is_span=is_span, jars=jars))


def with_jars(note: NoteTyped, code: str, jars: str) -> NoteTyped:
    """Another number of jars was typed; it no longer follows from the jars scanned."""
    before = note.find(code)
    if before is None or before.jars == jars:
        return note
    return note.with_picked(replace(before, jars=jars, serials=(), is_span=False))


def with_net(note: NoteTyped, code: str, net: str) -> NoteTyped:
    """Only so much of a drum goes."""
    before = note.find(code)
    return note if before is None else note.with_picked(replace(before, net=net))


def span_of(picked: Picked) -> tuple[int, int, int]:
    """First and last serial scanned, and how many jars they and those between are."""
    first, last = min(picked.serials), max(picked.serials)
    return first, last, last - first + 1


def rests(note: NoteTyped, page: DispatchPage | None) -> tuple[Rest, ...]:
    """Each line of the order with what was picked for it."""
    done: dict[str, int] = {}
    for picked in note.picked:
        row = page.on_shelf(picked.code) if page else None
        for group, count in () if row is None else _counts(picked, row):
            done[group] = done.get(group, 0) + count
    return tuple(Rest(one.group, one.count, done.get(one.group, 0)) for one in note.wanted)


def _counts(picked: Picked, row: OnShelf) -> Sequence[tuple[str, int]]:
    """How many of which groups a pick is: jars, or one drum; of a case, what is in it."""
    if row.contents:
        return row.contents
    return ((row.group, (jars_of(picked) or 0) if row.group.startswith(PRODUCT) else 1),)


def older_left(note: NoteTyped, code: str, page: DispatchPage | None) -> tuple[OnShelf, ...]:
    """Older jars of the same product that may go and do not, though these do."""
    row = page.on_shelf(code) if page else None
    if page is None or row is None or row.kind != "J":
        return ()
    older = []
    group = page.group(row.group)
    for other in [page.by_code[one] for one in group.lots] if group else ():
        if other.made_ms >= row.made_ms:
            continue
        taken = note.find(other.code)
        if taken is None or (jars_of(taken) or 0) < other.jars:
            older.append(other)
    return tuple(older)


def grams_of(picked: Picked, row: OnShelf, net_g: int | None) -> int:
    """What a pick weighs by the books; jars weigh their part, the last ones take the rest.

    Args:
        net_g: what was typed for a part of a drum, None for all of it.
    """
    if not picked.is_counted:
        return row.grams if net_g is None else net_g
    jars = min(jars_of(picked) or 0, row.jars)
    return row.grams * jars // row.jars if row.jars else 0


def with_asked(note: NoteTyped, asked: Sequence[tuple[str, int]]) -> NoteTyped:
    """The note with these groups wanted, so many of each."""
    for group, count in asked:
        note = note.with_wanted(group, count)
    return note


def with_rest_only(note: NoteTyped, page: DispatchPage | None) -> NoteTyped:
    """A new note for what this one leaves to pick."""
    left = [(one.group, one.left) for one in rests(note, page) if one.left]
    return with_asked(NoteTyped(note.customer, note.reference), left)
