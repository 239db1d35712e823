"""How large a house's file is, against its own entries, lots, postings and origins alone.

Facts and digests are left out on both sides: how long facts are is the trade's affair. The plain
file has the same rows and indexes, packed as tightly as they go.
"""

import re
import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from honeyledger.persistence.tables import ENTRY, WRITTEN_ONCE

LEFT_OUT = {"facts", "previous", *(part.name for part in ENTRY.c if "digest" in part.name)}
MOST = 1.5


@dataclass(frozen=True, slots=True)
class Size:
    """Megabytes of a file, of the facts and digests in it, and of its plain rows."""

    file_mb: float
    facts_mb: float
    digests_mb: float
    plain_mb: float

    @property
    def ratio(self) -> float:
        """The file without facts and digests, in plain files."""
        return (self.file_mb - self.facts_mb - self.digests_mb) / self.plain_mb

    def told(self) -> str:
        """For the report's first line."""
        bound = f"≤ {MOST:g}{'' if self.ratio <= MOST else ', NOT MET'}"
        return (
            f"{self.file_mb:,.0f} MB, of that facts {self.facts_mb:,.0f} MB and digests "
            f"{self.digests_mb:,.0f} MB; the rest is {self.ratio:.2f} x plain rows ({bound})"
        )


def size_of(path: Path, folder: Path) -> Size:
    """Measure a SQLite house; the plain file is made in the folder, and removed."""
    plain = folder / "plain.db"
    with closing(sqlite3.connect(path)) as house:
        digests = " + ".join(f"length({name})" for name in LEFT_OUT - {"facts"})
        facts, digest = house.execute(
            f"SELECT sum(length(CAST(facts AS BLOB))), sum({digests}) FROM entry"
        ).fetchone()
        house.execute("ATTACH ? AS plain", (str(plain),))
        for table in WRITTEN_ONCE:
            _copy(house, table.name, [part.name for part in table.primary_key])
        house.commit()
    plain_mb = plain.stat().st_size / 1e6
    plain.unlink()
    return Size(path.stat().st_size / 1e6, (facts or 0) / 1e6, (digest or 0) / 1e6, plain_mb)


def _copy(house: sqlite3.Connection, table: str, key: list[str]) -> None:
    """A table in the order of its key, then its indexes: no page is left half empty."""
    (made,) = house.execute("SELECT sql FROM sqlite_master WHERE name = ?", (table,)).fetchone()
    lines = [line for line in made.split("\n") if line.strip().split(" ")[0] not in LEFT_OUT]
    house.execute("\n".join(lines).replace(f"TABLE {table}", f"TABLE plain.{table}", 1))
    columns = ", ".join(row[1] for row in house.execute(f"PRAGMA plain.table_info({table})"))
    house.execute(
        f"INSERT INTO plain.{table} SELECT {columns} FROM main.{table} ORDER BY {', '.join(key)}"
    )
    indexes = house.execute(
        "SELECT sql FROM main.sqlite_master WHERE type = 'index' AND tbl_name = ? AND sql <> ''",
        (table,),
    ).fetchall()
    for (index,) in indexes:
        house.execute(re.sub(r"INDEX (\w+)", r"INDEX plain.\1", index, count=1))
