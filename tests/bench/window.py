"""Rows for the window: how soon it is there, how long its thread is held, how fast labels come."""

import json
import sqlite3
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from contextlib import closing
from functools import partial
from io import BytesIO
from pathlib import Path
from typing import Any

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from honeyledger.assets import resource
from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.labels import JAR_LABEL, jar_labels
from honeyledger.documents.stock import Stocks, plain_printer
from honeyledger.exchange.season import load_season
from honeyledger.persistence.store import open_store
from honeyledger.services.labelling import label_rows
from honeyledger.services.papers import Serials
from tests.bench.processes import compiled
from tests.bench.report import Against, Row
from tests.bench.timing import in_turns, warming_of
from tests.bench.windowed import BRIEF_MS, PAUSE_MS

SAMPLE, KEPT = "the sample season", "these seasons"
MOST_S = {SAMPLE: 0.8, KEPT: 1.2}
HELD_S = 0.05
LABELS_A_SECOND = 300.0
LABELS = 300
# A symbol of its own is some hundred boxes; the words alone are four lines.
PLAIN_WORDS = 8.0
FRAMES = ("program", "bare")
# Of a start in English.
TRANSLATED = 1.1


def window_rows(kept: Path, turns: int) -> list[Row]:
    """The window on the sample season, and on the house of the bench; that alone in one turn."""
    pause_ms = pause_of(turns)
    houses = {KEPT: kept}
    with tempfile.TemporaryDirectory(prefix="honey-") as name:
        if turns > 1:
            sample = Path(name) / "sample.honeyledger"
            make_sample(sample)
            houses = {SAMPLE: sample, KEPT: kept}
        first, path = next(iter(houses.items()))
        return [
            *(_start(house, size, turns) for size, house in houses.items()),
            _translated(path, first, turns),
            *(row for size, house in houses.items() for row in _held(house, size, pause_ms)),
            _labels(path, turns),
        ]


def make_sample(path: Path) -> None:
    """The sample season in a file."""
    store = open_store(str(path), create=True, new_id=lambda: "sample")
    load_season(store, resource("sample"))
    store.close()


def _start(path: Path, size: str, turns: int) -> Row:
    """A process until a person can type into the first field, against a bare window's."""
    runs = {frame: partial(run, frame, path) for frame in FRAMES}
    times = in_turns(runs, min(turns, 9), warming_of(turns))
    bare = Against("floor", times.median("bare"), times.ratio("program", "bare"))
    what = "the window in a fresh process"
    return Row(what, "SQLite", size, times.median("program"), (bare,), most_seconds=MOST_S[size])


def _translated(path: Path, size: str, turns: int) -> Row:
    """The same start in the second language."""
    runs = {frame: partial(run, frame, path) for frame in ("translated", "program")}
    times = in_turns(runs, min(turns, 9), warming_of(turns))
    ratio = times.ratio("translated", "program")
    english = Against("floor", times.median("program"), ratio, TRANSLATED)
    what = "the window in Spanish, against English"
    return Row(what, "SQLite", size, times.median("translated"), (english,))


def _held(path: Path, size: str, pause_ms: int) -> list[Row]:
    """Every place opened, a card, traces: the longest the window's thread did not come back.

    On a machine that has other work the second row says more: what the thread did meanwhile.
    """
    # Where nothing is measured, once round is enough.
    times = "2" if pause_ms > BRIEF_MS else "1"
    told = run("round", path, str(pause_ms), times)
    seconds = max([block["ms"] for block in told["blocks"]], default=0.0) / 1000
    worked = told["worked_ms"] / 1000
    what = "the window held, longest in a round of all places"
    return [
        Row(what, "SQLite", size, seconds, most_seconds=HELD_S),
        Row(f"{what}: its own work", "SQLite", size, worked, most_seconds=HELD_S),
    ]


def _labels(path: Path, turns: int) -> Row:
    """Jar labels of one bottling, each with a symbol of its own, against their words alone."""
    with closing(sqlite3.connect(path)) as file:
        largest = "SELECT code FROM lot WHERE kind = 'J' ORDER BY made_g DESC LIMIT 1"
        (code,) = file.execute(largest).fetchone()
    store = open_store(str(path))
    with store.reading() as view:
        rows = list(label_rows(view, code, Serials(1, LABELS)))
    store.close()
    stock = Stocks.load(resource() / "labels" / "stocks.toml").chosen(JAR_LABEL)
    typefaces = Typefaces(resource() / "fonts")
    draw = partial(jar_labels, rows, stock, plain_printer(stock), typefaces)
    plain = partial(_plain_words, [[row.product, row.lot, row.place, row.code] for row in rows])
    times = in_turns({"labels": draw, "plain": plain}, min(turns, 5), warming_of(turns))
    seconds, words = times.median("labels"), times.median("plain")
    return Row(
        "jar labels, unique symbols, one core",
        "none",
        f"{len(rows)} labels",
        seconds,
        (Against("words alone", words, seconds / words, PLAIN_WORDS),),
        entries_a_second=len(rows) / seconds,
        least=LABELS_A_SECOND,
        counted="labels",
    )


def _plain_words(labels: Sequence[Sequence[str]]) -> bytes:
    """The same labels as reportlab alone writes lines of text, one label a page."""
    into = BytesIO()
    canvas = Canvas(into, pagesize=(70 * mm, 37 * mm), invariant=True)
    for lines in labels:
        for at, line in enumerate(lines, 1):
            canvas.drawString(3 * mm, 37 * mm - 12 * at, line)
        canvas.showPage()
    canvas.save()
    return into.getvalue()


def pause_of(turns: int) -> int:
    """For how long the window is looked at after each step; one turn measures nothing."""
    return PAUSE_MS if turns > 1 else BRIEF_MS


def run(what: str, path: Path, *given: str) -> Any:
    """One window in a process of its own; answers what it told."""
    return run_module("tests.bench.windowed", what, str(path), *given)


def run_module(*module: str) -> Any:
    """A module in a process of its own, without a screen; answers what it told."""
    with tempfile.TemporaryDirectory(prefix="honey-") as home:
        env = compiled() | {"QT_QPA_PLATFORM": "offscreen", "HOME": home, "XDG_RUNTIME_DIR": home}
        command: Sequence[str] = (sys.executable, "-m", *module)
        ran = subprocess.run(command, env=env, capture_output=True, check=True)
    return json.loads(ran.stdout)
