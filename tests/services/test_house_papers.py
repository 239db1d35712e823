"""Papers of the whole house, made of the sample season."""

from collections.abc import Iterator

import pytest

from honeyledger.exchange.season import SAMPLE_NOW_MS
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.services.house import House
from honeyledger.services.house_papers import (
    DUE,
    balance_of_house,
    checks_log,
    dock_receipt,
    hot_room_log,
    season_book,
    stock_list,
)
from honeyledger.services.stock import house_balance
from tests.support.houses import BuiltHouse
from tests.support.sample import code, sample_house


@pytest.fixture(scope="module")
def house(tmp_path_factory: pytest.TempPathFactory) -> Iterator[House]:
    opened = sample_house(tmp_path_factory.mktemp("house-papers"))
    yield opened
    opened.store.close()


def test_a_receipt_of_a_pallet_and_of_its_day(house: House) -> None:
    tag = code("pallet 12")
    one = house.ask(lambda view: dock_receipt(view, SAMPLE_NOW_MS, tag))
    assert one.of == tag
    assert {row[0] for row in one.tables[0].rows} == {tag}
    day = dict(one.facts)["Came in"]
    whole = house.ask(lambda view: dock_receipt(view, SAMPLE_NOW_MS, day))
    rows = whole.tables[0].rows
    assert set(one.tables[0].rows) <= set(rows)
    assert whole.tables[0].total[3] == dict(whole.facts)["Supers"]
    assert one.sign == ("Brought by", "Taken in by", "Day and time")


def test_a_receipt_by_the_code_of_a_pull_is_that_of_its_pallet() -> None:
    built = BuiltHouse()
    built.yard("Creek")
    done = built.do(Receive((Line("Creek", 20),)))
    (tag,) = (one for one in done.given if one[0] == "G")
    (pull,) = (one for one in done.codes if one[0] == "S")
    report = built.house.ask(lambda view: dock_receipt(view, built.now_ms, pull))
    assert report.of == tag
    assert [row[0] for row in report.tables[0].rows] == [tag]


def test_a_stock_list_has_a_box_behind_each_line(house: House) -> None:
    report = house.ask(lambda view: stock_list(view, SAMPLE_NOW_MS))
    drums = house.ask(lambda view: stock_list(view, SAMPLE_NOW_MS, "d"))
    assert report.ticks
    assert {row[0][0] for row in drums.tables[0].rows} == {"D"}
    assert set(drums.tables[0].rows) < set(report.tables[0].rows)
    held = [row for row in report.tables[0].rows if row[-1] == "on hold"]
    assert str(len(held)) == dict(report.facts)["On hold"]


def test_what_came_is_what_stands(house: House) -> None:
    report = house.ask(lambda view: balance_of_house(view, SAMPLE_NOW_MS))
    balance = house.ask(house_balance)
    assert balance.gap_g == 0
    assert report.tables[0].total == report.tables[1].total


def test_a_season_book_has_a_table_a_yard(house: House) -> None:
    report = house.ask(lambda view: season_book(view, SAMPLE_NOW_MS, "2026"))
    titles = [table.title for table in report.tables]
    assert titles == sorted(titles, key=str.casefold)
    assert str(len(titles)) == dict(report.facts)["Yards"]
    extracted = [row[3] for table in report.tables for row in table.rows]
    assert "not yet" in extracted
    assert any("R26-" in said for said in extracted)
    empty = house.ask(lambda view: season_book(view, SAMPLE_NOW_MS, "2001"))
    assert empty.tables == ()
    assert empty.says == ("Nothing is on record.",)


def test_logs_name_who_read_and_who_checked(house: House) -> None:
    air = house.ask(lambda view: hot_room_log(view, SAMPLE_NOW_MS, "Hot room"))
    assert dict(air.facts)["Room"] == "Hot room"
    assert all(row[2].endswith("°C") and row[4] for row in air.tables[0].rows)
    log = house.ask(lambda view: checks_log(view, SAMPLE_NOW_MS))
    assert log.says == (DUE,)
    assert {row[1] for row in log.tables[0].rows} >= {"Drum scale", "Sieve 400"}
    assert not house.ask(lambda view: checks_log(view, SAMPLE_NOW_MS, "2019")).tables[0].rows
