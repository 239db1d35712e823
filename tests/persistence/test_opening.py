import os
import sqlite3
from pathlib import Path

import psycopg
import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.persistence import beside
from honeyledger.persistence.opening import REVISION
from honeyledger.persistence.store import open_store
from tests.support.engines import Client, as_plain_client
from tests.support.entries import Hand, write_season


def refusal(url: str, *, create: bool = False) -> Refusal:
    with pytest.raises(Refusal) as refused:
        open_store(url, create=create)
    assert refused.value.field == "house"
    return refused.value


def made(path: Path) -> Path:
    store = open_store(str(path), create=True)
    write_season(store)
    store.close()
    return path


def test_a_house_is_opened_again(url: str) -> None:
    store = open_store(url, create=True, new_id=lambda: "ledger-7")
    write_season(store)
    store.close()
    again = open_store(url)
    with again.reading() as view:
        assert (view.head().ledger_id, view.head().entry) == ("ledger-7", 10)
    again.close()


def test_every_new_ledger_has_an_id_of_its_own() -> None:
    heads = []
    for _ in range(2):
        store = open_store(":memory:", create=True)
        with store.reading() as view:
            heads.append(view.head().ledger_id)
        store.close()
    assert len(set(heads)) == 2


def test_no_such_house(tmp_path: Path) -> None:
    path = tmp_path / "north.house"
    assert refusal(str(path)).text == (
        f"There is no house at {path}. Check the name, or make a new house there."
    )
    assert list(tmp_path.iterdir()) == [], "looking for a house makes none"


def test_no_such_folder(tmp_path: Path) -> None:
    path = tmp_path / "none" / "north.house"
    assert refusal(str(path)).key == "no-house"
    assert refusal(str(path), create=True).text == (
        f"There is no folder {path.parent}. Make it first, or choose another one for the house."
    )


def test_a_house_is_not_made_over_another(url: str) -> None:
    open_store(url, create=True).close()
    told = refusal(url, create=True)
    assert told.key == "house-exists"
    assert told.text.endswith("Open that one, or choose another name.")


@pytest.mark.parametrize("content", [b"", b"weights of last year, " * 400])
def test_a_file_that_is_no_house(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "weights.txt"
    path.write_bytes(content)
    assert refusal(str(path)).text == (
        f"{path} is not a house of this program. Choose the house's own file or database."
    )
    assert path.read_bytes() == content, "nothing is written into a stranger's file"


def test_a_folder_is_no_house(tmp_path: Path) -> None:
    assert refusal(str(tmp_path)).key == "not-a-house"


def test_another_programs_database_is_no_house(url: str, client: Client) -> None:
    client("CREATE TABLE head (id INTEGER)")
    assert refusal(url).key == "not-a-house"


@pytest.mark.postgres
def test_an_empty_database_has_no_house_yet(fresh_postgres_url: str) -> None:
    name = fresh_postgres_url.partition("?")[0].rpartition("/")[2]
    assert refusal(fresh_postgres_url).text == (
        f"There is no house at {name} on this computer. Check the name, or make a new house there."
    )


@pytest.mark.postgres
def test_several_houses_in_schemas_of_one_database(fresh_postgres_url: str) -> None:
    """Many a server gives a user a schema of their own and nothing in "public"."""
    as_plain_client(fresh_postgres_url, "CREATE SCHEMA north", "CREATE SCHEMA south")
    urls = [f"{fresh_postgres_url}&options=-csearch_path%3D{name}" for name in ("north", "south")]
    heads = []
    for written, url in enumerate([fresh_postgres_url, *urls]):
        store = open_store(url, create=True, new_id=lambda: "ledger-1")
        hand = Hand(store)
        for _ in range(written):
            hand.write("measure")
        assert all(finding.holds for finding in store.audit())
        with store.reading() as view:
            heads.append(view.head().entry)
        store.close()
    assert heads == [0, 1, 2]
    as_plain_client(urls[1], "DROP TRIGGER lot_delete_guard ON lot")
    store = open_store(urls[1])
    assert "(lot_delete_guard)" in store.warnings()[0]
    store.close()


def test_a_house_of_a_newer_program(tmp_path: Path) -> None:
    path = made(tmp_path / "north.house")
    connection = sqlite3.connect(path)
    connection.execute("UPDATE alembic_version SET version_num = '9999'")
    connection.commit()
    connection.close()
    assert refusal(str(path)).text == (
        f"{path} was written by a newer version of this program. Install that version to open it."
    )


def test_a_house_of_an_older_program(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = made(tmp_path / "north.house")
    monkeypatch.setattr("honeyledger.persistence.opening.REVISIONS", (REVISION, "9999"))
    monkeypatch.setattr("honeyledger.persistence.opening.REVISION", "9999")
    assert refusal(str(path)).text == (
        f"{path} was written by an older version of this program. Upgrade the house first."
    )


def test_a_damaged_file(tmp_path: Path) -> None:
    path = made(tmp_path / "north.house")
    content = bytearray(path.read_bytes())
    content[8192:12288] = b"\x55" * 4096
    path.write_bytes(content)
    told = refusal(str(path))
    assert told.key == "damaged-house"
    assert told.text.startswith(f"{path} is damaged (")
    assert told.text.endswith("Leave it as it is, and go on with the last backup.")


@pytest.mark.parametrize("from_entries", [0, beside.FROM_ENTRIES])
def test_a_large_file_is_checked_whole_when_audited(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, from_entries: int
) -> None:
    path = made(tmp_path / "north.house")
    monkeypatch.setattr(beside, "FROM_ENTRIES", from_entries)
    monkeypatch.setattr(beside, "CORES", 2)
    monkeypatch.setattr("honeyledger.persistence.opening.CHECKED_AT_START", 0)
    content = bytearray(path.read_bytes())
    content[-4096:] = b"\x55" * 4096
    path.write_bytes(content)
    store = open_store(str(path))
    with pytest.raises(Refusal) as refused:
        store.audit()
    assert refused.value.key == "damaged-house"
    store.close()


def test_a_file_cut_short(tmp_path: Path) -> None:
    path = made(tmp_path / "north.house")
    content = path.read_bytes()
    path.write_bytes(content[: len(content) // 2])
    assert refusal(str(path)).key == "damaged-house"


def test_a_folder_where_nothing_may_be_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # Root may write anywhere, so the system's answer is given instead of asked for.
    path = made(tmp_path / "north.house")
    monkeypatch.setattr(os, "access", lambda *_: False)
    assert refusal(str(path)).text == (
        f"Nothing can be written in {tmp_path}. Allow it for your user, or move the house to a "
        "folder of your own."
    )
    assert refusal(str(tmp_path / "new.house"), create=True).key == "not-writable"


def test_a_failed_try_leaves_no_file(tmp_path: Path) -> None:
    def no_id() -> str:
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        open_store(str(tmp_path / "north.house"), create=True, new_id=no_id)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.postgres
def test_a_server_without_that_database(postgres_url: str) -> None:
    told = refusal(postgres_url.replace("/postgres?", "/nowhere?"))
    assert told.key == "no-database"
    assert "nowhere" in told.text
    assert told.text.endswith("Have it made there first, or check the name.")


@pytest.mark.postgres
def test_a_server_that_does_not_let_the_user_in(postgres_url: str) -> None:
    with psycopg.connect(postgres_url.replace("+psycopg", ""), autocommit=True) as admin:
        admin.execute("DROP ROLE IF EXISTS barred")
        admin.execute("CREATE ROLE barred NOLOGIN")
        told = refusal(postgres_url.replace("postgres:@", "barred:@"))
        admin.execute("DROP ROLE barred")
    assert told.key == "no-entrance"
    assert told.text.endswith(
        'does not let this program in (role "barred" is not permitted to log in). Check user and '
        "password, or ask who keeps the server."
    )


def test_a_server_that_does_not_answer(tmp_path: Path) -> None:
    told = refusal(f"postgresql://keeper@/house?host={tmp_path}")
    assert told.text == (
        "The database server of house on this computer does not answer. Check that it runs and "
        "the network is up, and try again."
    )


@pytest.mark.postgres
def test_a_user_without_rights(fresh_postgres_url: str) -> None:
    open_store(fresh_postgres_url, create=True).close()
    with psycopg.connect(fresh_postgres_url.replace("+psycopg", ""), autocommit=True) as admin:
        admin.execute("DROP ROLE IF EXISTS guest")
        admin.execute("CREATE ROLE guest LOGIN")
    told = refusal(fresh_postgres_url.replace("postgres:@", "guest:@"))
    assert told.key == "no-rights"
    assert "permission denied" in told.text
    with psycopg.connect(fresh_postgres_url.replace("+psycopg", ""), autocommit=True) as admin:
        admin.execute("DROP ROLE guest")


def _cut_off(url: str) -> None:
    """The server lets go of everyone, as when it is started anew."""
    with psycopg.connect(url.replace("+psycopg", ""), autocommit=True) as admin:
        admin.execute(
            "SELECT pg_terminate_backend(pid) FROM pg_stat_activity"
            " WHERE pid <> pg_backend_pid() AND datname = current_database()"
        )


@pytest.mark.postgres
def test_a_server_started_anew_over_night(
    fresh_postgres_url: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    store = open_store(fresh_postgres_url, create=True)
    with store.reading() as view:
        view.head()
    _cut_off(fresh_postgres_url)
    monkeypatch.setattr("honeyledger.persistence.engine.IDLE_S", -1)
    with store.reading() as view:
        assert view.head().entry == 0
    store.close()


@pytest.mark.postgres
def test_a_server_that_goes_away_meanwhile(fresh_postgres_url: str) -> None:
    store = open_store(fresh_postgres_url, create=True)

    def ask() -> None:
        with store.reading() as view:
            view.head()
            _cut_off(fresh_postgres_url)
            view.entries()

    with pytest.raises(Refusal) as refused:
        ask()
    assert refused.value.key == "no-server"
    with store.reading() as view:
        assert view.head().entry == 0, "the next question finds the server again"
    store.close()
