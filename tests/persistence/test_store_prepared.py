"""A server keeps the plans of a station's questions from one reading to the next."""

import pytest
from sqlalchemy import column, select, table

from honeyledger.persistence.statements import Statement
from honeyledger.persistence.store import SqlStore, open_store

_PREPARED = Statement(select(column("statement")).select_from(table("pg_prepared_statements")))


@pytest.mark.postgres
def test_what_is_asked_again_and_again_is_planned_once(fresh_postgres_url: str) -> None:
    store = open_store(fresh_postgres_url, create=True)
    assert isinstance(store, SqlStore)
    # The driver takes a statement for a frequent one after five times.
    for _ in range(8):
        with store.reading() as view:
            view.mark("house", "record")
    with store.reading() as view:
        prepared = [row[0] for row in view._all(_PREPARED)]
    store.close()
    assert any("FROM mark" in statement for statement in prepared)
