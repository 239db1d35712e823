"""A wash cuts the chain of heels; draining does not, and a wash typed late cuts nothing."""

import pytest

from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.floor import Wash
from tests.support.books import (
    effects,
    grams_at,
    late,
    mark,
    origins,
    place,
    postings,
    standing,
    turned_down,
)
from tests.support.houses import BuiltHouse


def _house(margin_min: int = 0) -> BuiltHouse:
    """Two yards; a line that feeds Tank 1, and a tank of its own."""
    house = BuiltHouse(margin_min)
    house.yard("Creek")
    house.yard("Hill")
    house.vessel("Line")
    house.vessel("Tank 1", fed_by="Line")
    house.vessel("Tank 2")
    return house


def test_draining_is_not_washing() -> None:
    house = _house()
    house.load("Creek", 100_000, "Tank 2")
    house.drum("Tank 2", 100_000)
    house.load("Hill", 100_000, "Tank 2")
    assert house.shares(house.drum("Tank 2", 100_000)) == {"Hill": 1.0, "Creek": 0.0}


def test_a_wash_cuts_the_chain() -> None:
    house = _house()
    house.load("Creek", 100_000, "Tank 2")
    house.drum("Tank 2", 100_000)
    done = house.wash("Tank 2")
    (row,) = effects(done, "washed")
    assert row[0] == place(house, "Tank 2")
    assert standing(house, "Tank 2") == {}
    assert mark(house, place(house, "Tank 2"), "washed") == {"cuts": 1}
    house.load("Hill", 100_000, "Tank 2")
    assert house.shares(house.drum("Tank 2", 100_000)) == {"Hill": 1.0}


def test_it_asks_about_honey_the_books_still_see() -> None:
    house = _house()
    pull = house.load("Creek", 100_000, "Tank 2")
    assert turned_down(house, Wash(("Tank 2",))) == (
        "The books still see 100.0 kg in Tank 2. Say what became of it: left as rinse, discarded, "
        "or never there."
    )
    assert turned_down(house, Wash(("Tank 2",), "lost")) == (
        "lost is no answer: say rinse, discarded or never."
    )
    done = house.do(Wash(("Tank 2",), "discarded"))
    assert postings(house, done) == {
        (pull, "Tank 2", -100_000),
        (pull, "discarded", 100_000),
    }


@pytest.mark.parametrize(
    ("remains", "goes_to"),
    [("rinse", "discarded"), ("discarded", "discarded"), ("never", "difference")],
)
def test_what_became_of_it(remains: str, goes_to: str) -> None:
    house = _house()
    house.load("Creek", 100_000, "Tank 2")
    house.do(Wash(("Tank 2",), remains))
    assert grams_at(house, goes_to) == 100_000
    assert standing(house, "Tank 2") == {}


def test_before_a_line_is_washed_all_of_it_goes_over_into_its_tank() -> None:
    house = _house()
    pull = house.load("Creek", 100_000, "Line")
    done = house.do(Wash(("Line",)))
    (fill,) = done.codes
    assert origins(house, fill) == {pull: 100_000}
    assert standing(house, "Line") == {}
    assert standing(house, "Tank 1") == {fill: 100_000}
    house.load("Hill", 100_000, "Line")
    shares = house.shares(house.drum("Tank 1", 150_000))
    assert shares == {"Creek": 0.5, "Hill": 0.5}


def test_a_line_washed_with_its_tank_asks_about_its_honey() -> None:
    house = _house()
    house.load("Creek", 100_000, "Line")
    assert turned_down(house, Wash(("Line", "Tank 1"))) == (
        "The books still see 100.0 kg in Line. Say what became of it: left as rinse, discarded, "
        "or never there."
    )
    house.do(Wash(("Line", "Tank 1", "Line"), "rinse"))
    house.load("Hill", 100_000, "Line")
    assert house.shares(house.drum("Tank 1", 100_000)) == {"Hill": 1.0}


def test_washing_a_line_leaves_the_tanks_behind_its_tank_alone() -> None:
    house = _house()
    house.vessel("Tank 3", fed_by="Tank 1")
    house.load("Creek", 100_000, "Tank 1")
    pull = house.load("Hill", 50_000, "Line")
    (fill,) = house.do(Wash(("Line",))).codes
    assert origins(house, fill) == {pull: 50_000}
    assert sorted(standing(house, "Tank 1").values()) == [50_000, 100_000]
    assert standing(house, "Tank 3") == {}


def test_a_late_wash_is_noted_and_cuts_nothing() -> None:
    house = _house()
    house.load("Creek", 100_000, "Tank 2", at_min=10)
    house.drum("Tank 2", 100_000, at_min=20)
    house.load("Hill", 100_000, "Tank 2", at_min=40)
    before = standing(house, "Tank 2")
    done = house.wash("Tank 2", at_min=30)
    assert done.notes == (
        "There is a later entry on Tank 2: the wash is noted and cuts nothing. Narrow the lots by "
        "name if it was truly washed before.",
    )
    assert standing(house, "Tank 2") == before
    assert mark(house, place(house, "Tank 2"), "washed") == {"cuts": 0}
    assert house.shares(house.drum("Tank 2", 100_000)) == {"Hill": 1.0, "Creek": 0.0}


def test_of_several_vessels_only_those_without_a_later_entry_are_cut() -> None:
    house = _house()
    house.load("Creek", 100_000, "Line", at_min=10)
    house.drum("Tank 1", 100_000, at_min=20)
    house.load("Hill", 100_000, "Tank 2", at_min=40)
    house.wash("Line", "Tank 1", "Tank 2", at_min=30)
    assert standing(house, "Line") == {}
    assert standing(house, "Tank 1") == {}
    assert list(standing(house, "Tank 2").values()) == [100_000]


def test_the_margin_keeps_what_came_in_shortly_before() -> None:
    """Scanned at minute 30, washed at 60: the pallet may have gone in after the wash."""
    house = _house(margin_min=60)
    house.load("Creek", 100_000, "Tank 2", at_min=0)
    hill = house.load("Hill", 100_000, "Tank 2", at_min=30)
    done = house.wash("Tank 2", at_min=60)
    assert done.notes == (
        f"{hill} came into Tank 2 less than 60 minutes before this wash: kept in reach.",
    )
    assert standing(house, "Tank 2") == {hill: 0}
    house.wait(120)
    house.load("Creek", 50_000, "Tank 2")
    drum = house.drum("Tank 2", 50_000)
    assert house.shares(drum) == {"Creek": 1.0, "Hill": 0.0}


def test_a_draw_scanned_within_the_margin_after_a_wash_may_have_been_before_it() -> None:
    house = _house(margin_min=60)
    creek = house.load("Creek", 100_000, "Tank 2", at_min=0)
    house.wash("Tank 2", at_min=100)
    house.load("Hill", 100_000, "Tank 2", at_min=110)
    near = house.drum("Tank 2", 50_000, at_min=150)
    far = house.drum("Tank 2", 50_000, at_min=165)
    assert creek in origins(house, near)
    assert late(house, near) == {creek}
    assert house.shares(near) == {"Hill": 1.0, "Creek": 0.0}
    assert house.shares(far) == {"Hill": 1.0}


def test_a_wash_is_reversed() -> None:
    house = _house(margin_min=60)
    pull = house.load("Creek", 100_000, "Tank 2")
    done = house.wash("Tank 2")
    house.do(Reverse(done.entries[0].id, "it was Tank 1"))
    assert standing(house, "Tank 2") == {pull: 100_000}
    assert grams_at(house, "difference") == 0
    assert mark(house, place(house, "Tank 2"), "washed") is None


def test_what_a_wash_refuses() -> None:
    house = _house()
    assert turned_down(house, Wash(())) == "Name the vessels that were washed."
    assert turned_down(house, Wash(("Tank 9",))) == (
        "There is no vessel called Tank 9. Choose one, such as Tank 2 or Tank 1, or register it "
        "first."
    )
