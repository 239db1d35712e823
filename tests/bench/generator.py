"""From a scale to a house: a season worked through in memory, then written in bulk."""

from collections.abc import Callable
from pathlib import Path
from typing import cast

from honeyledger.services.store import Store
from tests.bench.bulk import BulkFile, make_house
from tests.bench.memory_state import MemoryStore
from tests.bench.season import Clock, Scale, Season, season_house

LEDGER_ID = "bench-ledger"


def generate(path: Path, scale: Scale, progress: Callable[[str], None] = lambda _: None) -> None:
    """Make a house file with whole seasons in it; the same scale gives the same digests."""
    make_house(path, LEDGER_ID)
    with BulkFile(path) as file:
        store = MemoryStore(LEDGER_ID, file.take)
        clock = Clock()
        house = season_house(cast("Store", store), clock)
        Season(house, clock, scale, progress).work()
        progress("writing projections and guards")
        file.finish(store.tables, store.digest)
