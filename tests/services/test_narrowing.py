"""What can be narrowed of a lot: rows of 0 g with how they came in, and places amended from."""

from honeyledger.ledger.verbs.corrections import Amend, Narrow
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.services.narrowing import LooseRow, loose_rows
from tests.support.books import code_in
from tests.support.houses import BuiltHouse


def _loose(house: BuiltHouse, code: str) -> tuple[LooseRow, ...]:
    return house.house.ask(lambda view: loose_rows(view, code))


def test_a_place_a_pull_was_amended_from_can_be_narrowed_once() -> None:
    house = BuiltHouse()
    creek, hill = house.yard("Creek"), house.yard("Hill")
    pull = code_in(house.do(Receive((Line("Creek", 20),))), "S")
    assert _loose(house, pull) == ()
    house.do(Amend(pull, "misread", yard=hill))
    (row,) = _loose(house, pull)
    assert row == LooseRow(creek, "Creek", "amended from there")
    house.do(Narrow(pull, "the crew was there", place=row.key))
    assert _loose(house, pull) == ()


def test_a_heel_is_in_reach_at_no_weight() -> None:
    house = BuiltHouse()
    tank = house.vessel("Tank 1")
    house.load(house.yard("Creek"), 200_000, tank)
    house.drum(tank, 200_000)
    house.load(house.yard("Hill"), 100_000, tank)
    drum = house.drum(tank, 100_000)
    fill = house.house.ask(lambda view: view.origins(view.lot_by_code(drum).id))[0].parent
    code = house.house.ask(lambda view: view.lot(fill).code)
    (row,) = _loose(house, code)
    entry, line = map(int, row.key.split())
    assert row.name.startswith("T26-")
    assert row.why == f"stood there before, washed or emptied, entry {entry}"
    house.do(Narrow(code, "it was washed that noon", entry, line))
    assert _loose(house, code) == ()


def test_what_is_no_lot_has_nothing_to_narrow() -> None:
    assert _loose(BuiltHouse(), "D26-0001") == ()
