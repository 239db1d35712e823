"""The books as their tables have them, read without the program's own questions.

What counts is decided here from the entries alone: rows of reversed entries and of their
reversals do not, nor does a row that an entry still standing has narrowed.
"""

import json
from dataclasses import dataclass
from typing import Any

from honeyledger.persistence.store import SqlStore
from honeyledger.persistence.tables import IS_OPEN
from honeyledger.services.store import Store

Row = tuple[Any, ...]

# A house at a moment: what is held, stands and stood where, came, went, and is known.
_PICTURE = {
    "held": "SELECT place, lot, grams, pieces FROM holding WHERE grams <> 0 OR pieces <> 0",
    "standing": f"SELECT place, lot, since_ms, told FROM stay WHERE {IS_OPEN}",
    "stood": (
        f"SELECT place, lot, since_ms, latest_ms, early_ms, told FROM stay WHERE NOT {IS_OPEN}"
    ),
    "arrived": "SELECT place, at_ms, lot FROM arrived",
    "drawn": "SELECT place, at_ms, lot FROM drawn",
    "touched": "SELECT place, at_ms, entry FROM touched",
    "marks": (
        "SELECT subject, name, CASE value WHEN '' THEN"
        " (SELECT facts FROM entry WHERE id = m.entry) ELSE value END FROM mark AS m"
        " WHERE NOT EXISTS (SELECT 1 FROM mark AS l"
        " WHERE l.subject = m.subject AND l.name = m.name AND l.entry > m.entry)"
    ),
}


def rows(store: Store, sql: str) -> list[Row]:
    """All rows of a question in plain SQL, in order."""
    assert isinstance(store, SqlStore)
    with store.reading() as view:
        found = view._cursor.execute(sql).fetchall()
    return sorted(map(tuple, found), key=repr)


@dataclass(frozen=True, slots=True)
class OriginRow:
    """An origin row that counts."""

    child: int
    parent: int
    grams: int


def reversed_entries(store: Store) -> set[int]:
    """Entries reversed, and the reversals."""
    pairs = rows(store, "SELECT id, reverses FROM entry WHERE reverses <> 0")
    return {one for pair in pairs for one in pair}


def origins(store: Store) -> list[OriginRow]:
    """Every origin row that counts."""
    gone = reversed_entries(store)
    voided = {
        (int(entry), int(line))
        for number, facts in rows(store, "SELECT id, facts FROM entry WHERE kind = 'narrow'")
        if number not in gone
        for entry, line in json.loads(facts).get("effects", {}).get("voids", ())
    }
    found = rows(store, "SELECT entry, line, child, parent, grams FROM origin")
    return [
        OriginRow(child, parent, grams)
        for entry, line, child, parent, grams in found
        if entry not in gone and (entry, line) not in voided
    ]


def picture(store: Store) -> dict[str, list[Row]]:
    """All that a reversal must give back exactly; what only remembers it is left out."""
    seen = {name: rows(store, sql) for name, sql in _PICTURE.items()}
    seen["origins"] = sorted((one.child, one.parent, one.grams) for one in origins(store))
    return seen
