"""The heel at a run's end: the dip is right, also where the books saw the tank run empty."""

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import CloseRun, Heel, OpenRun
from tests.support.houses import BuiltHouse


def _held(house: BuiltHouse, tank: str) -> dict[str, int]:
    rows = house.house.ask(lambda view: view.standing(f"vessel/{tank}"))
    return {row.lot.kind: row.grams for row in rows if row.grams}


def test_a_heel_in_a_tank_the_books_saw_empty_is_of_its_last_fill() -> None:
    """Two drums drawn after the last load leave the line's own last fill beside the tank's."""
    house = BuiltHouse()
    yard = house.yard("Brackle Slough")
    line = house.vessel("Line")
    tank = house.vessel("Tank", fed_by=line)
    run = house.do(OpenRun(line)).given[0]
    house.load(yard, 600_000, line, run=run)
    house.drum(tank, 300_000, run=run)
    last = house.drum(tank, 300_000, run=run)
    closed = house.do(CloseRun(run, (Heel(tank, 35_000),)))

    assert not closed.codes
    assert _held(house, tank) == {"T": 35_000}
    next_drum = house.drum(tank, 35_000)
    assert house.shares(next_drum) == house.shares(last) == {"Brackle Slough": 1.0}


def test_a_heel_after_honey_nobody_could_name_is_of_the_last_fill_too() -> None:
    """The line's last fill stands beside the tank's at 0 g then; one unknown lot is enough."""
    house = BuiltHouse()
    line = house.vessel("Line")
    tank = house.vessel("Tank", fed_by=line)
    run = house.do(OpenRun(line)).given[0]
    house.load(house.yard("Brackle Slough"), 290_000, line, run=run)
    house.drum(tank, 200_000, run=run)
    short = house.do(Fill(tank, Weight(net_g=290_000)), run=run)
    closed = house.do(CloseRun(run, (Heel(tank, 12_000),)))

    assert [code[0] for code in short.codes] == ["S", "T", "D"]
    assert not closed.codes
    assert _held(house, tank) == {"T": 12_000}


def test_a_heel_in_a_vessel_that_never_held_anything_is_unknown_honey() -> None:
    house = BuiltHouse()
    house.yard("Brackle Slough")
    line = house.vessel("Line")
    run = house.do(OpenRun(line)).given[0]
    closed = house.do(CloseRun(run, (Heel(line, 12_000),)))

    assert [code[0] for code in closed.codes] == ["S"]
    assert _held(house, line) == {"S": 12_000}
