"""What stands on an open note as typed and scanned, and the facts it says once it is read.

An open note is an order and its picking: what is wanted, and what was scanned for it. It lives in
this computer's drafts until it is signed; then the ledger has it.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, replace

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import MassUnit, parse_mass_g
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.services.dispatching import parse_jars

HOW_MANY = Sentence(
    "how-many-go",
    "Say how many jars of {code} go: type a number, or cases like 24 x 12.",
)
NONE_WANTED = Sentence(
    "none-wanted", "Nothing of {name} is no order: type how many are wanted, at least 1."
)
JAR, COMB = "J", "K"
TEXTS = (
    *("customer", "reference", "carrier", "contract", "vehicle", "seals"),
    *("freight_container", "consignor", "owner"),
)
"""What is typed of a note before, and behind, what goes."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """A line of an order: what is asked for ("product/KEY", "lots/D"), and how many."""

    group: str
    count: int


@dataclass(frozen=True, slots=True)
class Picked:
    """A lot that was scanned for the note.

    Args:
        jars: as typed; of drums nothing.
        net: as typed where only a part of a drum goes; "" for all of it.
        serials: the jars that were scanned one by one.
        is_span: whether the serials are the first and the last of what goes.
    """

    code: str
    kind: str
    jars: str = ""
    net: str = ""
    serials: tuple[int, ...] = ()
    is_span: bool = False

    @property
    def is_counted(self) -> bool:
        """Whether it goes by number: jars, and pieces of comb where they are counted."""
        return self.kind == JAR or (self.kind == COMB and bool(self.jars.strip()))


@dataclass(frozen=True, slots=True)
class NoteTyped:
    """One open note. `command` is the id under which it will be recorded, once.

    `seals` are their numbers as typed, one behind the other.
    """

    customer: str = ""
    reference: str = ""
    carrier: str = ""
    wanted: tuple[Wanted, ...] = ()
    picked: tuple[Picked, ...] = ()
    command: str = ""
    contract: str = ""
    vehicle: str = ""
    seals: str = ""
    freight_container: str = ""
    consignor: str = ""
    owner: str = ""

    @property
    def is_begun(self) -> bool:
        """Whether there is anything to lose."""
        words = "".join(getattr(self, name) for name in TEXTS).strip()
        return bool(self.wanted or self.picked or words)

    def find(self, code: str) -> Picked | None:
        """What was picked of a lot; None where nothing was."""
        return next((one for one in self.picked if one.code == code), None)

    def with_picked(self, picked: Picked) -> "NoteTyped":
        """The note with this pick in the place of what was picked of its lot."""
        if self.find(picked.code) is None:
            return replace(self, picked=(*self.picked, picked))
        rows = tuple(picked if one.code == picked.code else one for one in self.picked)
        return replace(self, picked=rows)

    def without(self, code: str) -> "NoteTyped":
        """The note without a lot, or without something wanted."""
        return replace(
            self,
            picked=tuple(one for one in self.picked if one.code != code),
            wanted=tuple(one for one in self.wanted if one.group != code),
        )

    def with_wanted(self, group: str, count: int) -> "NoteTyped":
        """The note with so many of a group wanted; said again, it is said anew."""
        line = Wanted(group, count)
        if any(one.group == group for one in self.wanted):
            rows = tuple(line if one.group == group else one for one in self.wanted)
            return replace(self, wanted=rows)
        return replace(self, wanted=(*self.wanted, line))


def is_load(note: NoteTyped) -> bool:
    """Whether drums go, or something was said that is said of loads."""
    said = (note.contract, note.vehicle, note.freight_container, note.consignor, note.owner)
    return bool("".join(said).strip()) or any(not one.is_counted for one in note.picked)


def with_texts(note: NoteTyped, said: Mapping[str, str]) -> NoteTyped:
    """The note with these of its `TEXTS` typed anew."""
    now = {name: getattr(note, name) for name in TEXTS} | dict(said)
    return NoteTyped(**now, wanted=note.wanted, picked=note.picked, command=note.command)


def dispatch_facts(note: NoteTyped, unit: MassUnit) -> Dispatch:
    """The facts an open note says.

    Raises:
        Refusal: a number or a weight in it cannot be read; its field names which.
    """
    lines = tuple(line_facts(one, unit) for one in note.picked)
    return Dispatch(
        note.customer.strip(),
        lines,
        note.carrier.strip(),
        note.reference.strip(),
        contract=note.contract.strip(),
        vehicle=note.vehicle.strip(),
        seals=tuple(one.strip() for one in re.split("[,;]", note.seals) if one.strip()),
        freight_container=note.freight_container.strip(),
        consignor=note.consignor.strip(),
        owner=note.owner.strip(),
    )


def line_facts(picked: Picked, unit: MassUnit) -> DispatchLine:
    """What a pick says: a number of jars, a weight, or all of it.

    Raises:
        Refusal: the number or weight cannot be read, or a number is wanting.
    """
    if picked.is_counted:
        if not picked.jars.strip():
            raise Refusal(HOW_MANY, field="jars", code=picked.code)
        return DispatchLine(picked.code, jars=parse_jars(picked.jars))
    if picked.net.strip():
        return DispatchLine(picked.code, net_g=parse_mass_g(picked.net, unit, field="net_g"))
    return DispatchLine(picked.code)


def jars_of(picked: Picked) -> int | None:
    """How many jars are typed; None where that is no number yet."""
    try:
        return parse_jars(picked.jars)
    except Refusal:
        return None


def read_wanted(text: str, name: str) -> int:
    """How many of something are wanted.

    Raises:
        Refusal: it is no number, or none at all.
    """
    count = parse_jars(text)
    if not count:
        raise Refusal(NONE_WANTED, field="jars", name=name)
    return count


# Drafts.


def note_as_draft(note: NoteTyped) -> dict[str, object]:
    """A note as a draft keeps it."""
    return asdict(note)


def note_from_draft(kept: object) -> NoteTyped:
    """What a draft kept of a note; what it does not know stays empty."""
    if not isinstance(kept, Mapping):
        return NoteTyped()
    return NoteTyped(
        **{name: text_in(kept, name) for name in (*TEXTS, "command")},
        wanted=tuple(_wanted_from(one) for one in _rows(kept, "wanted")),
        picked=tuple(_picked_from(one) for one in _rows(kept, "picked")),
    )


def _rows(kept: Mapping[str, object], name: str) -> list[Mapping[str, object]]:
    rows = kept.get(name, ())
    if not isinstance(rows, Sequence):
        return []
    return [row for row in rows if isinstance(row, Mapping)]


def _wanted_from(row: Mapping[str, object]) -> Wanted:
    count = row.get("count", 1)
    return Wanted(text_in(row, "group"), count if isinstance(count, int) else 1)


def _picked_from(row: Mapping[str, object]) -> Picked:
    serials = row.get("serials", ())
    kept = serials if isinstance(serials, Sequence) else ()
    return Picked(
        **{name: text_in(row, name) for name in ("code", "kind", "jars", "net")},
        serials=tuple(one for one in kept if isinstance(one, int)),
        is_span=row.get("is_span") is True,
    )


def text_in(kept: Mapping[str, object], name: str) -> str:
    """A text of a draft, "" where it is none."""
    value = kept.get(name, "")
    return value if isinstance(value, str) else ""
