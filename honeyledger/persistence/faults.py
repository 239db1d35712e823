"""What can go wrong with a store from outside, each as a sentence that says what to do.

Here the engines' own errors become refusals (the world's fault) or broken rules (ours).
"""

import errno
import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import contextmanager

from sqlalchemy.exc import DBAPIError, SQLAlchemyError

from honeyledger.domain.refusals import BrokenRule, Refusal, Sentence

NO_HOUSE = Sentence(
    "no-house", "There is no house at {where}. Check the name, or make a new house there."
)
NO_FOLDER = Sentence(
    "no-folder", "There is no folder {where}. Make it first, or choose another one for the house."
)
HOUSE_EXISTS = Sentence(
    "house-exists", "There is a house at {where} already. Open that one, or choose another name."
)
NOT_A_HOUSE = Sentence(
    "not-a-house",
    "{where} is not a house of this program. Choose the house's own file or database.",
)
NEWER_HOUSE = Sentence(
    "newer-house",
    "{where} was written by a newer version of this program. Install that version to open it.",
)
OLDER_HOUSE = Sentence(
    "older-house",
    "{where} was written by an older version of this program. Upgrade the house first.",
)
DAMAGED = Sentence(
    "damaged-house",
    "{where} is damaged ({what}). Leave it as it is, and go on with the last backup.",
)
NOT_WRITABLE = Sentence(
    "not-writable",
    "Nothing can be written in {where}. Allow it for your user, or move the house to a folder "
    "of your own.",
)
IN_USE = Sentence(
    "house-in-use",
    "Another program has been writing to {where} for a while. Wait for it to end, or close it, "
    "and try again.",
)
DISK_FULL = Sentence(
    "disk-full", "The disk with {where} is full, so nothing was written. Make room and try again."
)
DISK_FAULT = Sentence(
    "disk-fault",
    "The disk with {where} cannot be read or written ({what}). Check it, and try again.",
)
NO_SERVER = Sentence(
    "no-server",
    "The database server of {where} does not answer. Check that it runs and the network is up, "
    "and try again.",
)
NO_ENTRANCE = Sentence(
    "no-entrance",
    "The database server of {where} does not let this program in ({what}). Check user and "
    "password, or ask who keeps the server.",
)
NO_DATABASE = Sentence(
    "no-database",
    "The database server has no database {name}. Have it made there first, or check the name.",
)
NO_RIGHTS = Sentence(
    "no-rights",
    "The user may not do this in {where} ({what}). Have the database's owner allow it.",
)
NO_DRIVER = Sentence(
    "no-postgresql",
    "The part for PostgreSQL is not installed. Install honeyledger[postgresql], and try again.",
)
NO_SUCH_STORE = Sentence(
    "no-such-store", "{where} is neither a file nor a PostgreSQL address. Name the house anew."
)
GUARDS_MISSING = Sentence(
    "guards-missing",
    "The guards of {where} are not as they were installed ({what}), so nothing is written. Run "
    "the audit, then have the owner install the guards again.",
)
NO_TEXT = Sentence(
    "no-text",
    "What was typed or scanned has a character in it that cannot be kept, so nothing was "
    "written. Type it again.",
)
TOO_LARGE = Sentence(
    "number-too-large",
    "A number is larger than can be kept, so nothing was written. Check what was typed.",
)

BUSY, LOCKED, FULL, CORRUPT, NOT_A_DB = (
    sqlite3.SQLITE_BUSY,
    sqlite3.SQLITE_LOCKED,
    sqlite3.SQLITE_FULL,
    sqlite3.SQLITE_CORRUPT,
    sqlite3.SQLITE_NOTADB,
)
CANNOT_OPEN, READ_ONLY, IO_FAULT = (
    sqlite3.SQLITE_CANTOPEN,
    sqlite3.SQLITE_READONLY,
    sqlite3.SQLITE_IOERR,
)


@contextmanager
def faults_named(where: str) -> Iterator[None]:
    """Turn an engine's errors into ours while talking to the store at `where`."""
    try:
        yield
    except DBAPIError as error:
        raise _ours(error.orig or error, where) from error
    except SQLAlchemyError:
        raise
    except sqlite3.Error as error:
        raise _of_sqlite(error, where) from error
    except UnicodeEncodeError as error:
        raise Refusal(NO_TEXT) from error
    except OverflowError as error:
        raise Refusal(TOO_LARGE) from error
    except Exception as error:
        # The PostgreSQL driver is an optional part, so that its errors are known by their marks.
        if not hasattr(error, "sqlstate"):
            raise
        raise _of_postgresql(error, where) from error


@contextmanager
def file_faults_named(where: str) -> Iterator[None]:
    """Turn the system's errors about a file into ours; around our own file work only."""
    try:
        yield
    except OSError as error:
        raise _of_system(error, where) from error


def check_words(row: Iterable[object]) -> None:
    """Refuse a NUL on both engines: PostgreSQL has no text with one.

    Raises:
        Refusal: a text of a row that is to be written has one.
    """
    if any(isinstance(part, str) and "\0" in part for part in row):
        raise Refusal(NO_TEXT)


def _ours(error: BaseException, where: str) -> Exception:
    if isinstance(error, sqlite3.Error):
        return _of_sqlite(error, where)
    return _of_postgresql(error, where)


def _of_sqlite(error: sqlite3.Error, where: str) -> Exception:
    code = getattr(error, "sqlite_errorcode", 0) & 0xFF
    what = str(error)
    sentence = {
        BUSY: IN_USE,
        LOCKED: IN_USE,
        FULL: DISK_FULL,
        CORRUPT: DAMAGED,
        NOT_A_DB: NOT_A_HOUSE,
        CANNOT_OPEN: NOT_WRITABLE,
        READ_ONLY: NOT_WRITABLE,
        IO_FAULT: DISK_FAULT,
    }.get(code)
    if sentence is None:
        return BrokenRule(what)
    return Refusal(sentence, field="house", where=where, what=what)


def _of_system(error: OSError, where: str) -> Exception:
    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        return Refusal(DISK_FULL, field="house", where=where)
    if error.errno in (errno.EACCES, errno.EPERM, errno.EROFS):
        return Refusal(NOT_WRITABLE, field="house", where=where)
    return Refusal(DISK_FAULT, field="house", where=where, what=error.strerror or str(error))


# Classes and codes of SQLSTATE: PostgreSQL documentation, appendix A.
_BY_STATE = {
    "08": NO_SERVER,
    "57P": NO_SERVER,  # the server is shut down
    "28": NO_ENTRANCE,
    "53100": DISK_FULL,
    "55P03": IN_USE,
    "42501": NO_RIGHTS,
    "XX001": DAMAGED,
    "XX002": DAMAGED,
    "58": DISK_FAULT,
    "22003": TOO_LARGE,
    "22021": NO_TEXT,
    "22P05": NO_TEXT,
}


def _of_postgresql(error: BaseException, where: str) -> Exception:
    what = (str(error).strip() or type(error).__name__).splitlines()[0]
    state: str | None = getattr(error, "sqlstate", None)
    if state is None:
        # No answer from a server has a state: refused, unknown host, lost on the way.
        kinds = {one.__name__ for one in type(error).__mro__}
        if "OperationalError" in kinds:
            return _at_the_door(what, where)
        return Refusal(NO_TEXT) if "DataError" in kinds else BrokenRule(what)
    if state == "3D000":
        return Refusal(NO_DATABASE, field="house", name=where)
    for start, sentence in _BY_STATE.items():
        if state.startswith(start):
            return Refusal(sentence, field="house", where=where, what=what)
    return BrokenRule(what)


def _at_the_door(what: str, where: str) -> Refusal:
    """A server that answers and refuses says so in words only, after "FATAL:"."""
    _, answered, said = what.partition("FATAL:")
    if not answered:
        return Refusal(NO_SERVER, field="house", where=where)
    if "database" in said and "does not exist" in said:
        return Refusal(NO_DATABASE, field="house", name=where)
    return Refusal(NO_ENTRANCE, field="house", where=where, what=said.strip())
