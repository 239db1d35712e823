import pytest

from honeyledger.domain.moments import Moment
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.canonical import text_of
from honeyledger.ledger.entry import Act
from honeyledger.persistence.store import SqlStore, open_store
from honeyledger.persistence.upgrade import upgrade
from tests.persistence.migrations.versions.test_revision_0003 import SECOND
from tests.persistence.migrations.versions.test_revision_0004 import words_written_out
from tests.support.engines import Client
from tests.support.entries import START_MS, write_season

ACT = Act(Moment(START_MS, 0, "UTC"), "O26-0001-X", "office", "upkeep-1")

FIRST = (
    "CREATE UNIQUE INDEX stay_open ON stay (place, lot) WHERE until_ms = -1",
    "CREATE INDEX arrived_by_at_ms ON arrived (at_ms)",
    "DROP INDEX mark_by_name",
    "CREATE INDEX mark_by_name ON mark (name, subject)"
    " WHERE replace(name, '/', '') = name AND name NOT IN ('condition', 'dispatched')",
    "UPDATE alembic_version SET version_num = '0001'",
)


def test_a_house_of_the_first_schema_is_upgraded(
    shared: SqlStore, client: Client, url: str
) -> None:
    hand = write_season(shared)
    long = ["x" * 300, "Größe"]
    hand.write("tell", marks=[["D26-0001-D", "said", long], ["yard/A", "record", long]])
    told = words_written_out(shared)
    shared.close()
    client(
        *told, *SECOND, *FIRST, f"UPDATE mark SET value = '{text_of(long)}' WHERE name = 'said'"
    )
    with pytest.raises(Refusal) as refused:
        open_store(url)
    assert refused.value.key == "older-house"
    upgrade(url, ACT, START_MS)
    again = open_store(url)
    assert [finding.name for finding in again.audit() if not finding.holds] == []
    with again.reading() as view:
        for subject, name in (("D26-0001-D", "said"), ("yard/A", "record")):
            mark = view.mark(subject, name)
            assert mark is not None
            assert mark.value == long
    again.close()
