"""How large a house's file is, against its own entries, lots, postings and origins alone.

Facts and digests are left out on both sides: how long facts are is the trade's affair. Like is
held against like: both as they were written, the plain rows in the order of their entries; and
both packed as tightly as they go. The bound is met where both ratios meet it.
"""

import re
import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from honeyledger.persistence.tables import ENTRY, LOT, ORIGIN, POSTING, WRITTEN_ONCE

LEFT_OUT = {"facts", "previous", *(part.name for part in ENTRY.c if "digest" in part.name)}
MOST = 1.5
AT_ONCE = 50  # entries: few enough that their rows come in as one by one


@dataclass(frozen=True, slots=True)
class Size:
    """Megabytes of a file, of the facts and digests in it, and of its plain rows.

    The file and the plain rows each as written, and packed.
    """

    file_mb: float
    packed_mb: float
    facts_mb: float
    digests_mb: float
    plain_mb: float
    plain_packed_mb: float

    @property
    def written(self) -> float:
        """The file as written without facts and digests, in plain files as written."""
        return (self.file_mb - self.facts_mb - self.digests_mb) / self.plain_mb

    @property
    def packed(self) -> float:
        """The same of both when packed."""
        return (self.packed_mb - self.facts_mb - self.digests_mb) / self.plain_packed_mb

    def told(self) -> str:
        """For the report's first line."""
        is_met = max(self.written, self.packed) <= MOST
        bound = f"≤ {MOST:g}{'' if is_met else ', NOT MET'}"
        return (
            f"{self.file_mb:,.0f} MB, of that facts {self.facts_mb:,.0f} MB and digests "
            f"{self.digests_mb:,.0f} MB; the rest is {self.written:.2f} x plain rows, "
            f"both packed {self.packed:.2f} x ({bound})"
        )


def size_of(path: Path, folder: Path) -> Size:
    """Measure a SQLite house; the files to hold it against are made in the folder, and removed."""
    with closing(sqlite3.connect(path)) as house:
        digests = " + ".join(f"length({name})" for name in LEFT_OUT - {"facts"})
        facts, digest = house.execute(
            f"SELECT sum(length(CAST(facts AS BLOB))), sum({digests}) FROM entry"
        ).fetchone()
    packed_mb = _made(path, folder, _pack)
    plain_mb, plain_packed_mb = _made(path, folder, _write), _made(path, folder, _write_packed)
    parts = ((facts or 0) / 1e6, (digest or 0) / 1e6)
    return Size(path.stat().st_size / 1e6, packed_mb, *parts, plain_mb, plain_packed_mb)


def _made(path: Path, folder: Path, make: Callable[[sqlite3.Connection], None]) -> float:
    """The megabytes of a file that is made from a house, attached as `made`, and removed."""
    made = folder / "made.db"
    with closing(sqlite3.connect(path)) as house:
        house.execute("ATTACH ? AS made", (str(made),))
        make(house)
        house.commit()
    made_mb = made.stat().st_size / 1e6
    made.unlink()
    return made_mb


def _pack(house: sqlite3.Connection) -> None:
    (made,) = house.execute("SELECT file FROM pragma_database_list WHERE name = 'made'").fetchone()
    house.execute("DETACH made")
    house.execute("VACUUM INTO ?", (made,))


def _write_packed(house: sqlite3.Connection) -> None:
    """Each table in the order of its key, then its indexes: no page is left half empty."""
    for table in WRITTEN_ONCE:
        columns = _begin(house, table.name)
        key = ", ".join(part.name for part in table.primary_key)
        house.execute(
            f"INSERT INTO made.{table} SELECT {columns} FROM main.{table} ORDER BY {key}"
        )
        _index(house, table.name)


def _write(house: sqlite3.Connection) -> None:
    """All rows in the order of their entries, with the indexes there already."""
    inserts = []
    for table, entry in ((LOT, "made_by"), (POSTING, "entry"), (ORIGIN, "entry"), (ENTRY, "id")):
        columns = _begin(house, table.name)
        _index(house, table.name)
        line = "line" if "line" in table.c else "id"
        inserts.append(
            f"INSERT INTO made.{table} SELECT {columns} FROM main.{table}"
            f" WHERE {entry} BETWEEN ? AND ? ORDER BY {entry}, {line}"
        )
    (last,) = house.execute("SELECT max(id) FROM entry").fetchone()
    for first in range(1, (last or 0) + 1, AT_ONCE):
        for insert in inserts:
            house.execute(insert, (first, first + AT_ONCE - 1))


def _begin(house: sqlite3.Connection, table: str) -> str:
    """A plain table without facts and digests; its columns."""
    (made,) = house.execute("SELECT sql FROM sqlite_master WHERE name = ?", (table,)).fetchone()
    lines = [line for line in made.split("\n") if line.strip().split(" ")[0] not in LEFT_OUT]
    house.execute("\n".join(lines).replace(f"TABLE {table}", f"TABLE made.{table}", 1))
    return ", ".join(row[1] for row in house.execute(f"PRAGMA made.table_info({table})"))


def _index(house: sqlite3.Connection, table: str) -> None:
    indexes = house.execute(
        "SELECT sql FROM main.sqlite_master WHERE type = 'index' AND tbl_name = ? AND sql <> ''",
        (table,),
    ).fetchall()
    for (index,) in indexes:
        house.execute(re.sub(r"INDEX (\w+)", r"INDEX made.\1", index, count=1))
