"""What was printed is on record, and a second print says that it is one."""

import pytest

from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.printing import Printed, prints_of
from tests.support.books import turned_down
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    return BuiltHouse()


def _times(house: BuiltHouse, paper: str, of: str) -> int:
    return house.house.ask(lambda view: prints_of(view, paper, of))


def test_a_second_print_is_a_reprint_and_moves_nothing(house: BuiltHouse) -> None:
    first = house.do(Printed("weigh-ticket", "D26-0001-7"))
    second = house.do(Printed("weigh-ticket", " d26-0001-7", copies=3))
    house.do(Printed("lot-history", "D26-0001-7"))
    entry = second.entries[0]
    assert (entry.postings, entry.lots) == ((), ())
    assert first.notes == ()
    assert second.notes == ("It was printed before: this is reprint 1, and it says so.",)
    assert _times(house, "weigh-ticket", "D26-0001-7") == 2
    assert _times(house, "stock-list", "") == 0
    house.do(Reverse(entry.id, "the printer had no ink"))
    assert _times(house, "weigh-ticket", "D26-0001-7") == 1


def test_a_print_of_nothing(house: BuiltHouse) -> None:
    said = turned_down(house, Printed(" "))
    assert said == "Say which paper was printed, such as weigh-ticket."


@pytest.mark.parametrize("copies", [0, 1000])
def test_copies_nobody_prints(house: BuiltHouse, copies: int) -> None:
    said = turned_down(house, Printed("stock-list", copies=copies))
    assert said == f"{copies} copies cannot be right: say a number from 1 to 999."
