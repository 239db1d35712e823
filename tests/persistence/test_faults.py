"""Each fault that cannot be brought about here is made by its own mark: SQLite's or SQLSTATE."""

import errno
import sqlite3
from contextlib import suppress

import psycopg
import pytest
from sqlalchemy.exc import OperationalError

from honeyledger.domain.refusals import BrokenRule, Refusal
from honeyledger.persistence.faults import faults_named, file_faults_named
from honeyledger.persistence.store import SqlStore
from tests.support.entries import Hand, write_season


def named(error: Exception) -> Exception:
    with pytest.raises((Refusal, BrokenRule)) as caught, faults_named("north"):
        raise error
    assert caught.value.__cause__ is error
    return caught.value


def of_sqlite(code: int) -> Exception:
    error = sqlite3.OperationalError("words of SQLite")
    error.sqlite_errorcode = code
    return named(error)


@pytest.mark.parametrize(
    ("code", "text"),
    [
        (sqlite3.SQLITE_FULL, "The disk with north is full, so nothing was written."),
        (
            sqlite3.SQLITE_IOERR_READ,
            "The disk with north cannot be read or written (words of SQLite). Check it, and try "
            "again.",
        ),
        (sqlite3.SQLITE_READONLY_DIRECTORY, "Nothing can be written in north."),
        (sqlite3.SQLITE_CANTOPEN, "Nothing can be written in north."),
        (sqlite3.SQLITE_BUSY_SNAPSHOT, "Another program has been writing to north for a while."),
        (sqlite3.SQLITE_CORRUPT_INDEX, "north is damaged (words of SQLite)."),
        (sqlite3.SQLITE_NOTADB, "north is not a house of this program."),
    ],
)
def test_faults_of_sqlite(code: int, text: str) -> None:
    told = of_sqlite(code)
    assert isinstance(told, Refusal)
    assert str(told).startswith(text)


def test_a_broken_constraint_is_our_bug() -> None:
    assert isinstance(of_sqlite(sqlite3.SQLITE_CONSTRAINT_CHECK), BrokenRule)
    assert isinstance(named(psycopg.errors.CheckViolation("words")), BrokenRule)


@pytest.mark.parametrize(
    ("error", "key"),
    [
        (psycopg.errors.DiskFull("words"), "disk-full"),
        (psycopg.errors.AdminShutdown("words"), "no-server"),
        (psycopg.errors.ConnectionFailure("words"), "no-server"),
        (psycopg.errors.InvalidPassword("words"), "no-entrance"),
        (psycopg.errors.InvalidCatalogName("words"), "no-database"),
        (psycopg.errors.InsufficientPrivilege("words"), "no-rights"),
        (psycopg.errors.LockNotAvailable("words"), "house-in-use"),
        (psycopg.errors.DataCorrupted("words"), "damaged-house"),
        (psycopg.errors.IoError("words"), "disk-fault"),
        (psycopg.errors.NumericValueOutOfRange("words"), "number-too-large"),
        (psycopg.errors.CharacterNotInRepertoire("words"), "no-text"),
        (psycopg.errors.UntranslatableCharacter("words"), "no-text"),
        (psycopg.DataError("PostgreSQL text fields cannot contain NUL"), "no-text"),
        (psycopg.OperationalError("server closed the connection"), "no-server"),
        (psycopg.OperationalError("failed: FATAL:  sorry, too many clients"), "no-entrance"),
        (psycopg.OperationalError('failed: FATAL:  database "x" does not exist'), "no-database"),
    ],
)
def test_faults_of_postgresql(error: Exception, key: str) -> None:
    told = named(error)
    assert isinstance(told, Refusal)
    assert told.key == key


@pytest.mark.parametrize(
    ("error", "text"),
    [
        (
            psycopg.errors.InvalidCatalogName("words"),
            "The database server has no database north. Have it made there first, or check the "
            "name.",
        ),
        (
            psycopg.errors.InsufficientPrivilege("words"),
            "The user may not do this in north (words). Have the database's owner allow it.",
        ),
    ],
)
def test_what_a_server_s_keeper_is_to_do(error: Exception, text: str) -> None:
    assert str(named(error)) == text


def test_faults_that_come_through_the_library() -> None:
    full = sqlite3.OperationalError("database or disk is full")
    full.sqlite_errorcode = sqlite3.SQLITE_FULL
    told = named(OperationalError("INSERT", {}, full))
    assert isinstance(told, Refusal)
    assert told.key == "disk-full"


@pytest.mark.parametrize("error", [ValueError("x"), OSError(errno.EPIPE, "Broken pipe")])
def test_what_is_not_the_stores_fault_passes(error: Exception) -> None:
    with pytest.raises(type(error)) as caught, faults_named("north"):
        raise error
    assert caught.value is error


@pytest.mark.parametrize(
    ("number", "key"),
    [
        (errno.ENOSPC, "disk-full"),
        (errno.EACCES, "not-writable"),
        (errno.EROFS, "not-writable"),
        (errno.EIO, "disk-fault"),
    ],
)
def test_faults_of_a_file(number: int, key: str) -> None:
    with pytest.raises(Refusal) as refused, file_faults_named("north"):
        raise OSError(number, "words")
    assert refused.value.key == key


@pytest.mark.parametrize(
    ("header", "posted_g", "text"),
    [
        (
            {"operator": "Ann\0"},
            5,
            "What was typed or scanned has a character in it that cannot be kept, so nothing was "
            "written. Type it again.",
        ),
        (
            {"run": "R\ud800"},
            5,
            "What was typed or scanned has a character in it that cannot be kept, so nothing was "
            "written. Type it again.",
        ),
        (
            {},
            2**63,
            "A number is larger than can be kept, so nothing was written. Check what was typed.",
        ),
    ],
)
def test_what_no_engine_can_keep(
    store: SqlStore, header: dict[str, str], posted_g: int, text: str
) -> None:
    posts = [("S26-0001-A", "yard/Y1", -posted_g), ("S26-0001-A", "difference", posted_g)]
    with pytest.raises(Refusal) as refused:
        Hand(store).write("fill", [("S26-0001-A", 5)], posts, **header)
    assert refused.value.text == text
    with store.reading() as view:
        assert view.head().entry == 0


@pytest.mark.parametrize("text", ["D26-0001-\0", "D26\ud800", '"{NULL,%s}\\', "Größe 😀"])
def test_what_is_asked_for_never_breaks_a_house(store: SqlStore, text: str) -> None:
    """A question with what no text can hold finds nothing, or is refused."""
    with suppress(Refusal), store.reading() as view:
        assert view.lot_by_code(text) is None
        assert view.mark(text, "record") is None
    write_season(store)
