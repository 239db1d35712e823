"""Rows for traces: back and forward, of a typical lot and of the one with the largest reach."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import partial
from itertools import cycle
from pathlib import Path
from typing import NamedTuple

from honeyledger.ledger.trace_rows import BackTrace, ForwardTrace
from honeyledger.services.house import House
from honeyledger.services.store import View
from honeyledger.services.tracing import trace_back, trace_forward
from tests.bench.floor import Floor
from tests.bench.peer import Peer
from tests.bench.report import Against, Row
from tests.bench.timing import Times, in_turns

MOST_LOOKED_AT = 120
TIMES_FLOOR = 2.0
TIMES_FLOOR_NEVER_WASHED = 1.3
TIMES_SQLITE = 2.5
TYPICAL_S = 0.010
"""For a house that washes; what was never washed has all its seasons in reach."""

Houses = Mapping[str, House]
Ask = Callable[[View, str], object]


class AnswersDifferError(Exception):
    """The program and what it is timed against do not say the same."""


class Choice(NamedTuple):
    """A code to trace, with the origin rows in its reach."""

    name: str
    code: str
    rows: int


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of trace: the program's way, and by the same name the floor's and the peer's.

    Args:
        times_floor: the bound on how many floors it may take.
        typical_s: the bound on the typical one's own time, 0 for none.
    """

    what: str
    ask: Ask
    by_hand: Callable[[str], object]
    by_peer: Callable[[str], object]
    times_floor: float = TIMES_FLOOR
    typical_s: float = TYPICAL_S


def choose(floor: Floor, kind: str, *, forward: bool) -> list[Choice]:
    """The typical lot of a kind (the median reach) and the one with the largest."""
    sizes = _sampled(floor, kind, forward=forward)
    middle, last = sizes[len(sizes) // 2], sizes[-1]
    return [Choice("typical", middle[1], middle[0]), Choice("largest", last[1], last[0])]


def _sampled(floor: Floor, kind: str, *, forward: bool) -> list[tuple[int, str]]:
    """Lots of a kind, from all seasons, by the rows in their reach."""
    made = "SELECT code FROM lot WHERE kind = ? AND made_by NOT IN (SELECT entry FROM reversal)"
    codes = [code for (code,) in floor.connection.execute(f"{made} ORDER BY id", (kind,))]
    some = codes[:: max(1, len(codes) // MOST_LOOKED_AT)]
    return sorted((floor.reached(code, forward=forward), code) for code in some)


def trace_rows(houses: Houses, path: Path, turns: int, *, washed: bool = True) -> list[Row]:
    """All rows of traces, each engine in the same turns as floor and peer."""
    floor, peer = Floor(path), Peer(path)
    plain: Ask = partial(_back, ribbons=False)
    back = Kind("trace a jar lot back", plain, floor.back, peer.back)
    drawn = Kind("the same with what is drawn of it", _back, floor.back, peer.back)
    forward = Kind("trace a pull forward", trace_forward, floor.forward, peer.forward)
    if not washed:
        back = replace(back, times_floor=TIMES_FLOOR_NEVER_WASHED, typical_s=0.0)
        forward = replace(forward, typical_s=0.0)
    rows: list[Row] = []
    for choice in choose(floor, "J", forward=False):
        for house in houses.values():
            same_back(house.ask(partial(trace_back, text=choice.code)), floor, peer)
        rows += _timed(houses, back, choice, turns)
        rows += [row.unbounded() for row in _timed(houses, drawn, choice, turns)]
    rows += each_another(houses, back, floor, turns)
    for choice in choose(floor, "S", forward=True):
        for house in houses.values():
            same_forward(house.ask(partial(trace_forward, text=choice.code)), floor, peer)
        rows += _timed(houses, forward, choice, turns)
    return rows


def _back(view: View, text: str, *, ribbons: bool = True) -> BackTrace:
    return trace_back(view, text, ribbons=ribbons)


def each_another(houses: Houses, kind: Kind, floor: Floor, turns: int) -> Iterator[Row]:
    """Another lot each turn, those about the median: answers kept from one lot help the next
    only as far as they share what is behind them.
    """
    sizes = _sampled(floor, "J", forward=False)
    first = max(0, (len(sizes) - turns - 1) // 2)
    some = sizes[first : first + turns + 1]  # the first turn is for warming up
    runs: dict[str, Callable[[], object]] = {
        engine: partial(_next, partial(_asked, house, kind.ask), cycle(some))
        for engine, house in houses.items()
    }
    runs["floor"] = partial(_next, kind.by_hand, cycle(some))
    runs["networkx"] = partial(_next, kind.by_peer, cycle(some))
    choice = Choice("another each time", "", some[len(some) // 2][0])
    times = in_turns(runs, max(1, len(some) - 1))
    yield from _rows_of(times, houses, replace(kind, typical_s=0.0), choice)


def _next(ask: Callable[[str], object], lots: Iterator[tuple[int, str]]) -> object:
    _, code = next(lots)
    return ask(code)


def _asked(house: House, ask: Ask, code: str) -> object:
    return house.ask(partial(ask, text=code))


def _timed(houses: Houses, kind: Kind, choice: Choice, turns: int) -> Iterator[Row]:
    runs: dict[str, Callable[[], object]] = {
        engine: partial(house.ask, partial(kind.ask, text=choice.code))
        for engine, house in houses.items()
    }
    runs["floor"] = partial(kind.by_hand, choice.code)
    runs["networkx"] = partial(kind.by_peer, choice.code)
    yield from _rows_of(in_turns(runs, turns), houses, kind, choice)


def _rows_of(times: Times, houses: Houses, kind: Kind, choice: Choice) -> Iterator[Row]:
    for engine in houses:
        on_sqlite = engine == "SQLite"
        yield Row(
            what=f"{kind.what}, {choice.name}",
            engine=engine,
            size=f"{choice.rows:,} rows",
            seconds=times.median(engine),
            against=tuple(_against(times, engine, kind.times_floor)),
            most_seconds=kind.typical_s if on_sqlite and choice.name == "typical" else 0.0,
        )


def _against(times: Times, engine: str, times_floor: float) -> Iterator[Against]:
    bounds = {"floor": times_floor, "networkx": None, "SQLite": None}
    if engine != "SQLite":
        bounds = {"floor": None, "networkx": None, "SQLite": TIMES_SQLITE}
    for other, bound in bounds.items():
        if other != engine:
            yield Against(other, times.median(other), times.ratio(engine, other), bound)


def same_back(answer: BackTrace, floor: Floor, peer: Peer) -> None:
    """The program's answer is the floor's and the peer's, shares to 1e-12."""
    code = answer.code
    by_hand = floor.back(code)
    yards = {row.code: (row.name, row.share) for row in answer.ancestors}
    _same(code, yards, by_hand.yards)
    _same(code, {row.code: (row.kind, row.share) for row in answer.lots}, by_hand.lots)
    _same(code, {one: ("", share) for one, (_, share) in yards.items()}, _bare(peer.back(code)))


def same_forward(answer: ForwardTrace, floor: Floor, peer: Peer) -> None:
    """The program's answer is the floor's and the peer's."""
    code = answer.code
    by_hand = floor.forward(code)
    lots = {row.code: (row.kind, row.share) for row in answer.lots}
    _same(code, lots, by_hand.lots)
    customers = {row.code: (row.name, row.grams, row.jars) for row in answer.customers}
    if (customers, answer.on_hand_g) != (by_hand.customers, by_hand.on_hand_g):
        raise AnswersDifferError(f"{code}: customers or stock differ from the floor's")
    codes = {lot: one for one, lot in peer.ids.items()}
    by_peer = {codes[lot]: part for lot, part in peer.forward(code).items()}
    _same(code, {one: ("", part) for one, (_, part) in lots.items()}, _bare(by_peer))


def _bare(shares: dict[str, float]) -> dict[str, tuple[str, float]]:
    return {code: ("", share) for code, share in shares.items()}


def _same(
    code: str, one: dict[str, tuple[str, float]], other: dict[str, tuple[str, float]]
) -> None:
    if one.keys() != other.keys():
        raise AnswersDifferError(f"{code}: {sorted(one.keys() ^ other.keys())[:5]} in one only")
    for key, (name, share) in one.items():
        if name != other[key][0] or abs(share - other[key][1]) > 1e-12:
            raise AnswersDifferError(f"{code}: {key} is {name} {share}, or {other[key]}")
