"""What went into a run and what came out, read from the entries that carry its code.

Two gaps are kept apart: (a) estimates against scales, which says how good the estimates are,
and (b) losses between weighed points, which says where honey went.
"""

from collections.abc import Mapping
from dataclasses import asdict, dataclass

from honeyledger.ledger.entry import Entry, Json
from honeyledger.ledger.places import DIFFERENCE, class_of, place
from honeyledger.ledger.state import State


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
class RunBalance:
    """A run's figures, grams. `lost_g` is what went between two weighings (gains below 0)."""

    run: str
    loaded: tuple[Loaded, ...]
    drums: tuple[Filled, ...]
    barrels: tuple[Filled, ...]
    heel_in_g: int
    heel_out_g: int
    heel_known: bool
    cappings_pending: bool
    skimmed_g: int
    lost_g: int
    wet_out_supers: int
    first_ms: int
    last_ms: int

    @property
    def in_g(self) -> int:
        """Estimated honey in, heel included."""
        return self.heel_in_g + sum(row.grams for row in self.loaded)

    @property
    def out_g(self) -> int:
        """Honey out by scale and dip."""
        weighed = sum(row.grams for row in (*self.drums, *self.barrels))
        return weighed + self.heel_out_g + self.skimmed_g

    @property
    def estimate_gap_g(self) -> int:
        """(a) Estimates less scales: above 0 where the estimates ran high."""
        return self.in_g - self.out_g - self.lost_g

    @property
    def supers(self) -> int:
        """Supers loaded."""
        return sum(row.supers for row in self.loaded)

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
    entries = state.entries_of_run(run)
    loaded: list[Loaded] = []
    made: list[tuple[str, int]] = []
    skimmed = lost = wet = heel_out = 0
    heel_known = pending = False
    for entry in entries:
        said = _said(entry)
        if entry.kind == "load":
            loaded += _loaded(entry)
        elif entry.kind == "wet out":
            wet += _number(said, "count")
        elif entry.kind == "skim":
            skimmed += _number(said, "net_g")
        elif entry.kind == "reweigh":
            lost += _lost(entry)
        elif entry.kind == "close run":
            heels = said.get("heels", [])
            assert isinstance(heels, list)
            heel_known = bool(heels)
            heel_out = sum(_number(heel, "grams") for heel in heels)
            pending = bool(_number(said, "cappings_pending"))
        made += [(lot.kind, lot.id) for lot in entry.lots if lot.kind in "DW"]
    times = [entry.act.happened.at_ms for entry in entries if entry.kind != "close run"]
    return RunBalance(
        run=run,
        loaded=tuple(loaded),
        drums=tuple(_filled(state, lot) for kind, lot in made if kind == "D"),
        barrels=tuple(_filled(state, lot) for kind, lot in made if kind == "W"),
        heel_in_g=heel_in(state, run),
        heel_out_g=heel_out,
        heel_known=heel_known,
        cappings_pending=pending,
        skimmed_g=skimmed,
        lost_g=lost,
        wet_out_supers=wet,
        first_ms=min(times, default=0),
        last_ms=max(times, default=0),
    )


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
        if class_of(posting.place) == "vessel" and posting.grams > 0
    ]


def _filled(state: State, lot_id: int) -> Filled:
    """What the scale says went into a drum: what it was made of, and any later weighing.

    A weight that was "to follow" counts as first weighed when it comes, so it is an estimate's
    error; a second weighing of a weighed drum is a loss and is counted as such.
    """
    lot = state.lot(lot_id)
    pending = state.mark(lot.code, "pending")
    first = state.mark(lot.code, "weighed_g")
    grams = first.value if first and isinstance(first.value, int) else lot.made_g
    return Filled(lot_id, grams, bool(pending and pending.value))


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
    return any(row[1] == "weighed_g" for row in rows)
