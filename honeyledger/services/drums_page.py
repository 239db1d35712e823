"""Everything the drum room shows at once: each drum with what is known of it, and the choices."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from honeyledger.domain.moments import house_day
from honeyledger.domain.phrases import phrase
from honeyledger.domain.units import MassUnit
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.places import DRUM, ROOM, VESSEL, YARD, is_source, key_of
from honeyledger.ledger.signing import two_free
from honeyledger.ledger.state import Edge
from honeyledger.ledger.title import HOUSE, OWNER, party_name, said_owner
from honeyledger.ledger.whereabouts import MISSING, STANDS
from honeyledger.services.blending import BlendSheet, newest_blends
from honeyledger.services.dock import Choice, choices
from honeyledger.services.hold_ways import held_by
from honeyledger.services.holding import (
    HoldRow,
    hold_rows,
    noun_of,
    reading,
    values_on,
)
from honeyledger.services.instruments import doubtful_lately, instruments
from honeyledger.services.rooms import spot_words
from honeyledger.services.setup import mass_unit
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import OnHand, View

DAY_MS = 86_400_000
BLENDS_DAYS = 60
CLOSED = "DP"


@dataclass(frozen=True, slots=True)
class DrumRow:
    """A drum on hand: grams, hundredths of a percent, tenths of a Pfund millimetre.

    Args:
        container: the container's name, "" of a one-way drum; `container_code` its code.
        noun: what it is: "drum", "drum bought in".
        state: "hold", "not weighed", "not read", "not closed" or "ready".
        held: each hold that reaches it, in words, with the ancestor it stands on; `ways` are the
            same with the steps between.
        owner: whose it is, "" where it is the house's own.
        spot: room and row, "" where nobody said; `missing` where the last walk did not find it.
        yards: the sources in its reach, by name.
        age_days: since it was made.
        doubtful: what its moisture would be, where the instrument was found off since.
    """

    code: str
    container: str
    container_code: str
    noun: str
    state: str
    grams: int
    moisture: int | None
    colour: int | None
    held: tuple[str, ...]
    owner: str
    spot: str
    missing: bool
    yards: tuple[str, ...]
    age_days: int
    doubtful: int | None = None
    ways: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class DrumsPage:
    """The drum room at one moment.

    Args:
        ledger: the ledger's own id, which tells two houses apart.
        two_free: whether two people free what is on hold.
        blends: the newest blend of each vessel in the last months, by the vessel's code.
    """

    ledger: str
    unit: MassUnit
    zone: str
    today: date
    rows: tuple[DrumRow, ...]
    holds: tuple[HoldRow, ...]
    vessels: tuple[Choice, ...]
    rooms: tuple[Choice, ...]
    yards: tuple[Choice, ...]
    two_free: bool = False
    blends: Mapping[str, BlendSheet] = field(default_factory=dict)
    instruments: tuple[Choice, ...] = ()

    def row(self, code: str) -> DrumRow | None:
        """The drum of a code, its own or its container's."""
        wanted = code.strip().upper()
        for one in self.rows:
            if wanted and wanted in (one.code, one.container_code, one.container.upper()):
                return one
        return None


def drums_page(view: View, now_ms: int) -> DrumsPage:
    """The drum room now, drums that need a person first, then the oldest."""
    zone = rules_of(view).zone
    vessels = choices(view, VESSEL)
    return DrumsPage(
        ledger=view.head().ledger_id,
        unit=mass_unit(view),
        zone=zone,
        today=house_day(now_ms, zone),
        rows=_rows(view, now_ms),
        holds=hold_rows(view),
        vessels=vessels,
        rooms=choices(view, ROOM),
        yards=choices(view, YARD),
        two_free=two_free(view),
        instruments=instruments(view),
        blends=newest_blends(view, [one.code for one in vessels], now_ms - BLENDS_DAYS * DAY_MS),
    )


def _rows(view: View, now_ms: int) -> tuple[DrumRow, ...]:
    here = view.on_hand([DRUM])
    lots = {row.lot.id: row.lot for row in here}
    names = PlaceNames(view)
    about = _About(view, names, lots, now_ms)
    rows = [about.row(one) for one in here]
    order = {"hold": 0, "not weighed": 1, "not read": 2, "not closed": 3}
    return tuple(sorted(rows, key=lambda row: (order.get(row.state, 4), -row.age_days, row.code)))


class _About:
    """What is known of many drums, each thing asked once for all of them."""

    def __init__(
        self, view: View, names: PlaceNames, lots: Mapping[int, Lot], now_ms: int
    ) -> None:
        self._view, self._names, self._now_ms = view, names, now_ms
        self._held = held_by(view, lots)
        codes = {lot.code for lot in lots.values()}
        self._pending = values_on(view, "pending", codes)
        self._doubts = doubtful_lately(view, now_ms)
        self._missing = values_on(view, MISSING, codes)
        self._spots = values_on(view, STANDS, codes)
        self._owners = values_on(view, OWNER, codes)
        heads = view.entry_heads({lot.made_by for lot in lots.values()})
        self._made = {head.id: head.happened_ms for head in heads}
        self._sources = sources_in_reach(view, lots)

    def row(self, one: OnHand) -> DrumRow:
        """One drum."""
        view, lot, names = self._view, one.lot, self._names
        moisture = reading(view, lot.code, "moisture")
        holds = self._held.get(lot.id, ())
        container = names.of_record(one.place)
        key = key_of(one.place)
        owner = said_owner(view, lot, self._owners.get(lot.code, 0))
        made_ms = self._made.get(lot.made_by, self._now_ms)
        return DrumRow(
            code=lot.code,
            container="" if container == lot.code else container,
            container_code="" if key == lot.code else key,
            noun=noun_of(view, lot),
            state=self._state(lot, moisture),
            grams=one.grams,
            moisture=moisture,
            colour=reading(view, lot.code, "colour"),
            held=tuple(hold.cause for hold in holds),
            owner="" if owner == HOUSE else party_name(view, owner),
            spot=self._spot(lot.code),
            missing=lot.code in self._missing,
            yards=tuple(sorted(names[where] for where in self._sources.get(lot.id, ()))),
            age_days=max(0, (self._now_ms - made_ms) // DAY_MS),
            doubtful=None if moisture is None else self._doubts.get((lot.code, moisture)),
            ways=tuple(hold.way for hold in holds),
        )

    def _state(self, lot: Lot, moisture: int | None) -> str:
        if lot.id in self._held:
            return phrase("hold")
        if lot.kind not in CLOSED:
            return phrase("not closed")
        if lot.code in self._pending:
            return phrase("not weighed")
        return phrase("not read") if moisture is None else phrase("ready")

    def _spot(self, code: str) -> str:
        value = self._spots.get(code)
        if not isinstance(value, Mapping) or "room" not in value:
            return ""
        return spot_words(self._names, {name: str(text) for name, text in value.items()})


def sources_in_reach(view: View, lots: Collection[int]) -> dict[int, frozenset[str]]:
    """The outside places in the reach of each of these lots, at 0 g too."""
    edges = view.ancestry(sorted(lots)) if lots else ()
    parents = _parents(edges, lots)
    own: dict[int, set[str]] = {}
    for row in view.sources_of(sorted(parents)):
        if is_source(row.place) and row.grams < 0:
            own.setdefault(row.lot, set()).add(row.place)
    found = reached(parents, own)
    return {lot: found[lot] for lot in lots}


def reached(
    parents: Mapping[int, Collection[int]], own: Mapping[int, Collection[str]]
) -> dict[int, frozenset[str]]:
    """What each lot has of its own and through its parents.

    At 0 g lots may be in each other's reach, so it is gone round until nothing is added; parents
    mostly have the smaller numbers, which makes two rounds the usual.
    """
    found = {lot: frozenset(own.get(lot, ())) for lot in sorted(parents)}
    grows = True
    while grows:
        grows = False
        for lot, has in found.items():
            more = has.union(*(found[parent] for parent in parents[lot]))
            if len(more) > len(has):
                found[lot], grows = more, True
    return found


def _parents(edges: Sequence[Edge], lots: Collection[int]) -> dict[int, set[int]]:
    parents: dict[int, set[int]] = {lot: set() for lot in lots}
    for edge in edges:
        parents.setdefault(edge.child, set()).add(edge.parent)
        parents.setdefault(edge.parent, set())
    return parents
