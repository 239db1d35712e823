from typing import Any

import pytest
from alembic import command
from alembic.config import Config
from sqlalchemy import Connection, create_engine

from honeyledger.persistence.tables import METADATA
from honeyledger.persistence.upgrade import MIGRATIONS


def _shape(connection: Connection) -> list[tuple[Any, ...]]:
    """All tables, columns, keys, checks and indexes, as the engine itself tells them."""
    if connection.dialect.name == "sqlite":
        rows = connection.exec_driver_sql(
            "SELECT name, sql FROM sqlite_master WHERE tbl_name <> 'alembic_version'"
        ).fetchall()
        return sorted((row[0], "".join(str(row[1]).split())) for row in rows)
    parts = (
        "SELECT table_name, column_name, ordinal_position, data_type, collation_name, is_nullable"
        " FROM information_schema.columns WHERE table_schema = 'public'",
        "SELECT conrelid::regclass::text, conname, pg_get_constraintdef(oid) FROM pg_constraint"
        " WHERE connamespace = 'public'::regnamespace",
        "SELECT tablename, indexname, indexdef FROM pg_indexes WHERE schemaname = 'public'",
    )
    found = [tuple(map(str, row)) for part in parts for row in connection.exec_driver_sql(part)]
    return sorted(row for row in found if row[0] != "alembic_version")


@pytest.mark.parametrize("engine_name", ["sqlite", pytest.param("pg", marks=pytest.mark.postgres)])
def test_the_migrations_make_what_a_new_house_has(
    engine_name: str, request: pytest.FixtureRequest
) -> None:
    url = "sqlite://" if engine_name == "sqlite" else request.getfixturevalue("fresh_postgres_url")
    engine = create_engine(url)
    with engine.connect() as connection:
        METADATA.create_all(connection)
        made = _shape(connection)
        METADATA.drop_all(connection)
        assert _shape(connection) == []
        config = Config()
        config.set_main_option("script_location", str(MIGRATIONS))
        config.attributes["connection"] = connection
        command.upgrade(config, "head")
        assert _shape(connection) == made
        assert len(made) > 20
    engine.dispose()
