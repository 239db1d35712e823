from collections.abc import Callable
from dataclasses import replace

from honeyledger.domain.codes import make_code
from honeyledger.domain.moments import Moment
from honeyledger.ledger.entry import Act
from honeyledger.persistence.short import written, written_name
from honeyledger.persistence.short_values import written_value
from honeyledger.persistence.store import SqlStore, open_store
from honeyledger.persistence.tables import OPEN
from honeyledger.persistence.upgrade import rebuild_projections, upgrade
from tests.support.engines import Client
from tests.support.entries import MINUTE_MS, START_MS, write_season
from tests.support.raw_books import Row, rows

ACT = Act(Moment(START_MS, 0, "UTC"), "O26-0001-X", "office", "upkeep-1")


def _of_place(row: Row) -> Row:
    return (written(row[0]), *row[1:])


def _of_stay(row: Row) -> Row:
    place, lot, entry, since_ms, early_ms, latest_ms, *more = row
    until_ms = -1 if latest_ms == OPEN else latest_ms - early_ms
    return (written(place), lot, entry, since_ms, until_ms, latest_ms, *more)


def _of_mark(row: Row) -> Row:
    subject, name, entry, at_ms, value = row
    return written(subject), written_name(name), entry, at_ms, written_value(value, at_ms)


IN_WORDS: dict[str, Callable[[Row], Row]] = {
    "holding": _of_place,
    "stay": _of_stay,
    "arrived": _of_place,
    "drawn": _of_place,
    "touched": _of_place,
    "mark": _of_mark,
    "code_given": _of_place,
}


def words_written_out(store: SqlStore) -> list[str]:
    """Statements that set a house's words back to how the revision before had them."""
    statements = ["ALTER TABLE stay RENAME COLUMN early_ms TO until_ms"]
    for table, in_words in IN_WORDS.items():
        statements.append(f"DELETE FROM {table}")
        for row in rows(store, f"SELECT * FROM {table}"):
            values = ", ".join(map(_literal, in_words(row)))
            statements.append(f"INSERT INTO {table} VALUES ({values})")
    return [*statements, "UPDATE alembic_version SET version_num = '0003'"]


def _literal(value: object) -> str:
    return str(value) if isinstance(value, int) else "'{}'".format(str(value).replace("'", "''"))


def test_words_and_values_are_put_in_short(shared: SqlStore, client: Client, url: str) -> None:
    hand = write_season(shared)
    pull, note = str(make_code("S", 26, 17)), str(make_code("N", 26, 3, "KB"))
    yard, pallet = f"yard/{make_code('Y', 26, 9)}", f"pallet/{make_code('G', 26, 12345)}"
    hand.write(
        "receive",
        [(pull, 70_000)],
        [(pull, yard, -70_000), (pull, pallet, 70_000)],
        came=[[pallet, f"lot:{pull}"]],
        arrived=[[pallet, f"lot:{pull}"]],
        marks=[
            [pallet, "condition", "sealed"],
            [pull, f"note/{note}", {"grams": 99_000, "jars": 198}],
            [yard, "record", {"grams": 5, "jars": 3}],
            [pallet, "said", "it's so"],
        ],
        codes=[[note]],
    )
    hand.write(
        "unsure",
        left=[[pallet, f"lot:{pull}"]],
        marks=[[pallet, f"loaded/{pallet}", [START_MS - MINUTE_MS] * 2]],
        at_min=-1,
    )
    before = {table: rows(shared, f"SELECT * FROM {table}") for table in IN_WORDS}
    told = words_written_out(shared)
    assert f"'{pallet}'" in " ".join(told)
    shared.close()
    client(*told)
    upgrade(url, ACT, START_MS)
    again = open_store(url)
    assert {table: rows(again, f"SELECT * FROM {table}") for table in IN_WORDS} == before
    assert [finding.name for finding in again.audit() if not finding.holds] == []
    again.close()
    rebuild_projections(url, replace(ACT, command="upkeep-2"), START_MS)
    again = open_store(url)
    assert {table: rows(again, f"SELECT * FROM {table}") for table in IN_WORDS} == before
    again.close()
