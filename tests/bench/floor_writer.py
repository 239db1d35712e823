"""The floor of recording: the same rows and digests, in plain sqlite3, guards and full sync alike.

It is given an entry that is already booked, reads nothing, and cannot reverse; what the program
asks of the books before it writes is the program's own cost.
"""

import sqlite3
from collections import defaultdict
from pathlib import Path
from typing import Any

from honeyledger.ledger import canonical
from honeyledger.ledger.effects import project
from honeyledger.ledger.entry import Entry
from honeyledger.persistence.rows import entry_row, lot_rows, origin_rows, posting_rows
from honeyledger.persistence.short_rows import code_rows, in_short

Row = tuple[Any, ...]

_WIDTHS = {
    "lot": 7,
    "posting": 5,
    "origin": 6,
    "entry": 20,
    "arrived": 4,
    "drawn": 4,
    "touched": 3,
    "mark": 5,
    "code_given": 2,
}
INSERT = {
    table: f"INSERT INTO {table} VALUES ({', '.join('?' * width)})"
    for table, width in _WIDTHS.items()
}
LAST_NUMBER = (
    "INSERT INTO last_number VALUES (?, ?, ?) ON CONFLICT (letter, season)"
    " DO UPDATE SET number = max(number, excluded.number)"
)
NO_HOLDING = (
    "DELETE FROM holding WHERE lot = ? AND place = ? AND side = 0 AND grams = 0 AND pieces = 0"
)
SURE_HOLDING = "INSERT INTO holding VALUES (?, ?, ?, 0, 0) ON CONFLICT DO NOTHING"
ADD = "UPDATE holding SET grams = grams + ?, pieces = pieces + ? WHERE lot = ? AND place = ?"
END_STAY = (
    "UPDATE stay SET early_ms = max(since_ms - ?1, 0), latest_ms = max(since_ms, ?1),"
    " ended_by = ?2, told = told | ?3"
    " WHERE place = ?4 AND latest_ms = 9223372036854775807 AND lot = ?5"
)
NEW_STAY = (
    "INSERT INTO stay SELECT ?1, ?2, ?3, ?4, 0, 9223372036854775807, 0, ?5 WHERE NOT EXISTS"
    " (SELECT 1 FROM stay WHERE place = ?1 AND latest_ms = 9223372036854775807 AND lot = ?2)"
)


class PlainWriter:
    """One plain connection that appends."""

    def __init__(self, path: Path) -> None:
        self.connection = sqlite3.connect(path, isolation_level=None)
        for pragma in ("foreign_keys = ON", "synchronous = FULL", "recursive_triggers = ON"):
            self.connection.execute(f"PRAGMA {pragma}")
        self.connection.execute("PRAGMA cache_size = -65536")

    def append(self, entry: Entry) -> None:
        """Seal the entry and write all its rows, in one transaction."""
        run = self.connection.execute
        many = self.connection.executemany
        run("BEGIN IMMEDIATE")
        (previous,) = run("SELECT digest FROM head").fetchone()
        facts = canonical.text_of(entry.facts)
        lots, postings, origins = lot_rows(entry), posting_rows(entry), origin_rows(entry)
        seal = canonical.seal_parts(
            previous.hex(),
            canonical.header_text(entry),
            facts,
            lots,
            [row[1:] for row in postings],
            [row[1:] for row in origins],
        )
        many(INSERT["lot"], lots)
        many(INSERT["posting"], postings)
        many(INSERT["origin"], origins)
        run(INSERT["entry"], entry_row(entry, facts, seal))
        self._project(entry)
        run("COMMIT")

    def _project(self, entry: Entry) -> None:
        many = self.connection.executemany
        rows = _changes(entry)
        many(SURE_HOLDING, rows["holding"])
        many(ADD, rows["more"])
        many(NO_HOLDING, [row[2:] for row in rows["more"] if row[0] <= 0 and row[1] <= 0])
        many(LAST_NUMBER, rows["last_number"])
        many(END_STAY, rows["ended"])
        many(NEW_STAY, rows["stay"])
        for table in ("arrived", "drawn", "touched", "mark", "code_given"):
            many(INSERT[table], rows[table])


def _changes(entry: Entry) -> dict[str, list[Row]]:
    rows: dict[str, list[Row]] = defaultdict(list)
    changes = in_short(project(entry))
    for place, lot, side, grams, pieces in changes.held:
        rows["holding"].append((place, lot, side))
        rows["more"].append((grams, pieces, lot, place))
    rows["ended"] = [
        (at_ms, by, told, place, lot) for place, lot, at_ms, by, told in changes.ended
    ]
    rows["stay"] = changes.began
    rows["arrived"], rows["drawn"] = changes.arrived, changes.drawn
    rows["touched"] = changes.touched
    rows["mark"] = changes.marks
    rows["code_given"] = code_rows(changes.codes, {lot.code for lot in entry.lots})
    for code, _ in changes.codes:
        head, number, _ = code.split("-")[-3:]
        rows["last_number"].append((head[0], int(head[1:]), int(number)))
    return rows
