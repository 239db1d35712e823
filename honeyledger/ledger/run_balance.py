"""What went into a run and what came out, read from the entries that carry its code.

Two gaps are kept apart: (a) estimates against scales, which says how good the estimates are,
and (b) losses between weighed points, which says where honey went.
"""

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass

from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Entry, Json, Lot
from honeyledger.ledger.in_run import MAY_BE_OF_RUN, entries_in
from honeyledger.ledger.places import (
    BARREL,
    DIFFERENCE,
    DRUM,
    EVAPORATED,
    JARS,
    VESSEL,
    class_of,
    place,
)
from honeyledger.ledger.sources import is_cappings
from honeyledger.ledger.state import State
from honeyledger.ledger.to_follow import OFF_BY, off_by

# What is done while a run is worked; it is weighed, closed, pooled or settled at any time after.
_WORK = (*MAY_BE_OF_RUN, "open run", "set aside", "bung")


@dataclass(frozen=True, slots=True)
class Loaded:
    """A pull's supers that went in, at estimated grams."""

    pull: int
    supers: int
    grams: int


@dataclass(frozen=True, slots=True)
class Filled:
    """A drum or barrel that came out; `pending` while its weight is still the usual one."""

    lot: int
    grams: int
    pending: bool


@dataclass(frozen=True, slots=True)
class _Part:
    """What one fill of a run put into a drum: grams, and the lots they are of."""

    entry: Entry
    grams: int
    lots: frozenset[int]


@dataclass(frozen=True, slots=True)
class RunBalance:
    """A run's figures, grams.

    `poured_in_g` is honey that came from drums, barrels, jars or cut comb; `lost_g` what went
    between two weighings (gains below 0), `evaporated_g` water out of vessels. `empties_g` is what
    the loaded supers weigh empty by their boxes' records, `wet_out_g` what they weighed when they
    came out wet.
    """

    run: str
    loaded: tuple[Loaded, ...]
    drums: tuple[Filled, ...]
    part_filled_g: int
    barrels: tuple[Filled, ...]
    heel_in_g: int
    poured_in_g: int
    heel_out_g: int
    heel_known: bool
    cappings_pending: bool
    skimmed_g: int
    lost_g: int
    wet_out_supers: int
    wet_weighed_supers: int
    wet_out_g: int
    empties_g: int
    first_ms: int
    last_ms: int
    evaporated_g: int = 0

    @property
    def in_g(self) -> int:
        """Estimated honey in, heel included."""
        return self.heel_in_g + self.poured_in_g + sum(row.grams for row in self.loaded)

    @property
    def out_g(self) -> int:
        """Honey out by scale and dip."""
        weighed = sum(row.grams for row in (*self.drums, *self.barrels))
        rest = self.part_filled_g + self.heel_out_g + self.skimmed_g + self.evaporated_g
        return weighed + rest

    @property
    def estimate_gap_g(self) -> int:
        """(a) Estimates less scales: above 0 where the estimates ran high."""
        return self.in_g - self.out_g - self.lost_g

    @property
    def supers(self) -> int:
        """Supers loaded."""
        return sum(row.supers for row in self.loaded)

    @property
    def extracted_g(self) -> int | None:
        """Honey taken out of the supers by two weighings, where all of them came out weighed."""
        if not self.wet_out_g or self.wet_weighed_supers != self.supers:
            return None
        return sum(row.grams for row in self.loaded) + self.empties_g - self.wet_out_g

    def figures(self) -> dict[str, int]:
        """The totals that are frozen when the run is signed."""
        return {
            "in_g": self.in_g,
            "out_g": self.out_g,
            "heel_in_g": self.heel_in_g,
            "heel_out_g": self.heel_out_g,
            "estimate_gap_g": self.estimate_gap_g,
            "lost_g": self.lost_g,
            "supers": self.supers,
            "cappings_pending": int(self.cappings_pending),
        }

    def as_facts(self) -> dict[str, object]:
        """Everything, as plain values."""
        return asdict(self)


def heel_in(state: State, run: str) -> int:
    """What the run's vessels held when it was opened, grams."""
    mark = state.mark(place("run", run), "opened")
    heels = mark.value.get("heels", []) if mark and isinstance(mark.value, Mapping) else []
    assert isinstance(heels, list)
    return sum(int(str(row[1])) for row in heels)


def balance_of(state: State, run: str) -> RunBalance:
    """A run's balance as the entries stand now."""
    entries = entries_in(state, run)
    loaded: list[Loaded] = []
    barrels: list[Filled] = []
    sums = dict.fromkeys(
        ("poured", "skimmed", "dried", "lost", "wet", "wet_weighed", "wet_g", "heel_out"), 0
    )
    heel_known = pending = False
    for entry in entries:
        said = _said(entry)
        if entry.kind == "load":
            loaded += _loaded(entry)
        elif entry.kind == "set aside":
            loaded = _less(loaded, entry)
        elif entry.kind == "fill":
            sums["poured"] += _poured_in(said, entry)
        elif entry.kind in ("melt", "cut", "blend"):
            sums["poured"] += _put_in(entry)
        elif entry.kind == "dry":
            sums["dried"] += _out_of_vessels(entry)
        elif entry.kind == "wet out":
            sums["wet"] += _number(said, "count")
            sums["wet_weighed"] += _number(said, "count") if said.get("gross_g") else 0
            sums["wet_g"] += max(0, _number(said, "gross_g") - _number(said, "tare_g"))
        elif entry.kind == "skim":
            sums["skimmed"] += _number(said, "net_g")
        elif entry.kind == "reweigh":
            sums["lost"] += _lost(entry)
        elif entry.kind == "close run":
            heels = said.get("heels", [])
            assert isinstance(heels, list)
            heel_known = bool(heels)
            sums["heel_out"] = sum(_number(heel, "grams") for heel in heels)
            pending = bool(_number(said, "cappings_pending"))
        weighed = (lot for lot in entry.lots if is_cappings(lot))
        barrels += [Filled(lot.id, lot.made_g, pending=False) for lot in weighed]
    drums, part_filled_g = _drummed(state, entries)
    times = [entry.act.happened.at_ms for entry in entries if entry.kind in _WORK]
    return RunBalance(
        run=run,
        loaded=tuple(loaded),
        drums=tuple(drums),
        part_filled_g=part_filled_g,
        barrels=tuple(barrels),
        heel_in_g=heel_in(state, run),
        poured_in_g=sums["poured"],
        heel_out_g=sums["heel_out"],
        heel_known=heel_known,
        cappings_pending=pending,
        skimmed_g=sums["skimmed"],
        lost_g=sums["lost"],
        wet_out_supers=sums["wet"],
        wet_weighed_supers=sums["wet_weighed"],
        wet_out_g=sums["wet_g"],
        empties_g=sum(row.supers * _empty_g(state, row.pull) for row in loaded),
        first_ms=min(times, default=0),
        last_ms=max(times, default=0),
        evaporated_g=sums["dried"],
    )


def _poured_in(said: Mapping[str, Json], entry: Entry) -> int:
    """Grams that came into a vessel from drums, barrels or jars, and not from another vessel."""
    from_vessel = not any(class_of(row.place) in (DRUM, BARREL, JARS) for row in entry.postings)
    if not said.get("into") or from_vessel:
        return 0
    return sum(row.grams for row in entry.postings if class_of(row.place) == VESSEL)


def _put_in(entry: Entry) -> int:
    """Honey from under the wax, out of cut comb or drums that came into a vessel."""
    here = [row for row in entry.postings if class_of(row.place) == VESSEL]
    moved = {lot.id for lot in entry.lots if lot.kind == "T"}
    moved |= {row.lot for row in here if row.grams < 0}  # from vessel to vessel
    return sum(row.grams for row in here if row.grams > 0 and row.lot not in moved)


def _out_of_vessels(entry: Entry) -> int:
    """Water that left what stood in a vessel; below 0 where it came in."""
    dried = {row.lot for row in entry.postings if class_of(row.place) == VESSEL}
    gone = [row for row in entry.postings if row.place == EVAPORATED]
    return sum(row.grams for row in gone if row.lot in dried)


def _less(loaded: Sequence[Loaded], entry: Entry) -> list[Loaded]:
    """What was loaded, less what was set aside of it at the uncapper."""
    rows = list(loaded)
    for _, name, value in rows_of(entry, "marks"):
        if name != "set aside" or not _number(value, "load"):
            continue
        pull = _number(value, "lot")
        at = max((at for at, row in enumerate(rows) if row.pull == pull), default=None)
        if at is not None:
            left = rows[at].supers - _number(value, "supers")
            rows[at] = Loaded(pull, left, rows[at].grams - _number(value, "grams"))
    return [row for row in rows if row.supers or row.grams]


def _empty_g(state: State, pull: int) -> int:
    """What one empty super of a pull weighs, by its box's record now."""
    box = state.mark(f"box/{state.lot(pull).attributes.get('box', '')}", "record")
    return _number(box.value, "tare_g") if box else 0


def _said(entry: Entry) -> Mapping[str, Json]:
    said = entry.facts.get("said", {})
    assert isinstance(said, Mapping)
    return said


def _number(values: object, name: str) -> int:
    value = values.get(name, 0) if isinstance(values, Mapping) else 0
    return value if isinstance(value, int) else 0


def _loaded(entry: Entry) -> list[Loaded]:
    effects = entry.facts.get("effects", {})
    rows = effects.get("pieces", []) if isinstance(effects, Mapping) else []
    assert isinstance(rows, list)
    supers = {int(str(lot)): -int(str(count)) for _, lot, count in rows}
    return [
        Loaded(posting.lot, supers.get(posting.lot, 0), posting.grams)
        for posting in entry.postings
        if class_of(posting.place) == VESSEL and posting.grams > 0
    ]


def _drummed(state: State, entries: Sequence[Entry]) -> tuple[list[Filled], int]:
    """The drums a run's honey went into with what it put into each, and grams in open drums.

    Honey that was in a drum before (another run's, or one topped up or poured over) is not
    counted again: of a drum filled by several runs each has what it drew into it, whoever closed
    the drum. What a weight that was "to follow" is off by when it comes is an estimate's error, of
    each run by what it guessed; a second weighing of a weighed drum is a loss and counts as such.
    """
    open_parts: dict[str, list[_Part]] = {}
    drums = []
    for entry in entries:
        rows = [row for row in entry.postings if class_of(row.place) == DRUM]
        if entry.kind not in ("fill", "bung") or _said(entry).get("into") or not rows:
            continue
        where = max(rows, key=lambda row: row.grams).place
        parts = open_parts.setdefault(where, [])
        if entry.kind == "fill":
            put_in = frozenset(row.lot for row in rows if row.grams > 0)
            guessed = _number(_said(entry), "pending")
            off_g = (off_by(state, entry.id) or 0) if guessed else 0
            grams = sum(row.grams for row in rows) + off_g
            parts.append(_Part(entry, grams, put_in))
        closed = [lot for lot in entry.lots if lot.kind == "D"]
        if closed and open_parts.pop(where):
            drums.append(_drum_of(state, closed[0], parts))
    for where, parts in list(open_parts.items()):
        # Another run closed it, or somebody who named none.
        lot = _closed_later(state, where, parts) if parts else None
        if lot is not None:
            drums.append(_drum_of(state, lot, open_parts.pop(where)))
    left = [part.grams for parts in open_parts.values() for part in parts]
    return sorted(drums, key=lambda row: row.lot), sum(left)


def _closed_later(state: State, drum: str, parts: Sequence[_Part]) -> Lot | None:
    """The lot that the honey a run left in an open drum became when the drum was closed."""
    first, last = parts[0].entry, parts[-1].entry
    put_in = frozenset[int]().union(*(part.lots for part in parts))
    for stay in state.stays(drum, first.act.happened.at_ms):
        lot = state.lot(stay.lot)
        if lot.kind != "D" or lot.made_by <= last.id:
            continue
        if any(edge.parent in put_in and edge.grams for edge in state.origins(lot.id)):
            return lot
    return None


def _drum_of(state: State, lot: Lot, parts: Sequence[_Part]) -> Filled:
    guessed = [part.entry.id for part in parts if _number(_said(part.entry), "pending")]
    waits = any(off_by(state, entry) is None for entry in guessed)
    return Filled(lot.id, sum(part.grams for part in parts), waits)


def _lost(entry: Entry) -> int:
    """Grams a second weighing found missing (below 0: more than before)."""
    if _weighed_first(entry):
        return 0
    return sum(posting.grams for posting in entry.postings if posting.place == DIFFERENCE)


def _weighed_first(entry: Entry) -> bool:
    """Whether this weighing was the first of a drum whose weight was to follow."""
    effects = entry.facts.get("effects", {})
    rows = effects.get("marks", []) if isinstance(effects, Mapping) else []
    assert isinstance(rows, list)
    return any(row[1] == OFF_BY for row in rows)
