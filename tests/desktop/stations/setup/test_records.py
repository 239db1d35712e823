"""What there is of each kind, in words."""

from honeyledger.assets import resource
from honeyledger.desktop.stations.setup.deeds import setup_kinds
from honeyledger.desktop.stations.setup.records import RecordRow, record_rows
from honeyledger.documents.stock import Stocks
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.checks import Check
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.supplies import Supply
from honeyledger.services.setup_page import SetupPage, setup_page
from tests.support.houses import BuiltHouse

BY_KEY = {kind.key: kind for kind in setup_kinds()}


def _page(house: BuiltHouse) -> SetupPage:
    return house.house.ask(setup_page)


def test_a_record_tells_what_is_known_of_it() -> None:
    house = BuiltHouse()
    code = house.yard("Mill Lane", colonies=30, organic=1, region="Weald")
    assert record_rows(BY_KEY["yard"], _page(house)) == (
        RecordRow(code, "Mill Lane", "colonies 30 · region Weald · certified organic", code),
    )
    house.do(Register("box", {"name": "deep", "honey_g": 25_500, "frames": 9}))
    deep = record_rows(BY_KEY["box"], _page(house))[0]
    assert (deep.name, deep.facts, deep.code) == ("deep", "honey 25.5 kg · frames 9", "")


def test_an_instrument_tells_of_its_last_check() -> None:
    house = BuiltHouse()
    scale = house.do(Register("equipment", {"name": "Drum scale"})).given[0]
    (row,) = record_rows(BY_KEY["check"], _page(house))
    assert (row.facts, row.code) == ("never checked", "")
    house.do(Check(scale, "20 kg", "off", "19.6 kg"))
    (row,) = record_rows(BY_KEY["check"], _page(house))
    assert row.facts == "off · 20 kg · 19.6 kg"
    assert row.code


def test_what_is_in_the_store_is_told_by_the_piece_or_by_weight() -> None:
    house = BuiltHouse()
    house.do(Register("supplier", {"name": "Glass Works"}))
    house.do(Supply("glass-works", "packaging", "Jars", count=5_760, supplier_lot="7718"))
    house.do(Supply("glass-works", "ingredient", "cinnamon", Weight(net_g=2_500)))
    rows = record_rows(BY_KEY["supply"], _page(house))
    assert [(row.name, row.facts.replace("\u202f", " ")) for row in rows] == [
        ("Jars", "5 760 pieces · their lot 7718"),
        ("cinnamon", "2.5 kg"),
    ]
    assert all(row.code.startswith("A26-") for row in rows)


def test_label_stocks_and_computers_are_listed() -> None:
    house = BuiltHouse()
    stocks = Stocks.load(resource("labels") / "stocks.toml")
    rows = record_rows(
        BY_KEY["papers"], _page(house), [stocks.named(name) for name in stocks.names]
    )
    assert rows[0] == RecordRow(
        *("roll-100x150", "roll-100x150"),
        "100 × 150 mm · pallet tag · drum label · yard sheet code · case or pallet label",
        "roll",
    )
    assert record_rows(BY_KEY["kept"], _page(house)) == ()
    page = _page(house)
    seen = [one.station for one in page.stations if one.station]
    computers = record_rows(BY_KEY["computer"], page, now_ms=house.house.clock())
    assert [row.name for row in computers] == seen
