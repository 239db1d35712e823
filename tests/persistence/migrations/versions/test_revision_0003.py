import pytest

from honeyledger.domain.moments import Moment
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.entry import Act
from honeyledger.persistence.store import SqlStore, open_store
from honeyledger.persistence.upgrade import upgrade
from tests.persistence.migrations.versions.test_revision_0004 import words_written_out
from tests.support.engines import Client
from tests.support.entries import START_MS, write_season
from tests.support.raw_books import rows

ACT = Act(Moment(START_MS, 0, "UTC"), "O26-0001-X", "office", "upkeep-1")

SECOND = (
    "INSERT INTO arrived SELECT place, since_ms, lot, entry FROM stay WHERE (told & 8) <> 0",
    "INSERT INTO drawn SELECT place, since_ms, lot, entry FROM stay WHERE (told & 16) <> 0",
    "INSERT INTO touched SELECT place, entry, at_ms FROM"
    " (SELECT place, entry, since_ms AS at_ms FROM stay WHERE (told & 4) <> 0"
    " UNION SELECT place, ended_by, until_ms FROM stay WHERE (told & 2) <> 0) AS said WHERE"
    " (place, entry) NOT IN"
    " (SELECT place, entry FROM arrived UNION SELECT place, entry FROM drawn)",
    "UPDATE stay SET told = told & 1",
    "ALTER TABLE stay RENAME COLUMN told TO by_wash",
    "UPDATE alembic_version SET version_num = '0002'",
)
"""From the third schema back to the second."""

TABLES = ("stay", "arrived", "drawn", "touched")


def test_stays_tell_what_had_rows_of_its_own(shared: SqlStore, client: Client, url: str) -> None:
    hand = write_season(shared)
    row = ["vessel/E26-0009-Z", "lot:D26-0001-D"]
    hand.write("pour", came=[row], arrived=[row], unsure_ms=1)
    hand.write("wash", washed=[row], touched=[row[:1]])
    made = [rows(shared, f"SELECT * FROM {name}") for name in TABLES]
    told = words_written_out(shared)
    shared.close()
    client(*told, *SECOND)
    with pytest.raises(Refusal) as refused:
        open_store(url)
    assert refused.value.key == "older-house"
    upgrade(url, ACT, START_MS)
    again = open_store(url)
    assert [rows(again, f"SELECT * FROM {name}") for name in TABLES] == made
    assert [finding.name for finding in again.audit() if not finding.holds] == []
    again.close()
