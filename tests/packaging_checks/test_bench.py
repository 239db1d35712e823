"""The bench at its smallest: it runs, its ratios are numbers, and its answers agree.

No time is asserted here; the bounds hold for larger sets and are the bench's own to tell.
"""

import json
import os
import sqlite3
import subprocess
import sys
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from honeyledger.persistence.store import open_store
from honeyledger.services.tracing import trace_back, trace_forward
from tests.bench.floor import Floor
from tests.bench.generator import generate
from tests.bench.growth import growth_rows
from tests.bench.peer import Peer
from tests.bench.report import SMALLEST, Against, Report, Row
from tests.bench.season import Clock, Scale, season_house
from tests.bench.sizes import Size, size_of
from tests.bench.timing import in_turns
from tests.bench.traces import (
    AnswersDifferError,
    Kind,
    choose,
    each_another,
    same_back,
    same_forward,
    trace_rows,
)

ROOT = Path(__file__).resolve().parents[2]
WINDOWS = {"these seasons", "the sample season"}


@pytest.mark.full
@pytest.mark.postgres
def test_every_row_has_its_ratios(fresh_postgres_url: str, tmp_path: Path) -> None:
    command = [sys.executable, "-m", "tests.bench", "--quick", "--turns", "2"]
    command += ["-o", str(tmp_path), "--postgresql", fresh_postgres_url]
    ran = subprocess.run(
        command, cwd=ROOT, env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True
    )
    assert ran.returncode == 0, ran.stderr.decode()
    found = json.loads((tmp_path / "bench.json").read_text())
    rows: list[dict[str, Any]] = found["rows"]
    seen = {(row["what"].partition(",")[0], row["engine"]) for row in rows}
    for what in (
        *("trace a jar lot back", "trace a pull forward"),
        *("record a truck of pulls", "record a drum filled", "audit"),
    ):
        assert {(what, "SQLite"), (what, "PostgreSQL")} <= seen
    assert ("trace a jar lot back in a fresh process", "SQLite") in seen
    sizes = {row["size"] for row in rows if row["what"] == "the window in a fresh process"}
    assert sizes == WINDOWS
    assert ("the window held", "SQLite") in seen
    labels = next(row for row in rows if row["what"].startswith("jar labels"))
    assert (labels["counted"], labels["entries_a_second"] > 0) == ("labels", True)
    held = [row for row in rows if row["what"].startswith("the window held")]
    assert {row["size"] for row in held} == WINDOWS
    assert len(held) == 2 * len(sizes), "where nothing held it, that is no time at all"
    held += [row for row in rows if row["what"].startswith("a long table worked on")]
    assert all(row["seconds"] > 0 for row in rows if row not in held)
    ratios = [one["ratio"] for row in rows for one in row["against"]]
    assert ratios
    assert min(ratios) > 0
    assert {one["what"] for row in rows for one in row["against"]} == {
        "floor",
        "networkx",
        "SQLite",
        "sorted",
        "words alone",
    }
    table = (tmp_path / "bench.md").read_text().splitlines()
    assert len(table) == len(rows) + 4
    assert len({line.count("|") for line in table[2:]}) == 1


@pytest.fixture(scope="module")
def season(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("bench") / "season.honeyledger"
    generate(path, Scale(colonies=600, seasons=1, seed=5, mishaps=10))
    return path


def test_floor_networkx_and_program_say_the_same_of_many_lots(season: Path) -> None:
    floor, peer, store = Floor(season), Peer(season), open_store(str(season))
    gone = "SELECT made_by FROM lot JOIN reversal ON reversal.entry = lot.made_by"
    codes = floor.connection.execute(
        f"SELECT code, kind FROM lot WHERE kind IN ('S', 'D', 'J') AND made_by NOT IN ({gone})"
    ).fetchall()
    assert len(codes) > 100
    with store.reading() as view:
        for code, kind in codes[::3]:
            if kind == "S":
                same_forward(trace_forward(view, code), floor, peer)
            else:
                same_back(trace_back(view, code), floor, peer)
    store.close()


def test_an_answer_that_differs_stops_the_bench(season: Path) -> None:
    floor, peer, store = Floor(season), Peer(season), open_store(str(season))
    code = choose(floor, "J", forward=False)[0].code
    with store.reading() as view:
        answer = trace_back(view, code)
    store.close()
    first, second, *others = answer.ancestors
    swapped = (first._replace(share=second.share), second._replace(share=first.share), *others)
    with pytest.raises(AnswersDifferError, match=code):
        same_back(replace(answer, ancestors=swapped), floor, peer)
    with pytest.raises(AnswersDifferError, match="in one only"):
        same_back(replace(answer, ancestors=(second, *others)), floor, peer)


def test_a_house_is_timed_against_its_first_season(season: Path, tmp_path: Path) -> None:
    first = tmp_path / "first.honeyledger"
    generate(first, Scale(colonies=200, seasons=1))
    (row,) = growth_rows(first, season, 2)
    (against,) = row.against
    assert (against.what, against.bound) == ("one season", 1.5)
    assert min(row.seconds, against.seconds, against.ratio) > 0
    typical = [choose(Floor(path), "J", forward=False)[0].rows for path in (season, first)]
    assert row.size == f"{typical[0]:,} rows against {typical[1]:,}"


def test_what_was_never_washed_has_bounds_of_its_own(season: Path) -> None:
    store = open_store(str(season))
    bounds = {}
    for washed in (True, False):
        houses = {"SQLite": season_house(store, Clock())}
        rows = trace_rows(houses, season, 1, washed=washed)
        for name in ("typical", "another each time"):
            row = next(row for row in rows if row.what == f"trace a jar lot back, {name}")
            bounds[washed, name] = (row.against[0].bound, row.most_seconds)
    store.close()
    assert bounds == {
        (True, "typical"): (2.0, 0.01),
        (True, "another each time"): (2.0, 0.0),
        (False, "typical"): (1.3, 0.0),
        (False, "another each time"): (1.3, 0.0),
    }


def test_another_lot_is_asked_each_turn(season: Path) -> None:
    store, floor = open_store(str(season)), Floor(season)
    asked: dict[str, list[str]] = {"here": [], "floor": [], "peer": []}
    kind = Kind(
        "back",
        lambda _, text: asked["here"].append(text),
        asked["floor"].append,
        asked["peer"].append,
    )
    (row,) = each_another({"SQLite": season_house(store, Clock())}, kind, floor, 2)
    store.close()
    assert asked["here"] == asked["floor"] == asked["peer"]
    assert len(set(asked["here"])) == 3
    assert (row.what, row.most_seconds) == ("back, another each time", 0.0)


def test_the_largest_reach_is_at_least_the_typical(season: Path) -> None:
    floor = Floor(season)
    for kind, forward in (("J", False), ("S", True)):
        typical, largest = choose(floor, kind, forward=forward)
        assert 0 < typical.rows <= largest.rows
        assert floor.reached(largest.code, forward=forward) == largest.rows


def test_turns_are_taken_and_the_first_is_not_counted() -> None:
    order: list[str] = []
    times = in_turns({"a": lambda: order.append("a"), "b": lambda: order.append("b")}, 2)
    assert order == ["a", "b"] * 3
    assert times.median("a") > 0
    assert times.ratio("a", "b") > 0


def test_bounds_are_told_and_judged() -> None:
    slow = Against("floor", 0.002, 2.5, bound=2.0)
    fast = Against("floor", 0.002, 0.7, bound=0.6, faster=True)
    assert slow.told() == "2.00 ms; 2.50 x as long (≤ 2, NOT MET)"
    assert fast.told() == "2.00 ms; 0.70 x as fast (≥ 0.6)"
    row = Row("trace", "SQLite", "9 rows", 0.005, (slow,), most_seconds=0.01)
    assert not row.is_met
    assert row.told() == "5.00 ms (≤ 10.00 ms)"
    audit = Row("audit", "SQLite", "", 2.0, entries_a_second=90_000.0, least=100_000.0)
    assert not audit.is_met
    assert audit.told() == "90,000 entries/s (≥ 100,000, NOT MET)"
    for entries, met in ((SMALLEST - 1, True), (SMALLEST, False)):
        report = Report("a house", entries, 1, 1, "1 MB")
        report.add([row])
        assert json.loads(report.as_json())["rows"][0]["met"] is met


def test_a_file_is_measured_against_its_own_plain_rows(tmp_path: Path) -> None:
    house = tmp_path / "north.house"
    generate(house, Scale(colonies=200, seasons=1))
    size = size_of(house, tmp_path)
    assert list(tmp_path.iterdir()) == [house]
    with closing(sqlite3.connect(house)) as plain:
        entries, facts = plain.execute("SELECT count(*), sum(length(facts)) FROM entry").fetchone()
    assert size.facts_mb >= facts / 1e6
    assert size.digests_mb == pytest.approx(entries * 6 * 32 / 1e6, abs=0.001)
    assert 0 < size.plain_packed_mb <= size.plain_mb < size.packed_mb <= size.file_mb
    assert Size(10.0, 9.0, 3.0, 1.0, 4.0, 4.0).told() == (
        "10 MB, of that facts 3 MB and digests 1 MB; the rest is 1.50 x plain rows, "
        "both packed 1.25 x (≤ 1.5)"
    )
    for packed_mb, plain_mb in ((10.0, 5.0), (9.0, 4.0)):
        size = Size(10.0, packed_mb, 2.0, 1.0, plain_mb, 4.0)
        assert size.told().endswith(" x (≤ 1.5, NOT MET)")
