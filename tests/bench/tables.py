"""Rows for tables: how long 50,000 rows are ordered and narrowed, and the window held meanwhile.

Run as a module it is one window with such a table, which tells as JSON what it found.
"""

import importlib
import json
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import asdict, dataclass
from functools import partial
from pathlib import Path
from random import Random
from typing import Any

from honeyledger.desktop.models.row_order import Given, Meant, meant_rows, ordered
from honeyledger.desktop.models.row_sheet import sheet_of
from honeyledger.desktop.models.rows import Column, ColumnKind
from honeyledger.persistence.store import open_store
from honeyledger.services.house import House
from honeyledger.settings import Settings
from tests.bench.report import Against, Row
from tests.bench.timing import in_turns
from tests.bench.window import pause_of, run_module
from tests.bench.windowed import settle

PULLS, FEW = 50_000, 5_000
HELD_S = 0.05
# Sorting in pieces, so that the window comes in between, and rows without a value apart.
MOST_OF_SORTED = 6.0


@dataclass(frozen=True, slots=True)
class Pull:
    """A row as wide as a station's."""

    code: str
    yard: str
    day: str
    supers: int
    grams: int
    moisture: int | None
    mm: float | None


def pulls(count: int) -> list[Pull]:
    """So many pulls of a season, always the same ones."""
    chance = Random(7)
    return [
        Pull(
            f"S26-{number:05}-A",
            f"{chance.choice(('Coulee', 'Osier', 'Quill', 'Birch'))} yard {number % 680}",
            f"{number % 28 + 1} {chance.choice(('Jul', 'Aug', 'Sep'))} 2026",
            chance.randrange(8, 60),
            chance.randrange(80_000, 900_000),
            chance.choice((None, chance.randrange(1_550, 2_100))),
            chance.choice((None, float(chance.randrange(4, 130)))),
        )
        for number in range(count)
    ]


def columns() -> tuple[Column[Pull], ...]:
    """Its columns, one of them ordered by what it shows."""
    return (
        Column("code", "Pull", lambda row: row.code, ColumnKind.CODE),
        Column("yard", "Yard", lambda row: row.yard, ColumnKind.NAME, note=lambda row: row.day),
        Column("day", "Pulled", lambda row: row.day),
        Column("colour", "Colour", kind=ColumnKind.COLOUR, pfund_mm=lambda row: row.mm),
        Column("supers", "Supers", lambda row: str(row.supers), ColumnKind.NUMBER),
        Column(
            "grams",
            "Honey",
            lambda row: f"{row.grams / 1000:.1f}",
            ColumnKind.NUMBER,
            unit="kg",
            sort_key=lambda row: row.grams,
        ),
        Column(
            "moisture",
            "Moist.",
            lambda row: "" if row.moisture is None else f"{row.moisture / 100:.2f}",
            ColumnKind.NUMBER,
            sort_key=lambda row: row.moisture,
        ),
    )


def long_table_rows(turns: int) -> list[Row]:
    """Ordering against `sorted`, the rest against ordering, and the window held."""
    count = PULLS if turns > 1 else FEW
    rows, made = pulls(count), columns()
    grams, words = made[5], Meant("quill 17 aug")
    given = Given(tuple(rows), made)
    times = in_turns(
        {
            "ordered": partial(ordered, rows, grams, descending=True),
            "sorted": partial(sorted, rows, key=lambda row: row.grams, reverse=True),
            "by what is shown": partial(ordered, rows, made[2], descending=False),
            "first narrowed": lambda: meant_rows(Given(given.rows, made), words),
            "narrowed on": partial(meant_rows, given, words),
            "as a file": lambda: sheet_of(made, rows).as_csv(),
        },
        min(turns, 5),
    )
    size = f"{count} rows"

    def row(what: str, name: str, other: str, bound: float | None = None) -> Row:
        against = Against(other, times.median(other), times.ratio(name, other), bound)
        return Row(what, "none", size, times.median(name), (against,))

    found = [
        row("a table ordered by a figure", "ordered", "sorted", MOST_OF_SORTED),
        row("a table ordered by days as shown", "by what is shown", "sorted"),
        row("a table narrowed, the first letter", "first narrowed", "sorted"),
        row("a table narrowed, the next letter", "narrowed on", "sorted"),
        row("a table as a file", "as a file", "sorted"),
    ]
    told = run_module("tests.bench.tables", str(count), str(pause_of(turns)))
    held = max([block["ms"] for block in told["blocks"]], default=0.0) / 1000
    what = "a long table worked on, longest the window is held"
    return [*found, Row(what, "none", size, held, most_seconds=HELD_S)]


def worked_on(folder: Path, count: int, pause_ms: int) -> dict[str, Any]:
    """Rows given, ordered four ways, narrowed letter by letter, scrolled, copied, saved."""
    widgets = importlib.import_module("PySide6.QtWidgets")
    app = widgets.QApplication([])
    window, table, desk, care = _shown(app, folder)
    watchdog = importlib.import_module("honeyledger.desktop.watchdog").Watchdog()
    blocks: list[dict[str, Any]] = []
    steps: list[dict[str, Any]] = []
    doing = ""
    watchdog.blocked.connect(lambda block: blocks.append({"doing": doing, **asdict(block)}))
    rows = pulls(count)
    chosen = rows[count // 2].code
    bar = table.view.verticalScrollBar()
    work: list[tuple[str, Callable[[], object]]] = [
        ("rows", lambda: table.show_rows(rows)),
        ("choosing", lambda: table.select(chosen)),
        *((f"by {key}", partial(table.order_by, key)) for key in ("grams", "yard", "day")),
        ("turned", lambda: table.order_by("day")),
        ("rows again", lambda: table.show_rows(rows)),
        ("finding", table.begin_find),
        *((f"find {words}", partial(table.narrow, words)) for words in ("q", "qu", "qui", "")),
        ("to the end", lambda: bar.setValue(bar.maximum())),
        ("copying", lambda: care.copy(table, [])),
        ("saving", lambda: care.save(table)),
    ]
    settle(app, window, pause_ms)
    watchdog.start()
    for doing, step in work:
        start = time.perf_counter()
        step()
        settle(app, window, pause_ms)
        steps.append({"doing": doing, "seconds": time.perf_counter() - start})
    watchdog.stop()
    told = {"blocks": blocks, "steps": steps, "chosen": table.selected_key() == chosen}
    window.close()
    desk.jobs.close()
    desk.house.store.close()
    return told


def _shown(app: Any, folder: Path) -> tuple[Any, Any, Any, Any]:
    """A window of one table that is looked after as the program does it."""
    load = importlib.import_module
    load("honeyledger.desktop.style").install(app)
    store = open_store(str(folder / "house.honeyledger"), create=True, new_id=lambda: "house")
    desk = load("honeyledger.desktop.desk").Desk(
        House(store, lambda: 0, lambda: "id"),
        load("honeyledger.desktop.jobs").Jobs(),
        load("honeyledger.desktop.refresh").Refresh(),
        Settings(),
        folder,
    )
    desk.papers = folder / "papers"
    desk.drafts = load("honeyledger.desktop.drafts").Drafts(folder / "drafts")
    window = load("PySide6.QtWidgets").QMainWindow()
    table = load("honeyledger.desktop.widgets.table").Table(columns(), lambda row: row.code)
    table.view.setAccessibleName("Pulls")
    window.setCentralWidget(table)
    window.desk = desk
    care = load("honeyledger.desktop.table_care").TableCare(desk, lambda _message: None, window)
    care.attend("bench", window)
    window.resize(1280, 800)
    window.show()
    return window, table, desk, care


if __name__ == "__main__":
    with tempfile.TemporaryDirectory(prefix="honey-") as name:
        found = worked_on(Path(name), *map(int, sys.argv[1:]))
        print(json.dumps(found), flush=True)  # noqa: T201
        sys.stdout.flush()
