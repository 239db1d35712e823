"""The sample season, loaded once in a test process and copied for whoever changes it."""

import atexit
import shutil
import tempfile
from functools import cache
from pathlib import Path

from honeyledger.assets import resource
from honeyledger.exchange.season import SAMPLE_NOW_MS, SeasonResult, load_season
from honeyledger.persistence.store import open_store
from honeyledger.services.house import House

LEDGER_ID = "sample-ledger"


@cache
def loaded() -> tuple[Path, SeasonResult]:
    """A file with the sample season in it, and what the loading answered."""
    folder = Path(tempfile.mkdtemp(prefix="honey-sample-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    path = folder / "sample.honeyledger"
    store = open_store(str(path), create=True, new_id=lambda: LEDGER_ID)
    result = load_season(store, resource("sample"))
    store.close()
    return path, result


def sample_house(folder: Path) -> House:
    """A copy of the sample in a folder, opened, at the sample's own now."""
    copy = folder / "sample.honeyledger"
    shutil.copy(loaded()[0], copy)
    return House(open_store(str(copy)), lambda: SAMPLE_NOW_MS, lambda: "later")


def code(name: str) -> str:
    """The code of what the sample's files call "pallet 12", "drum 45", "bottling 3"."""
    return loaded()[1].codes[name.casefold()]
