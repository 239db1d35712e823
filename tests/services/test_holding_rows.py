"""The list of open holds, with what of their reach is on hand."""

from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.quality import PutOnHold, Release
from honeyledger.services.holding import hold_rows
from tests.support.houses import BuiltHouse


def test_open_holds_are_listed_oldest_first_with_what_is_on_hand() -> None:
    house = BuiltHouse()
    tank = house.vessel("Tank")
    mill = house.yard("Mill Lane")
    house.load(mill, 200_000, tank)
    drum = house.drum(tank, 150_000)
    assert house.house.ask(hold_rows) == ()
    first = house.do(PutOnHold(mill, "residue", first_day="2026-07-01")).entries[0].id
    second = house.do(PutOnHold(drum, "smell")).entries[0].id
    yard, lot = house.house.ask(hold_rows)
    assert (yard.number, yard.target, yard.name) == (str(first), mill, "Mill Lane")
    assert (yard.first_day, yard.last_day, yard.reason) == ("2026-07-01", "", "residue")
    assert yard.grams == 200_000
    assert (lot.number, lot.name, lot.on_hand, lot.grams) == (str(second), drum, (drum,), 150_000)
    house.do(Release(str(first), "nothing found"))
    assert [row.number for row in house.house.ask(hold_rows)] == [str(second)]


def test_a_yard_s_hold_whose_days_are_over_with_no_pull_under_it_is_not_listed() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    house.do(PutOnHold("Creek", "treated", first_day="2026-07-24", last_day="2026-07-24"))
    house.do(PutOnHold("Creek", "treated", first_day="2026-06-01", last_day="2026-07-23"))
    assert [row.last_day for row in house.house.ask(hold_rows)] == ["2026-07-24"]
    house.do(Receive((Line("Creek", 5, pulled="2026-07-20"),)))
    assert len(house.house.ask(hold_rows)) == 2
