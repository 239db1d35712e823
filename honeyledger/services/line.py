"""The line across the house: what stands at each place now, what flowed today, what needs you."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from honeyledger.domain.moments import day_of, moment_at
from honeyledger.domain.phrases import phrase
from honeyledger.ledger.booking import MINUTE_MS, rules_of
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.places import (
    CUSTOMER,
    DRUM,
    FILLING,
    GATE,
    JARS,
    PALLET,
    VESSEL,
    class_of,
)
from honeyledger.ledger.wetness import dry_first_over
from honeyledger.services.holding import held_lots, reading, values_on
from honeyledger.services.store import OnHand, View

DAY_MS = 24 * 60 * 60_000
WAITS_TOO_LONG_MS = 3 * DAY_MS  # practice is 1 to 3 days before beetle larvae do damage


@dataclass(frozen=True, slots=True)
class LinePlace:
    """One place: an amount in its unit, and how many things there need a person."""

    key: str
    amount: int
    unit: str
    estimated: bool = False
    warnings: int = 0
    held: int = 0


@dataclass(frozen=True, slots=True)
class LineFlow:
    """Grams that went on from a place today, with their mean colour where it was read."""

    grams: int
    colour: int | None = None


@dataclass(frozen=True, slots=True)
class LineState:
    """Seven places, six flows, and the foot of the window."""

    places: tuple[LinePlace, ...]
    flows: tuple[LineFlow, ...]
    entries: int
    head: str
    season: int


def day_start_ms(view: View, now_ms: int) -> int:
    """The start of the house's local day, milliseconds UTC."""
    zone = rules_of(view).zone
    now = moment_at(now_ms, zone)
    local_ms = now_ms + now.offset_min * MINUTE_MS
    midnight_ms = now_ms - local_ms % DAY_MS
    # Where the clocks were changed since, midnight had another offset.
    return midnight_ms + (now.offset_min - moment_at(midnight_ms, zone).offset_min) * MINUTE_MS


def line_state(view: View, now_ms: int) -> LineState:
    """The line as the books have it now."""
    held = held_lots(view)
    since_ms = day_start_ms(view, now_ms)
    today = _counting(view, view.entries(_KINDS, since_ms))
    yards = len(view.marked("record", "yard/"))
    pallets = view.on_hand([PALLET])
    received = sum(_supers(entry) for entry in today if entry.kind == "receive")
    waiting = _waiting(view, pallets, now_ms)
    notes = sum(entry.kind == "dispatch" for entry in today)
    drums = view.on_hand([DRUM])
    jars = view.on_hand([JARS, FILLING])
    places = (
        LinePlace("yards", yards, phrase("yards")),
        LinePlace("dock", received, phrase("supers")),
        _kilograms("hot_room", pallets, held, estimated=True, warnings=waiting),
        _kilograms("extraction", view.on_hand([VESSEL]), held, estimated=True),
        _kilograms("drums", drums, held, warnings=_unweighed(view, drums)),
        _kilograms("bottling", jars, held),
        LinePlace("dispatch", notes, phrase("notes")),
    )
    head = view.head()
    season = day_of(moment_at(now_ms, rules_of(view).zone)).year
    flows = tuple(_flow(view, today, kinds, into) for kinds, into in FLOWS)
    return LineState(places, flows, head.entry, head.digest, season)


def _counting(view: View, entries: Sequence[Entry]) -> list[Entry]:
    return [entry for entry in entries if not entry.reverses and not view.reversed_by(entry.id)]


def _supers(entry: Entry) -> int:
    counts = [lot.attributes.get("count", 0) for lot in entry.lots]
    return sum(count for count in counts if isinstance(count, int))


def _kilograms(
    key: str,
    rows: Sequence[OnHand],
    held: Collection[int],
    *,
    estimated: bool = False,
    warnings: int = 0,
) -> LinePlace:
    grams = sum(row.grams for row in rows)
    on_hold = len({row.lot.id for row in rows} & set(held))
    return LinePlace(key, (grams + 500) // 1000, "kg", estimated and grams > 0, warnings, on_hold)


def _waiting(view: View, rows: Sequence[OnHand], now_ms: int) -> int:
    """Pallets that are wet, or have stood too long."""
    places: dict[str, bool] = {}
    dry_first = dry_first_over(view)
    for place in {row.place for row in rows}:
        standing = view.standing(place)
        old = any(now_ms - one.since_ms > WAITS_TOO_LONG_MS for one in standing)
        wet = any((reading(view, one.lot.code, "moisture") or 0) > dry_first for one in standing)
        places[place] = old or wet
    return sum(places.values())


def _unweighed(view: View, rows: Sequence[OnHand]) -> int:
    """Drums whose weight is still to follow."""
    return len(values_on(view, "pending", {row.lot.code for row in rows}))


# What flows on from each place: the verbs that move it, and the class of places it comes to.
FLOWS: tuple[tuple[tuple[str, ...], tuple[str, ...]], ...] = (
    (("receive",), (PALLET,)),
    (("receive",), (PALLET,)),
    (("load",), (VESSEL,)),
    (("fill", "bung"), (DRUM,)),
    (("change-over", "bottle"), (FILLING, JARS)),
    (("dispatch",), (CUSTOMER, GATE)),
)
_KINDS = sorted({kind for kinds, _ in FLOWS for kind in kinds})


def _flow(
    view: View, today: Sequence[Entry], kinds: tuple[str, ...], into: tuple[str, ...]
) -> LineFlow:
    """Grams that places of these classes gained today, and the mean colour of what came.

    What only changes its lot there (a drum bunged or topped up, jars closed) is no gain.
    """
    grams = weighted = read_g = 0
    for entry in today:
        rows = [row for row in entry.postings if class_of(row.place) in into]
        gained = sum(row.grams for row in rows)
        if entry.kind not in kinds or gained <= 0:
            continue
        grams += gained
        for row in rows:
            colour = reading(view, view.lot(row.lot).code, "colour")
            if row.grams > 0 and colour is not None:
                weighted += colour * row.grams
                read_g += row.grams
    return LineFlow(grams, weighted // read_g if read_g else None)
