"""What goes with a lot or a yard if it is called back: where it is now, and who has it.

Scope is reach: everything that any of it went into, whole. Each gram stands once, where it is now,
so that the amounts add up; what the scales miss is not accounted for.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace

from honeyledger.domain.moments import house_day
from honeyledger.domain.phrases import joined
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.places import (
    CUSTOMER,
    DIFFERENCE,
    GATE,
    SUPPLIER,
    YARD,
    class_of,
    is_inside,
    is_source,
    key_of,
    place,
)
from honeyledger.ledger.trace_rows import CustomerReach, ForwardTrace
from honeyledger.services.holding import held_lots, name_in, noun_of
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View
from honeyledger.services.tracing import trace_forward

DISPATCH, CLOSE_RUN = "dispatch", "close run"


@dataclass(frozen=True, slots=True)
class AffectedLot:
    """A lot in scope, and what became of the grams it was made of.

    Args:
        noun: what kind of lot it is; `where` where some of it stands, "" for nowhere in the house.
        went_on_g: what further lots were made of; those are rows of their own.
        other_g: sampled, thrown away, dried off, fed to bees.
        missing_g: what the scales say is not there; nobody knows where it is. `run_g` of it was
            found when a run was closed, so it may be no more than the error of its estimates.
        jars: how many of `here_g`, where they are counted.
    """

    code: str
    noun: str
    where: str
    made_g: int
    here_g: int
    sent_g: int
    went_on_g: int
    other_g: int
    missing_g: int
    run_g: int
    jars: int
    held: bool


@dataclass(frozen=True, slots=True)
class SentNote:
    """The paper by which something went, its day ISO."""

    code: str
    day: str


@dataclass(frozen=True, slots=True)
class Consignee:
    """Who has some of it: whole lots, and the papers it went by; none at the farm gate."""

    code: str
    name: str
    lots: tuple[str, ...]
    grams: int
    jars: int
    notes: tuple[SentNote, ...]


@dataclass(frozen=True, slots=True)
class Affected:
    """All that is in the scope of a code.

    Args:
        code: what was asked about; `is_source` where it is a yard or a supplier.
        wider: how many lots share a source with it, itself and what came of it included.
    """

    code: str
    name: str
    is_source: bool
    lots: tuple[AffectedLot, ...]
    consignees: tuple[Consignee, ...]
    wider: int
    entries: int
    digest: str
    house: str

    @property
    def here_g(self) -> int:
        """What of it is in the house."""
        return sum(row.here_g for row in self.lots)

    @property
    def free_g(self) -> int:
        """What of it is in the house and on no hold."""
        return sum(row.here_g for row in self.lots if not row.held)

    @property
    def sent_g(self) -> int:
        """What customers have."""
        return sum(row.sent_g for row in self.lots)

    @property
    def other_g(self) -> int:
        """What is neither here nor with a customer, and known."""
        return sum(row.other_g for row in self.lots)

    @property
    def missing_g(self) -> int:
        """What is not accounted for."""
        return sum(row.missing_g for row in self.lots)

    @property
    def jars_sent(self) -> int:
        """Jars that customers have."""
        return sum(row.jars for row in self.consignees)

    @property
    def run_g(self) -> int:
        """What of that is the difference of runs that were closed."""
        return sum(row.run_g for row in self.lots)

    @property
    def accounted(self) -> float:
        """The part of it that is accounted for: 1.0 where the scales miss nothing."""
        whole = self.here_g + self.sent_g + self.other_g + self.missing_g
        return 1 - self.missing_g / whole if whole else 1.0


def affected(view: View, text: str) -> Affected:
    """What is in scope of a lot, a jar, a yard or a supplier.

    Raises:
        Refusal: no such code or name.
    """
    trace = trace_forward(view, text)
    where = next(
        (
            found
            for kind in (YARD, SUPPLIER)
            if view.mark(found := place(kind, trace.code), "record")
        ),
        "",
    )
    head = view.head()
    return Affected(
        code=trace.code,
        name=name_in(view, where, trace.code) if where else trace.code,
        is_source=bool(where),
        lots=_lots(view, trace),
        consignees=_consignees(view, trace),
        wider=_wider(view, {lot.id for lot in trace.lots}, [lot for lot, _ in trace.starts]),
        entries=head.entry,
        digest=head.digest,
        house=name_in(view, "house"),
    )


def accounted_for(view: View, trace: ForwardTrace) -> float:
    """The part of what a trace forward reached that is accounted for."""
    grams = _places(view, trace)
    missing = sum(max(0, places.get(DIFFERENCE, 0)) for places in grams.values())
    whole = sum(sum(max(0, one) for one in places.values()) for places in grams.values())
    return 1 - missing / whole if whole else 1.0


def lot_accounted_for(view: View, lot: Lot) -> float:
    """The part of one lot that is accounted for, what further lots were made of included."""
    missing = sum(
        max(0, row.grams)
        for row in view.holdings_of([lot.id])
        if class_of(row.place) == DIFFERENCE
    )
    return 1 - missing / lot.made_g if lot.made_g else 1.0


def _places(view: View, trace: ForwardTrace) -> dict[int, dict[str, int]]:
    """Grams of each lot by place, the places it came from left out."""
    grams: dict[int, dict[str, int]] = {lot.id: {} for lot in trace.lots}
    for row in view.holdings_of(list(grams)):
        if not is_source(row.place):
            grams[row.lot][row.place] = row.grams
    return grams


def _lots(view: View, trace: ForwardTrace) -> tuple[AffectedLot, ...]:
    """Every lot in scope: what is in the house first, free before held, then the rest."""
    lots, held, names = (
        view.lots({lot.id for lot in trace.lots}),
        held_lots(view),
        PlaceNames(view),
    )
    jars = {(row.lot, row.place): row.pieces for row in trace.on_hand}
    grams = _places(view, trace)
    runs = _run_differences(
        view, {one for one, row in grams.items() if row.get(DIFFERENCE, 0) > 0}
    )
    rows = [
        replace(
            _row(view, lots[one], places, one in held, names, jars),
            run_g=max(0, min(runs.get(one, 0), places.get(DIFFERENCE, 0))),
        )
        for one, places in grams.items()
    ]
    return tuple(sorted(rows, key=lambda row: (not row.here_g, row.held, row.code)))


def _run_differences(view: View, lots: Collection[int]) -> dict[int, int]:
    """What was found off in these lots as their runs were closed."""
    found: dict[int, int] = {}
    for entry in view.entries((CLOSE_RUN,)) if lots else ():
        rows = [row for row in entry.postings if row.place == DIFFERENCE and row.lot in lots]
        if rows and not view.reversed_by(entry.id):
            for row in rows:
                found[row.lot] = found.get(row.lot, 0) + row.grams
    return found


def _row(
    view: View,
    lot: Lot,
    places: Mapping[str, int],
    is_held: bool,
    names: PlaceNames,
    jars: Mapping[tuple[str, str], int],
) -> AffectedLot:
    inside = [where for where in places if is_inside(where)]
    here_g = sum(places[where] for where in inside)
    sent_g = sum(g for where, g in places.items() if class_of(where) in (CUSTOMER, GATE))
    missing_g = max(0, places.get(DIFFERENCE, 0))
    return AffectedLot(
        code=lot.code,
        noun=noun_of(view, lot),
        where=joined(dict.fromkeys(names[where] for where in inside)),
        made_g=lot.made_g,
        here_g=here_g,
        sent_g=sent_g,
        went_on_g=max(0, lot.made_g - sum(places.values())),
        other_g=sum(places.values()) - here_g - sent_g - places.get(DIFFERENCE, 0),
        missing_g=missing_g,
        run_g=0,
        jars=sum(jars.get((lot.code, where), 0) for where in inside),
        held=is_held,
    )


def _consignees(view: View, trace: ForwardTrace) -> tuple[Consignee, ...]:
    """Who has some of it, who got most first."""
    notes = _notes(view, trace.customers)
    rows = [
        Consignee(
            one.code, one.name, one.lots, one.grams, one.jars, tuple(notes.get(one.code, ()))
        )
        for one in trace.customers
    ]
    return tuple(sorted(rows, key=lambda row: (-row.grams, row.name)))


def _notes(view: View, customers: Collection[CustomerReach]) -> dict[str, list[SentNote]]:
    """The notes by which these lots went to each customer, in their order."""
    wanted = {
        (lot.id, place(CUSTOMER, one.code))
        for one in customers
        for code in one.lots
        if (lot := view.lot_by_code(code)) is not None
    }
    zone = rules_of(view).zone
    made: dict[str, list[SentNote]] = {}
    for entry in view.entries((DISPATCH,)) if wanted else ():
        to = {row.place for row in entry.postings if (row.lot, row.place) in wanted}
        if not to or view.reversed_by(entry.id):
            continue
        day = house_day(entry.act.happened.at_ms, zone).isoformat()
        for (code,) in rows_of(entry, "codes"):
            for where in to:
                made.setdefault(key_of(where), []).append(SentNote(str(code), day))
    return made


def _wider(view: View, scope: Collection[int], starts: Collection[int]) -> int:
    """How many lots share a source: as far as it goes if the cause is further up."""
    edges = view.ancestry(list(starts))
    children = {edge.child for edge in edges}
    first = {edge.parent for edge in edges} - children or set(starts)
    return len({*scope, *first, *(edge.child for edge in view.descent(sorted(first)))})
