"""A drum or tote: which one is meant, and what it takes."""

from collections.abc import Callable
from typing import TypeVar

import pytest

from honeyledger.domain.moments import moment_at
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.containers import (
    Container,
    closed_in,
    container_at,
    find_container,
    make_ready,
)
from honeyledger.ledger.entry import Act, Lot
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.drums import Bung, Fill
from tests.support.books import origins, place
from tests.support.houses import START_MS, BuiltHouse, refused

Answer = TypeVar("Answer")


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.load("Creek", 900_000, "Tank 1")
    house.container("17", tare_g=18_000, usual_g=200_000)
    house.container("Tote 3", usual_g=1_000_000, limit_g=1_050_000)
    return house


def _ask(house: BuiltHouse, question: Callable[[Booking], Answer]) -> Answer:
    act = Act(moment_at(START_MS, "UTC"), "", "", "command")
    return house.house.ask(lambda view: question(Booking(view, act, START_MS, 0)))


def test_what_a_container_takes(house: BuiltHouse) -> None:
    """A tenth above its usual weight where nobody has said how much it takes."""
    where = place(house, "17")
    assert _ask(house, lambda b: container_at(b, where)) == Container(
        where, "17", 200_000, 220_000, 1_500_000, 18_000
    )
    tote = _ask(house, lambda b: find_container(b, "tote 3"))
    assert (tote.limit_g, tote.tare_g) == (1_050_000, None)
    assert _ask(house, lambda b: container_at(b, "drum/D26-0001-C")) == Container(
        "drum/D26-0001-C", "D26-0001-C", 290_000, 319_000, 1_500_000, None
    )


def test_a_container_is_found_by_name_code_or_label(house: BuiltHouse) -> None:
    drum = house.do(Fill("Tank 1", Weight(net_g=200_000), container="17")).codes[-1]
    one_way = house.drum("Tank 1", 100_000)
    code = place(house, "17").partition("/")[2]
    found = {text: _ask(house, lambda b, t=text: find_container(b, t).place) for text in (
        "17", code, drum, one_way
    )}  # fmt: skip
    assert found == {
        "17": f"drum/{code}",
        code: f"drum/{code}",
        drum: f"drum/{code}",
        one_way: f"drum/{one_way}",
    }
    house.pour(one_way, "Tank 1", 100_000)
    assert refused(lambda: _ask(house, lambda b: find_container(b, one_way))) == (
        f"{one_way} was poured into Tank 1 and is mixed with what stands there. Take it there."
    )


def _ready(house: BuiltHouse, arriving_g: int, **said: bool | None) -> Lot | None:
    def ready(b: Booking) -> Lot | None:
        said.setdefault("top_up", False)
        said.setdefault("washed", None)
        return make_ready(b, find_container(b, "17"), arriving_g, **said)  # type: ignore[arg-type]

    return _ask(house, ready)


def test_an_empty_container_is_ready(house: BuiltHouse) -> None:
    assert _ready(house, 500_000) is None  # one heavy fill is said to be unusual, not refused


def test_a_closed_drum_is_topped_up_within_its_limit(house: BuiltHouse) -> None:
    drum = house.do(Fill("Tank 1", Weight(net_g=150_000), container="17")).codes[-1]
    old = _ready(house, 70_000, top_up=True)
    assert old is not None
    assert old.code == drum
    assert refused(lambda: _ready(house, 70_000)).startswith(f"17 holds {drum} with 150.0 kg.")
    assert refused(lambda: _ready(house, 70_001, top_up=True)).startswith("17 is already full")


def test_one_used_before_asks_whether_it_was_washed(house: BuiltHouse) -> None:
    drum = house.do(Fill("Tank 1", Weight(net_g=150_000), container="17")).codes[-1]
    house.pour("17", "Tank 1")
    assert refused(lambda: _ready(house, 70_000)) == (
        f"17 held {drum} before. Say whether it was washed since; if not, {drum} stays in reach."
    )
    assert _ready(house, 70_000, washed=True) is None
    assert _ready(house, 70_000, washed=False) is None


def test_a_drum_poured_into_a_tote_that_waits_is_not_closed_there(house: BuiltHouse) -> None:
    """It is filled on without asking, and closed as a lot of its own."""
    first, second = house.drum("Tank 1", 200_000), house.drum("Tank 1", 250_000)
    for drum in (first, second):
        house.do(Fill(drum, container="Tote 3", whole=True, bung=False))
    where = place(house, "Tote 3")
    assert _ask(house, lambda b: closed_in(b, where)) is None
    tote = house.do(Bung("Tote 3")).codes[-1]
    assert origins(house, tote) == {first: 200_000, second: 250_000}
    closed = _ask(house, lambda b: closed_in(b, where))
    assert closed is not None
    assert closed.code == tote
    assert refused(lambda: house.do(Bung("Tote 3"))) == (
        f"Tote 3 is already closed as {tote}. Scan the drum that waits."
    )
