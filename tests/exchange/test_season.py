"""Loading the sample season: whole, repeatable, once, and only into a house of its own."""

import shutil
from datetime import UTC, datetime
from pathlib import Path

import pytest

from honeyledger.assets import resource
from honeyledger.domain.moments import format_moment, moment_at
from honeyledger.domain.refusals import Refusal
from honeyledger.exchange.season import SAMPLE_NOW_MS, SeasonResult, load_season
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.house import House
from honeyledger.services.store import Head, Store
from tests.support.engines import SITE
from tests.support.sample import LEDGER_ID, loaded, sample_house


def new_store() -> Store:
    return SITE.house(LEDGER_ID)


def head(store: Store) -> Head:
    with store.reading() as view:
        return view.head()


@pytest.fixture
def sample_head(tmp_path: Path) -> Head:
    """The end of the chain of a sample loaded without a break."""
    house = sample_house(tmp_path)
    found = head(house.store)
    house.store.close()
    return found


def test_now_in_the_sample_is_a_friday_afternoon() -> None:
    now = moment_at(SAMPLE_NOW_MS, "America/Winnipeg")
    assert format_moment(now) == "25 Sep 2026 15:40"
    assert datetime.fromtimestamp(SAMPLE_NOW_MS / 1000, UTC).strftime("%A") == "Friday"


def test_the_same_files_give_the_same_digests_on_both_engines(sample_head: Head) -> None:
    """The sample was loaded into a file, wherever this house stands."""
    store = new_store()
    told: list[tuple[int, int, str]] = []
    result = load_season(store, resource("sample"), lambda *row: told.append(row))
    assert head(store) == sample_head
    assert result == loaded()[1]
    counts = [done for done, _, _ in told]
    assert counts == sorted(counts)
    assert told[0][0] == 0
    assert told[0][2] == "26 Jun 2026"
    assert told[-1] == (result.rows, result.rows, "25 Sep 2026")


def test_loading_again_writes_nothing(tmp_path: Path, sample_head: Head) -> None:
    house = sample_house(tmp_path)
    again = load_season(house.store, resource("sample"))
    assert head(house.store) == sample_head
    assert again == loaded()[1]


class _Stopped(Exception):
    pass


def _load_until(store: Store, day: str) -> SeasonResult:
    def stop(_done: int, _of: int, what: str) -> None:
        if what == day:
            raise _Stopped

    return load_season(store, resource("sample"), stop)


@pytest.mark.full
def test_a_load_that_was_broken_off_goes_on_where_it_stopped(sample_head: Head) -> None:
    store = new_store()
    with pytest.raises(_Stopped):
        _load_until(store, "21 Jul 2026")
    assert 0 < head(store).entry < sample_head.entry
    load_season(store, resource("sample"))
    assert head(store) == sample_head


def test_a_house_with_entries_of_its_own_is_refused() -> None:
    store = new_store()
    house = House(store, lambda: SAMPLE_NOW_MS, lambda: "mine")
    house.record(Register("house", {"name": "Mine", "zone": "UTC"}))
    with pytest.raises(Refusal) as refused:
        load_season(store, resource("sample"))
    assert refused.value.text == (
        "This house has entries of its own. Load the sample season into a new, empty house."
    )
    assert head(store).entry == 1


def changed_sample(tmp_path: Path, file: str, old: str, new: str) -> Path:
    folder = tmp_path / "sample"
    shutil.copytree(resource("sample"), folder)
    path = folder / file
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    return folder


def test_a_row_that_is_refused_is_named_and_its_day_is_not_written(tmp_path: Path) -> None:
    folder = changed_sample(tmp_path, "floor.csv", ",1,load,Line A,", ",1,load,Line B,")
    store = new_store()
    with pytest.raises(Refusal) as refused:
        load_season(store, folder)
    assert refused.value.text.startswith("floor.csv, row 3: There is no vessel")
    with store.reading() as view:
        assert not view.entries(["open run"])


def test_a_cell_that_cannot_be_read_stops_the_load_before_any_log(tmp_path: Path) -> None:
    folder = changed_sample(
        tmp_path, "drums.csv", "Settling tank,Drum 1,,", "Settling tank,Drum 1,,x"
    )
    store = new_store()
    with pytest.raises(Refusal) as refused:
        load_season(store, folder)
    assert refused.value.text.startswith("drums.csv, row 2, Gross kg: x")
    with store.reading() as view:
        assert {entry.kind for entry in view.entries()} == {"register"}


def test_rows_are_recorded_as_they_were_typed_and_by_whom(tmp_path: Path) -> None:
    house = sample_house(tmp_path)
    with house.store.reading() as view:
        entries = view.entries()
        late = [one for one in entries if one.recorded_ms > one.act.happened.at_ms]
        assert {one.kind for one in late} >= {"receive", "load", "fill", "amend"}
        recorded = [one.recorded_ms for one in entries]
        assert recorded == sorted(recorded)
        stations = {one.act.station for one in entries}
        assert stations == {"office", "dock", "floor", "bottling", "bench"}
        people = {
            mark.subject.partition("/")[2]: mark.value["name"]  # type: ignore[index, call-overload]
            for mark in view.marked("record", "operator/")
        }
        opened = next(one for one in entries if one.kind == "open run")
        assert people[opened.act.operator] == "Jory Tamblock"
        assert all(one.act.operator in people for one in entries[8:])
