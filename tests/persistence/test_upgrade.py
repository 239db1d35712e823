import shutil
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

import psycopg
import pytest
from alembic.script import ScriptDirectory
from sqlalchemy import inspect

from honeyledger.domain.moments import Moment
from honeyledger.domain.refusals import Damage, Refusal
from honeyledger.ledger.entry import Act
from honeyledger.persistence import guards
from honeyledger.persistence.checking import check
from honeyledger.persistence.engine import for_writing, locate, make_engine
from honeyledger.persistence.opening import REVISION, REVISIONS, build
from honeyledger.persistence.store import SqlStore, SqlView, open_store
from honeyledger.persistence.upgrade import (
    MIGRATIONS,
    install_guards,
    rebuild_projections,
    upgrade,
)
from tests.support.engines import Client
from tests.support.entries import START_MS, write_season

ACT = Act(Moment(START_MS, 0, "UTC"), "O26-0001-X", "office", "upkeep-1")

NEXT = '''
"""A later schema, as one may be: a parent table copied, another given a column."""

import sqlalchemy as sa
from alembic import op

from honeyledger.persistence.tables import LOT

revision = "next"
down_revision = "0004"


def upgrade() -> None:
    with op.batch_alter_table("lot", copy_from=LOT) as lot:
        lot.alter_column("season", new_column_name="season_year")
    with op.batch_alter_table("stay") as stay:
        stay.add_column(sa.Column("note", sa.Text(), nullable=True))
'''


@pytest.fixture
def later(tmp_path: Path) -> Path:
    """The migrations there are, and one more."""
    folder = tmp_path / "migrations"
    shutil.copytree(MIGRATIONS, folder, ignore=shutil.ignore_patterns("__pycache__"))
    (folder / "versions" / "revision_next.py").write_text(NEXT, "utf-8")
    return folder


def test_every_revision_is_known_without_the_library() -> None:
    scripts = ScriptDirectory(str(MIGRATIONS))
    assert tuple(reversed([one.revision for one in scripts.walk_revisions()])) == REVISIONS
    assert scripts.get_current_head() == REVISION


def _findings(url: str) -> tuple[dict[str, tuple[str, ...]], Any]:
    """What is broken in a house, whatever its revision is, and its newest entry."""
    engine = make_engine(locate(url))
    with engine.connect() as connection:
        view = SqlView(connection.connection.cursor(), connection.dialect.name)
        found = {one.name: one.broken for one in check(view, guards.missing(connection))}
        newest = connection.exec_driver_sql(
            "SELECT id, kind, facts FROM entry ORDER BY id DESC"
        ).fetchone()
    engine.dispose()
    return found, newest


def test_an_upgrade_keeps_entries_and_guards(
    shared: SqlStore, client: Client, url: str, later: Path
) -> None:
    write_season(shared)
    shared.close()
    copy = upgrade(url, ACT, START_MS, migrations=later, to="next")
    engine = make_engine(locate(url))
    with engine.connect() as connection:
        assert guards.missing(connection) == ()
        lots = connection.exec_driver_sql(
            "SELECT code, season_year FROM lot ORDER BY id"
        ).fetchall()
        newest = connection.exec_driver_sql(
            "SELECT id, kind, facts FROM entry ORDER BY id DESC"
        ).fetchone()
    engine.dispose()
    assert [row[0] for row in lots][:2] == ["S26-0001-A", "S26-0002-B"]
    assert newest is not None
    assert tuple(newest) == (
        11,
        "upkeep",
        '{"said":{"action":"upgrade","from":"0004","to":"next"}}',
    )
    for statement in ("UPDATE lot SET season_year = 1", "DELETE FROM posting"):
        with pytest.raises(
            (sqlite3.IntegrityError, psycopg.errors.RestrictViolation), match="written once"
        ):
            client(statement)
    with pytest.raises(Refusal) as refused:
        open_store(url)
    assert refused.value.key == "newer-house"
    if locate(url).is_sqlite:
        assert copy is not None
        kept = open_store(str(copy))
        assert all(finding.holds for finding in kept.audit())
        kept.close()
        strict = "SELECT count(*) FROM pragma_table_list WHERE name = 'lot' AND strict"
        with closing(sqlite3.connect(url)) as plain:
            assert plain.execute(strict).fetchone() == (1,)
    else:
        assert copy is None


def test_an_upgrade_that_fails_changes_nothing(
    shared: SqlStore, url: str, later: Path, client: Client
) -> None:
    write_season(shared)
    shared.close()
    script = later / "versions" / "revision_next.py"
    script.write_text(NEXT + "    raise ZeroDivisionError\n", "utf-8")
    with pytest.raises(ZeroDivisionError):
        upgrade(url, ACT, START_MS, migrations=later, to="next")
    again = open_store(url)
    assert [finding.name for finding in again.audit() if not finding.holds] == []
    with again.reading() as view:
        assert view.head().entry == 10
    again.close()


def test_an_upgrade_that_would_lose_a_lot_changes_nothing(tmp_path: Path, later: Path) -> None:
    url = str(tmp_path / "north.house")
    store = open_store(url, create=True)
    write_season(store)
    store.close()
    script = later / "versions" / "revision_next.py"
    script.write_text(NEXT + '    op.execute("DELETE FROM lot WHERE id = 1")\n', "utf-8")
    with pytest.raises(Damage, match=r"(posting|origin): row .* belongs to no row of lot"):
        upgrade(url, ACT, START_MS, migrations=later, to="next")
    again = open_store(url)
    assert [finding.name for finding in again.audit() if not finding.holds] == []
    again.close()


def test_a_revision_nobody_knows_is_newer(shared: SqlStore, url: str, client: Client) -> None:
    shared.close()
    client("UPDATE alembic_version SET version_num = '9999'")
    with pytest.raises(Refusal) as refused:
        upgrade(url, ACT, START_MS)
    assert refused.value.key == "newer-house"


def test_a_house_up_to_date_is_left_alone(shared: SqlStore, url: str) -> None:
    shared.close()
    with pytest.raises(Refusal) as refused:
        upgrade(url, ACT, START_MS)
    assert refused.value.text.endswith("is up to date already. There is nothing to upgrade.")


def test_guards_are_put_back_at_the_owners_word_and_recorded(
    shared: SqlStore, url: str, client: Client
) -> None:
    write_season(shared)
    shared.close()
    table = "" if locate(url).is_sqlite else " ON lot"
    client(f"DROP TRIGGER lot_delete_guard{table}")
    assert install_guards(url, ACT, START_MS + 5) == ("lot_delete_guard",)
    found, newest = _findings(url)
    assert [name for name, broken in found.items() if broken] == []
    assert newest[0] == 11
    assert newest[2] == '{"said":{"action":"install guards","missing":["lot_delete_guard"]}}'
    again = open_store(url)
    with again.reading() as view:
        entry = view.entry(11)
    again.close()
    assert entry is not None
    assert (entry.act, entry.recorded_ms) == (ACT, START_MS + 5)


def test_projections_are_made_anew_from_the_entries(
    shared: SqlStore, url: str, client: Client
) -> None:
    write_season(shared)
    shared.close()
    client(
        "UPDATE holding SET grams = grams + 5",
        "DELETE FROM mark",
        "DELETE FROM last_number",
        "UPDATE stay SET since_ms = 1",
    )
    assert "rebuilt" in [name for name, broken in _findings(url)[0].items() if broken]
    assert rebuild_projections(url, ACT, START_MS) == 10
    found, newest = _findings(url)
    assert [name for name, broken in found.items() if broken] == []
    assert newest[2] == '{"said":{"action":"rebuild projections","entries":10}}'


def test_nothing_is_made_anew_without_guards(shared: SqlStore, url: str, client: Client) -> None:
    shared.close()
    table = "" if locate(url).is_sqlite else " ON lot"
    client(f"DROP TRIGGER lot_delete_guard{table}")
    with pytest.raises(Refusal) as refused:
        rebuild_projections(url, ACT, START_MS)
    assert refused.value.text == (
        f"The guards of {locate(url).name} are not as they were installed (lot_delete_guard), so "
        "nothing is written. Run the audit, then have the owner install the guards again."
    )


def test_an_upgrade_makes_no_second_backup_of_the_same_name(tmp_path: Path, later: Path) -> None:
    url = str(tmp_path / "north.house")
    open_store(url, create=True).close()
    (tmp_path / "north-before-0004.house").write_bytes(b"kept")
    copy = upgrade(url, ACT, START_MS, migrations=later, to="next")
    assert copy == tmp_path / "north-before-0004-2.house"
    assert (tmp_path / "north-before-0004.house").read_bytes() == b"kept"


def test_a_new_house_is_built_in_one_transaction() -> None:
    engine = for_writing(make_engine(locate(":memory:")))
    with engine.connect() as connection:
        connection.begin()
        build(connection, "ledger-1")
        connection.rollback()
        connection.begin()
        assert inspect(connection).get_table_names() == []
    engine.dispose()
