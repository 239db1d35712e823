"""What was printed is on record, and a second print says that it is one."""

import pytest

from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.printing import Printed, prints_of, serials_printed
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


def test_of_what_comes_off_a_roll_for_each_jar_there_may_be_more(house: BuiltHouse) -> None:
    assert house.do(Printed("retail code", "09521234543213", 2_400)).entries
    said = turned_down(house, Printed("retail code", "09521234543213", 100_000))
    assert said == "100000 copies cannot be right: say a number from 1 to 99999."


@pytest.mark.parametrize("copies", [0, 1000])
def test_copies_nobody_prints(house: BuiltHouse, copies: int) -> None:
    said = turned_down(house, Printed("stock-list", copies=copies))
    assert said == f"{copies} copies cannot be right: say a number from 1 to 999."


def test_serials_of_jars_are_kept_so_that_no_two_carry_one_code(house: BuiltHouse) -> None:
    lot = "J26-0001-7"
    for first, last in ((1, 60), (81, 90), (61, 70)):
        assert house.do(Printed("jar label", lot, first=first, last=last)).notes == ()
    again = house.do(Printed("jar label", lot, first=70, last=82))
    assert again.notes == (
        "Some of these serials were printed before: no two jars may carry one code, so throw the "
        "older labels away.",
    )
    kept = house.house.ask(lambda view: serials_printed(view, "jar label", lot))
    assert kept == [(1, 90)]
    assert house.house.ask(lambda view: serials_printed(view, "lid seal", lot)) == []


def test_serials_the_wrong_way_round(house: BuiltHouse) -> None:
    said = turned_down(house, Printed("jar label", "J26-0001-7", first=9, last=3))
    assert said == "Serials 9 to 3 are none: say the first one, then the last."
