"""Vessels in series: what a line holds goes over before each draw from the tank it feeds."""

import pytest

from honeyledger.ledger.mixing import fed_by, fed_from, feeds, name_of
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load
from tests.support.books import effects, late, origins, place, postings, standing, turned_down
from tests.support.houses import BuiltHouse


def _house(margin_min: int = 0) -> BuiltHouse:
    """An extractor line feeds a sump, and the sump feeds Tank 1."""
    house = BuiltHouse(margin_min)
    house.yard("Creek")
    house.yard("Hill")
    house.vessel("Line")
    house.vessel("Sump", fed_by="Line")
    house.vessel("Tank 1", fed_by="Sump")
    return house


def test_who_feeds_whom() -> None:
    house = _house()
    line, sump, tank = (place(house, name) for name in ("Line", "Sump", "Tank 1"))
    ask = house.house.ask
    assert ask(lambda view: fed_by(view, tank)) == (sump, line)
    assert ask(lambda view: fed_by(view, line)) == ()
    assert ask(lambda view: feeds(view, line)) == (sump,)
    assert ask(lambda view: fed_from(view, line)) == (sump, tank)
    assert ask(lambda view: name_of(view, sump)) == "Sump"
    assert ask(lambda view: name_of(view, "pallet/G26-0001-3")) == "G26-0001-3"
    assert ask(lambda view: name_of(view, "difference")) == "difference"


def test_all_of_it_goes_over_before_a_draw() -> None:
    house = _house()
    pull = house.load("Creek", 100_000, "Line")
    done = house.do(Fill("Tank 1", Weight(net_g=60_000)))
    first, second, third, drum = done.codes
    assert origins(house, first) == {pull: 100_000}
    assert origins(house, second) == {first: 100_000}
    assert origins(house, third) == {second: 100_000}
    assert origins(house, drum) == {third: 60_000}
    assert standing(house, "Line") == {first: 0}
    assert standing(house, "Sump") == {second: 0}
    assert standing(house, "Tank 1") == {third: 40_000}
    assert postings(house, done) == {
        (pull, "Line", -100_000),
        (third, "Tank 1", 40_000),
        (drum, f"drum/{drum}", 60_000),
    }
    line, sump, tank = (place(house, name) for name in ("Line", "Sump", "Tank 1"))
    assert sorted(effects(done, "touched")) == sorted([[line], [sump], [tank], [f"drum/{drum}"]])


def test_a_line_run_empty_gives_its_last_fill_at_0_g_once() -> None:
    """Tank 1 is filled by hand too; what clings in the line is in the tank already."""
    house = _house()
    house.load("Creek", 100_000, "Line")
    house.drum("Tank 1", 60_000)
    (fill,) = standing(house, "Tank 1")
    (drum,) = house.do(Fill("Tank 1", Weight(net_g=10_000))).codes
    assert origins(house, drum) == {fill: 10_000}
    hill = house.load("Hill", 50_000, "Tank 1")
    house.drum("Tank 1", 10_000)
    (second,) = standing(house, "Tank 1")
    assert origins(house, second) == {fill: 30_000, hill: 50_000}
    house.drum("Tank 1", 10_000)
    assert list(standing(house, "Tank 1")) == [second]


def test_what_clings_in_the_line_comes_again_after_the_tank_was_washed() -> None:
    house = _house()
    house.load("Creek", 100_000, "Line")
    house.drum("Tank 1", 100_000)
    (sump,) = standing(house, "Sump")
    house.wash("Tank 1")
    hill = house.load("Hill", 50_000, "Tank 1")
    fill, drum = house.do(Fill("Tank 1", Weight(net_g=50_000))).codes
    assert origins(house, fill) == {hill: 50_000, sump: 0}
    assert house.shares(drum) == {"Hill": 1.0, "Creek": 0.0}


def test_a_load_scanned_late_reaches_what_was_drawn_from_the_tank() -> None:
    house = _house(margin_min=60)
    house.load("Creek", 300_000, "Line", at_min=0)
    drum = house.drum("Tank 1", 100_000, at_min=10)
    _, tag = house.pull("Hill", 100_000)
    done = house.do(Load(tag, "Line"), at_min=60)
    # The line's fill, the sump's and the tank's were all drawn since.
    assert done.notes[0].endswith(", so 3 earlier fills have it in reach now.")
    (fill,) = origins(house, drum)
    assert house.shares(drum) == {"Creek": 1.0, "Hill": 0.0}
    assert len(late(house, fill)) == 1


@pytest.mark.parametrize("vessel", ["Line", "Tank 1"])
def test_a_draw_within_the_margin_after_a_wash_may_have_been_before_it(vessel: str) -> None:
    house = _house(margin_min=60)
    creek = house.load("Creek", 100_000, "Line", at_min=0)
    house.drum("Tank 1", 100_000, at_min=5)
    house.wash("Line", "Sump", "Tank 1", at_min=200)
    house.load("Hill", 100_000, vessel, at_min=210)
    drum = house.drum("Tank 1", 50_000, at_min=220)
    assert house.shares(drum) == {"Hill": 1.0, "Creek": 0.0}
    assert creek in {row.code for row in house.back(drum).lots}


def test_what_came_over_belongs_to_the_history_of_the_vessel_it_came_into() -> None:
    """A line washed sends its last fill over at 0 g; that reversed, it is not there any more."""
    house = _house()
    house.load("Creek", 100_000, "Line")
    house.drum("Sump", 100_000)
    (clings,) = standing(house, "Line")
    house.wash("Sump")
    wash = house.wash("Line")
    assert standing(house, "Sump") == {clings: 0}
    assert [place(house, "Sump")] in effects(wash, "touched")
    house.load("Hill", 50_000, "Sump")
    drum = house.drum("Sump", 50_000)
    entry = wash.entries[0].id
    assert "is built on by" in turned_down(house, Reverse(entry, "it was Tank 1"))
    house.house.reverse_chain(entry, "it was Tank 1")
    assert list(standing(house, "Line")) == [clings]
    assert standing(house, "Sump") == {}
    assert drum not in {row.code for row in house.forward("Creek").lots}
