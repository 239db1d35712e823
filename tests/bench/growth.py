"""How much longer a typical trace takes in a house of many seasons than in its first alone."""

from functools import partial
from pathlib import Path

from honeyledger.persistence.store import open_store
from honeyledger.services.store import Store
from honeyledger.services.tracing import trace_back
from tests.bench.floor import Floor
from tests.bench.report import Against, Row
from tests.bench.timing import in_turns
from tests.bench.traces import choose

ONE_SEASON = "one season"
TIMES_ONE_SEASON = 1.5


def growth_rows(first: Path, whole: Path, turns: int) -> list[Row]:
    """The typical jar lot of each house, traced back in turns.

    Args:
        first: the same house after its first season.
        whole: after all of them.
    """
    stores = {"first": open_store(str(first)), "whole": open_store(str(whole))}
    choices = {
        name: choose(Floor(path), "J", forward=False)[0]
        for name, path in (("first", first), ("whole", whole))
    }
    asks = {name: partial(_traced, store, choices[name].code) for name, store in stores.items()}
    times = in_turns(asks, turns)
    for store in stores.values():
        store.close()
    rows = " rows against ".join(f"{choices[name].rows:,}" for name in ("whole", "first"))
    against = Against(
        ONE_SEASON, times.median("first"), times.ratio("whole", "first"), TIMES_ONE_SEASON
    )
    what = "trace a jar lot back, all seasons against the first"
    return [Row(what, "SQLite", rows, times.median("whole"), (against,))]


def _traced(store: Store, code: str) -> None:
    with store.reading() as view:
        trace_back(view, code, ribbons=False)
