"""Rows for whole processes and whole ledgers: a trace from a cold start, and the audit."""

import json
import os
import subprocess
import sys
import time
from collections.abc import Mapping
from functools import partial
from pathlib import Path
from typing import Any

from honeyledger.persistence.broken import Broken
from honeyledger.persistence.sealed import follow_chain
from honeyledger.persistence.store import SqlStore, open_store
from tests.bench.floor import Floor
from tests.bench.report import Against, Row
from tests.bench.timing import in_turns, warming_of
from tests.bench.traces import AnswersDifferError, choose

FRESH_S = 0.45
TIMES_AS_FAST = 10.0
LARGE_ENTRIES = 500_000
"""From this size on a fresh trace has to be ten times as fast as one over a loaded graph."""

ENTRIES_A_SECOND = 100_000.0
NO_BYTECODE = "PYTHONDONTWRITEBYTECODE"


def fresh_rows(path: Path, turns: int) -> list[Row]:
    """`honeyledger trace CODE --json` as a process of its own, against the peer's."""
    floor = Floor(path)
    choice = choose(floor, "J", forward=False)[0]
    here = [sys.executable, "-m", "honeyledger", "--house", str(path)]
    here += ["trace", choice.code, "--json"]
    peer = [sys.executable, "-m", "tests.bench.peer", str(path), choice.code]
    _check_same(_json(here), _json(peer))
    runs = {"here": partial(_json, here), "peer": partial(_json, peer)}
    times = in_turns(runs, turns, warming_of(turns))
    (entries,) = floor.connection.execute("SELECT entry FROM head").fetchone()
    bound = TIMES_AS_FAST if entries >= LARGE_ENTRIES else None
    ratio = times.ratio("peer", "here")
    against = Against("networkx", times.median("peer"), ratio, bound, faster=True)
    what, size = "trace a jar lot back in a fresh process", f"{choice.rows:,} rows"
    return [Row(what, "SQLite", size, times.median("here"), (against,), most_seconds=FRESH_S)]


def compiled() -> dict[str, str]:
    """The environment of a process that keeps its compiled modules, as an installed program does.

    Its first turn, which is not counted, compiles what a change left to be compiled.
    """
    return {name: value for name, value in os.environ.items() if name != NO_BYTECODE}


def _json(command: list[str]) -> Any:
    ran = subprocess.run(command, env=compiled(), capture_output=True, check=True)
    return json.loads(ran.stdout)


def _check_same(here: Any, peer: Mapping[str, float]) -> None:
    shares = {row["code"]: row["share"] for row in here["yards"]}
    if shares.keys() != peer.keys() or any(abs(shares[c] - peer[c]) > 1e-12 for c in peer):
        raise AnswersDifferError("the fresh process and networkx do not say the same")


def audit_rows(places: Mapping[str, str]) -> list[Row]:
    """The chain alone, and every invariant; the audit has to pass."""
    rows = []
    for engine, place in places.items():
        store = open_store(place)
        assert isinstance(store, SqlStore)
        with store.reading() as view:
            entries = view.head().entry
            broken = Broken()
            times = in_turns({"chain": partial(follow_chain, view, broken)}, 3)
        findings = list(broken.findings())
        start = time.perf_counter()
        findings += store.audit()
        seconds = {"chain": times.median("chain"), "all": time.perf_counter() - start}
        store.close()
        bad = [finding for finding in findings if not finding.holds]
        if bad:
            raise AnswersDifferError(f"the audit of {engine} finds {bad[0]}")
        size = f"{entries:,} entries"
        for what, name in (("the chain", "chain"), ("everything", "all")):
            least = ENTRIES_A_SECOND if (engine, name) == ("SQLite", "chain") else 0.0
            rate = entries / seconds[name]
            rows.append(
                Row(
                    f"audit, {what}",
                    engine,
                    size,
                    seconds[name],
                    entries_a_second=rate,
                    least=least,
                )
            )
    return rows
