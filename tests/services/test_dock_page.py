"""What the dock shows at once: the day, the yard in hand, what repeats, what is held."""

from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.dock_page import DockPage, Repeated, Truck, dock_page
from tests.support.houses import MINUTE_MS, BuiltHouse

DAY_MIN = 24 * 60


def _page(house: BuiltHouse, yard: str = "") -> DockPage:
    return house.house.ask(lambda view: dock_page(view, house.now_ms, yard))


def test_a_house_with_nothing_in_it_has_a_page_too() -> None:
    page = _page(BuiltHouse())
    assert (page.yards, page.crews, page.season, page.day.arrivals) == ((), (), None, ())
    assert page.repeated == Repeated()
    assert page.registered
    assert page.today.isoformat() == "2026-07-24"


def test_the_last_pallet_is_repeated_and_its_yard_is_in_hand() -> None:
    house = BuiltHouse()
    yard = house.yard("Mill Lane", colonies=30)
    line = Line("mill lane", 36, pulled="2026-07-23", crew="North truck")
    house.do(Receive((line,)))
    page = _page(house)
    assert page.repeated == Repeated("mill lane", "2026-07-23", "North truck", "medium")
    assert page.season is not None
    assert (page.season.code, page.season.supers) == (yard, 36)


def test_tomorrow_only_the_box_repeats() -> None:
    house = BuiltHouse()
    house.yard("Mill Lane")
    house.do(Receive((Line("Mill Lane", 36, crew="North truck"),)))
    house.now_ms += DAY_MIN * MINUTE_MS
    page = _page(house)
    assert page.repeated == Repeated(box="medium")
    assert page.crews == ("North truck",)


def test_the_yard_named_is_in_hand_and_an_unknown_one_is_not() -> None:
    house = BuiltHouse()
    first, second = house.yard("Mill Lane"), house.yard("Long Field")
    house.pull(first, 100_000)
    season = _page(house, second).season
    assert season is not None
    assert (season.name, season.pulls) == ("Long Field", 0)
    assert _page(BuiltHouse(), "Y26-0099-X").season is None


def test_a_truck_is_counted_against_its_own_sheets() -> None:
    house = BuiltHouse()
    house.yard("Mill Lane")
    house.do(Receive((Line("Mill Lane", 30, crew="South"),)))
    house.do(Receive((Line("Mill Lane", 36, crew="North", sheet=40),)))
    wrong = house.do(Receive((Line("Mill Lane", 99, crew="North"),)))
    house.house.reverse_chain(wrong.entries[0].id, "typed twice")
    assert _page(house).truck == Truck("North", 36, 40)


def test_yards_of_which_todays_pulls_are_held_are_named() -> None:
    house = BuiltHouse()
    held, past = house.yard("Mill Lane"), house.yard("Long Field")
    house.do(PutOnHold(held, "treatment record", "2026-07-01"))
    house.do(PutOnHold(past, "dusty", "2026-07-01", "2026-07-10"))
    assert list(_page(house).held) == [held]


def test_boxes_are_told_apart_by_their_frames() -> None:
    house = BuiltHouse()
    house.do(Register("box", {"name": "deep", "frames": 9}))
    assert [(box.code, box.detail) for box in _page(house).boxes] == [
        ("deep", "9 frames"),
        ("medium", ""),
    ]


def test_whose_bees_stand_in_a_yard_and_who_sells_honey() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    theirs = house.yard("Hill", owner="Ms Orla")
    house.do(Register("supplier", {"name": "Hollow Bees"}))
    house.container("17")
    page = _page(house)
    assert dict(page.owners) == {theirs: "Ms Orla"}
    assert [row.name for row in page.suppliers] == ["Hollow Bees"]
    assert len(page.containers) == 1
