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

from collections.abc import Container, Iterable, Mapping, Sequence
from typing import Any, NamedTuple, TypeAlias

from honeyledger.ledger.entry import Entry, Json

Row: TypeAlias = tuple[Any, ...]

BY_WASH, TOUCHED_AS_ENDED = 1, 2
TOUCHED_AS_BEGAN, ARRIVED_AS_BEGAN, DRAWN_AS_BEGAN = 4, 8, 16
"""What a stay tells besides, as bits: that a wash ended it; that its place was touched as it
ended, or began; that its lot arrived, or was drawn for the first time, as it began. Most entries
that touch a place begin or end a stay there, and what a stay tells has no row of its own."""
TOLD_AS_ENDED = BY_WASH | TOUCHED_AS_ENDED
"""The bits that go again where a stay's end is taken back."""


class Changes(NamedTuple):
    """What an entry changes in every projection, in the order in which to do it.

    Plain rows, their columns as the projections keep them: an audit makes millions. Where the
    time is unsure, a stay begins at the earliest it can have been; what ends, comes and goes,
    does so at the latest.
    """

    undone: int
    """The entry that this one takes back, or 0: what it marked, began, ended or voided is as it
    was before it. Its postings are answered by the reversal's own; its origin rows are void."""
    held: list[Row]
    """(place, lot, grams, pieces) gained by a lot at a place; a row is made if there is none."""
    ended: list[Row]
    """(place, lot, at_ms, entry, told): the open stay of the lot in the place ends."""
    began: list[Row]
    """(place, lot, entry, at_ms, told): the lot stands in the place."""
    arrived: list[Row]
    """(place, at_ms, lot, entry): the lot was put into the place, and no stay tells it."""
    drawn: list[Row]
    """(place, at_ms, lot, entry): the fill was taken from the place, and no stay tells it."""
    touched: list[Row]
    """(place, entry, at_ms): the entry belongs to the place's history. That it put a lot there,
    or took one, says so already, as a stay does that tells it; it is not said twice."""
    marks: list[Row]
    """(subject, name, entry, at_ms, value); the latest whose entry is not reversed counts."""
    voids: list[Row]
    """(entry, line, by): an origin row no longer counts."""
    codes: list[Row]
    """(code, entry): the code is given, never again."""


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


def effects_of(entry: Entry) -> Mapping[str, Json]:
    """The effects part of an entry's facts."""
    effects = entry.facts.get("effects", {})
    assert isinstance(effects, Mapping)
    return effects


def project(entry: Entry) -> Changes:
    """What an entry changes in every projection; it needs nothing but the entry."""
    act = entry.act
    return changes(
        entry.id,
        entry.reverses,
        (act.happened.at_ms, act.unsure_ms),
        ((one.lot, one.place, one.grams) for one in entry.postings),
        effects_of(entry),
    )


def changes(
    number: int,
    reverses: int,
    time: tuple[int, int],
    postings: Iterable[tuple[int, str, int]],
    effects: Mapping[str, Json],
) -> Changes:
    """As `project`, from the parts of an entry that matter.

    Args:
        time: when it happened, and how far that may be off.
        postings: lot, place, grams.
    """
    at_ms, unsure_ms = time
    first_ms, last_ms = at_ms - unsure_ms, at_ms + unsure_ms
    arrived, drawn = _pairs(effects, "arrived"), _pairs(effects, "drawn")
    moved = {place for pairs in (arrived, drawn) for place, _ in pairs}
    touched = [place for (place,) in _rows(effects, "touched") if place not in moved]
    touches = moved.union(touched)
    # Stays end before others begin, so that a lot may leave a place and come back at once.
    ended: list[Row] = [
        (place, lot, last_ms, number, told | TOUCHED_AS_ENDED * (place in touches))
        for name, told in (("left", 0), ("washed", BY_WASH))
        for place, lot in _rows(effects, name)
    ]
    came = [(place, lot) for place, lot in _rows(effects, "came")]
    # A stay that may have begun earlier than the rest happened does not tell when that was.
    telling = () if unsure_ms else set(came)
    began: list[Row] = [
        (*pair, number, first_ms, _told(pair, touches, arrived, drawn) if telling else 0)
        for pair in came
    ]
    known = {row[0] for rows in (ended, telling) for row in rows}
    return Changes(
        reverses,
        _held(postings, _rows(effects, "pieces")),
        ended,
        began,
        [(place, last_ms, lot, number) for place, lot in arrived if (place, lot) not in telling],
        [(place, last_ms, lot, number) for place, lot in drawn if (place, lot) not in telling],
        _once([(place, number, last_ms) for place in touched if place not in known]),
        _marks(number, at_ms, _rows(effects, "marks")),
        _once([(other, line, number) for other, line in _rows(effects, "voids")]),
        [(code, number) for (code,) in _rows(effects, "codes")],
    )


def _pairs(effects: Mapping[str, Json], name: str) -> dict[tuple[Any, Any], None]:
    """The rows of a place and a lot, each once, in their order."""
    return dict.fromkeys([(place, lot) for place, lot in _rows(effects, name)])


def _told(
    pair: Row, touches: Container[Any], arrived: Container[Row], drawn: Container[Row]
) -> int:
    """What a stay tells that begins at the time of all else."""
    return (
        TOUCHED_AS_BEGAN * (pair[0] in touches)
        | ARRIVED_AS_BEGAN * (pair in arrived)
        | DRAWN_AS_BEGAN * (pair in drawn)
    )


def _held(postings: Iterable[tuple[int, str, int]], pieces: Iterable[Sequence[Json]]) -> list[Row]:
    """One change a lot and place: an entry may pass below zero inside itself, never at its end."""
    sums: dict[tuple[Any, Any], list[Any]] = {}
    for lot, place, grams in postings:
        sums.setdefault((place, lot), [0, 0])[0] += grams
    for where, one, count in pieces:
        sums.setdefault((where, one), [0, 0])[1] += count
    return [(*key, *more) for key, more in sums.items()]


def _marks(number: int, at_ms: int, rows: Sequence[Sequence[Json]]) -> list[Row]:
    """Of two marks of one name in an entry the later counts."""
    marks = [(subject, name, number, at_ms, value) for subject, name, value in rows]
    if len(marks) > 1:
        marks = list({row[:2]: row for row in marks}.values())
    return marks


def _once(rows: list[Row]) -> list[Row]:
    return list(dict.fromkeys(rows)) if len(rows) > 1 else rows
