"""A house that has honey, products and customers: something to bottle and to send."""

from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.registers import Register
from tests.support.houses import BuiltHouse


def house_with_goods() -> BuiltHouse:
    """900 kg of Creek in Tank 1, an empty Tank 2; two customers; two products."""
    house = BuiltHouse()
    house.vessel("Tank 1")
    house.vessel("Tank 2")
    house.load(house.yard("Creek"), 900_000, "Tank 1")
    house.do(Register("product", {"name": "Clover 500", "net_g": 500}))
    house.do(Register("product", {"name": "Aster 250", "net_g": 250}))
    for name in ("Corner Shop", "Packer"):
        house.do(Register("customer", {"name": name}))
    return house


def bottled(house: BuiltHouse, product: str = "Clover 500", jars: int = 100) -> str:
    """Jars filled from Tank 1 and labelled: their lot."""
    opened = house.do(ChangeOver(product=product, feed="Tank 1"))
    lot = next(code for code in opened.given if code[0] == "J")
    house.do(Bottle(lot, jars))
    return lot
