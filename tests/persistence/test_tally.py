"""A sound house is told by its sums alone; whatever is changed in a projection changes a sum."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from honeyledger.persistence import checking
from honeyledger.persistence.store import SqlStore, open_store
from honeyledger.persistence.tables import METADATA, PROJECTIONS
from tests.bench.generator import generate
from tests.bench.season import Scale
from tests.support.entries import MINUTE_MS, START_MS, write_season

SMALL = Scale(colonies=200, seasons=1, seed=11, mishaps=40)
COLUMNS = [(table.name, column.name) for table in PROJECTIONS for column in table.columns]


Replays = list[tuple[object, ...]]


@pytest.fixture
def replays(monkeypatch: pytest.MonkeyPatch) -> Replays:
    """Grows with every replay that an audit has to turn to."""
    found: Replays = []
    replay = checking._replay

    def counted(*given: object) -> None:
        found.append(given)
        replay(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(checking, "_replay", counted)
    return found


def _broken(store: SqlStore) -> tuple[str, ...]:
    return next(one.broken for one in store.audit() if one.name == "rebuilt")


def test_a_sound_house_is_not_replayed(store: SqlStore, replays: Replays) -> None:
    write_season(store)
    assert all(finding.holds for finding in store.audit())
    assert replays == []


def test_a_season_of_reversals_and_amendments_is_not_replayed(
    tmp_path: Path, replays: Replays
) -> None:
    path = tmp_path / "north.house"
    generate(path, SMALL)
    with closing(sqlite3.connect(path)) as plain:
        undone, ended = plain.execute(
            "SELECT count(*), sum(kind IN ('fill', 'load', 'dispatch')) FROM entry"
            " WHERE id IN (SELECT entry FROM reversal)"
        ).fetchone()
    assert undone
    assert ended, "a reversal opened stays again"
    store = open_store(str(path))
    assert all(finding.holds for finding in store.audit())
    store.close()
    assert replays == []


@pytest.mark.parametrize(("table", "column"), COLUMNS)
def test_a_row_changed_in_any_column_is_seen(
    tmp_path: Path, replays: Replays, table: str, column: str
) -> None:
    path = tmp_path / "north.house"
    store = open_store(str(path), create=True)
    assert isinstance(store, SqlStore)
    drawn, touched = [["vessel/E26-0001-V", "lot:T26-0001-T"]], [["pallet/G26-0001-P"]]
    write_season(store).write("open", codes=[["R26-0001-W"]], drawn=drawn, touched=touched)
    key = ", ".join(part.name for part in METADATA.tables[table].primary_key)
    is_text = METADATA.tables[table].c[column].type.python_type is str
    other = f"{column} || 'x'" if is_text else f"{column} - 1"
    with closing(sqlite3.connect(path)) as plain:
        plain.execute("PRAGMA ignore_check_constraints = ON")
        first = f"SELECT {key} FROM {table} ORDER BY {key} DESC LIMIT 1"
        plain.execute(f"UPDATE {table} SET {column} = {other} WHERE ({key}) = ({first})")
        plain.commit()
        assert plain.total_changes == 1
    assert any(line.startswith(f"{table}, ") for line in _broken(store))
    assert len(replays) == 1
    store.close()


def test_a_number_that_hashes_alike_is_seen(tmp_path: Path) -> None:
    """Of numbers themselves, -1 and -2 have one hash."""
    store = open_store(str(tmp_path / "north.house"), create=True)
    assert isinstance(store, SqlStore)
    hand = write_season(store)
    came = [["vessel/E26-0001-V", "lot:D26-0001-D"]]
    hand.write("pour", came=came, at_min=-START_MS // MINUTE_MS, unsure_ms=1)
    with closing(sqlite3.connect(tmp_path / "north.house")) as plain:
        plain.execute("UPDATE stay SET since_ms = -2 WHERE since_ms = -1")
        plain.commit()
        assert plain.total_changes == 1
    assert _broken(store)[0].startswith("stay, place ")
    store.close()


def test_rows_lost_added_and_exchanged_are_seen(tmp_path: Path) -> None:
    path = tmp_path / "north.house"
    store = open_store(str(path), create=True)
    assert isinstance(store, SqlStore)
    write_season(store)
    for change in (
        "DELETE FROM arrived WHERE entry = 5",
        "INSERT INTO mark VALUES ('D26-0001-D', 'owner', 3, 5, '1')",
        "UPDATE holding SET grams = grams + CASE lot WHEN 1 THEN 1 ELSE -1 END"
        " WHERE lot < 3 AND place = 'difference'",
        "INSERT INTO holding VALUES ('pallet/G26-0001-P', 1, 0, 0, 0)",
    ):
        with closing(sqlite3.connect(path)) as plain:
            plain.execute("PRAGMA ignore_check_constraints = ON")
            plain.execute(change)
            assert plain.total_changes
            plain.commit()
        assert _broken(store), change
    store.close()
