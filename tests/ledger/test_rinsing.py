"""Rinse honey that is kept: weighed into a vessel of its own, with all that stood there in it."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Wash
from tests.support.books import origins, postings, standing, turned_down
from tests.support.houses import BuiltHouse

CARE = (
    "Rinse honey is wet and ferments: keep it apart, read its moisture, and sell it as honey only "
    "if your local code allows it."
)


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    for yard in ("Creek", "Hill"):
        house.yard(yard)
    for vessel in ("Tank 1", "Tank 2", "Rinse tank"):
        house.vessel(vessel)
    return house


def test_rinse_honey_is_weighed_and_has_all_in_reach(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Tank 1")
    house.load("Hill", 100_000, "Tank 2")
    house.drum("Tank 1", 296_000)
    house.drum("Tank 2", 100_000)
    (one,), (two,) = standing(house, "Tank 1"), standing(house, "Tank 2")
    done = house.do(Wash(("Tank 1", "Tank 2"), rinse_into="Rinse tank", rinse_g=5_000))
    assert done.notes == (CARE,)
    assert postings(house, done) == {
        (one, "difference", -1_000),
        (one, "Tank 1", -4_000),
        (one, "Rinse tank", 5_000),
    }
    assert standing(house, "Tank 1") == standing(house, "Tank 2") == {}
    assert standing(house, "Rinse tank") == {one: 5_000, two: 0}
    drum = house.drum("Rinse tank", 5_000)
    assert house.shares(drum) == {"Creek": 1.0, "Hill": 0.0}
    (fill,) = origins(house, drum)
    assert origins(house, fill) == {one: 5_000, two: 0}
    assert [row.name for row in house.store.audit() if not row.holds] == []


def test_a_tank_run_empty_gives_what_clung_of_its_last_fill(house: BuiltHouse) -> None:
    house.load("Creek", 100_000, "Tank 1")
    house.drum("Tank 1", 100_000)
    done = house.do(Wash(("Tank 1",), rinse_into="Rinse tank", rinse_g=2_000))
    assert sum(standing(house, "Rinse tank").values()) == 2_000
    house.do(Reverse(done.entries[0].id, "it was thrown away"))
    assert standing(house, "Rinse tank") == {}


def test_all_that_the_books_see_where_nothing_is_weighed(house: BuiltHouse) -> None:
    house.load("Creek", 100_000, "Tank 1")
    house.do(Fill("Tank 1", Weight(net_g=97_000)))
    house.do(Wash(("Tank 1",), "rinse", rinse_into="Rinse tank"))
    assert sum(standing(house, "Rinse tank").values()) == 3_000


def test_what_rinsing_refuses(house: BuiltHouse) -> None:
    assert turned_down(house, Wash(("Tank 1",), rinse_into="Rinse tank", rinse_g=900)) == (
        "By the books nothing was in what is washed: enter first what came in, or leave the rinse "
        "out."
    )
    house.load("Creek", 100_000, "Tank 1")
    assert turned_down(house, Wash(("Tank 1",), rinse_into="tank 1")) == (
        "Tank 1 is washed itself: name another vessel for its rinse honey."
    )
    assert turned_down(house, Wash(("Tank 1",), rinse_g=900)) == (
        "Name the vessel that the rinse honey went into, or give no weight for it."
    )
    assert turned_down(house, Wash(("Tank 1",), rinse_into="Rinse tank", rinse_g=0)) == (
        "A net weight of 0.0 kg is nothing. Weigh again."
    )
