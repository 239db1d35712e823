"""Who printed, and when."""

from honeyledger.ledger.verbs.printing import Printed
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.drum_list import DrumList
from honeyledger.services.printed import DRUM_LIST, as_printed, printed_words
from tests.support.houses import BuiltHouse


def test_who_and_when() -> None:
    house = BuiltHouse()
    badge = house.do(Register("operator", {"name": "Ann Reed"})).given[0]
    said = house.house.ask(lambda view: printed_words(view, house.now_ms, badge))
    nobody = house.house.ask(lambda view: printed_words(view, house.now_ms))
    assert said == f"{nobody} by Ann Reed"
    assert nobody.startswith("Printed 24 Jul 2026 ")


def test_a_paper_knows_which_print_of_it_it_is() -> None:
    house = BuiltHouse()
    drums = DrumList("House", "", "", None, (), (), "1 ABC")

    def of(codes: str) -> DrumList:
        return house.house.ask(
            lambda view: as_printed(view, drums, DRUM_LIST, codes, house.now_ms)
        )

    assert of("").again == 0
    assert of("").printed.startswith("Printed 24 Jul 2026 ")
    house.do(Printed(DRUM_LIST))
    assert of("").again == 1
    assert of("D26-0001-X").again == 0
