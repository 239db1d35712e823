"""The floor: the same answers by hand, in plain sqlite3, as straight as they can be written.

It knows this one schema, checks nothing and explains nothing: no codes read with care, no ways of
being in, no heels. Its answers are compared with the program's in the same run.
"""

import json
import sqlite3
from collections import defaultdict
from collections.abc import Iterable
from math import fsum
from pathlib import Path
from typing import NamedTuple

from honeyledger.persistence.short import written

NOT_VOID = (
    "AND NOT EXISTS (SELECT 1 FROM void_origin v WHERE v.entry = o.entry AND v.line = o.line)"
)
BACK = """
WITH RECURSIVE reach (id) AS (
  VALUES (?) UNION
  SELECT o.parent FROM reach JOIN origin o ON o.child = reach.id {void}
)
SELECT o.child, o.parent, o.grams FROM reach JOIN origin o ON o.child = reach.id {void}
ORDER BY o.child DESC
"""
FORWARD = """
WITH RECURSIVE reach (id) AS (
  VALUES (?) UNION
  SELECT o.child FROM reach JOIN origin o ON o.parent = reach.id {void}
)
SELECT o.child, o.parent, o.grams FROM reach JOIN origin o ON o.parent = reach.id {void}
ORDER BY o.child
"""
LOTS = "SELECT id, code, kind, made_g FROM lot WHERE id IN (SELECT value FROM json_each(?))"
SOURCES = """
SELECT lot, place, -grams FROM holding
WHERE lot IN (SELECT value FROM json_each(?)) AND side = 1
"""
# The same words as stored, in short forms: "c/KEY" of "customer/KEY", "g/DAY" of "gate/DAY".
NAMES = """
SELECT subject, value ->> 'name' FROM mark
WHERE name = 'record' AND subject IN (SELECT value FROM json_each(?)) ORDER BY subject, entry
"""
GONE = """
SELECT h.place, h.side, h.grams, h.pieces FROM holding h
WHERE h.lot IN (SELECT value FROM json_each(?)) AND (h.grams <> 0 OR h.pieces <> 0)
"""
CUSTOMERS = ("c", "g")


def _key(place: str) -> str:
    return written(place).split("/")[1]


class Backward(NamedTuple):
    """First ancestors (name and share by code) and lots (kind and share by code)."""

    yards: dict[str, tuple[str, float]]
    lots: dict[str, tuple[str, float]]


class Forward(NamedTuple):
    """Lots (kind and part by code), customers (name, grams, jars by code), grams in the house."""

    lots: dict[str, tuple[str, float]]
    customers: dict[str, tuple[str, int, int]]
    on_hand_g: int


class Floor:
    """One plain connection to the file, read only."""

    def __init__(self, path: Path) -> None:
        self.connection = sqlite3.connect(f"file:{path}?mode=ro", uri=True)
        self.connection.execute("PRAGMA cache_size = -65536")
        void = NOT_VOID if self._one("SELECT 1 FROM void_origin LIMIT 1") else ""
        self._back = BACK.format(void=void)
        self._forward = FORWARD.format(void=void)

    def _one(self, sql: str, *values: object) -> tuple[int, ...] | None:
        row: tuple[int, ...] | None = self.connection.execute(sql, values).fetchone()
        return row

    def _in(self, sql: str, values: Iterable[object]) -> sqlite3.Cursor:
        return self.connection.execute(sql, (json.dumps(list(values)),))

    def _lot(self, code: str) -> int:
        row = self._one("SELECT id FROM lot WHERE code = ?", code)
        assert row is not None
        return row[0]

    def reached(self, code: str, *, forward: bool = False) -> int:
        """How many origin rows are in the reach, for choosing a typical lot and the largest."""
        sql = self._forward if forward else self._back
        return len(self.connection.execute(sql, (self._lot(code),)).fetchall())

    def back(self, code: str) -> Backward:
        """Where a lot comes from."""
        start = self._lot(code)
        edges = self.connection.execute(self._back, (start,)).fetchall()
        lots = {lot: row for lot, *row in self._in(LOTS, {start, *(row[1] for row in edges)})}
        parts: dict[int, list[float]] = defaultdict(list)
        parts[start].append(1.0)
        shares: dict[int, float] = {}
        for child, parent, grams in edges:
            if child not in shares:
                shares[child] = fsum(parts[child])
            if grams:
                parts[parent].append(shares[child] * grams / lots[child][2])
        for lot in lots:
            if lot not in shares:
                shares[lot] = fsum(parts.get(lot, ()))
        return Backward(
            self._yards(shares),
            {lots[lot][0]: (lots[lot][1], share) for lot, share in shares.items()},
        )

    def _yards(self, shares: dict[int, float]) -> dict[str, tuple[str, float]]:
        nets: dict[int, list[tuple[str, int]]] = defaultdict(list)
        for lot, place, net_g in self._in(SOURCES, shares):
            nets[lot].append((place, net_g))
        sums: dict[str, list[float]] = defaultdict(list)
        for lot, places in nets.items():
            total_g = sum(net_g for _, net_g in places)
            for place, net_g in places:
                sums[place].append(shares[lot] * net_g / total_g)
        names = dict(self._in(NAMES, sums))
        return {_key(place): (names[place], fsum(all_)) for place, all_ in sums.items()}

    def forward(self, code: str) -> Forward:
        """Where a lot went."""
        start = self._lot(code)
        edges = self.connection.execute(self._forward, (start,)).fetchall()
        lots = {lot: row for lot, *row in self._in(LOTS, {start, *(row[0] for row in edges)})}
        came: dict[int, list[float]] = defaultdict(list)
        parts = {start: 1.0}
        for child, parent, grams in edges:
            if parent not in parts:
                parts[parent] = fsum(came[parent]) / lots[parent][2]
            if grams:
                came[child].append(parts[parent] * grams)
        for lot in lots:
            if lot not in parts:
                parts[lot] = fsum(came.get(lot, ())) / lots[lot][2]
        customers, on_hand_g = self._gone(lots)
        reached = {lots[lot][0]: (lots[lot][1], part) for lot, part in parts.items()}
        return Forward(reached, customers, on_hand_g)

    def _gone(self, lots: Iterable[int]) -> tuple[dict[str, tuple[str, int, int]], int]:
        given: dict[str, list[int]] = defaultdict(lambda: [0, 0])
        on_hand_g = 0
        for place, side, grams, pieces in self._in(GONE, lots):
            if place.startswith(CUSTOMERS):
                given[place][0] += grams
                given[place][1] += pieces
            elif side == 0:
                on_hand_g += grams
        names = dict(self._in(NAMES, given))
        return {
            _key(place): (names[place], grams, jars) for place, (grams, jars) in given.items()
        }, on_hand_g
