"""What is told of wet honey, at the house's own limits."""

import pytest

from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.wetness import dry_first_over
from tests.support.houses import BuiltHouse

DRY = "Above 18 %: dry first, wet honey ferments."
# Source: Directive 2001/110/EC, annex II (S): moisture at most 20 % in general.
TOO_WET = (
    "Above 20 %: most kinds of honey may have 20 % at most in the European Union (Directive "
    "2001/110/EC, annex II), and it ferments. Dry it or blend it down; follow your local code."
)


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    return house


@pytest.mark.parametrize(
    ("moisture", "told"),
    [(18_00, []), (18_10, [DRY]), (20_00, [DRY]), (20_10, [TOO_WET])],
)
def test_the_limits_belong_to_what_is_below_them(
    house: BuiltHouse, moisture: int, told: list[str]
) -> None:
    done = house.do(Receive((Line("Creek", 10),), gross_g=235_000, moisture=moisture))
    assert list(done.notes) == told
    again = house.do(Measure(done.codes[0], moisture=moisture))
    assert list(again.notes) == told


def test_a_house_may_set_its_own(house: BuiltHouse) -> None:
    record = {"name": "Test House", "zone": "UTC", "dry_first_permille": 175}
    house.do(Register("house", record))
    assert house.house.ask(dry_first_over) == 17_50
    pull, _ = house.pull("Creek", 100_000)
    assert list(house.do(Measure(pull, moisture=17_50)).notes) == []
    assert list(house.do(Measure(pull, moisture=17_60)).notes) == [DRY.replace("18 %", "17.5 %")]
