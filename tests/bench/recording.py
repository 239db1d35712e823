"""Rows for recording: a truck of fifteen pulls, and a drum drawn from where fifteen pulls stand.

On SQLite the program and the floor write to one file in turns; the floor is given entries that
are booked already. Each entry has its own transaction, all guards, chain and full sync.
"""

from collections.abc import Callable, Mapping
from functools import partial
from itertools import count
from pathlib import Path
from typing import Any

from honeyledger.domain.moments import moment_at
from honeyledger.ledger.entry import Act, Entry
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.table import book
from honeyledger.persistence.store import open_store
from honeyledger.services.house import House
from tests.bench.floor_writer import PlainWriter
from tests.bench.report import Against, Row
from tests.bench.timing import Times

START_MS = 4_102_444_800_000  # 1 January 2100, after every season
HOUR_MS = 3_600_000
PULLS = 15
OF_PLAIN_SPEED = 0.6
TIMES_SQLITE = 2.5


class Recorder:
    """A house that entries are added to, hours apart, so that no reach margin meets another."""

    def __init__(self, url_or_path: str) -> None:
        self.now_ms = START_MS
        numbers = count(1)
        self.store = open_store(url_or_path)
        self.house = House(self.store, lambda: self.now_ms, lambda: f"timed-{next(numbers)}")
        with self.store.reading() as view:
            yards = view.marked("record", "yard/")
            vessels = view.marked("record", "vessel/")
        self.yards = [mark.subject.partition("/")[2] for mark in yards]
        self.vessel = vessels[0].subject.partition("/")[2]
        self._trucks = 0

    def truck(self) -> Receive:
        """The next pulls, from yards in turn, on one tag: as many lots, two postings each."""
        self.now_ms += 3 * HOUR_MS
        self._trucks += 1
        first = self._trucks * PULLS
        yards = [self.yards[(first + at) % len(self.yards)] for at in range(PULLS)]
        lines = tuple(Line(yard, 3) for yard in yards)
        return Receive(lines, gross_g=PULLS * 3 * 20_800 + 15_000)

    def drum(self) -> Fill:
        """All that a truck brought, loaded just now, drawn into one drum: a tank fill, a lot."""
        tag = next(code for code in self.house.record(self.truck()).given if code[0] == "G")
        self.house.record(Load(tag, self.vessel))
        self.now_ms += 3 * HOUR_MS
        return Fill(self.vessel, Weight(net_g=PULLS * 3 * 14_800))

    def booked(self, facts: Any) -> Entry:
        """The next entry, as it would be written."""
        act = Act(moment_at(self.now_ms, "UTC"), "", "bench", self.house.new_id())
        with self.store.reading() as view:
            return book(facts, view, act, self.now_ms)

    def append(self, entry: Entry) -> None:
        """Write an entry that is booked."""
        with self.store.writing() as unit:
            unit.append(entry)


Facts = Callable[[Recorder], Any]
KINDS: Mapping[str, Facts] = {"a truck of pulls": Recorder.truck, "a drum filled": Recorder.drum}


def record_rows(places: Mapping[str, str], path: Path, turns: int) -> list[Row]:
    """Rows for every engine: SQLite against the floor, PostgreSQL against SQLite.

    Args:
        places: path or address by engine; the houses are written to.
        path: the SQLite house, for the floor.
    """
    recorders = {engine: Recorder(place) for engine, place in places.items()}
    plain = PlainWriter(path)
    rows = []
    for kind, facts in KINDS.items():
        rows += _timed(kind, facts, recorders, plain, turns)
    for recorder in recorders.values():
        recorder.store.close()
    plain.connection.close()
    return rows


def _timed(
    kind: str,
    facts: Facts,
    recorders: Mapping[str, Recorder],
    plain: PlainWriter,
    turns: int,
) -> list[Row]:
    times = Times()
    size = ""
    for _ in range(turns + 1):
        for engine, recorder in recorders.items():
            times.time(f"all {engine}", partial(recorder.house.record, facts(recorder)))
            entry = recorder.booked(facts(recorder))
            times.time(f"booked {engine}", partial(recorder.append, entry))
            size = f"{len(entry.postings)} postings, {len(entry.lots)} lots"
        entry = recorders["SQLite"].booked(facts(recorders["SQLite"]))
        times.time("floor", partial(plain.append, entry))
    ways = {"all": f"record {kind}", "booked": f"record {kind}, once it is booked"}
    return [
        Row(told, engine, size, times.median(f"{way} {engine}"), (_against(times, way, engine),))
        for way, told in ways.items()
        for engine in recorders
    ]


def _against(times: Times, way: str, engine: str) -> Against:
    here = f"{way} {engine}"
    if engine == "SQLite":
        ratio = times.ratio("floor", here)
        return Against("floor", times.median("floor"), ratio, OF_PLAIN_SPEED, faster=True)
    other = f"{way} SQLite"
    return Against("SQLite", times.median(other), times.ratio(here, other), TIMES_SQLITE)
