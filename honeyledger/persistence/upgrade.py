"""Moves an older house to this program's schema, and puts guards back at its owner's word.

The order is the one that loses nothing: own transaction, foreign keys off, guards dropped,
migrated, foreign keys checked, guards installed and verified, and an entry that says so. This
module imports Alembic, so it is loaded by name and only when it is needed.
"""

from collections.abc import Callable, Mapping
from contextlib import closing
from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.util.exc import CommandError
from sqlalchemy import Connection

from honeyledger.domain.refusals import Damage, Refusal, Sentence
from honeyledger.ledger.entry import Act, Entry, Json
from honeyledger.persistence import faults, guards, opening
from honeyledger.persistence.backup import back_up
from honeyledger.persistence.engine import Where, for_writing, locate, make_engine
from honeyledger.persistence.faults import faults_named
from honeyledger.persistence.projections import Projector
from honeyledger.persistence.store import SqlUnit
from honeyledger.persistence.tables import PROJECTIONS

MIGRATIONS = Path(__file__).with_name("migrations")
UP_TO_DATE = Sentence("up-to-date", "{where} is up to date already. There is nothing to upgrade.")
UPKEEP = "upkeep"
"""The kind of the entry that records what was done to the house itself."""


def upgrade(
    url_or_path: str,
    act: Act,
    recorded_ms: int,
    *,
    migrations: Path = MIGRATIONS,
    to: str = opening.REVISION,
) -> Path | None:
    """Move a house to revision `to`; a backup of a file is made first, and its path returned.

    Raises:
        Refusal: there is no house, it is newer, or something else is wrong outside.
        Damage: the house would not be whole afterwards; it stays as it was.
    """
    where = locate(url_or_path)
    before = _revision(where)
    if before == to:
        raise Refusal(UP_TO_DATE, field="house", where=where.name)
    copy = _backed_up(where.path, before) if where.path else None

    def migrate(connection: Connection) -> Mapping[str, Json]:
        guards.drop(connection)
        _run(connection, migrations, to, where)
        _check_keys(connection)
        guards.install(connection)
        return {"action": "upgrade", "from": before, "to": to}

    _in_one_step(where, migrate, act, recorded_ms)
    return copy


def install_guards(url_or_path: str, act: Act, recorded_ms: int) -> tuple[str, ...]:
    """Put the guards back as they should be; the names of those that were not are returned."""
    where = locate(url_or_path)
    _revision(where)
    found: list[str] = []

    def reinstall(connection: Connection) -> Mapping[str, Json]:
        found.extend(guards.missing(connection))
        guards.drop(connection)
        guards.install(connection)
        return {"action": "install guards", "missing": found}

    _in_one_step(where, reinstall, act, recorded_ms)
    return tuple(found)


def rebuild_projections(url_or_path: str, act: Act, recorded_ms: int) -> int:
    """Make every projection anew from the entries; how many were replayed is returned.

    For a house whose audit says that a projection was changed: the entries are the truth.
    """
    where = locate(url_or_path)
    _revision(where)

    def rebuild(connection: Connection) -> Mapping[str, Json]:
        with closing(connection.connection.cursor()) as cursor:
            unit = SqlUnit(cursor, connection.dialect.name)
            for table in PROJECTIONS:
                connection.execute(table.delete())
            projector = Projector(cursor, connection.dialect.name, unit.entry)
            for number in range(1, unit.next_entry):
                entry = unit.entry(number)
                if entry is None:
                    raise Damage(f"entry {number}, entry: its row is missing")
                projector.apply(entry)
            return {"action": "rebuild projections", "entries": unit.next_entry - 1}

    said = _in_one_step(where, rebuild, act, recorded_ms)
    return int(str(said["entries"]))


def _revision(where: Where) -> str:
    """The house's revision now."""
    if where.path is not None:
        opening.look_at_file(where.path, create=False)
    engine = make_engine(where)
    try:
        with faults_named(where.name), engine.connect() as connection:
            return opening.revision_of(connection, where)
    finally:
        engine.dispose()


def _backed_up(path: Path, revision: str) -> Path:
    """A backup beside the house, under a name that is free."""
    stem, count = f"{path.stem}-before-{revision}", 1
    copy = path.with_name(f"{stem}{path.suffix}")
    while copy.exists():
        count += 1
        copy = path.with_name(f"{stem}-{count}{path.suffix}")
    back_up(path, copy)
    return copy


def _in_one_step(
    where: Where,
    work: Callable[[Connection], Mapping[str, Json]],
    act: Act,
    recorded_ms: int,
) -> Mapping[str, Json]:
    """Work, verify the guards, and record it, in one transaction under the head lock."""
    engine = for_writing(make_engine(where))
    try:
        with faults_named(where.name), engine.connect() as connection:
            is_sqlite = connection.dialect.name == "sqlite"
            if is_sqlite:
                # Inside a transaction this would do nothing. It ends with the connection.
                raw = connection.connection.driver_connection
                assert raw is not None
                raw.execute("PRAGMA foreign_keys = OFF")
            with connection.begin():
                said = work(connection)
                gone = guards.missing(connection)
                if gone:
                    facts = {"where": where.name, "what": ", ".join(gone)}
                    raise Refusal(faults.GUARDS_MISSING, field="house", **facts)
                _record(connection, said, act, recorded_ms)
            return said
    finally:
        engine.dispose()


def _record(connection: Connection, said: Mapping[str, Json], act: Act, recorded_ms: int) -> None:
    """What was done to the house is an entry as well."""
    with closing(connection.connection.cursor()) as cursor:
        unit = SqlUnit(cursor, connection.dialect.name)
        unit.append(
            Entry(
                id=unit.next_entry,
                kind=UPKEEP,
                act=act,
                recorded_ms=recorded_ms,
                part=1,
                facts={"said": dict(said)},
            )
        )


def _run(connection: Connection, migrations: Path, to: str, where: Where) -> None:
    config = Config()
    config.set_main_option("script_location", str(migrations).replace("%", "%%"))
    config.attributes["connection"] = connection
    try:
        command.upgrade(config, to)
    except CommandError as error:
        # A revision that no migration here leads from: a newer program wrote it.
        raise Refusal(faults.NEWER_HOUSE, field="house", where=where.name) from error


def _check_keys(connection: Connection) -> None:
    """Foreign keys were not looked at meanwhile on SQLite; PostgreSQL never stops looking."""
    if connection.dialect.name != "sqlite":
        return
    rows = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
    if rows:
        raise Damage(f"{rows[0][0]}: row {rows[0][1]} belongs to no row of {rows[0][2]}")
