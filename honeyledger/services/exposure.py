"""How large a recall would be today, what ties most together, and what a wash tonight would save.

The recall to expect is the mean over the yards and suppliers in reach of what stands in the house,
each as likely as the next to be the bad one, of the honey that comes back with one: what stands
here and what customers have, whole lots. What a heel ties is found by reckoning without it; what
a mix ties is told as its grams times the sources it adds to its parts, a first estimate.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import reduce
from operator import or_

from honeyledger.ledger.entry import Lot
from honeyledger.ledger.in_run import entries_in
from honeyledger.ledger.lookup import code_in, read_code
from honeyledger.ledger.places import (
    CUSTOMER,
    GATE,
    INSIDE,
    VESSEL,
    class_of,
    is_source,
    key_of,
    place,
)
from honeyledger.ledger.state import Edge
from honeyledger.ledger.trace_rows import ForwardTrace
from honeyledger.services.holding import NOT_KNOWN, noun_of
from honeyledger.services.reach_bits import bits_of, reached_bits, spread_bits
from honeyledger.services.store import View
from honeyledger.services.tracing import forward_of, trace_forward

HEEL, MIX = "heel", "mix"
MOST_TIES = 30


@dataclass(frozen=True, slots=True)
class Called:
    """What would go with one thing if it were called back today: whole lots, grams, jars.

    Args:
        code: what was asked about: a lot, a pallet, a run, a yard or a supplier.
        customers: how many have some of it; the farm gate counts by day.
    """

    code: str
    lots: int
    here_g: int
    sent_g: int
    jars: int
    customers: int

    @property
    def grams(self) -> int:
        """In all."""
        return self.here_g + self.sent_g


@dataclass(frozen=True, slots=True)
class SourceExposure:
    """A yard or a supplier, and what comes back with it."""

    code: str
    name: str
    here_g: int
    sent_g: int

    @property
    def grams(self) -> int:
        """In all."""
        return self.here_g + self.sent_g


@dataclass(frozen=True, slots=True)
class Tie:
    """What ties sources together: the heels of a vessel, or one lot made of several.

    Args:
        kind: "heel" or "mix".
        sources: how many it has in reach.
        grams: honey behind it, here and sent.
        saves_g: by so much the recall to expect would be smaller without it; of a mix an
            estimate.
    """

    kind: str
    code: str
    name: str
    sources: int
    grams: int
    saves_g: int


@dataclass(frozen=True, slots=True)
class WashTonight:
    """A vessel as it stands, and what the next fill of its usual size would bring with it.

    Args:
        sources: in reach of what stands or clings in it.
        fill_g: the mean of its fills in reach.
        saves_g: what a wash before that fill takes off the recall to expect.
    """

    code: str
    name: str
    sources: int
    fill_g: int
    saves_g: int


@dataclass(frozen=True, slots=True)
class Exposure:
    """The house today: grams, the largest first.

    Args:
        heels: each is reckoned by leaving it out; `mixes` are estimates that overlap.
    """

    expected_g: int
    sources: tuple[SourceExposure, ...]
    heels: tuple[Tie, ...]
    mixes: tuple[Tie, ...]
    washes: tuple[WashTonight, ...]


def called_back(view: View, text: str) -> Called:
    """What would go with a lot, a jar, a pallet, a run, a yard or a supplier today.

    Raises:
        Refusal: nothing is called so.
    """
    code = code_in(view, text, "code")
    if code is None or code.letter != "R":
        return _called(trace_forward(view, text))
    run = str(read_code(view, text, "run"))
    lots = {row.lot for entry in entries_in(view, run) for row in entry.postings}
    return _called(forward_of(view, run, dict.fromkeys(sorted(lots), 1.0)))


def _called(trace: ForwardTrace) -> Called:
    return Called(
        trace.code,
        len(trace.lots),
        trace.on_hand_g,
        sum(row.grams for row in trace.customers),
        sum(row.jars for row in trace.customers),
        len(trace.customers),
    )


def exposure(view: View) -> Exposure:
    """The recall to expect of what stands here and what came of its sources, and why."""
    web = _Web(view)
    return Exposure(
        web.expected_g(web.in_reach),
        web.sources(),
        _largest(web.heels()),
        _largest(web.mixes()),
        tuple(sorted(web.washes(), key=lambda row: (-row.saves_g, row.code))),
    )


def _largest(ties: Iterable[Tie]) -> tuple[Tie, ...]:
    return tuple(sorted(ties, key=lambda tie: (-tie.saves_g, tie.code)))[:MOST_TIES]


class _Web:
    """Lots, the rows between them, and the sources in the reach of each, as bits of one number."""

    def __init__(self, view: View) -> None:
        self._view = view
        # What clings to an emptied vessel stands there at 0 g until it is washed.
        self._clings = {
            mark.subject: {row.lot.id for row in view.standing(mark.subject)}
            for mark in view.marked("record", f"{VESSEL}/")
        }
        here = {one.lot.id for one in view.on_hand()}.union(*self._clings.values())
        back = view.ancestry(sorted(here))
        above = {edge.parent for edge in back} | here
        rows = [row for row in view.sources_of(sorted(above)) if is_source(row.place)]
        self._places = sorted({row.place for row in rows if row.grams < 0})
        first = sorted({row.lot for row in rows})
        self._edges = _each({*back, *view.descent(first)})
        self._lots = view.lot_heads(
            {*above, *(edge.child for edge in self._edges), *(edge.parent for edge in self._edges)}
        )
        at = {where: 1 << place for place, where in enumerate(self._places)}
        self._own: dict[int, int] = {}
        for row in view.sources_of(sorted(self._lots)):
            if is_source(row.place) and row.grams < 0:
                self._own[row.lot] = self._own.get(row.lot, 0) | at.get(row.place, 0)
        self._stands, self._sent = self._masses()
        self._grams = {
            lot: grams
            for lot in {*self._stands, *self._sent}
            if (grams := self._stands.get(lot, 0) + self._sent.get(lot, 0))
        }
        self.in_reach = reached_bits(self._edges, self._lots, self._own)
        self._into: dict[int, list[Edge]] = {}
        self._children: dict[int, list[int]] = {}
        for edge in self._edges:
            self._into.setdefault(edge.child, []).append(edge)
            self._children.setdefault(edge.parent, []).append(edge.child)

    def _masses(self) -> tuple[dict[int, int], dict[int, int]]:
        stands: dict[int, int] = {}
        sent: dict[int, int] = {}
        for row in self._view.holdings_of(sorted(self._lots)):
            where = class_of(row.place)
            into = stands if where in INSIDE else sent if where in (CUSTOMER, GATE) else None
            if into is not None:
                into[row.lot] = into.get(row.lot, 0) + row.grams
        return stands, sent

    def grams(self, lot: int) -> int:
        """What of a lot stands here or was sent."""
        return self._grams.get(lot, 0)

    def expected_g(self, bits: Mapping[int, int]) -> int:
        """The mean of what comes back."""
        back = sum(grams * bits[lot].bit_count() for lot, grams in self._grams.items())
        return round(back / len(self._places)) if self._places else 0

    def sources(self) -> tuple[SourceExposure, ...]:
        """Each yard and supplier."""
        names = self._view.names_of(self._places)
        # Lots of one make-up, such as a tank's jars and drums, have one reach: it is read once.
        stood: dict[int, int] = {}
        left: dict[int, int] = {}
        for lot in self._grams:
            bits = self.in_reach[lot]
            stood[bits] = stood.get(bits, 0) + self._stands.get(lot, 0)
            left[bits] = left.get(bits, 0) + self._sent.get(lot, 0)
        here, sent = [0] * len(self._places), [0] * len(self._places)
        for bits in stood:
            for at in bits_of(bits):
                here[at] += stood[bits]
                sent[at] += left[bits]
        rows = [
            SourceExposure(key_of(where), names.get(where, key_of(where) or NOT_KNOWN), *both)
            for where, *both in zip(self._places, here, sent, strict=True)
        ]
        return tuple(sorted(rows, key=lambda row: (-row.grams, row.code)))

    def heels(self) -> list[Tie]:
        """Each vessel's heels: what would not come back had it been clean at every fill."""
        fills: dict[str, list[Edge]] = {}
        for edge in self._edges:
            if vessel := self._heel_of(edge):
                fills.setdefault(vessel, []).append(edge)
        names = self._view.names_of([place(VESSEL, key) for key in fills])
        whole = self.expected_g(self.in_reach)
        ties = []
        for key, heels in fills.items():
            without = self._without(key, heels)
            saves_g = whole - self.expected_g(without)
            bits = _together(self.in_reach[edge.child] for edge in heels)
            behind = sum(
                grams for lot, grams in self._grams.items() if self.in_reach[lot] != without[lot]
            )
            vessel = place(VESSEL, key)
            ties.append(Tie(HEEL, key, names.get(vessel, key), bits.bit_count(), behind, saves_g))
        return [tie for tie in ties if tie.saves_g > 0]

    def _heel_of(self, edge: Edge) -> str:
        """The vessel a row is a heel of, or ""."""
        vessel = self._lots[edge.child].vessel
        return vessel if vessel == self._lots[edge.parent].vessel else ""

    def _without(self, vessel: str, heels: Sequence[Edge]) -> dict[int, int]:
        """Each lot's sources without the heels of a vessel.

        Only what came of them can have less, so only that is reckoned anew.
        """
        over = {edge.child for edge in heels}
        after = _after(self._children, over)
        rows = []
        for lot in sorted(after):
            own = self._into[lot]
            rows += [edge for edge in own if self._heel_of(edge) != vessel] if lot in over else own
        bits = dict(self.in_reach)
        for lot in after:
            bits[lot] = self._own.get(lot, 0)
        return spread_bits(rows, bits)

    def mixes(self) -> list[Tie]:
        """Lots made of several lots, by the grams behind them times the sources they add."""
        adds = {
            lot: add
            for lot, into in self._into.items()
            if len(rows := [edge for edge in into if edge.grams > 0]) > 1
            and (add := self._adds(lot, rows)) > 0
        }
        behind = {lot: sum(map(self.grams, _after(self._children, {lot}))) for lot in adds}
        found = [
            (round(behind[lot] * add / len(self._places)), lot)
            for lot, add in adds.items()
            if behind[lot]
        ]
        most = sorted(found, key=lambda one: (-one[0], one[1]))[:MOST_TIES]
        lots = self._view.lots([lot for _, lot in most])
        return [self._mix(lots[lot], behind[lot], saves_g) for saves_g, lot in most]

    def _adds(self, lot: int, rows: Sequence[Edge]) -> float:
        """How many sources a lot has more than a gram of its parts has on the mean."""
        grams = sum(edge.grams for edge in rows)
        mean = sum(edge.grams * self.in_reach[edge.parent].bit_count() for edge in rows) / grams
        return self.in_reach[lot].bit_count() - mean

    def _mix(self, lot: Lot, behind_g: int, saves_g: int) -> Tie:
        sources = self.in_reach[lot.id].bit_count()
        return Tie(MIX, lot.code, noun_of(self._view, lot), sources, behind_g, saves_g)

    def washes(self) -> list[WashTonight]:
        """Vessels with something in them, or clinging to them."""
        inside = {
            vessel: _together(self.in_reach[lot] for lot in lots)
            for vessel, lots in self._clings.items()
        }
        fills: dict[str, list[int]] = {}
        for head in self._lots.values():
            vessel = place(VESSEL, head.vessel)
            if vessel in inside and head.made_g:
                fills.setdefault(vessel, []).append(head.made_g)
        names = self._view.names_of(list(inside))
        rows = []
        for vessel, bits in inside.items():
            made = fills.get(vessel, ())
            fill_g = sum(made) // len(made) if made else 0
            saves_g = round(fill_g * bits.bit_count() / len(self._places)) if self._places else 0
            key = key_of(vessel)
            rows.append(
                WashTonight(key, names.get(vessel, key), bits.bit_count(), fill_g, saves_g)
            )
        return [row for row in rows if row.saves_g]


def _each(edges: Collection[Edge]) -> list[Edge]:
    """Oldest child first, so that one round mostly does."""
    return sorted(edges)


def _together(bits: Iterable[int]) -> int:
    return reduce(or_, bits, 0)


def _after(children: Mapping[int, Sequence[int]], lots: Collection[int]) -> set[int]:
    """These lots and all that came of them."""
    seen, ahead = set(lots), list(lots)
    while ahead:
        for child in children.get(ahead.pop(), ()):
            if child not in seen:
                seen.add(child)
                ahead.append(child)
    return seen
