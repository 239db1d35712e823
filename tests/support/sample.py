"""The sample season, loaded once in a test process and copied for whoever changes it.

It is loaded into a file, and carried over from there to a server.
"""

import atexit
import shutil
import tempfile
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import Any

from honeyledger.assets import resource
from honeyledger.exchange.season import SAMPLE_NOW_MS, SeasonResult, load_season
from honeyledger.ledger.entry import Entry, Json, Lot
from honeyledger.persistence.store import open_store
from honeyledger.services.house import House
from honeyledger.services.store import View
from tests.bench.bulk import carry_over
from tests.support.engines import POSTGRESQL, SITE

LEDGER_ID = "sample-ledger"
SAMPLE = "sample.honeyledger"


@cache
def loaded() -> tuple[str, SeasonResult]:
    """Where the sample season is, and what the loading answered."""
    folder = Path(tempfile.mkdtemp(prefix="honey-sample-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    file = folder / SAMPLE
    store = open_store(str(file), create=True, new_id=lambda: LEDGER_ID)
    result = load_season(store, resource("sample"))
    store.close()
    address = SITE.address(file, lasting=True)
    if SITE.engine == POSTGRESQL:
        carry_over(file, address, LEDGER_ID)
    return address, result


def sample_house(folder: Path) -> House:
    """A copy of the sample, in a folder where that means something, at the sample's own now."""
    copy = SITE.copy(loaded()[0], folder / SAMPLE)
    return House(SITE.open(copy), lambda: SAMPLE_NOW_MS, lambda: "later")


def code(name: str) -> str:
    """The code of what the sample's files call "pallet 12", "drum 45", "bottling 3"."""
    return loaded()[1].codes[name.casefold()]


class Season:
    """The loaded season, read once: entries that count, and lots by kind."""

    def __init__(self, house: House, view: View) -> None:
        self.house = house
        self.view = view
        entries = view.entries()
        undone = {entry.reverses for entry in entries if entry.reverses}
        self.entries = [one for one in entries if not one.reverses and one.id not in undone]
        self.everything = entries

    def of(self, *kinds: str) -> list[Entry]:
        """Entries of these kinds."""
        return [entry for entry in self.entries if entry.kind in kinds]

    def lots(self, kind: str, *verbs: str) -> list[Lot]:
        """Lots of a kind, made by these verbs or any."""
        return [
            lot
            for entry in self.entries
            for lot in entry.lots
            if lot.kind == kind and (not verbs or entry.kind in verbs)
        ]

    def lot(self, name: str) -> Lot:
        """The lot that the files call so."""
        found = self.view.lot_by_code(code(name))
        assert found is not None
        return found

    def records(self, kind: str) -> dict[str, Mapping[str, Json]]:
        """A register by code."""
        marks = self.view.marked("record", f"{kind}/")
        return {m.subject.partition("/")[2]: m.value for m in marks}  # type: ignore[misc]

    def entry_of(self, name: str) -> Entry:
        """The entry that made the lot which the files call so."""
        entry = self.view.entry(self.lot(name).made_by)
        assert entry is not None
        return entry


@contextmanager
def season_read(folder: Path) -> Iterator[Season]:
    """A copy of the sample in a folder, read."""
    house = sample_house(folder)
    with house.store.reading() as view:
        yield Season(house, view)
    house.store.close()


def said(entry: Entry) -> Mapping[str, Any]:
    """What a person said with an entry."""
    facts = entry.facts["said"]
    assert isinstance(facts, Mapping)
    return facts


def whole(lot: Lot, name: str) -> int:
    """A number among a lot's attributes, 0 where there is none."""
    value = lot.attributes.get(name, 0)
    assert isinstance(value, int)
    return value


def notes(entry: Entry) -> Sequence[Any]:
    """What the person was told, as (key, sentence)."""
    rows = entry.facts.get("notes", ())
    assert isinstance(rows, Sequence)
    return rows


def tonnes(lots: Sequence[Lot]) -> float:
    """What lots were made of, tonnes."""
    return sum(lot.made_g for lot in lots) / 1e6
