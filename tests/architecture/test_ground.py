"""The ground other tests stand on is what it says it is."""

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any
from uuid import UUID

import pytest
from sqlalchemy import create_engine, inspect, text
from sqlalchemy.engine import make_url

from honeyledger.settings import data_folder, settings_file


def _make_table(url: str) -> list[str]:
    engine = create_engine(url)
    with engine.begin() as connection:
        connection.execute(text("CREATE TABLE drum (grams BIGINT)"))
        tables = inspect(connection).get_table_names()
    engine.dispose()
    return tables


@pytest.mark.postgres
@pytest.mark.parametrize("turn", [1, 2])
def test_each_test_has_an_empty_database_of_its_own(fresh_postgres_url: str, turn: int) -> None:
    assert _make_table(fresh_postgres_url) == ["drum"], f"turn {turn}"


@pytest.mark.postgres
def test_the_server_listens_to_this_machine_only(fresh_postgres_url: str) -> None:
    url = make_url(fresh_postgres_url)
    assert url.get_backend_name() == "postgresql"
    if os.name != "nt":
        assert Path(str(url.query["host"])).is_dir()


def test_no_test_touches_the_users_own_folders() -> None:
    home = Path.home()
    if os.name != "nt":
        assert home not in settings_file().parents
        assert home not in data_folder().parents


def test_the_clock_moves_only_when_told(clock: Any) -> None:
    before_ms = clock()
    assert clock() == before_ms
    clock.forward(minutes=20)
    assert clock() - before_ms == 20 * 60 * 1000


def test_ids_are_valid_and_never_repeat(new_id: Callable[[], str]) -> None:
    made = [new_id() for _ in range(100)]
    assert len(set(made)) == 100
    assert {UUID(each).version for each in made} == {4}
