"""What should stand in a room, and what a walk found, in rows of plain values."""

import pytest

from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.stocktake import Move, Stocktake
from honeyledger.services.place_cards import PlaceCard, any_card
from honeyledger.services.rooms import stands_in, walk_of
from tests.support.houses import BuiltHouse, refused


@pytest.fixture
def house() -> BuiltHouse:
    """Honey in a tank, a container, a room."""
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.load("Creek", 900_000, "Tank 1")
    house.container("Blue 1")
    house.do(Register("room", {"name": "Store"}))
    return house


def test_what_should_stand_there(house: BuiltHouse) -> None:
    drums = [house.drum("Tank 1", 100_000) for _ in range(2)]
    _, tag = house.pull("Creek", 50_000, count=8)
    moved = house.do(Move((drums[1], tag, "Blue 1"), "Store", "B"))
    house.do(Move((drums[0],), "Store", "a"))
    house.do(PutOnHold(drums[1], "smoke"))
    house.do(Stocktake("Store", "B", (tag, "Blue 1")))
    rows = house.house.ask(lambda view: stands_in(view, "store"))
    seen = [
        (row.row, row.code, row.noun, row.grams, row.pieces, row.missing, row.held) for row in rows
    ]
    container = next(row.code for row in rows if row.noun == "container")
    assert seen == [
        ("a", drums[0], "drum", 100_000, 0, False, False),
        ("B", drums[1], "drum", 100_000, 0, True, True),
        ("B", container, "container", 0, 0, False, False),
        ("B", tag, "pallet tag", 50_000, 8, False, False),
    ]
    assert rows[1].since == moved.entries[0].act.happened
    in_a = house.house.ask(lambda view: stands_in(view, "Store", "A"))
    assert [row.code for row in in_a] == [drums[0]]
    assert refused(lambda: house.house.ask(lambda view: stands_in(view, ""))) == (
        "Name the room first; a row alone says too little."
    )


def test_what_a_walk_found_is_read_from_its_entry(house: BuiltHouse) -> None:
    (there, missing) = (house.drum("Tank 1", 100_000) for _ in range(2))
    house.do(Move((there, missing), "Store", "B"))
    done = house.do(Stocktake("Store", "B", (there,)))
    assert walk_of(done.entries[0]) == {
        "missing": [missing],
        "misplaced": [],
        "new": [],
        "gone": [],
        "found": [],
        "there": [there],
    }
    gone = house.do(Reverse(done.entries[0].id, "the wrong row"))
    assert not any(walk_of(gone.entries[0]).values())


def test_a_pallets_card_says_where_it_stands(house: BuiltHouse) -> None:
    _, tag = house.pull("Creek", 50_000)
    house.do(Move((tag,), "Store", "B"))
    house.do(Stocktake("Store", "B"))
    card = house.house.ask(lambda view: any_card(view, tag, house.now_ms))
    assert isinstance(card, PlaceCard)
    assert ("stands in", "Store, row B") in card.facts
    assert ("missing", "not found at the last walk") in card.facts
