"""Late entries are taken and marked, and reach widens by rule, at 0 g."""

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load
from tests.support.books import late, origins, standing
from tests.support.houses import BuiltHouse


def _house(margin_min: int = 0) -> BuiltHouse:
    house = BuiltHouse(margin_min)
    for yard in ("Creek", "Hill", "Moor"):
        house.yard(yard)
    house.vessel("Tank 1")
    house.vessel("Tank 2")
    return house


def test_a_late_draw_takes_all_that_stood_there_or_came_in_since() -> None:
    """Creek stood there until it was washed away at 20, Hill came at 40, Moor at 60; the drum of
    minute 30 is typed at 70: it can hold Hill or Moor (the clock may be off), but not Creek."""
    house = _house()
    house.load("Creek", 50_000, "Tank 1", at_min=10)
    house.wash("Tank 1", at_min=20)
    hill = house.load("Hill", 100_000, "Tank 1", at_min=40)
    moor = house.load("Moor", 100_000, "Tank 1", at_min=60)
    house.wait(10)
    done = house.do(Fill("Tank 1", Weight(net_g=50_000)), at_min=30)
    fill, drum = done.codes
    assert done.notes[0] == (
        "Typed later than other entries on Tank 1: everything that stood there or came in around "
        "that time is in its reach."
    )
    assert origins(house, drum) == {fill: 50_000, hill: 0, moor: 0}
    assert late(house, drum) == {hill, moor}
    assert house.shares(drum) == {"Hill": 0.5, "Moor": 0.5}


def test_a_late_draw_takes_what_stood_there_before() -> None:
    house = _house()
    creek = house.load("Creek", 50_000, "Tank 1", at_min=10)
    house.wash("Tank 1", at_min=40, remains="rinse")
    house.load("Hill", 100_000, "Tank 1", at_min=50)
    drum = house.drum("Tank 1", 20_000, at_min=30)
    assert creek in late(house, drum)
    assert house.shares(drum) == {"Hill": 1.0, "Creek": 0.0}
    assert {row.name: row.how for row in house.back(drum).ancestors}["Creek"] == ("late",)


def test_a_late_draw_looks_back_by_the_margin() -> None:
    house = _house(margin_min=60)
    creek = house.load("Creek", 50_000, "Tank 1", at_min=0)
    house.wash("Tank 1", at_min=100, remains="rinse")
    house.load("Hill", 100_000, "Tank 1", at_min=300)
    house.load("Hill", 100_000, "Tank 1", at_min=400)
    near = house.drum("Tank 1", 20_000, at_min=159)
    far = house.drum("Tank 1", 20_000, at_min=161)
    assert creek in late(house, near)
    assert creek not in late(house, far)


def test_times_that_are_unsure_widen_reach() -> None:
    house = _house()
    creek = house.load("Creek", 50_000, "Tank 1", at_min=0)
    house.wash("Tank 1", at_min=100, remains="rinse")
    house.load("Hill", 100_000, "Tank 1", at_min=110)
    sure = house.drum("Tank 1", 20_000, at_min=120)
    unsure = house.drum("Tank 1", 20_000, at_min=125, unsure_ms=30 * 60_000)
    assert creek not in origins(house, sure)
    assert creek in late(house, unsure)


def test_a_late_load_reaches_every_fill_since_wherever_it_went() -> None:
    house = _house()
    house.load("Creek", 100_000, "Tank 1", at_min=10)
    _, tag = house.pull("Moor", 50_000, at_min=11)
    house.pour("Tank 1", "Tank 2", 60_000, at_min=30)
    house.load("Hill", 60_000, "Tank 2", at_min=31)
    drum = house.drum("Tank 2", 100_000, at_min=40)
    house.do(Load(tag, "Tank 1"), at_min=20)
    assert house.shares(drum) == {"Creek": 0.5, "Hill": 0.5, "Moor": 0.0}


def test_a_late_load_leaves_what_was_drawn_before_it_alone() -> None:
    house = _house()
    house.load("Creek", 100_000, "Tank 1", at_min=10)
    before = house.drum("Tank 1", 50_000, at_min=15)
    _, tag = house.pull("Moor", 50_000, at_min=16)
    house.load("Hill", 10_000, "Tank 1", at_min=30)
    house.drum("Tank 1", 10_000, at_min=31)
    house.do(Load(tag, "Tank 1"), at_min=20)
    assert set(house.shares(before)) == {"Creek"}


def test_a_fill_that_goes_on_being_drawn_is_reached_from_its_last_draw() -> None:
    """The same fill is in both drums: what may be in the second may be in the lot's first too."""
    house = _house()
    house.load("Creek", 100_000, "Tank 1", at_min=10)
    first = house.drum("Tank 1", 40_000, at_min=15)
    second = house.drum("Tank 1", 40_000, at_min=25)
    _, tag = house.pull("Moor", 50_000, at_min=26)
    house.do(Load(tag, "Tank 1"), at_min=20)
    assert house.shares(first) == house.shares(second) == {"Creek": 1.0, "Moor": 0.0}


def test_a_lot_is_never_its_own_late_origin_and_circles_are_survived() -> None:
    """A drum is poured back within the margin of its own filling."""
    house = _house(margin_min=60)
    house.load("Creek", 100_000, "Tank 1", at_min=0)
    drum = house.drum("Tank 1", 60_000, at_min=10)
    (fill,) = standing(house, "Tank 1")
    house.pour(drum, "Tank 1", 30_000, at_min=20)
    assert late(house, fill) == {drum}  # the fill it was filled from holds it now
    again = house.drum("Tank 1", 50_000, at_min=30)
    for code in (drum, fill, again):
        assert house.shares(code) == {"Creek": 1.0}
        assert code not in origins(house, code)


def test_reversing_a_late_load_takes_its_reach_back() -> None:
    house = _house()
    house.load("Creek", 100_000, "Tank 1", at_min=10)
    _, tag = house.pull("Moor", 50_000, at_min=11)
    drum = house.drum("Tank 1", 40_000, at_min=25)
    load = house.do(Load(tag, "Tank 1"), at_min=20).entries[0].id
    assert set(house.shares(drum)) == {"Creek", "Moor"}
    house.do(Reverse(load, "the other tank"))
    assert set(house.shares(drum)) == {"Creek"}
