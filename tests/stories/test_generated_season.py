"""The bench's seasons are the ledger's own: made in bulk or entry by entry, they are the same."""

from dataclasses import replace
from pathlib import Path

import pytest
from sqlalchemy import Engine

from honeyledger.persistence.engine import for_reading, locate, make_engine
from honeyledger.persistence.store import open_store
from honeyledger.persistence.tables import PROJECTIONS, WRITTEN_ONCE
from tests.bench.bulk import Row, carry_over, rows_of
from tests.bench.generator import LEDGER_ID, generate
from tests.bench.season import Clock, Scale, Season, season_house
from tests.support.engines import SITE

TABLES = (*WRITTEN_ONCE, *PROJECTIONS)
SMALL = Scale(colonies=200, seasons=1, seed=11, mishaps=40)


def _tables(url_or_path: str) -> dict[str, list[Row]]:
    engine: Engine = make_engine(locate(url_or_path))
    with for_reading(engine).connect() as connection:
        found = {table.name: rows_of(connection, table) for table in TABLES}
    engine.dispose()
    return found


@pytest.fixture(scope="module")
def in_bulk(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("bench") / "bulk.honeyledger"
    generate(path, SMALL)
    return path


def test_a_season_made_entry_by_entry_has_the_same_digests_and_tables(
    in_bulk: Path, tmp_path: Path
) -> None:
    """On a server it is also the same as one in a file."""
    place = SITE.address(tmp_path / "slow")
    store = SITE.build(place, LEDGER_ID)
    clock = Clock()
    Season(season_house(store, clock), clock, SMALL).work()
    with store.reading() as view:
        head = view.head()
    store.close()
    slow, fast = _tables(place), _tables(str(in_bulk))
    assert fast["entry"][-1][-1].hex() == head.digest
    for name in slow:
        assert fast[name] == slow[name], f"table {name}"
    # What only some seasons have was in this one.
    assert {"amend", "cappings", "reverse", "wash"} <= {row[1] for row in slow["entry"]}
    assert slow["void_origin"]
    assert any(row[5] for row in slow["origin"]), "a late origin"


def test_a_season_made_in_bulk_passes_the_audit(in_bulk: Path) -> None:
    store = open_store(str(in_bulk))
    broken = [finding for finding in store.audit() if not finding.holds]
    store.close()
    assert not broken


def test_another_seed_is_another_season(in_bulk: Path, tmp_path: Path) -> None:
    path = tmp_path / "other.honeyledger"
    generate(path, replace(SMALL, seed=8))
    assert _tables(str(path))["entry"][-1][-1] != _tables(str(in_bulk))["entry"][-1][-1]


@pytest.mark.postgres
def test_a_season_carried_over_to_postgresql_is_the_same(
    in_bulk: Path, fresh_postgres_url: str
) -> None:
    carry_over(in_bulk, fresh_postgres_url, LEDGER_ID)
    assert _tables(fresh_postgres_url) == _tables(str(in_bulk))
    store = open_store(fresh_postgres_url)
    broken = [finding for finding in store.audit() if not finding.holds]
    store.close()
    assert not broken
