"""All that a house has registered, and what hangs on it."""

from honeyledger.ledger.verbs.checks import Check
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.supplies import Supply
from honeyledger.services.setup_page import Checked, SupplyRow, is_set_up, setup_page
from tests.support.houses import BuiltHouse


def test_all_that_is_registered_is_listed_by_name() -> None:
    house = BuiltHouse()
    house.yard("Willow Bank")
    yard = house.yard("Mill Lane", colonies=30)
    page = house.house.ask(setup_page)
    assert page.house["name"] == "Test House"
    assert [row.name for row in page.registers["yard"]] == ["Mill Lane", "Willow Bank"]
    assert (page.registers["yard"][0].key, page.registers["yard"][0].record["colonies"]) == (
        yard,
        30,
    )
    assert page.registers["customer"] == ()


def test_what_hangs_on_the_registers_comes_with_them() -> None:
    house = BuiltHouse()
    scale = house.do(Register("equipment", {"name": "Drum scale"})).given[0]
    house.do(Check(scale, "20 kg", "off", "19.6 kg"))
    house.do(Check(scale, "20 kg", "ok", "20.0 kg"))
    house.do(Register("supplier", {"name": "Glass Works"}))
    jars = house.do(Supply("glass-works", "packaging", "Jars", count=12, supplier_lot="77"))
    page = house.house.ask(setup_page)
    last = page.checks[scale]
    assert last == Checked(last.day, "20 kg", "ok", "20.0 kg")
    assert page.supplies == (SupplyRow(jars.given[0], "Jars", "packaging", "77", 0, 12),)
    assert page.ledger == house.house.ask(lambda view: view.head()).ledger_id
    assert len(page.stations) == 1


def test_a_house_is_set_up_with_a_yard_a_line_and_a_tank() -> None:
    house = BuiltHouse()
    for make in (
        lambda: house.yard("Mill Lane"),
        lambda: house.vessel("Line 1", sort="line"),
        lambda: house.vessel("Tank 1"),
    ):
        assert not is_set_up(house.house.ask(setup_page))
        make()
    assert is_set_up(house.house.ask(setup_page))
