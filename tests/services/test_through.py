"""What went through a vessel or sieve in a stretch of time, found later."""

from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.through import Through, through
from tests.support.houses import MINUTE_MS, START_MS, BuiltHouse, refused


def _house(margin_min: int = 0) -> BuiltHouse:
    house = BuiltHouse(margin_min)
    for yard in ("Creek", "Hill", "Moor"):
        house.yard(yard)
    house.vessel("Tank")
    house.do(Register("equipment", {"name": "Sieve", "at": "Tank"}))
    house.do(Register("equipment", {"name": "Magnet"}))
    return house


def _ask(house: BuiltHouse, text: str, first_min: int, last_min: int) -> Through:
    first, last = (START_MS + at * MINUTE_MS for at in (first_min, last_min))
    return house.house.ask(lambda view: through(view, text, first, last))


def test_only_what_was_there_then_and_what_came_of_it() -> None:
    house = _house()
    house.load("Creek", 100_000, "Tank", at_min=10)
    before = house.drum("Tank", 100_000, at_min=20)
    house.wash("Tank", at_min=30)
    hill = house.load("Hill", 100_000, "Tank", at_min=100)
    during = house.drum("Tank", 100_000, at_min=120)
    house.wash("Tank", at_min=130)
    house.load("Moor", 100_000, "Tank", at_min=200)
    after = house.drum("Tank", 100_000, at_min=220)
    found = _ask(house, "sieve", 90, 125)
    assert hill in found.lots
    reached = {row.code for row in found.forward.lots}
    assert during in reached
    assert not {before, after} & reached
    assert (found.name, found.margin_min) == ("Tank", 0)
    assert found.forward.on_hand_g == 100_000
    assert _ask(house, found.place.partition("/")[2], 90, 125).lots == found.lots


def test_the_margin_is_added_on_either_side() -> None:
    house = _house(margin_min=60)
    hill = house.load("Hill", 100_000, "Tank", at_min=100)
    assert _ask(house, "Tank", 0, 45).lots == (hill,)
    assert _ask(house, "Tank", 0, 30).lots == ()


def test_what_it_refuses() -> None:
    house = _house()
    assert refused(lambda: _ask(house, "Tank", 2, 1)) == (
        "It ends before it begins. Correct one of the two times."
    )
    assert refused(lambda: _ask(house, "Magnet", 1, 2)) == (
        "Nobody has said what Magnet is part of. Put the vessel into its record, or name it here."
    )
