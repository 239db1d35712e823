"""What the tables refuse by themselves, with every guard gone."""

import pytest
from sqlalchemy import create_engine, text
from sqlalchemy.exc import IntegrityError

from honeyledger.persistence.tables import METADATA, PROJECTIONS, WRITTEN_ONCE

LOTS = "INSERT INTO lot VALUES (1, 'S26-0001-A', 'S', 1, 10, 2026, '{}'),"
LOTS += " (2, 'T26-0001-T', 'T', 1, 10, 2026, '{}')"

REFUSED = {
    "INSERT INTO lot VALUES (3, 'S26-0002-B', 'S', 1, 0, 2026, '{}')": "lot_made_of_something",
    "INSERT INTO lot VALUES (3, 'A26-0002-B', 'A', 1, -1, 2026, '{}')": "lot_made_of_something",
    "INSERT INTO lot VALUES (3, 'Z26-0002-B', 'Z', 1, 5, 2026, '{}')": "lot_known_kind",
    "INSERT INTO lot VALUES (3, 'S26-0001-A', 'S', 1, 5, 2026, '{}')": "lot.code|lot_one_code",
    "INSERT INTO origin VALUES (1, 1, 1, 2, 10, 0)": "origin_ordered",
    "INSERT INTO origin VALUES (1, 1, 2, 1, -10, 0)": "origin_ordered",
    "INSERT INTO origin VALUES (1, 1, 2, 1, 10, 1)": "origin_ordered",
    "INSERT INTO origin VALUES (1, 1, 2, 2, 0, 0)": "origin_not_of_itself",
    "INSERT INTO origin VALUES (1, 1, 2, 1, 0, 7)": "origin_yes_or_no",
    "INSERT INTO origin VALUES (1, 1, 2, 9, 0, 0)": "(?i)foreign key|origin_has_parent",
    "INSERT INTO posting VALUES (1, 1, 9, 'difference', 5)": "(?i)foreign key|posting_has_lot",
    "INSERT INTO holding VALUES ('vessel/V', 1, 0, -1, 0)": "holding_never_overdrawn",
    "INSERT INTO holding VALUES ('vessel/V', 1, 0, 0, -1)": "holding_never_overdrawn",
    "INSERT INTO head VALUES (2, 'x', 0, 0, BYTES)": "head_only_one",
}
TAKEN = (
    "INSERT INTO origin VALUES (1, 1, 2, 1, 10, 0)",
    "INSERT INTO origin VALUES (1, 1, 1, 2, 0, 1)",
    "INSERT INTO lot VALUES (3, 'A26-0002-B', 'A', 1, 0, 2026, '{}')",
    "INSERT INTO holding VALUES ('customer/C', 1, 2, -1, -1)",
)


@pytest.mark.parametrize("engine_name", ["sqlite", pytest.param("pg", marks=pytest.mark.postgres)])
def test_constraints(engine_name: str, request: pytest.FixtureRequest) -> None:
    url = "sqlite://" if engine_name == "sqlite" else request.getfixturevalue("fresh_postgres_url")
    engine = create_engine(url)
    with engine.connect() as connection:
        if engine_name == "sqlite":
            connection.exec_driver_sql("PRAGMA foreign_keys = ON")
        METADATA.create_all(connection)
        connection.execute(text(LOTS))
        some_bytes = "x'00'" if engine_name == "sqlite" else "'\\x00'"
        for statement, name in REFUSED.items():
            with (
                pytest.raises(IntegrityError, match=f"(?i){name.removeprefix('(?i)')}"),
                connection.begin_nested(),
            ):
                connection.execute(text(statement.replace("BYTES", some_bytes)))
        for statement in TAKEN:
            with connection.begin_nested() as taken:
                connection.execute(text(statement))
                taken.rollback()
    engine.dispose()


def test_tables_are_of_one_kind_or_the_other() -> None:
    named = {table.name for table in (*WRITTEN_ONCE, *PROJECTIONS)}
    assert named | {"head"} == set(METADATA.tables)
    for table in METADATA.tables.values():
        assert all(not column.nullable for column in table.columns), table.name
