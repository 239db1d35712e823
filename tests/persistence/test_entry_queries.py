import pytest

from honeyledger.persistence.store import SqlStore
from honeyledger.services.store import EntryHead, Moved
from tests.support.entries import MINUTE_MS, START_MS, Hand, write_season


def _ids(entries: object) -> list[int]:
    return [entry.id for entry in entries]  # type: ignore[attr-defined]


def test_entries_by_kind_time_and_number(store: SqlStore) -> None:
    write_season(store)
    with store.reading() as view:
        assert _ids(view.entries()) == list(range(1, 11))
        assert _ids(view.entries(["measure", "fill"])) == [4, 6, 7]
        assert _ids(view.entries(last=3)) == [8, 9, 10]
        assert _ids(view.entries(["measure"], last=1)) == [7]
        since = START_MS + 4 * MINUTE_MS
        assert _ids(view.entries(since_ms=since)) == [4, 6, 7, 8, 9, 10], "5 happened before"
        assert view.entry(99) is None
        assert _ids(view.entry_of_command("command-4")) == [4]
        assert view.entry_of_command("none") == []
        assert view.entry_heads([4]) == [
            EntryHead(4, "fill", since, since + 1_000, view.entry_heads([4])[0].digest)
        ]
        assert view.entry_heads([10])[0].digest == view.head().digest
        assert view.entry_heads([]) == []


def test_the_newest_entries_below_a_number_by_kind_and_station(store: SqlStore) -> None:
    hand = write_season(store)
    hand.write("note", station="floor")
    hand.write("measure", station="floor")
    with store.reading() as view:
        assert _ids(view.entries_before(13, 3)) == [10, 11, 12]
        assert _ids(view.entries_before(11, 2)) == [9, 10]
        assert _ids(view.entries_before(1, 5)) == []
        assert _ids(view.entries_before(13, 2, ["measure"])) == [7, 12]
        assert _ids(view.entries_before(13, 5, station="floor")) == [11, 12]
        assert _ids(view.entries_before(12, 5, ["note", "measure"], "floor")) == [11]
        assert _ids(view.entries_before(13, 5, ["fill"], "floor")) == []


def test_which_stations_recorded_lately(store: SqlStore) -> None:
    hand = write_season(store)
    hand.write("note", station="floor")
    with store.reading() as view:
        seen = view.stations_after(0)
        assert [one.station for one in seen] == ["floor", "dock"]
        assert seen[0].recorded_ms == view.entry_heads([11])[0].recorded_ms
        assert [one.station for one in view.stations_after(10)] == ["floor"]
        assert view.stations_after(11) == []


def test_entries_of_a_run_leave_out_what_was_reversed(store: SqlStore) -> None:
    hand = write_season(store)
    wrong = hand.write("note", run="R26-0001-R")
    hand.write("reverse", reverses=wrong.id, run="R26-0001-R")
    with store.reading() as view:
        assert _ids(view.entries_of_run("R26-0001-R")) == [3, 4]
        assert view.entries_of_run("") == []
        assert view.reversed_by(wrong.id) == wrong.id + 1
        assert view.reversed_by(3) == 0


def test_what_entries_of_a_kind_brought_where_of_some_lots(store: SqlStore) -> None:
    hand = write_season(store)
    drum, pull = hand.lot("D26-0001-D"), hand.lot("S26-0001-A")
    back = [("D26-0001-D", "customer/C1", -25_000), ("D26-0001-D", "drum/E26-0002-W", 25_000)]
    hand.write("take back", [], back)
    forth = [(code, place, -grams) for code, place, grams in back]
    wrong = hand.write("dispatch", [], forth, codes=[["N26-0002-A"], ["N26-0001-B"]])
    with store.reading() as view:
        assert [row.entry for row in view.moved("dispatch", [drum])] == [10, 10, 12, 12]
    hand.write("reverse", [], back, reverses=wrong.id)
    at_ms = START_MS + 10 * MINUTE_MS
    with store.reading() as view:
        assert view.moved("dispatch", [pull, drum]) == [
            Moved(10, at_ms, "customer/C1", 25_000),
            Moved(10, at_ms, "drum/E26-0002-W", -25_000),
        ]
        assert [row.grams for row in view.moved("take back", [drum])] == [-25_000, 25_000]
        assert view.moved("dispatch", [pull]) == []
        assert view.codes_given([10, wrong.id]) == {wrong.id: ["N26-0001-B", "N26-0002-A"]}
        assert view.codes_given([]) == {}


def test_the_history_of_a_lot(store: SqlStore) -> None:
    hand = write_season(store)
    with store.reading() as view:
        assert _ids(view.history(hand.lot("D26-0001-D"))) == [4, 6, 10]
        assert _ids(view.history(hand.lot("T26-0001-T"))) == [4, 5]


@pytest.mark.parametrize(
    ("entry", "on_it"),
    [
        (1, []),
        (2, [3, 4, 5]),  # postings on its lots, and its pallet
        (3, [4, 5]),
        (4, [5, 10]),  # a late origin to its fill, and its drum dispatched; not the readings
        (5, []),
        (10, []),
    ],
)
def test_what_builds_on_an_entry(store: SqlStore, entry: int, on_it: list[int]) -> None:
    write_season(store)
    with store.reading() as view:
        assert view.built_on(entry) == on_it


def test_amendments_build_on_but_readings_holds_and_packing_do_not(store: SqlStore) -> None:
    hand = write_season(store)
    hand.write("hold", marks=[["hold/11-1", "hold", {"lots": [4]}]])
    hand.write("pack", marks=[["D26-0001-D", "packed", "L26-0001-A"]])
    with store.reading() as view:
        assert view.built_on(10) == []
    hand.write("amend", marks=[["D26-0001-D", "amended", "container"]])
    with store.reading() as view:
        assert view.built_on(10) == [13]


def test_reversed_pairs_do_not_build_on_anything(store: SqlStore) -> None:
    hand = write_season(store)
    moved = [("T26-0001-T", "vessel/E26-0001-V", -10), ("T26-0001-T", "discarded", 10)]
    wrong = hand.write("discard", [], moved, touched=[["vessel/E26-0001-V"]])
    with store.reading() as view:
        assert view.built_on(4) == [5, 10, wrong.id]
    back = [(code, place, -grams) for code, place, grams in moved]
    hand.write("reverse", [], back, reverses=wrong.id)
    with store.reading() as view:
        assert view.built_on(4) == [5, 10]


def test_what_builds_on_an_entry_that_is_not_there(store: SqlStore) -> None:
    Hand(store).write("note")
    with store.reading() as view:
        assert view.built_on(7) == []


def test_entries_that_arrivals_named_are_read_with_the_first_one_asked_for(
    store: SqlStore,
) -> None:
    write_season(store)
    with store.reading() as view:
        named = {event.entry for event in view.arrivals("vessel/E26-0001-V", 0)}
        assert len(named) > 1
        entry = view.entry(1)
        assert entry is not None
        assert entry.id == 1
        assert view._entries_read.keys() == {1, *named}
        for one in sorted(named):
            found = view.entry(one)
            assert found is not None
            assert found.id == one
        assert view.entry(99) is None
