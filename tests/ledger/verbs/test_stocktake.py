"""Where things stand, and a row walked: missing, misplaced, new, gone and found, in one entry."""

from typing import Any

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.bought_in import SendBack
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dispatch import Discard, Dispatch, DispatchLine, TakeBack
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.opening import FoundDrum
from honeyledger.ledger.verbs.packing import Pack, PackLine, Unpack
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.stocktake import Move, Stocktake
from tests.support.books import code_in, holding, mark, place, refusal_of, turned_down
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """900 kg of Creek in Tank 1, a container, two rooms, a customer, a supplier, a product."""
    house = BuiltHouse()
    house.yard("Creek")
    for vessel in ("Tank 1", "Tank 2"):
        house.vessel(vessel)
    house.container("Blue 1")
    house.load("Creek", 900_000, "Tank 1")
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    for kind, name in (
        ("customer", "Packer"),
        ("supplier", "S9"),
        ("room", "Store"),
        ("room", "Yard shed"),
    ):
        house.do(Register(kind, {"name": name}))
    return house


def _drums(house: BuiltHouse, count: int, row: str = "") -> list[str]:
    codes = [house.drum("Tank 1", 100_000) for _ in range(count)]
    if row:
        house.do(Move(tuple(codes), "Store", row))
    return codes


def _walk(house: BuiltHouse, row: str, *scanned: str, **more: Any) -> dict[str, list[str]]:
    house.do(Stocktake("Store", row, scanned, **more))
    walked: dict[str, list[str]] = mark(house, "room/store", f"walked/{row}")
    return walked


def test_things_are_carried_to_a_room_and_a_row(house: BuiltHouse) -> None:
    drum = house.do(Fill("Tank 1", Weight(net_g=100_000), container="Blue 1")).codes[-1]
    _, tag = house.pull("Creek", 50_000)
    jars = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    house.do(Bottle(jars, 24))
    case = code_in(house.do(Pack((PackLine(jars, 12),))), "C")
    done = house.do(Move(("Blue 1", tag, jars, case), "store", " b  3"))
    assert done.entries[0].postings == ()
    for code in (drum, tag, jars, case):
        assert mark(house, code, "stands") == {"room": "store", "row": "b 3"}
    back = house.do(Move((drum,), "Yard shed"))
    assert mark(house, drum, "stands") == {"room": "yard-shed"}
    house.do(Reverse(back.entries[0].id, "another drum"))
    assert mark(house, drum, "stands") == {"room": "store", "row": "b 3"}


def test_what_moving_refuses(house: BuiltHouse) -> None:
    (drum,) = _drums(house, 1)
    assert turned_down(house, Move((), "Store")) == "Scan what was carried there first."
    assert turned_down(house, Move((drum,), "", "B")) == (
        "Name the room first; a row alone says too little."
    )
    assert turned_down(house, Move((drum,), "Cellar")).startswith(
        "There is no room called Cellar."
    )
    house.do(Dispatch("Packer", (DispatchLine(drum),)))
    assert turned_down(house, Move((drum,), "Store")) == (
        f"{drum} is no longer in the house: nothing of it is left."
    )


def test_a_row_is_walked_in_one_entry(house: BuiltHouse) -> None:
    there, missing = _drums(house, 2, "B")
    (misplaced,) = _drums(house, 1, "A")
    new, gone = _drums(house, 2)
    house.do(Dispatch("Packer", (DispatchLine(gone),)))
    scanned = (there, there.lower(), misplaced, new, gone)
    done = house.do(Stocktake("Store", "B", scanned, (FoundDrum(Weight(net_g=80_000)),)))
    assert len(done.entries) == 1
    found = code_in(done, "D")
    assert mark(house, "room/store", "walked/B") == {
        "missing": [missing],
        "there": [there],
        "misplaced": [misplaced],
        "new": [new],
        "gone": [gone],
        "found": [found],
    }
    assert done.notes[:3] == (
        f"{misplaced} should have stood in Store, row A. It stands in Store, row B from now on.",
        f"{gone} stands in Store, row B, but the books have nothing of it here: it went to "
        "Packer. Look at what was written down, and record what is true: taken back, or another "
        "drum sent in its place.",
        f"Missing in Store, row B: {missing}. They stay in the books: scan them where they are "
        "found, or record what became of them.",
    )
    for code in (misplaced, new, found):
        assert mark(house, code, "stands") == {"room": "store", "row": "B"}
    assert mark(house, missing, "missing") == {"room": "store", "row": "B"}
    assert holding(house, missing) == {f"drum/{missing}": (100_000, 0)}
    assert mark(house, gone, "stands") is None
    house.do(Reverse(done.entries[0].id, "it was row C"))
    assert mark(house, misplaced, "stands") == {"room": "store", "row": "A"}
    assert mark(house, missing, "missing") is None
    assert holding(house, found) == {}


def test_a_row_typed_in_small_letters_is_the_row_that_is_known(house: BuiltHouse) -> None:
    (drum,), (other,) = _drums(house, 1, "B"), _drums(house, 1)
    house.do(Stocktake("Store", "b", (drum, other)))
    assert mark(house, other, "stands") == {"room": "store", "row": "B"}


def test_what_was_missing_is_found_in_another_row(house: BuiltHouse) -> None:
    first, second = _drums(house, 2, "B")
    assert _walk(house, "B", first)["missing"] == [second]
    assert _walk(house, "C", second)["misplaced"] == [second]
    assert mark(house, second, "missing") == 0
    assert "missing" not in _walk(house, "B", first)


def test_a_whole_room_is_walked_whatever_the_rows(house: BuiltHouse) -> None:
    (first,), (second,) = _drums(house, 1, "A"), _drums(house, 1, "B")
    walked = _walk(house, "", first)
    assert (walked["there"], walked["missing"]) == ([first], [second])
    assert mark(house, first, "stands") == {"room": "store", "row": "A"}


def test_what_left_the_house_is_not_missed_and_comes_back_to_no_row(house: BuiltHouse) -> None:
    sent, poured, thrown, left = _drums(house, 4, "B")
    house.do(Dispatch("Packer", (DispatchLine(sent),)))
    house.pour(poured, "Tank 2")
    house.do(Discard(thrown, "leaked"))
    assert "missing" not in _walk(house, "B", left)
    house.do(TakeBack("Packer", sent, "too dark"))
    assert "missing" not in _walk(house, "B", left)
    assert _walk(house, "B", left, sent)["new"] == [sent]


def test_what_the_books_have_elsewhere_is_said(house: BuiltHouse) -> None:
    thrown, emptied = _drums(house, 2)
    bought = house.buy("S9", 100_000)
    house.do(Discard(thrown, "leaked"))
    house.pour(emptied, "Tank 2")
    house.do(SendBack((bought,), "too dark"))
    done = house.do(Stocktake("Store", "B", (thrown, emptied, bought)))
    said = [note.partition("the books have nothing of it here: ")[2] for note in done.notes]
    assert [one.partition(".")[0] for one in said] == [
        "it was thrown away",
        "it was emptied",
        "it went back to S9",
    ]


def test_pallets_and_empty_containers_are_walked_too(house: BuiltHouse) -> None:
    _, tag = house.pull("Creek", 50_000)
    house.do(Move((tag, "Blue 1"), "Store", "B"))
    container = place(house, "Blue 1").partition("/")[2]
    assert sorted(_walk(house, "B", tag)["missing"]) == [container]


def test_what_a_walk_refuses(house: BuiltHouse) -> None:
    assert turned_down(house, Stocktake("Store", "Z")) == (
        "Nothing was scanned, and nothing should stand in Store, row Z. Walk it, and scan what is "
        "there."
    )
    assert turned_down(house, Stocktake("", "Z")) == (
        "Name the room first; a row alone says too little."
    )
    assert refusal_of(house, Stocktake("Store", "B", ("D26-0999-Q",))).field == "scanned"
    (drum,) = _drums(house, 1, "B")
    assert _walk(house, "B")["missing"] == [drum]


def test_cases_are_walked_while_they_hold_something(house: BuiltHouse) -> None:
    """One on a pallet stands where the pallet does; one that was away comes back to no row."""
    jars = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    house.do(Bottle(jars, 60))
    packed = house.do(Pack((PackLine(jars, 12),), copies=4)).given
    sent, opened, stacked, left = [code for code in packed if code[0] == "C"]
    house.do(Move((sent, opened, stacked, left), "Store", "B"))
    pallet = code_in(house.do(Pack((PackLine(stacked),))), "L")
    house.do(Move((pallet,), "Store", "C"))
    house.do(Unpack(opened, "for the gate"))
    house.do(Dispatch("Packer", (DispatchLine(sent),)))
    assert _walk(house, "B", left) == {"there": [left]}
    assert _walk(house, "C") == {"missing": [pallet]}
    done = house.do(Stocktake("Store", "B", (sent, left)))
    assert "the books have nothing of it here: it was sent or unpacked." in done.notes[0]
    assert turned_down(house, Move((opened,), "Store")) == (
        f"The books see nothing in {opened}. Scan the right one, or enter first what came in."
    )
    house.do(TakeBack("Packer", sent, "torn"))
    assert "missing" not in _walk(house, "B", left)
