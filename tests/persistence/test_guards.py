import sqlite3

import psycopg
import pytest
from sqlalchemy import create_engine

from honeyledger.domain.refusals import BrokenRule, Refusal
from honeyledger.ledger.entry import Lot, Posting
from honeyledger.persistence import guards
from honeyledger.persistence.engine import locate
from honeyledger.persistence.opening import build
from honeyledger.persistence.store import SqlStore, open_store
from tests.support.engines import Client
from tests.support.entries import Hand, write_season

REFUSED = (sqlite3.IntegrityError, psycopg.errors.RestrictViolation)
TABLES = ("entry", "lot", "posting", "origin")


def _is_sqlite(url: str) -> bool:
    return locate(url).is_sqlite


@pytest.mark.parametrize("table", TABLES)
def test_a_plain_client_cannot_update(shared: SqlStore, client: Client, table: str) -> None:
    write_season(shared)
    column = {"entry": "kind", "lot": "code", "posting": "grams", "origin": "grams"}[table]
    with pytest.raises(REFUSED, match=f"{table}: rows are written once"):
        client(f"UPDATE {table} SET {column} = {column}")


@pytest.mark.parametrize("table", TABLES)
def test_a_plain_client_cannot_delete(shared: SqlStore, client: Client, table: str) -> None:
    write_season(shared)
    with pytest.raises(REFUSED, match=f"{table}: rows are written once"):
        client(f"DELETE FROM {table}")


@pytest.mark.parametrize("table", TABLES)
def test_a_plain_client_cannot_truncate(
    shared: SqlStore, client: Client, url: str, table: str
) -> None:
    write_season(shared)
    if _is_sqlite(url):
        # SQLite's truncation is a delete without a condition, refused above; it has no word.
        with pytest.raises(sqlite3.OperationalError, match="TRUNCATE"):
            client(f"TRUNCATE {table}")
        return
    with pytest.raises(psycopg.errors.RestrictViolation, match=": rows are written once"):
        client(f"TRUNCATE {table} CASCADE")


REPLACING = {
    "entry": "SELECT 3, kind, 0, 0, zone, 0, operator, station, 'x', 1, run, 0, 0, '{}', previous,"
    " facts_digest, lots_digest, postings_digest, origins_digest, digest FROM entry WHERE id = 3",
    "entry by command": "SELECT 11, kind, 0, 0, zone, 0, operator, station, command, part, run, 0,"
    " 0, '{}', (SELECT digest FROM head), facts_digest, lots_digest, postings_digest,"
    " origins_digest, digest FROM entry WHERE id = 3",
    "lot": "SELECT id, code, kind, 11, made_g + 1, season, attributes FROM lot WHERE id = 1",
    "lot by code": "SELECT 5, code, kind, 11, made_g, season, attributes FROM lot WHERE id = 1",
    "posting": "SELECT entry, line, lot, place, grams + 1 FROM posting WHERE entry = 2",
    "origin": "SELECT entry, line, child, parent, grams + 1, late FROM origin WHERE entry = 4",
}


@pytest.mark.parametrize("case", REPLACING)
def test_a_plain_client_cannot_replace(
    shared: SqlStore, client: Client, url: str, case: str
) -> None:
    write_season(shared)
    table = case.split()[0]
    if _is_sqlite(url):
        with pytest.raises(sqlite3.IntegrityError, match=f"{table}: "):
            client(f"INSERT OR REPLACE INTO {table} {REPLACING[case]}")
    else:
        # PostgreSQL has no REPLACE; its upsert is an insert that turns into an update.
        upsert = "ON CONFLICT DO NOTHING"
        key = {"entry": "id", "lot": "id", "posting": "entry, line", "origin": "entry, line"}[
            table
        ]
        column = {"entry": "kind", "lot": "code"}.get(table, "grams")
        upsert = f"ON CONFLICT ({key}) DO UPDATE SET {column} = excluded.{column}"
        with pytest.raises((*REFUSED, psycopg.errors.UniqueViolation), match=table):
            client(f"INSERT INTO {table} {REPLACING[case]} {upsert}")
    assert all(finding.holds for finding in shared.audit())


def test_rows_cannot_be_added_to_a_sealed_entry(shared: SqlStore, client: Client) -> None:
    write_season(shared)
    with pytest.raises(REFUSED, match="posting: this entry is sealed"):
        client("INSERT INTO posting VALUES (2, 9, 1, 'difference', 5)")
    with pytest.raises(REFUSED, match="origin: this entry is sealed"):
        client("INSERT INTO origin VALUES (4, 9, 3, 2, 0, 1)")
    with pytest.raises(REFUSED, match="lot: this entry is sealed"):
        client("INSERT INTO lot VALUES (5, 'D26-0009-X', 'D', 4, 5, 2026, '{}')")


def test_an_older_lot_gets_no_more_grams(shared: SqlStore, client: Client) -> None:
    write_season(shared)
    with pytest.raises(REFUSED, match="origin: a lot never changes its make-up"):
        client("INSERT INTO origin VALUES (11, 1, 3, 2, 5, 0)")


def _entry_row(number: int, previous: str, command: str = "new") -> str:
    return (
        f"INSERT INTO entry VALUES ({number}, 'x', 0, 0, 'UTC', 0, '', '', '{command}', 1, '', 0,"
        f" 0, '{{}}', {previous}, {', '.join(['(SELECT digest FROM head)'] * 5)})"
    )


def test_the_seal_checks_order_chain_balance_and_wholeness(
    shared: SqlStore, client: Client
) -> None:
    write_season(shared)
    head = "(SELECT digest FROM head)"
    with pytest.raises(REFUSED, match="entry: entries are written in order, without gaps"):
        client(_entry_row(12, head))
    with pytest.raises(REFUSED, match="entry: the digest before is another"):
        client(_entry_row(11, "(SELECT facts_digest FROM entry WHERE id = 3)"))
    with pytest.raises(REFUSED, match="entry: the entry is out of balance"):
        client(
            "BEGIN", "INSERT INTO posting VALUES (11, 1, 1, 'difference', 5)", _entry_row(11, head)
        )
    with pytest.raises(REFUSED, match="entry: a made lot is not whole"):
        client(
            "BEGIN",
            "INSERT INTO lot VALUES (5, 'D26-0009-X', 'D', 11, 5, 2026, '{}')",
            _entry_row(11, head),
        )
    with pytest.raises(REFUSED, match="entry: lots are numbered without gaps"):
        client(
            "BEGIN",
            "INSERT INTO lot VALUES (6, 'S26-0009-X', 'S', 11, 5, 2026, '{}')",
            _entry_row(11, head),
        )


def test_the_head_moves_only_with_a_new_entry(shared: SqlStore, client: Client) -> None:
    write_season(shared)
    with pytest.raises(REFUSED, match="head: only a new entry moves it"):
        client("UPDATE head SET entry = 3")
    with pytest.raises(REFUSED, match="head: there is one head"):
        client("DELETE FROM head")
    with pytest.raises((*REFUSED, psycopg.errors.UniqueViolation), match="head"):
        client("INSERT INTO head SELECT 1, ledger_id, 3, 1, digest FROM head")


def test_numbers_are_numbers(shared: SqlStore, client: Client) -> None:
    write_season(shared)
    refused = (sqlite3.IntegrityError, psycopg.errors.InvalidTextRepresentation)
    with pytest.raises(refused, match=r"abc|cannot store TEXT"):
        client("INSERT INTO posting VALUES (11, 1, 1, 'difference', 'abc')")


@pytest.mark.postgres
def test_a_replica_role_does_not_walk_past(fresh_postgres_url: str) -> None:
    store = open_store(fresh_postgres_url, create=True)
    write_season(store)
    store.close()
    with psycopg.connect(fresh_postgres_url.replace("+psycopg", "")) as replica:
        replica.execute("SET session_replication_role = replica")
        with pytest.raises(psycopg.errors.RestrictViolation, match="rows are written once"):
            replica.execute("DELETE FROM posting")


def test_our_own_code_is_held_to_the_guards_too(store: SqlStore) -> None:
    hand = write_season(store)
    with store.writing() as unit:
        entry = hand.build(unit.next_entry, unit.next_lot, "x")
    # Past the checks of Entry itself, as a bug would be.
    bad = Posting(1, 1, "difference", 5)
    object.__setattr__(entry, "postings", (bad,))
    with (
        pytest.raises(BrokenRule, match="entry: the entry is out of balance"),
        store.writing() as unit,
    ):
        unit.append(entry)
    object.__setattr__(entry, "postings", ())
    object.__setattr__(entry, "lots", (Lot(5, "D26-0009-X", "D", 11, 5, 2026),))
    with (
        pytest.raises(BrokenRule, match="entry: a made lot is not whole"),
        store.writing() as unit,
    ):
        unit.append(entry)


def _drop(name: str, url: str) -> str:
    table = name.partition("_")[0]
    return f"DROP TRIGGER {name}" + ("" if _is_sqlite(url) else f" ON {table}")


def test_a_missing_guard_is_seen_at_start_and_nothing_is_written(
    shared: SqlStore, client: Client, url: str
) -> None:
    write_season(shared)
    client(_drop("posting_update_guard", url))
    again = open_store(url)
    told = "The guards of .* are not as they were installed \\(posting_update_guard\\)"
    with pytest.raises(Refusal, match=told) as refused, again.writing():
        pass
    assert refused.value.key == "guards-missing"
    assert any("posting_update_guard" in warning for warning in again.warnings())
    written_once = next(one for one in again.audit() if one.name == "written-once")
    assert written_once.broken == ("guard posting_update_guard is not as installed",)
    again.close()


def test_a_guard_that_was_weakened_counts_as_missing(
    shared: SqlStore, client: Client, url: str
) -> None:
    if _is_sqlite(url):
        weak = "CREATE TRIGGER lot_update_guard BEFORE UPDATE ON lot BEGIN SELECT 1; END"
        client("DROP TRIGGER lot_update_guard", weak)
    else:
        client(
            "CREATE OR REPLACE FUNCTION lot_update_guard() RETURNS trigger LANGUAGE plpgsql"
            " AS 'BEGIN RETURN NULL; END'",
            "ALTER TABLE origin DISABLE TRIGGER origin_delete_guard",
        )
    again = open_store(url)
    assert isinstance(again, SqlStore)
    broken = next(one for one in again.audit() if one.name == "written-once").broken
    assert broken[0] == "guard lot_update_guard is not as installed"
    assert _is_sqlite(url) or broken[1] == "guard origin_delete_guard is not as installed"
    again.close()


def test_every_guard_can_be_dropped_and_installed_again() -> None:
    engine = create_engine("sqlite://")
    with engine.begin() as connection:
        build(connection, "ledger-1")
        assert guards.missing(connection) == ()
        guards.drop(connection)
        assert guards.missing(connection) == tuple(guards.SQLITE_GUARDS)
        guards.install(connection)
        assert guards.missing(connection) == ()
    engine.dispose()


def test_hand_made_entries_are_real(store: SqlStore) -> None:
    assert isinstance(write_season(store), Hand)
    assert [finding.name for finding in store.audit() if not finding.holds] == []
