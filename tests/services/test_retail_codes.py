"""The retail code of a product, from its record."""

from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.retail_codes import RetailCode, retail_code_of
from tests.support.houses import BuiltHouse, refused


def _code(house: BuiltHouse, text: str) -> RetailCode:
    return house.house.ask(lambda view: retail_code_of(view, text))


def test_it_is_what_the_product_s_record_says() -> None:
    house = BuiltHouse()
    record = {"name": "Clover 500 g", "net_g": 500, "gtin": "614141000036"}
    house.do(Register("product", record))
    assert _code(house, "clover 500 g") == RetailCode("Clover 500 g", 500, "00614141000036")
    house.do(Register("product", {**record, "label": "Clover honey"}, "clover-500-g"))
    assert _code(house, "Clover 500 g").product == "Clover honey"


def test_without_a_gtin_there_is_none() -> None:
    house = BuiltHouse()
    house.do(Register("product", {"name": "Heather"}))
    assert refused(lambda: _code(house, "Heather")) == (
        "Heather has no GTIN on record: GS1 gives you one for each product, then register it in "
        "Setup, under Products."
    )
