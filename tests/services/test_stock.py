"""Stock on hand, and balances of lots that add up through everything that can happen to honey."""

import pytest

from honeyledger.ledger.places import INSIDE, OUTSIDE
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Amend, Reverse
from honeyledger.ledger.verbs.dispatch import Discard, Dispatch, DispatchLine, TakeBack
from honeyledger.ledger.verbs.dock import Count
from honeyledger.ledger.verbs.drums import Reweigh, Skim
from honeyledger.ledger.verbs.floor import Cappings
from honeyledger.ledger.verbs.quality import PutOnHold, Sample
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.stock import (
    CAME_FROM,
    STANDS_AT,
    LotBalance,
    PlaceNames,
    house_balance,
    lot_balance,
    stock_on_hand,
)
from tests.support.houses import BuiltHouse, refused


def _balance(house: BuiltHouse, code: str) -> LotBalance:
    return house.house.ask(lambda view: lot_balance(view, code))


def _all_codes(house: BuiltHouse) -> list[str]:
    entries = house.house.ask(lambda view: view.entries())
    return [lot.code for entry in entries for lot in entry.lots]


@pytest.fixture
def season() -> BuiltHouse:
    """A small season with everything in it that moves grams."""
    house = BuiltHouse()
    mill, field = house.yard("Mill Lane"), house.yard("Long Field")
    line = house.vessel("Line", sort="line")
    tank = house.vessel("Tank", fed_by=line)
    house.do(Register("customer", {"name": "Corner Shop"}))
    house.do(Register("supplier", {"name": "Far Hills"}))
    house.do(Register("product", {"name": "Jar 500", "net_g": 500}))
    wrong, _ = house.pull(mill, 90_000)
    _, tag = house.pull(mill, 120_000, count=10)
    house.do(Count(tag, 9))
    house.load(mill, 400_000, line)
    first = house.drum(tank, 150_000)
    house.do(Cappings(line, 12_000))
    house.load(field, 80_000, line)
    house.drum(tank, 250_000)
    house.do(Cappings(line, 9_000))
    house.drum(tank, 90_000)  # 21 kg more than the books see
    house.do(Reweigh(first, Weight(net_g=149_000)))
    bought = house.buy("Far Hills", 200_000)
    house.pour(bought, tank, 50_000)
    house.do(Sample((first, bought), 500))
    lot = house.do(ChangeOver(product="Jar 500", feed=first)).given[0]
    house.do(Bottle(lot, 200, empty=True))
    house.do(Dispatch("Corner Shop", (DispatchLine(lot, jars=120), DispatchLine(bought))))
    house.do(TakeBack("Corner Shop", lot, "dented", jars=20))
    house.do(Discard(lot, "broken", jars=5))
    house.do(Amend(lot=wrong, yard=field, reason="typed wrong"))
    house.do(Reverse(house.do(Skim(tank, 500)).entries[0].id, "not skimmed"))
    house.do(Skim(tank, 700))
    return house


def test_the_balance_of_every_lot_adds_up(season: BuiltHouse) -> None:
    codes = _all_codes(season)
    assert {code[0] for code in codes} >= set("SPTDJWX")
    for code in codes:
        balance = _balance(season, code)
        assert balance.gap_g == 0, balance


def test_what_is_on_hand_is_every_holding_in_the_house(season: BuiltHouse) -> None:
    rows = season.house.ask(stock_on_hand)
    by_lot: dict[str, int] = {}
    for row in rows:
        by_lot[row.code] = by_lot.get(row.code, 0) + row.grams
    for code in _all_codes(season):
        assert _balance(season, code).on_hand_g == by_lot.get(code, 0)
    jars = [row for row in rows if row.place == "jars"]
    assert [(row.kind, row.pieces, row.where) for row in jars] == [("J", 95, "jar store")]


def test_stock_can_be_of_some_kinds_and_places(season: BuiltHouse) -> None:
    drums = season.house.ask(lambda view: stock_on_hand(view, "D"))
    assert {row.kind for row in drums} == {"D"}
    vessels = season.house.ask(lambda view: stock_on_hand(view, places=["vessel"]))
    assert {row.where for row in vessels} <= {"Tank", "Line"}


def test_what_a_hold_reaches_is_marked(season: BuiltHouse) -> None:
    assert not any(row.held for row in season.house.ask(stock_on_hand))
    season.do(PutOnHold(_bought(season), "smell"))
    held = {row.code for row in season.house.ask(stock_on_hand) if row.held}
    assert _bought(season) not in held  # it was sent away whole
    assert held


def _bought(season: BuiltHouse) -> str:
    return next(code for code in _all_codes(season) if code[0] == "P")


def test_places_have_the_names_people_use(season: BuiltHouse) -> None:
    house = season.house
    names = house.ask(PlaceNames)
    tank = next(
        mark.subject
        for mark in house.ask(lambda view: view.marked("record", "vessel/"))
        if mark.value["name"] == "Tank"  # type: ignore[call-overload,index]
    )
    assert names[tank] == "Tank"
    assert names["pallet/G26-0001-3"] == "pallet G26-0001-3"
    assert names["barrel/W26-0001-M"] == "barrel W26-0001-M"
    assert names["gate/2026-07-24"] == "farm gate, 24 Jul 2026"
    assert names["difference"] == "weighing difference"
    assert names["customer/corner-shop"] == "Corner Shop"
    assert names["vessel/E26-9999-X"] == "E26-9999-X"


def test_what_is_no_kind_or_place_is_said(season: BuiltHouse) -> None:
    assert refused(lambda: season.house.ask(lambda view: stock_on_hand(view, "DQ"))) == (
        "Q is no kind of lot. There are: S pull, P purchase, T tank fill, D drum, J jar lot, K "
        "comb honey, W wax or cappings, X sample, A addition or packaging; name them by letter."
    )
    assert refused(lambda: season.house.ask(lambda view: stock_on_hand(view, "", ["moon"]))) == (
        "moon is no kind of place in the house. Say one of: pallet, vessel, drum, barrel, "
        "filling, jars, store."
    )


def test_the_balance_of_the_house_leaves_no_place_out(season: BuiltHouse) -> None:
    assert set(CAME_FROM) | set(STANDS_AT) == INSIDE | OUTSIDE
    balance = season.house.ask(house_balance)
    came = {part.code: part.grams for part in balance.came}
    entries = season.house.ask(lambda view: view.entries())
    rows = [posting for entry in entries for posting in entry.postings]
    assert came["yard"] == -sum(p.grams for p in rows if p.place.startswith("yard/")) > 0
    assert came["supplier"] == 200_000
    sold = next(part for part in balance.places if part.code == "customer")
    assert sold.grams == sum(p.grams for p in rows if p.place.startswith("customer/")) > 0
    on_hand = season.house.ask(stock_on_hand)
    assert balance.on_hand_g == sum(row.grams for row in on_hand)
    assert balance.gap_g == 0
