"""What the books conclude from an entry, written into its facts, and how it is carried out.

Effects are decided once, in `book`, and sealed with the entry. Carrying them out is therefore
the same thing live and in a replay: `project(entry)` needs nothing but the entry.

| effect | rows | meaning |
| --- | --- | --- |
| came, left | [place, lot] | the lot begins, or ends, to stand in the place, even at 0 g |
| washed | [place, lot] | as left, by a wash (the reach margin looks across washes) |
| arrived | [place, lot] | loaded or poured in, from which late origins follow |
| drawn | [place, lot] | the fill (or barrel) was taken out of the place |
| touched | [place] | the entry belongs to the history of this vessel or container |
| pieces | [place, lot, count] | supers or jars of the lot come to, or leave, the place |
| marks | [subject, name, value] | a dated fact: a reading, a register record, a state |
| voids | [entry, line] | origin rows that no longer count, narrowed by a named person |
| codes | [code] | codes given by this entry, never given again |
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from honeyledger.ledger.entry import Entry, Json


@dataclass(frozen=True, slots=True)
class Held:
    """Grams and pieces a lot gains at a place; the row is made if there is none."""

    place: str
    lot: int
    grams: int
    pieces: int


@dataclass(frozen=True, slots=True)
class StayBegan:
    """The lot stands in the place from `at_ms` on."""

    place: str
    lot: int
    at_ms: int
    entry: int


@dataclass(frozen=True, slots=True)
class StayEnded:
    """The open stay of the lot in the place ends."""

    place: str
    lot: int
    at_ms: int
    entry: int
    by_wash: bool


@dataclass(frozen=True, slots=True)
class Arrived:
    """The lot was put into the place, at `at_ms` (the latest it can have been)."""

    place: str
    lot: int
    at_ms: int
    entry: int


@dataclass(frozen=True, slots=True)
class Drawn:
    """The fill was taken from the place, at `at_ms` (the latest it can have been)."""

    place: str
    lot: int
    at_ms: int
    entry: int


@dataclass(frozen=True, slots=True)
class Touched:
    """The entry belongs to the place's history, at `at_ms` (the latest it can have been)."""

    place: str
    at_ms: int
    entry: int


@dataclass(frozen=True, slots=True)
class Marked:
    """A fact about a subject; the latest mark whose entry is not reversed counts."""

    subject: str
    name: str
    value: Json
    at_ms: int
    entry: int


@dataclass(frozen=True, slots=True)
class Voided:
    """One origin row no longer counts."""

    entry: int
    line: int
    by: int


@dataclass(frozen=True, slots=True)
class CodeGiven:
    """The code is given, never again."""

    code: str
    entry: int


@dataclass(frozen=True, slots=True)
class Undone:
    """Everything entry `entry` marked, began, ended or voided is as it was before it.

    Its postings are answered by the reversal's own; its origin rows are void.
    """

    entry: int
    by: int


Change: TypeAlias = (
    Held | StayBegan | StayEnded | Arrived | Drawn | Touched | Marked | Voided | CodeGiven | Undone
)


def rows_of(entry: Entry, name: str) -> Sequence[Sequence[Json]]:
    """The rows of one effect of an entry."""
    return _rows(effects_of(entry), name)


def _rows(effects: Mapping[str, Json], name: str) -> Sequence[Sequence[Json]]:
    rows = effects.get(name)
    if rows is None:
        return ()
    if type(rows) is not list:  # what is read back always is one, and asking further is slow
        assert isinstance(rows, Sequence)
        assert not isinstance(rows, str)
    return rows  # type: ignore[return-value]


def _text(value: Json) -> str:
    assert isinstance(value, str)
    return value


def _whole(value: Json) -> int:
    assert isinstance(value, int)
    return value


def effects_of(entry: Entry) -> Mapping[str, Json]:
    """The effects part of an entry's facts."""
    effects = entry.facts.get("effects", {})
    assert isinstance(effects, Mapping)
    return effects


def project(entry: Entry) -> tuple[Change, ...]:
    """What an entry changes in every projection, in the order in which to do it."""
    effects = effects_of(entry)
    changes: list[Change] = []
    if entry.reverses:
        changes.append(Undone(entry.reverses, entry.id))
    changes += _held(entry, effects)
    changes += _stays(entry, effects)
    last_ms = entry.act.happened.at_ms + entry.act.unsure_ms
    for place, lot in _rows(effects, "arrived"):
        changes.append(Arrived(_text(place), _whole(lot), last_ms, entry.id))
    for place, lot in _rows(effects, "drawn"):
        changes.append(Drawn(_text(place), _whole(lot), last_ms, entry.id))
    for (place,) in _rows(effects, "touched"):
        changes.append(Touched(_text(place), last_ms, entry.id))
    for subject, name, value in _rows(effects, "marks"):
        at_ms = entry.act.happened.at_ms
        changes.append(Marked(_text(subject), _text(name), value, at_ms, entry.id))
    for other, line in _rows(effects, "voids"):
        changes.append(Voided(_whole(other), _whole(line), entry.id))
    for (code,) in _rows(effects, "codes"):
        changes.append(CodeGiven(_text(code), entry.id))
    return tuple(changes)


def _held(entry: Entry, effects: Mapping[str, Json]) -> list[Held]:
    """One change a lot and place: an entry may pass below zero inside itself, never at its end."""
    grams: dict[tuple[str, int], int] = {}
    pieces: dict[tuple[str, int], int] = {}
    for posting in entry.postings:
        key = (posting.place, posting.lot)
        grams[key] = grams.get(key, 0) + posting.grams
    for place, lot, count in _rows(effects, "pieces"):
        key = (_text(place), _whole(lot))
        pieces[key] = pieces.get(key, 0) + _whole(count)
    keys = dict.fromkeys([*grams, *pieces])
    return [Held(*key, grams.get(key, 0), pieces.get(key, 0)) for key in keys]


def _stays(entry: Entry, effects: Mapping[str, Json]) -> list[Change]:
    """Stays end before others begin, so that a lot may leave a place and come back at once."""
    first_ms = entry.act.happened.at_ms - entry.act.unsure_ms
    last_ms = entry.act.happened.at_ms + entry.act.unsure_ms
    ended: list[Change] = [
        StayEnded(_text(place), _whole(lot), last_ms, entry.id, by_wash)
        for name, by_wash in (("left", False), ("washed", True))
        for place, lot in _rows(effects, name)
    ]
    began: list[Change] = [
        StayBegan(_text(place), _whole(lot), first_ms, entry.id)
        for place, lot in _rows(effects, "came")
    ]
    return ended + began
