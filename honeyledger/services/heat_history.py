"""What heat may have done to a lot, by all that is on record of how warm it was.

Counted are the heat log; as an upper end also the air of the room it stood in, supers before they
were extracted or drums in store, and a tank as warm as the honey was read in it. Of a melter
nobody writes down for how long: honey of one has no upper end. Any of the honey took one way
through the lots it is made of, so the band goes from the coolest way to the warmest; what is in
reach at 0 g may be in it. Nothing here certifies anything.
"""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from graphlib import CycleError, TopologicalSorter
from itertools import pairwise
from math import log2

from honeyledger.domain.heat_budget import Band, Warmed, diastase_left, hmf_grown
from honeyledger.domain.phrases import phrase
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.results import Kind, Result
from honeyledger.domain.units import format_temperature
from honeyledger.ledger.composite import COMPOSITE
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.heat import HEATED
from honeyledger.ledger.places import DRUM, PALLET, ROOM, VESSEL, class_of, key_of
from honeyledger.ledger.state import Edge, Mark
from honeyledger.ledger.verbs.warming import LOG
from honeyledger.ledger.whereabouts import STANDS
from honeyledger.ledger.yard_log import told
from honeyledger.services.drying import HOUR_MS
from honeyledger.services.hot_room_air import temperatures
from honeyledger.services.store import View

WHOLE_DIASTASE = 100.0
"""Where diastase was not measured, what is left is told in percent of what there was."""
LOGGED, IN_ROOM, IN_TANK, MELTED = "log", "room", "tank", "melter"
LATELY_MS = 48 * HOUR_MS
"""A reading of the air so long before something came into a room, or after it left, counts."""
TEMPERATURES = ("temperature", f"{COMPOSITE}temperature")
NO_END = float("inf")
IN_ROOMS = "SDP"  # kinds of lots that stand in rooms by themselves: supers, drums, bought in
MOST_LOTS = 400
"""Of more lots than these in reach rooms and tanks are not looked through, and it says so."""


@dataclass(frozen=True, slots=True)
class Heat:
    """A lot was warm: tenths of a degree, from when to when; a melter's time is not known."""

    lot: int
    kind: str
    temperature: int
    since_ms: int
    until_ms: int


@dataclass(frozen=True, slots=True)
class HeatBudget:
    """What heat may have done to a lot, as bands; certifies nothing.

    Args:
        times: how often it, or what is in it, was warm by the heat log.
        grown: milligrams a kilogram that HMF may have grown by since it was measured, else in all.
        hmf: what HMF may have come to, where it was measured before.
        diastase: what may be left of the measured number, else of 100 percent.
        measured: whether diastase was measured.
        counted: in words, what the upper end counts besides the heat log, and what it does not.
        is_open: whether the upper end cannot be told.
        why_not: in words, where the tables do not go so far; then the bands mean nothing.
    """

    times: int
    grown: Band | None = None
    hmf: Band | None = None
    diastase: Band | None = None
    measured: bool = False
    counted: tuple[str, ...] = ()
    is_open: bool = False
    why_not: str = ""


def heat_of(
    view: View, lot: Lot, results: Mapping[str, Result], measured: Mapping[str, int], now_ms: int
) -> HeatBudget | None:
    """The bands of a lot; None where nothing of heat is on record.

    Args:
        results: what counts of each quantity, by name.
        measured: when it was read.
    """
    edges = view.ancestry([lot.id])
    lots = view.lots({lot.id, *(edge.parent for edge in edges)})
    heats = _Heats(view, lots.values(), now_ms).found()
    if not heats:
        return None
    try:
        return _budget(lot, edges, heats, results, measured, len(lots) > MOST_LOTS)
    except Refusal as refusal:
        times = sum(one.kind == LOGGED for one in heats)
        return HeatBudget(times, why_not=refusal.text)


def _budget(
    lot: Lot,
    edges: Sequence[Edge],
    heats: Sequence[Heat],
    results: Mapping[str, Result],
    measured: Mapping[str, int],
    is_long: bool,
) -> HeatBudget:
    hmf, first = results.get("hmf"), _figure(results.get("diastase"))
    hmf_ms = measured.get("hmf", 0)
    grown = Band(
        _along(lot, edges, _each(heats, hmf_ms, (LOGGED,)), lambda row: hmf_grown(row).least, min),
        _along(lot, edges, _each(heats, hmf_ms), lambda row: hmf_grown(row).most, max),
    )
    after = measured.get("diastase", 0) if first is not None else 0
    before = first if first is not None else WHOLE_DIASTASE
    # Parts that are left multiply; the fewest are left where most went.
    went = [
        _along(lot, edges, _each(heats, after), lambda row: -_part_left(row).least, max),
        _along(lot, edges, _each(heats, after, (LOGGED,)), lambda row: -_part_left(row).most, min),
    ]
    left = Band(*(before * 2.0 ** (-one) for one in went))
    is_open = any(one.kind == MELTED and one.until_ms > hmf_ms for one in heats)
    if is_open:
        grown, left = Band(grown.least, NO_END), Band(0.0, left.most)
    times = sum(one.kind == LOGGED for one in heats)
    counted = tuple(_words(heats, is_long=is_long))
    come_to = _come_to(hmf, grown)
    return HeatBudget(times, grown, come_to, left, first is not None, counted, is_open)


def _part_left(row: Sequence[Warmed]) -> Band:
    """The halvings of diastase, below zero, so that they add up along a way."""
    from_one = diastase_left(1.0, row)
    return Band(log2(from_one.least), log2(from_one.most))


def _each(
    heats: Iterable[Heat], after_ms: int, kinds: Collection[str] = (LOGGED, IN_ROOM, IN_TANK)
) -> Mapping[int, list[Warmed]]:
    """How warm each lot was since then; an entry of the log counts whole."""
    found: dict[int, list[Warmed]] = {}
    for one in heats:
        since = one.since_ms if one.kind == LOGGED else max(one.since_ms, after_ms)
        if one.kind in kinds and one.until_ms > max(after_ms, since):
            warmed = Warmed(one.temperature, (one.until_ms - since) / HOUR_MS)
            found.setdefault(one.lot, []).append(warmed)
    return found


def _along(
    lot: Lot,
    edges: Sequence[Edge],
    own: Mapping[int, list[Warmed]],
    cost: Callable[[Sequence[Warmed]], float],
    choose: Callable[[Iterable[float]], float],
) -> float:
    """What adds up on the way through the lots that has the least or the most of it."""
    parents: dict[int, list[int]] = {lot.id: []}
    for edge in edges:
        parents.setdefault(edge.child, []).append(edge.parent)
    sums: dict[int, float] = {}
    for one in _oldest_first(parents, edges):
        before = [sums[parent] for parent in parents.get(one, ())]
        sums[one] = (choose(before) if before else 0.0) + (cost(own[one]) if one in own else 0.0)
    return sums[lot.id]


def _oldest_first(parents: dict[int, list[int]], edges: Sequence[Edge]) -> list[int]:
    """All lots, each after those it is made of.

    A scan that came late may put a lot into its own reach, at 0 g: then such rows are left out.
    """
    try:
        return list(TopologicalSorter(parents).static_order())
    except CycleError:
        sure = [edge for edge in edges if edge.grams]
        for child in parents:
            parents[child] = [edge.parent for edge in sure if edge.child == child]
        return list(TopologicalSorter(parents).static_order())


def _figure(result: Result | None) -> float | None:
    return (
        float(result.figure) if result and result.kind is Kind.FIGURE and result.figure else None
    )


def _come_to(hmf: Result | None, grown: Band) -> Band | None:
    """What HMF may have come to; what was below a figure may have been anything up to it."""
    if hmf is None or hmf.figure is None or hmf.kind is Kind.ABOVE:
        return None
    most = float(hmf.figure)
    least = most if hmf.kind is Kind.FIGURE else 0.0
    return Band(least + grown.least, most + grown.most)


class _Heats:
    """What is on record of how warm these lots were, read lot by lot."""

    def __init__(self, view: View, lots: Collection[Lot], now_ms: int) -> None:
        self._view = view
        self._lots = lots
        self._now_ms = now_ms
        rooms = view.marked("temperature", f"{ROOM}/")
        self._read_rooms = [key_of(mark.subject) for mark in rooms]

    def found(self) -> list[Heat]:
        """All of it; of very many lots the log and melters only."""
        if len(self._lots) > MOST_LOTS:
            return list(self._in_whole_log())
        rows = [row for lot in self._lots for row in self._marked(lot)]
        rows += [row for lot in self._lots for row in self._in_tanks(lot)]
        rows += self._in_rooms() if self._read_rooms else ()
        return rows

    def _in_whole_log(self) -> Iterator[Heat]:
        """The log read as it stands: of very many lots that is less than asking for each."""
        lots = {lot.code: lot for lot in self._lots}
        for entry in self._view.entries(("warm",)):
            if self._view.reversed_by(entry.id):
                continue
            for code, name, value in rows_of(entry, "marks"):
                lot = lots.get(str(code))
                if lot is not None:
                    mark = Mark(str(code), str(name), value, entry.act.happened.at_ms, entry.id)
                    yield from _of_mark(lot, mark)
        for mark in self._view.marked(HEATED):
            if mark.subject in lots:
                yield from _of_mark(lots[mark.subject], mark)

    def _marked(self, lot: Lot) -> Iterator[Heat]:
        for mark in self._view.marks(lot.code):
            yield from _of_mark(lot, mark)

    def _in_tanks(self, lot: Lot) -> Iterator[Heat]:
        """In a tank: as warm as it was read there, for as long as it stood there."""
        marks = [one for one in self._view.marks(lot.code) if one.name in TEMPERATURES]
        read = [(mark.at_ms, mark.value) for mark in marks if isinstance(mark.value, int)]
        for where in self._places(lot, (VESSEL,)) if read else ():
            for since, until in self._stays(where, lot, min(at for at, _ in read)):
                hot = max((value for at, value in read if since <= at <= until), default=None)
                if hot is not None and until > since:
                    yield Heat(lot.id, IN_TANK, hot, since, until)

    def _in_rooms(self) -> Iterator[Heat]:
        """In a room whose air was read: at most as warm as the warmer reading about each time."""
        stood = [
            (lot, room, stay)
            for lot in self._lots
            if lot.kind in IN_ROOMS
            for where in self._places(lot, (PALLET, DRUM))
            if (room := self._room_of(where, lot)) in self._read_rooms
            for stay in self._stays(where, lot)
        ]
        if not stood:
            return
        air = temperatures(self._view, min(since for _, _, (since, _) in stood) - LATELY_MS)
        for lot, room, (since, until) in stood:
            for begin, end, hot in _spans(air.get(room, ()), since, until):
                yield Heat(lot.id, IN_ROOM, hot, begin, end)

    def _room_of(self, where: str, lot: Lot) -> str:
        """The room it stands in; supers whose room nobody wrote down are in the only one read."""
        code = key_of(where) if class_of(where) == PALLET else lot.code
        mark = self._view.mark(code, STANDS)
        room = told(mark, "room") if mark else ""
        if not room and class_of(where) == PALLET and len(self._read_rooms) == 1:
            return self._read_rooms[0]
        return room

    def _places(self, lot: Lot, classes: Collection[str]) -> list[str]:
        """Where it ever stood, of these kinds of places."""
        rows = [row for entry in self._view.history(lot.id) for row in entry.postings]
        places = dict.fromkeys(row.place for row in rows if row.lot == lot.id)
        return [where for where in places if class_of(where) in classes]

    def _stays(self, where: str, lot: Lot, since_ms: int = 0) -> list[tuple[int, int]]:
        rows = [row for row in self._view.stays(where, since_ms) if row.lot == lot.id]
        now = self._now_ms
        return [(row.since_ms, row.until_ms if row.until_ms >= 0 else now) for row in rows]


def _of_mark(lot: Lot, mark: Mark) -> Iterator[Heat]:
    """What a mark says of heat: the log's, with its minutes, or a melter's, without."""
    value = mark.value
    if not isinstance(value, Mapping):
        return
    hot = _number(value, "temperature")
    if mark.name.startswith(LOG):
        since = mark.at_ms - _number(value, "minutes") * HOUR_MS // 60
        yield Heat(lot.id, LOGGED, hot, since, mark.at_ms)
    elif mark.name == HEATED and "melter" in value:
        yield Heat(lot.id, MELTED, hot, mark.at_ms, mark.at_ms)


def _number(value: Mapping[str, Json], name: str) -> int:
    found = value.get(name)
    return found if isinstance(found, int) else 0


def _spans(
    readings: Sequence[tuple[int, int]], since: int, until: int
) -> Iterator[tuple[int, int, int]]:
    """Begin, end and the warmer of the two readings about it; of a time nobody read, nothing.

    Before the first reading and after the last one the nearest one counts alone.
    """
    if not any(since <= at <= until for at, _ in readings):
        return
    times = [since, *(at for at, _ in readings if since < at < until), until]
    for begin, end in pairwise(times):
        before = [hot for at, hot in readings if begin - LATELY_MS <= at <= begin][-1:]
        after = [hot for at, hot in readings if end <= at <= end + LATELY_MS][:1]
        if end > begin and (before or after):
            yield begin, end, max(before + after)


def _words(heats: Sequence[Heat], *, is_long: bool) -> Iterator[str]:
    """What the upper end counts besides the heat log, each with how warm it came to."""
    hottest = {one.kind: one.temperature for one in sorted(heats, key=lambda one: one.temperature)}
    shown = {kind: format_temperature(hot) for kind, hot in hottest.items()}
    if IN_ROOM in shown:
        yield phrase("the air of its rooms, up to {temperature}", temperature=shown[IN_ROOM])
    if IN_TANK in shown:
        yield phrase("tanks as warm as read, up to {temperature}", temperature=shown[IN_TANK])
    if MELTED in shown:
        yield phrase("no upper end: honey of a melter, its hours on no record")
    if is_long:
        yield phrase("not rooms and tanks: it is made of more than {count} lots", count=MOST_LOTS)
