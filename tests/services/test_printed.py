"""Who printed, and when."""

from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.printed import printed_words
from tests.support.houses import BuiltHouse


def test_who_and_when() -> None:
    house = BuiltHouse()
    badge = house.do(Register("operator", {"name": "Ann Reed"})).given[0]
    said = house.house.ask(lambda view: printed_words(view, house.now_ms, badge))
    nobody = house.house.ask(lambda view: printed_words(view, house.now_ms))
    assert said == f"{nobody} by Ann Reed"
    assert nobody.startswith("Printed 24 Jul 2026 ")
