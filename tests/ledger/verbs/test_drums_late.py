"""To entries that come late a container is a vessel: what went out of it since has them in it."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.corrections import Amend
from honeyledger.ledger.verbs.drums import Fill
from tests.support.books import holding, late, origins, standing
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """Creek in Tank 1 and Hill in Tank 2 since minute 0; containers 17 and 18; margin 0."""
    house = BuiltHouse()
    for yard in ("Creek", "Hill"):
        house.yard(yard)
    for tank in ("Tank 1", "Tank 2", "Tank 3"):
        house.vessel(tank)
    for container in ("17", "18"):
        house.container(container)
    house.load("Creek", 600_000, "Tank 1", at_min=0)
    house.load("Hill", 600_000, "Tank 2", at_min=0)
    return house


def _drum(house: BuiltHouse, source: str, container: str, at_min: int, **how: object) -> str:
    facts = Fill(source, Weight(net_g=250_000), container=container, **how)  # type: ignore[arg-type]
    return next(code for code in house.do(facts, at_min=at_min).codes if code[0] == "D")


def test_a_late_fill_of_a_container_that_was_filled_again_stands_at_a_place_of_its_own(
    house: BuiltHouse,
) -> None:
    """17 was filled at 10, sent out, and filled at 100; the first fill is typed last."""
    new = _drum(house, "Tank 2", "17", 100)
    old = _drum(house, "Tank 1", "17", 10)
    assert standing(house, "17") == {new: 250_000}
    assert holding(house, old) == {f"drum/{old}": (250_000, 0)}
    # Nobody said that 17 was washed between: the old honey may cling in the new drum.
    assert old in late(house, new)
    assert house.shares(new) == {"Hill": 1.0, "Creek": 0.0}


def test_a_part_fill_typed_after_the_drum_was_poured_is_in_what_was_poured(
    house: BuiltHouse,
) -> None:
    _drum(house, "Tank 1", "17", 10)
    house.pour("17", "Tank 3", at_min=50)
    facts = Fill("Tank 2", Weight(net_g=5_000), container="17", bung=False, washed=False)
    house.do(facts, at_min=20)
    drum = house.drum("Tank 3", 100_000, at_min=60)
    assert house.shares(drum) == {"Creek": 1.0, "Hill": 0.0}


def test_a_container_amended_joins_the_drums_before_and_after_it(house: BuiltHouse) -> None:
    """The drum of minute 50 was in 18, not in 17: what was in 18 around it is in reach."""
    before = _drum(house, "Tank 2", "18", 10)
    house.pour("18", "Tank 3", at_min=20)
    drum = _drum(house, "Tank 1", "17", 50)
    after = _drum(house, "Tank 2", "18", 90, washed=True)
    house.do(Amend(drum, "number misread", container="18"))
    assert late(house, drum) == {before}
    assert late(house, after) == {drum}
    assert house.shares(after) == {"Hill": 1.0, "Creek": 0.0}
    assert before not in origins(house, after)
