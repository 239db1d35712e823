"""An entry in the making: what every verb writes with, and sees its own writing through.

A `Booking` reads the state, keeps what this entry has already moved on top of it, gives codes
and ids, and at the end makes the `Entry`. Nothing outside it changes until the store appends.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, fields, is_dataclass, replace
from functools import cache

from honeyledger.domain import codes
from honeyledger.domain.moments import day_of
from honeyledger.domain.refusals import Sentence
from honeyledger.ledger.canonical import normal
from honeyledger.ledger.entry import Act, Entry, Json, Lot, Origin, Posting
from honeyledger.ledger.places import DIFFERENCE, is_inside
from honeyledger.ledger.state import Standing, State

MINUTE_MS = 60_000
UNIT_LETTER = "U"  # what numbers of logistic units are counted under; no code begins with it
NO_RUN = "none"  # said in place of a run's code: of no run, whichever is open


@dataclass(frozen=True, slots=True)
class HouseRules:
    """The house's own settings that decide what is booked.

    Defaults are common practice, no source. `margin_ms` is the reach margin: how late a scan
    may come after the thing it records. `shortfall_permille` is the largest part of a draw that
    may be missing in the books and still go to weighing difference. What is wetter than
    `dry_first_permille` is dried first, and `too_wet_permille` has a source; see `wetness`.
    """

    name: str = "House"
    zone: str = "UTC"
    prefix: str = ""
    margin_ms: int = 60 * MINUTE_MS
    shortfall_permille: int = 200
    jar_margin: int = 24
    usual_spread_permille: int = 60
    dry_first_permille: int = 180
    too_wet_permille: int = 200
    gs1_prefix: str = ""


_RULES = tuple(part.name for part in fields(HouseRules))


def rules_of(state: State) -> HouseRules:
    """The house's rules as registered, defaults where it says nothing."""
    mark = state.mark("house", "record")
    value = mark.value if mark else {}
    assert isinstance(value, Mapping)
    known = {name: value[name] for name in _RULES if name in value}
    # The record was checked when the house was registered.
    return HouseRules(**known)  # type: ignore[arg-type]


def as_json(value: object) -> Json:
    """A facts value as the ledger keeps it: nothing-values left out, truth as 1."""
    kind = type(value)
    if kind is str or kind is int:
        return normal(value)
    if kind is bool:
        return int(value)  # type: ignore[call-overload, no-any-return]
    if names := _parts_of(kind):  # type: ignore[arg-type]
        return _kept((name, getattr(value, name)) for name in names)
    if isinstance(value, Mapping):
        return _kept(value.items())
    if isinstance(value, Sequence) and not isinstance(value, str):
        return [as_json(part) for part in value]
    return normal(value)


def _kept(parts: Iterable[tuple[object, object]]) -> dict[str, Json]:
    kept: dict[str, Json] = {}
    for key, part in parts:
        # Most parts are plain words and numbers, and a call costs more than a look.
        if type(part) is int:
            kept[str(key)] = part
        elif type(part) is str:
            if part:
                kept[str(key)] = part if part.isascii() else normal(part)
        elif part is not None and part not in ("", (), {}):
            kept[str(key)] = as_json(part)
    return kept


@cache
def _parts_of(kind: type) -> tuple[str, ...]:
    """The names of a facts class's parts; none for any other class."""
    return tuple(part.name for part in fields(kind)) if is_dataclass(kind) else ()


class Booking:
    """Collects one entry's lots, postings, origins and effects over a state."""

    def __init__(self, state: State, act: Act, recorded_ms: int, part: int) -> None:
        self.state = state
        self.outside_runs = act.run == NO_RUN
        self.act = replace(act, run="") if self.outside_runs else act
        self.rules = rules_of(state)
        self.entry_id = state.next_entry
        self.recorded_ms = recorded_ms
        self.part = part
        self.day = day_of(act.happened)
        self.season = self.day.year
        self.reverses = 0
        self.late_lots: set[int] = set()  # in a draw only because it was typed late
        self._next_lot = state.next_lot
        self._lots: dict[int, Lot] = {}
        self._postings: list[tuple[int, str, int]] = []
        self._origins: list[tuple[int, int, int, bool]] = []
        self._effects: dict[str, list[list[Json]]] = {}
        self._notes: list[list[Json]] = []
        self._numbers: dict[str, int] = {}
        self._standing: dict[str, dict[int, Standing]] = {}
        self._stood_g: dict[tuple[str, int], int] = {}  # before this entry

    @property
    def at_ms(self) -> int:
        """When it happened, milliseconds UTC."""
        return self.act.happened.at_ms

    @property
    def margin_ms(self) -> int:
        """The reach margin of this entry: the house's, or wider where the time is unsure."""
        return max(self.rules.margin_ms, self.act.unsure_ms)

    # What is there, seen through what this entry has done so far.

    def standing(self, place: str) -> list[Standing]:
        """What stands in a place now, by lot id."""
        rows = self._rows(place)
        return [rows[lot_id] for lot_id in sorted(rows)]

    def grams_at(self, place: str) -> int:
        """The grams the books see in a place, over all its lots."""
        return sum(row.grams for row in self._rows(place).values())

    def lot(self, lot_id: int) -> Lot:
        """A lot, new ones of this entry included."""
        return self._lots.get(lot_id) or self.state.lot(lot_id)

    def parents(self, lot_id: int) -> list[int]:
        """What a lot is made of or has in reach, this entry's origins included."""
        before = [edge.parent for edge in self.state.origins(lot_id)]
        return before + [row[1] for row in self._origins if row[0] == lot_id]

    def _rows(self, place: str) -> dict[int, Standing]:
        if place not in self._standing:
            rows = self.state.standing(place)
            self._standing[place] = {row.lot.id: row for row in rows}
            self._stood_g.update({(place, row.lot.id): row.grams for row in rows})
        return self._standing[place]

    # Writing.

    def make_lot(
        self,
        kind: str,
        made_g: int,
        origins: Sequence[tuple[int, int]] = (),
        *,
        code: str = "",
        attributes: Mapping[str, object] | None = None,
    ) -> Lot:
        """A new lot with its origins (parent id, grams); its grams are posted by the caller."""
        lot = Lot(
            self._next_lot,
            code or self.new_code(kind),
            kind,
            self.entry_id,
            made_g,
            self.season,
            _attributes(attributes),
        )
        self._next_lot += 1
        self._lots[lot.id] = lot
        for parent, grams in origins:
            self._origins.append((lot.id, parent, grams, not grams and parent in self.late_lots))
        return lot

    def late_origin(self, child: int, parent: int) -> None:
        """`parent` is in the reach of `child` after all, at 0 g, once and never of itself."""
        if child == parent or (child, parent, 0, True) in self._origins:
            return
        known = any(edge.parent == parent for edge in self.state.origins(child))
        fresh = any(row[0] == child and row[1] == parent for row in self._origins)
        if not known and not fresh:
            self._origins.append((child, parent, 0, True))

    def added(self) -> list[tuple[int, int]]:
        """The origins this entry adds, as (child, parent)."""
        return [row[:2] for row in self._origins]

    def new_origins(self) -> list[tuple[int, int, int, bool]]:
        """The origins this entry adds, as (child, parent, grams, late)."""
        return list(self._origins)

    def post(self, lot: int, place: str, grams: int) -> None:
        """Grams of a lot come to a place, or leave it; 0 g posts nothing."""
        if grams:
            self._postings.append((lot, place, grams))
            self._seen(place, lot, grams, 0)

    def move(self, lot: int, start: str, end: str, grams: int) -> None:
        """Grams of a lot go from one place to another."""
        self.post(lot, start, -grams)
        self.post(lot, end, grams)

    def differ(self, lot: int, place: str, grams: int) -> None:
        """The floor is right: the lot has this much more (or less) there than the books saw."""
        self.move(lot, DIFFERENCE, place, grams)

    def pieces(self, lot: int, place: str, count: int) -> None:
        """Supers or jars of the lot come to a place, or leave it."""
        if count:
            self._effect("pieces", place, lot, count)
            self._seen(place, lot, 0, count)

    def _seen(self, place: str, lot: int, grams: int, pieces: int) -> None:
        """What stands at an inside place is seen through what this entry moves."""
        row = self._rows(place).get(lot) if is_inside(place) else None
        if row is not None:
            grams, pieces = row.grams + grams, row.pieces + pieces
            self._standing[place][lot] = Standing(row.lot, grams, pieces, row.since_ms)

    def known_from(self, lot: int, place: str) -> None:
        """The lot is from this outside place, too, though with no grams: in reach only."""
        self._effect("pieces", place, lot, 0)

    def comes(self, place: str, lot: int) -> None:
        """The lot stands in the place from now on, with whatever is posted there."""
        rows = self._rows(place)
        if lot not in rows:
            at_place = self._stood_g.get((place, lot), 0)
            at_place += sum(g for one, where, g in self._postings if one == lot and where == place)
            rows[lot] = Standing(self.lot(lot), at_place, 0, self.at_ms)
            if self._drop("left", place, lot):
                return
            self._effect("came", place, lot)

    def leaves(self, place: str, lot: int, *, washed: bool = False) -> None:
        """The lot no longer stands in the place."""
        if self._rows(place).pop(lot, None) and not self._drop("came", place, lot):
            self._effect("washed" if washed else "left", place, lot)

    def washes(self, place: str) -> None:
        """Everything leaves the place by a wash, what this entry has settled there included."""
        for lot in list(self._rows(place)):
            self.leaves(place, lot, washed=True)
        left = self._effects.get("left", [])
        for row in [row for row in left if row[0] == place]:
            left.remove(row)
            self._effect("washed", *row)

    def _drop(self, name: str, place: str, lot: int) -> bool:
        """Coming and leaving inside one entry cancel out: a stay has a length."""
        rows = self._effects.get(name, [])
        if [place, lot] in rows:
            rows.remove([place, lot])
            return True
        return False

    def arrives(self, place: str, lot: int) -> None:
        """The lot was put into the place: late origins may follow from it."""
        self._effect("arrived", place, lot)

    def draws(self, place: str, lot: int) -> None:
        """The fill was taken from the place."""
        self._effect("drawn", place, lot)

    def touches(self, place: str) -> None:
        """The entry belongs to the history of this vessel or container."""
        if [place] not in self._effects.get("touched", []):
            self._effect("touched", place)

    def mark(self, subject: str, name: str, value: object) -> None:
        """A dated fact about a code."""
        self._effect("marks", subject, name, as_json(value))

    def marked_now(self, subject: str, under: str) -> list[Json]:
        """The values this entry itself has marked on a subject, names beginning with `under`."""
        rows = self._effects.get("marks", [])
        return [row[2] for row in rows if row[0] == subject and str(row[1]).startswith(under)]

    def void(self, entry: int, line: int) -> None:
        """One origin row no longer counts."""
        self._effect("voids", entry, line)

    def note(self, sentence: Sentence, **facts: object) -> None:
        """What the person is told: the entry stands, and this is worth knowing."""
        row: list[Json] = [sentence.key, sentence.text.format(**facts)]
        if row not in self._notes:
            self._notes.append(row)

    def new_code(self, letter: str) -> str:
        """The next code of a letter in this season, given to nobody else."""
        season = self.season % 100
        last = self._numbers.get(letter)
        if last is None:
            last = self.state.last_number(letter, season)
        code = codes.next_code(letter, season, last, self.rules.prefix)
        self._numbers[letter] = code.number
        self._effect("codes", str(code))
        return str(code)

    def new_unit_number(self) -> int:
        """The next number of a logistic unit; kept as codes are, so no reversal gives it back."""
        last = self._numbers.get(UNIT_LETTER) or self.state.last_number(UNIT_LETTER, 0)
        self._numbers[UNIT_LETTER] = last + 1
        self._effect("codes", f"{UNIT_LETTER}00-{last + 1:04}-0")
        return last + 1

    def _effect(self, name: str, *row: Json) -> None:
        self._effects.setdefault(name, []).append(list(row))

    # The end.

    def entry(self, kind: str, said: object) -> Entry:
        """The entry. Raises BrokenRule where it would not balance or a lot is not whole."""
        facts: dict[str, Json] = {"said": as_json(said)}
        if self._effects:
            facts["effects"] = {k: rows for k, rows in self._effects.items() if rows}
        if self._notes:
            facts["notes"] = self._notes
        return Entry(
            id=self.entry_id,
            kind=kind,
            act=self.act,
            recorded_ms=self.recorded_ms,
            part=self.part,
            facts=facts,
            lots=tuple(self._lots.values()),
            postings=tuple(
                Posting(line, *row) for line, row in enumerate(_netted(self._postings), 1)
            ),
            origins=tuple(Origin(line, *row) for line, row in enumerate(self._origins, 1)),
            reverses=self.reverses,
        )


def _attributes(given: Mapping[str, object] | None) -> Mapping[str, Json]:
    attributes = as_json(given or {})
    assert isinstance(attributes, Mapping)
    return attributes


def _netted(postings: Sequence[tuple[int, str, int]]) -> list[tuple[int, str, int]]:
    """Equal rows added up: what a lot does at a place is said once an entry."""
    sums: dict[tuple[int, str], int] = {}
    for lot, place, grams in postings:
        sums[lot, place] = sums.get((lot, place), 0) + grams
    return [(lot, place, grams) for (lot, place), grams in sums.items() if grams]
