"""Words and values of projections in short forms, and a stay's end told from its latest time.

Each table is written anew in the order of its key, which takes a large house a fraction of what
changing every key in place does. On SQLite the room is used again by what is written next.
"""

from collections.abc import Callable
from contextlib import closing
from typing import Any

from alembic import op
from sqlalchemy import BigInteger, Column, MetaData, Table, Text

from honeyledger.persistence.short import short, short_name
from honeyledger.persistence.short_values import short_value
from honeyledger.persistence.statements import Insert, Row

revision = "0004"
down_revision = "0003"

_AT_ONCE = 20_000


def upgrade() -> None:
    """Write anew what has words."""
    op.alter_column("stay", "until_ms", new_column_name="early_ms")
    _rename_on_a_server()
    _write_anew("holding", "place$ lot side grams pieces", "lot place", _of_place)
    _write_anew(
        "stay",
        "place$ lot entry since_ms early_ms latest_ms ended_by told",
        "place latest_ms lot entry",
        _of_stay,
    )
    for table in ("arrived", "drawn"):
        _write_anew(table, "place$ at_ms lot entry", "place at_ms lot entry", _of_place)
    _write_anew("touched", "place$ entry at_ms", "place at_ms entry", _of_place)
    _write_anew("mark", "subject$ name$ entry at_ms value$", "subject name entry", _of_mark)
    _write_anew("code_given", "code$ entry", "code", _of_place)


def _of_place(row: Row) -> Row:
    return (short(row[0]), *row[1:])


def _of_stay(row: Row) -> Row:
    """An open stay said -1; what has ended says how far its end is from its latest time."""
    place, lot, entry, since_ms, until_ms, latest_ms, *more = row
    early_ms = 0 if until_ms == -1 else latest_ms - until_ms
    return (short(place), lot, entry, since_ms, early_ms, latest_ms, *more)


def _of_mark(row: Row) -> Row:
    """A record's value stays as it is, and so does none, which stands in its entry's facts."""
    subject, name, entry, at_ms, value = row
    stored = value if name == "record" else short_value(value, at_ms)
    return short(subject), short_name(name), entry, at_ms, stored


def _write_anew(name: str, columns: str, key: str, stored: Callable[[Row], Row]) -> None:
    """All rows of a table as stored from now on; columns that hold text end in a dollar sign."""
    names = columns.replace("$", "").split()
    listed, fresh = ", ".join(names), f"{name}_in_short"
    op.execute(f"CREATE TEMPORARY TABLE {fresh} AS SELECT {listed} FROM {name} WHERE 1 = 0")
    insert = Insert(Table(fresh, MetaData(), *map(_column, columns.split())))
    connection = op.get_bind()
    raw, engine = connection.connection, connection.dialect.name
    # A named cursor stays on a server, which else would send everything at once.
    reading = raw.cursor() if engine == "sqlite" else raw.cursor(name="rows_in_words")
    with closing(reading), closing(raw.cursor()) as writing:
        reading.execute(f"SELECT {listed} FROM {name}")
        while rows := reading.fetchmany(_AT_ONCE):
            insert.run(writing, engine, [stored(row) for row in rows])
    op.execute(f"DELETE FROM {name}")
    op.execute(
        f"INSERT INTO {name} ({listed}) SELECT {listed} FROM {fresh}"
        f" ORDER BY {', '.join(key.split())}"
    )
    op.execute(f"DROP TABLE {fresh}")


def _column(name: str) -> Column[Any]:
    if name.endswith("$"):
        return Column(name[:-1], Text())
    return Column(name, BigInteger())


def _rename_on_a_server() -> None:
    """Newer servers name what says that a column is never empty, after the column."""
    connection = op.get_bind()
    if (
        connection.dialect.name == "postgresql"
        and connection.exec_driver_sql(
            "SELECT 1 FROM pg_constraint WHERE conrelid = 'stay'::regclass"
            " AND conname = 'stay_until_ms_not_null'"
        ).fetchone()
    ):
        op.execute(
            "ALTER TABLE stay RENAME CONSTRAINT stay_until_ms_not_null TO stay_early_ms_not_null"
        )
