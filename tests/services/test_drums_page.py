"""The drum room: each drum with its state, its holds, its owner, its place, and its sources."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.corrections import Amend
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.measuring import Calibrate, Measure
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.stocktake import Move, Stocktake
from honeyledger.services.drums_page import DrumsPage, drums_page, reached, sources_in_reach
from tests.support.houses import BuiltHouse

DAY_MIN = 24 * 60


@pytest.fixture
def house() -> BuiltHouse:
    made = BuiltHouse()
    made.do(Register("room", {"name": "Drum room"}))
    return made


def page_of(house: BuiltHouse) -> DrumsPage:
    return house.house.ask(lambda view: drums_page(view, house.now_ms))


def test_drums_that_need_a_person_come_first_with_what_is_wrong(house: BuiltHouse) -> None:
    mill, tank = house.yard("Mill Lane"), house.vessel("Tank")
    pull = house.load(mill, 2_000_000, tank)
    container = house.container("Drum 7")
    read, unread = house.drum(tank, 300_000), house.drum(tank, 200_000)
    held = house.drum(tank, 100_000)
    done = house.do(Fill(tank, Weight(), container=container, pending=True))
    pending = next(code for code in done.codes if code[0] == "D")
    house.do(Measure(read, moisture=1720, colour=440))
    house.do(PutOnHold(held, "sample"))
    house.do(Fill(tank, Weight(net_g=50_000), container=house.container("Drum 8"), bung=False))
    house.wait(3 * DAY_MIN)
    rows = page_of(house).rows
    assert [(row.code, row.state) for row in rows[:3]] == [
        (held, "hold"),
        (pending, "not weighed"),
        (unread, "not read"),
    ]
    assert rows[-1].code == read
    assert {row.state for row in rows} == {
        "hold",
        "not weighed",
        "not read",
        "not closed",
        "ready",
    }
    assert rows[0].held == (f"{held}: sample",)
    assert (rows[1].container, rows[1].container_code) == ("Drum 7", container)
    assert (rows[-1].moisture, rows[-1].colour, rows[-1].age_days) == (1720, 440, 3)
    assert {row.yards for row in rows if row.state != "not closed"} == {("Mill Lane",)}
    house.do(PutOnHold(pull, "strips"))
    again = page_of(house).row(unread)
    assert again is not None
    assert again.held == (f"{pull}: strips",), "the ancestor the hold stands on is named"
    fill = next(row.code for row in house.back(unread).lots if row.kind == "T")
    assert again.ways == (f"{pull}, by way of {fill}: strips",)


def test_whose_it_is_and_where_it_stands(house: BuiltHouse) -> None:
    mill, tank = house.yard("Mill Lane"), house.vessel("Tank")
    house.load(mill, 900_000, tank)
    there, gone = house.drum(tank, 300_000), house.drum(tank, 200_000)
    house.do(Move((there, gone), "Drum room", "B3"))
    house.do(Stocktake("Drum room", "B3", (there,)))
    page = page_of(house)
    rows = {row.code: row for row in page.rows}
    assert (rows[there].spot, rows[there].missing) == ("Drum room, row B3", False)
    assert rows[gone].missing
    assert rows[there].owner == ""
    assert [room.name for room in page.rooms] == ["Drum room"]
    assert page.vessels[0].name == "Tank"


def test_a_drum_is_found_by_its_container_too(house: BuiltHouse) -> None:
    tank = house.vessel("Tank")
    house.load(house.yard("Mill Lane"), 900_000, tank)
    container = house.container("Drum 7")
    done = house.do(Fill(tank, Weight(net_g=200_000), container=container))
    code = next(one for one in done.codes if one[0] == "D")
    page = page_of(house)
    for text in (code.lower(), container, "drum 7"):
        row = page.row(text)
        assert row is not None
        assert row.code == code
    assert page.row("") is None
    assert page.row("Drum 9") is None


def test_all_sources_in_reach_are_found_and_an_amended_one_is_no_more(house: BuiltHouse) -> None:
    tank = house.vessel("Tank")
    mill, field = house.yard("Mill Lane"), house.yard("Willow Bank")
    house.load(mill, 200_000, tank)
    second = house.load(field, 300_000, tank)
    drum = house.drum(tank, 300_000)
    assert page_of(house).rows[0].yards == ("Mill Lane", "Willow Bank")
    house.yard("Hill Top")
    house.do(Amend(second, "wrong sheet", yard="Hill Top"))
    yards = next(row.yards for row in page_of(house).rows if row.code == drum)
    assert "Hill Top" in yards
    assert house.house.ask(lambda view: sources_in_reach(view, ())) == {}


def test_lots_in_each_others_reach_have_the_same_sources() -> None:
    parents = {1: [], 2: [1, 3], 3: [2, 9], 4: [3], 9: [4]}
    own = {1: {"yard/A"}, 9: {"yard/B"}}
    found = reached(parents, own)
    assert found.pop(1) == {"yard/A"}
    assert set(found) == {2, 3, 4, 9}
    assert set(found.values()) == {frozenset({"yard/A", "yard/B"})}


def test_a_moisture_read_with_an_instrument_found_off_is_in_doubt_until_read_again(
    house: BuiltHouse,
) -> None:
    tank = house.vessel("Tank")
    house.load(house.yard("Mill Lane"), 500_000, tank)
    drum = house.drum(tank, 300_000)
    house.do(Register("equipment", {"name": "Refractometer 2"}))
    house.do(Measure(drum, moisture=17_20, instrument="Refractometer 2"))
    house.do(Calibrate("Refractometer 2", 18_00, 17_60))
    row = page_of(house).row(drum)
    assert row is not None
    assert (row.moisture, row.doubtful) == (17_20, 17_60)
    house.do(Measure(drum, moisture=17_60))
    row = page_of(house).row(drum)
    assert row is not None
    assert (row.moisture, row.doubtful) == (17_60, None)
