import subprocess
import sys
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

import pytest

from honeyledger.domain.refusals import BrokenRule, Refusal
from honeyledger.ledger import canonical
from honeyledger.persistence.engine import locate
from honeyledger.persistence.store import SqlStore, open_store
from tests.support.entries import Hand, write_season

ROOT = Path(__file__).resolve().parents[2]


def test_the_chain_begins_at_the_ledgers_id(store: SqlStore) -> None:
    with store.reading() as view:
        head = view.head()
    assert (head.ledger_id, head.entry, head.lot, head.digest) == ("ledger-1", 0, 0, "ledger-1")


def test_an_entry_is_read_back_as_it_was_written(store: SqlStore) -> None:
    hand = Hand(store)
    lots = [("S26-0001-A", 10), ("D26-0001-D", 10)]
    posts = [
        ("S26-0001-A", "yard/Y26-0001-K", -10),
        ("S26-0001-A", "difference", 10),
        ("D26-0001-D", "difference", -10),
        ("D26-0001-D", "drum/E26-0002-W", 10),
    ]
    origins = [("D26-0001-D", "S26-0001-A", 10)]
    entry = hand.write("fill", lots, posts, origins, marks=[["D26-0001-D", "note", ["a", 1]]])
    with store.reading() as view:
        found = view.entry(1)
        head = view.head()
    assert found == entry
    assert head.digest == canonical.seal(entry, "ledger-1").digest


def test_the_same_entries_give_the_same_digests_on_every_engine(store: SqlStore) -> None:
    write_season(store)
    with store.reading() as view:
        digest = view.head().digest
    elsewhere = open_store(":memory:", create=True, new_id=lambda: "ledger-1")
    write_season(elsewhere)
    with elsewhere.reading() as view:
        assert view.head().digest == digest
    elsewhere.close()


def test_a_unit_that_fails_writes_nothing(store: SqlStore) -> None:
    hand = Hand(store)
    hand.write("note")

    def write_two_and_fail() -> None:
        with store.writing() as unit:
            unit.append(hand.build(unit.next_entry, unit.next_lot, "note"))
            unit.append(hand.build(unit.next_entry, unit.next_lot, "note"))
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        write_two_and_fail()
    with store.reading() as view:
        assert view.head().entry == 1


def test_several_entries_can_be_one_unit(store: SqlStore) -> None:
    hand = Hand(store)
    with store.writing() as unit:
        for part in (1, 2, 3):
            entry = hand.build(unit.next_entry, unit.next_lot, "note", command="c", part=part)
            unit.append(entry)
        assert [entry.part for entry in unit.entry_of_command("c")] == [1, 2, 3]
    with store.reading() as view:
        assert [entry.id for entry in view.entry_of_command("c")] == [1, 2, 3]


def test_a_command_is_written_once(store: SqlStore) -> None:
    hand = Hand(store)
    hand.write("note", command="c")
    with pytest.raises(BrokenRule, match=r"command|entry_one_command_part"):
        hand.write("note", command="c")
    hand.write("note", command="c", part=2)
    with store.reading() as view:
        assert view.head().entry == 2


def test_a_failed_append_spoils_its_unit(store: SqlStore) -> None:
    posts = [("S26-0001-A", "yard/Y", -10), ("S26-0001-A", "pallet/G", 10)]
    gone = [["vessel/E26-0001-V", "lot:S26-0001-A"]]
    entry = Hand(store).build(1, 1, "fill", [("S26-0001-A", 10)], posts, left=gone)

    def go_on_all_the_same() -> None:
        with store.writing() as unit, suppress(BrokenRule):
            unit.append(entry)

    with pytest.raises(BrokenRule, match="the unit of work cannot end"):
        go_on_all_the_same()
    with pytest.raises(BrokenRule, match="a lot leaves a place"), store.writing() as unit:
        unit.append(entry)
    with store.reading() as view:
        assert view.head().entry == 0
        assert view.lot_by_code("S26-0001-A") is None


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"next_entry": 2}, "entry 2 does not follow entry 0"),
        ({"next_lot": 2}, "its lots do not follow lot 0"),
    ],
)
def test_only_the_next_entry_is_taken(
    store: SqlStore, change: dict[str, int], message: str
) -> None:
    numbers = {"next_entry": 1, "next_lot": 1} | change
    posts = [("S26-0001-A", "yard/Y", -10), ("S26-0001-A", "pallet/G", 10)]
    entry = Hand(store).build(**numbers, kind="x", lots=[("S26-0001-A", 10)], posts=posts)
    with pytest.raises(BrokenRule, match=message), store.writing() as unit:
        unit.append(entry)


def test_nothing_is_overdrawn(store: SqlStore) -> None:
    hand = write_season(store)
    over = [("T26-0001-T", "vessel/E26-0001-V", -35_001), ("T26-0001-T", "difference", 35_001)]
    with pytest.raises(BrokenRule, match="never_overdrawn"):
        hand.write("fill", [], over)
    with pytest.raises(BrokenRule, match="never_overdrawn"):
        hand.write("x", pieces=[["pallet/G26-0001-P", "lot:S26-0001-A", -1]])
    with store.reading() as view:
        assert view.head().entry == 10


def test_an_entry_may_pass_below_nothing_inside_itself(store: SqlStore) -> None:
    hand = write_season(store)
    there_and_back = [
        ("T26-0001-T", "vessel/E26-0001-V", -40_000),
        ("T26-0001-T", "difference", 40_000),
        ("T26-0001-T", "vessel/E26-0001-V", 10_000),
        ("T26-0001-T", "difference", -10_000),
    ]
    hand.write("fill", [], there_and_back)
    with store.reading() as view:
        held = {one.place: one.grams for one in view.holdings(hand.lot("T26-0001-T"))}
    assert held["vessel/E26-0001-V"] == 5_000


def test_a_view_sees_one_moment(shared: SqlStore) -> None:
    hand = Hand(shared)
    hand.write("note")
    with shared.reading() as view:
        assert len(view.entries()) == 1
        hand.write("note")
        assert len(view.entries()) == 1
    with shared.reading() as view:
        assert len(view.entries()) == 2


def test_a_reader_does_not_stop_the_writer_nor_the_reverse(shared: SqlStore) -> None:
    hand = Hand(shared)
    with shared.writing() as unit:
        unit.append(hand.build(1, 1, "note"))
        with shared.reading() as view:
            assert view.head().entry == 0


WRITER = """
import sys
from honeyledger.persistence.store import open_store
from tests.support.entries import Hand
store = open_store(sys.argv[1])
hand = Hand(store)
for number in range(int(sys.argv[3])):
    hand.write("note", command=f"{sys.argv[2]}-{number}", touched=[["vessel/V"]])
store.close()
"""


def test_two_processes_keep_every_entry(url: str, shared: SqlStore) -> None:
    each = 30
    writers = [
        subprocess.Popen([sys.executable, "-c", WRITER, url, name, str(each)], cwd=ROOT)
        for name in ("left", "right")
    ]
    assert [writer.wait(timeout=120) for writer in writers] == [0, 0]
    with shared.reading() as view:
        written = [entry.act.command for entry in view.entries()]
    wanted = {f"{name}-{number}" for name in ("left", "right") for number in range(each)}
    assert len(written) == 2 * each
    assert set(written) == wanted
    assert all(finding.holds for finding in shared.audit())


def test_a_full_disk_leaves_nothing_half_written(tmp_path: Path) -> None:
    store = open_store(str(tmp_path / "north.house"), create=True)
    assert isinstance(store, SqlStore)
    hand = write_season(store)
    with store.reading() as view:
        before = view.head()
    with store._engine.connect() as connection:
        pages = connection.exec_driver_sql("PRAGMA page_count").scalar_one()
        connection.exec_driver_sql(f"PRAGMA max_page_count = {pages}")

    def write_until_full() -> None:
        for _ in range(200):
            hand.write("note", marks=[["house", "note", "x" * 4_000]])

    with pytest.raises(Refusal) as refused:
        write_until_full()
    assert refused.value.text == (
        f"The disk with {tmp_path / 'north.house'} is full, so nothing was written. Make room and "
        "try again."
    )
    with store._engine.connect() as connection:
        connection.exec_driver_sql("PRAGMA max_page_count = 1000000")
    with store.reading() as view:
        kept = view.head()
    assert kept.entry >= before.entry
    hand.write("note")
    assert all(finding.holds for finding in store.audit())
    store.close()


def test_a_house_in_memory_is_used_by_one_at_a_time() -> None:
    store = open_store(":memory:", create=True)
    with store.reading(), pytest.raises(BrokenRule, match="one at a time"), store.writing():
        pass
    store.close()


def test_another_writer_is_waited_for_and_then_named(
    url: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("honeyledger.persistence.engine.BUSY_MS", 50)
    store = open_store(url, create=True)
    other = open_store(url)
    with store.writing(), pytest.raises(Refusal) as refused, other.writing():
        pass
    assert refused.value.text == (
        f"Another program has been writing to {locate(url).name} for a while. Wait for it to end, "
        "or close it, and try again."
    )
    other.close()
    store.close()


def test_settings_of_every_connection(tmp_path: Path) -> None:
    store = open_store(str(tmp_path / "north.house"), create=True)
    assert isinstance(store, SqlStore)
    with store._engine.connect() as connection:

        def ask(name: str) -> object:
            return connection.exec_driver_sql(f"PRAGMA {name}").scalar_one()

        assert ask("journal_mode") == "wal"
        assert ask("synchronous") == 2, "FULL"
        assert ask("foreign_keys") == 1
    store.close()


def test_warnings_are_empty_where_all_is_well(store: SqlStore) -> None:
    assert list(store.warnings()) == []


def test_progress_counts_entries(store: SqlStore) -> None:
    write_season(store)
    told: list[tuple[int, int]] = []
    progress: Callable[[int, int], None] = lambda done, of: told.append((done, of))  # noqa: E731
    store.audit(progress)
    assert told == [(10, 10)]
