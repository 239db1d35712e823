"""What views keep from one question to the next is never older than the house."""

import shutil
from collections.abc import Collection
from pathlib import Path

import pytest

from honeyledger.domain.moments import Moment
from honeyledger.ledger.entry import Act
from honeyledger.ledger.state import Edge, Holding
from honeyledger.persistence import remembered
from honeyledger.persistence.remembered import Memory, Remembered
from honeyledger.persistence.short import short
from honeyledger.persistence.store import SqlStore, SqlView, open_store
from honeyledger.persistence.upgrade import MIGRATIONS, rebuild_projections, upgrade
from tests.support.engines import Client
from tests.support.entries import START_MS, Hand, write_season

YARD, OTHER_YARD = "yard/Y26-0001-K", "yard/Y26-0009-Q"
ACT = Act(Moment(START_MS, 0, "UTC"), "O26-0001-X", "office", "upkeep-1")
RENAMED = f"""
from alembic import op

revision = "next"
down_revision = "0001"


def upgrade() -> None:
    value = '{{"name":"Moved"}}'
    op.execute(f"UPDATE mark SET value = '{{value}}' WHERE subject = '{short(YARD)}'")
"""


class Twice(Exception):
    """A question was asked again whose answer was kept."""


def _seen(store: SqlStore) -> tuple[object, ...]:
    """All that is kept, asked of one view."""
    with store.reading() as view:
        lots = range(1, view.next_lot)
        entries = range(1, view.next_entry)
        heads, sources = view.sourced_heads(lots)
        rows, reach = view.reach_back(lots)
        return (
            view.names_of([YARD, OTHER_YARD]),
            heads,
            list(sources),
            view.lot_heads(lots),
            view.typed(entries),
            sorted(rows),
            set(reach),
        )


def _anew(url: str) -> tuple[object, ...]:
    """The same, asked by a program that has kept nothing."""
    other = open_store(url)
    assert isinstance(other, SqlStore)
    seen = _seen(other)
    other.close()
    return seen


def _register(hand: Hand, name: str) -> int:
    return hand.write("register", marks=[[YARD, "record", {"name": name}]]).id


def test_an_answer_is_read_once_while_nothing_is_written(
    store: SqlStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_season(store)
    first = [_seen(store) for _ in range(3)][-1]

    def twice(_: SqlView, wanted: Collection[object]) -> dict[object, object]:
        raise Twice(wanted)

    for read in ("_read_names", "_read_heads", "_read_sourced", "_read_typed"):
        monkeypatch.setattr(SqlView, read, twice)
    assert _seen(store) == first
    with store.reading() as view, pytest.raises(Twice, match="yard/Y26-0004"):
        view.names_of([YARD, "yard/Y26-0004-X"])


def test_what_is_kept_is_what_is_read(store: SqlStore) -> None:
    hand = write_season(store)
    with store.reading() as view:
        lots = sorted(hand.ids.values())
        heads, sources = view.sourced_heads(lots)
        assert heads == view.lot_heads(lots)
        assert list(heads) == lots
        assert sources == view.sources_of(lots)
        assert sources == [
            Holding(YARD, hand.lot("S26-0001-A"), -60_000, 0),
            Holding("yard/Y26-0002-L", hand.lot("S26-0002-B"), -40_000, 0),
        ]
        drum = hand.lot("D26-0001-D")
        rows, reach = view.reach_back([drum])
        assert [Edge(*row) for row in rows] == view.ancestry([drum])
        assert set(reach) == {drum, *(row[1] for row in rows)}
        heads_of_entries = view.entry_heads(range(1, 10))
        assert view.typed(range(1, 10)) == {
            one.id: (one.kind, one.recorded_ms - one.happened_ms) for one in heads_of_entries
        }
        assert (view.typed([]), view.names_of([])) == ({}, {})


def test_what_is_written_here_is_seen_at_once(store: SqlStore) -> None:
    hand = write_season(store)
    before = [_seen(store) for _ in range(3)][-1]
    wrong = _register(hand, "Long Field")
    with store.reading() as view:
        assert view.names_of([YARD]) == {YARD: "Long Field"}
    hand.write("reverse", reverses=wrong)
    with store.reading() as view:
        assert view.names_of([YARD]) == {YARD: "North"}
    assert _seen(store)[1:4] == before[1:4]


def test_what_another_program_writes_is_seen_at_once(shared: SqlStore, url: str) -> None:
    hand = write_season(shared)
    other = open_store(url)
    assert isinstance(other, SqlStore)
    there = Hand(other)
    there.ids = hand.ids
    pull, fill, late = (hand.lot(code) for code in ("S26-0001-A", "T26-0001-T", "S26-0002-B"))

    def said() -> tuple[object, ...]:
        """Name, places of the pull, and what the fill is of: kept from the third time on."""
        seen = [_seen(shared) for _ in range(3)][-1]
        assert seen == _anew(url)
        names, _, sources, *_, rows, _ = seen
        assert isinstance(names, dict)
        assert isinstance(sources, list)
        assert isinstance(rows, list)
        return (
            names[YARD],
            [place for place, lot, _, _ in sources if lot == pull],
            {row[1] for row in rows if row[0] == fill},
        )

    assert said() == ("North", [YARD], {pull})
    _register(there, "Long Field")
    assert said() == ("Long Field", [YARD], {pull})
    away = [("S26-0001-A", YARD, 60_000), ("S26-0001-A", OTHER_YARD, -60_000)]
    amended = there.write("amend", [], away)
    assert said() == ("Long Field", [YARD, OTHER_YARD], {pull})
    back = [(lot, place, -grams) for lot, place, grams in away]
    there.write("reverse", [], back, reverses=amended.id)
    there.write("reverse", reverses=9)  # the narrowing
    assert said()[2] == {pull, late}
    there.write("narrow", voids=[[5, 1]])
    assert said()[2] == {pull}
    other.close()


def test_a_view_goes_on_seeing_its_own_moment(shared: SqlStore) -> None:
    hand = write_season(shared)
    with shared.reading() as old:
        assert old.names_of([YARD]) == {YARD: "North"}
        _register(hand, "Long Field")
        with shared.reading() as new:
            assert new.names_of([YARD]) == {YARD: "Long Field"}
            assert old.names_of([YARD, OTHER_YARD]) == {YARD: "North"}
            assert new.names_of([YARD, OTHER_YARD]) == {YARD: "Long Field"}


def test_a_unit_sees_what_it_has_written_and_leaves_nothing_if_it_fails(store: SqlStore) -> None:
    hand = write_season(store)
    with store.reading() as view:
        assert view.names_of([YARD]) == {YARD: "North"}

    def goes_wrong() -> None:
        with store.writing() as unit:
            assert unit.names_of([YARD]) == {YARD: "North"}
            rows = [[YARD, "record", {"name": "Long Field"}]]
            unit.append(hand.build(unit.next_entry, unit.next_lot, "register", marks=rows))
            assert unit.names_of([YARD]) == {YARD: "Long Field"}
            raise Twice

    with pytest.raises(Twice):
        goes_wrong()
    with store.reading() as view:
        assert view.names_of([YARD]) == {YARD: "North"}


def test_an_upgrade_is_seen_by_a_program_that_was_open(
    shared: SqlStore, url: str, tmp_path: Path
) -> None:
    write_season(shared)
    with shared.reading() as view:
        assert view.names_of([YARD]) == {YARD: "North"}
    later = tmp_path / "migrations"
    shutil.copytree(MIGRATIONS, later, ignore=shutil.ignore_patterns("__pycache__"))
    (later / "versions" / "revision_next.py").write_text(RENAMED, "utf-8")
    upgrade(url, ACT, START_MS, migrations=later, to="next")
    with shared.reading() as view:
        assert view.names_of([YARD]) == {YARD: "Moved"}


def test_projections_made_anew_are_seen_by_a_program_that_was_open(
    shared: SqlStore, url: str, client: Client
) -> None:
    write_season(shared)
    client(f"UPDATE mark SET value = '{{\"name\":\"Wrong\"}}' WHERE subject = '{short(YARD)}'")
    with shared.reading() as view:
        assert view.names_of([YARD]) == {YARD: "Wrong"}
    rebuild_projections(url, ACT, START_MS)
    with shared.reading() as view:
        assert view.names_of([YARD]) == {YARD: "North"}


def test_many_void_rows_are_looked_for_at_each_step(
    store: SqlStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_season(store)
    monkeypatch.setattr("honeyledger.persistence.lot_queries._MOST_VOIDS", 0)
    assert len({str(_seen(store)[-2:]) for _ in range(3)}) == 1
    with store.reading() as view:
        assert view._remembered().voids is None


def test_another_end_of_the_chain_begins_anew() -> None:
    memory = Memory()
    first = memory.at("abc")
    assert memory.at("abc") is first
    assert memory.at("abd") is not first
    assert memory.at("abc") is not first


def test_no_more_is_kept_than_there_is_room_for(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(remembered, "MOST_KEPT", 3)
    memory, asked = Memory(), list[int]()

    def read(wanted: Collection[int]) -> dict[int, tuple[str, int]]:
        asked.extend(wanted)
        return {one: ("fill", one) for one in wanted}

    def answers(*wanted: int) -> list[int]:
        known = memory.at("abc")
        return [after for _, after in known.answers(known.typed, wanted, read).values()]

    assert answers(2, 1) == [2, 1]
    assert answers(1, 2) == [1, 2]
    assert asked == [2, 1]
    assert answers(1, 2, 3, 4) == [1, 2, 3, 4], "more than is kept at all"
    assert asked == [2, 1, 1, 2, 3, 4]
    assert answers(1, 4, 5) == [1, 4, 5], "no room beside what is kept"
    assert memory.at("abc") == Remembered()
    assert answers(1, 4, 5) == [1, 4, 5]
    assert asked[-3:] == [1, 4, 5]
