"""Narrowing takes one row at 0 g out of reach, by name and with a reason; grams never."""

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.corrections import Amend, Narrow, Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.quality import PutOnHold, Release
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import effects, mark, origins, refusal_of, standing, turned_down
from tests.support.houses import BuiltHouse


def _house() -> tuple[BuiltHouse, str, int]:
    """A drum that has Hill in reach by a pallet typed late; the entry of that load."""
    house = BuiltHouse()
    for yard in ("Creek", "Hill"):
        house.yard(yard)
    house.vessel("Tank 1")
    house.load("Creek", 100_000, "Tank 1", at_min=0)
    _, tag = house.pull("Hill", 50_000, at_min=1)
    house.drum("Tank 1", 50_000, at_min=20)
    load = house.do(Load(tag, "Tank 1"), at_min=10).entries[0].id
    drum = house.house.ask(lambda view: view.lot(4).code)
    return house, drum, load


def test_one_row_is_named_by_entry_and_line() -> None:
    house, drum, load = _house()
    assert set(house.shares(drum)) == {"Creek", "Hill"}
    fill = next(code for code in origins(house, drum) if code[0] == "T")
    done = house.do(Narrow(fill, "it went into Tank 2", entry=load, line=1))
    assert effects(done, "voids") == [[load, 1]]
    assert done.entries[0].postings == ()
    assert set(house.shares(drum)) == {"Creek"}
    assert "Hill" not in {row.name for row in house.back(drum).ancestors}
    assert drum not in {row.code for row in house.forward("Hill").lots}
    house.do(Reverse(done.entries[0].id, "it may have been"))
    assert set(house.shares(drum)) == {"Creek", "Hill"}


def test_a_heel_is_narrowed_where_a_wash_was_not_recorded() -> None:
    house = BuiltHouse()
    for yard in ("Creek", "Hill"):
        house.yard(yard)
    house.vessel("Tank 1")
    house.load("Creek", 100_000, "Tank 1")
    house.drum("Tank 1", 100_000)
    house.load("Hill", 100_000, "Tank 1")
    drum = house.drum("Tank 1", 100_000)
    (fill,) = origins(house, drum)
    line = house.house.ask(
        lambda view: [e.line for e in view.origins(view.lot_by_code(fill).id) if not e.grams]
    )
    entry = house.house.ask(lambda view: view.lot_by_code(drum).made_by)
    house.do(Narrow(fill, "washed on the day between", entry=entry, line=line[0]))
    assert set(house.shares(drum)) == {"Hill"}


def test_a_place_amended_from_is_narrowed() -> None:
    house, _, _ = _house()
    pull, _ = house.pull("Creek", 100_000)
    house.do(Amend(pull, "misread", yard="Hill"))
    narrow = house.do(Narrow(pull, "sheet checked", place="creek")).entries[0].id
    assert house.shares(pull) == {"Hill": 1.0}
    assert pull not in {row.code for row in house.forward("Creek").lots}
    house.do(Reverse(narrow, "another sheet turned up"))
    assert house.shares(pull) == {"Hill": 1.0, "Creek": 0.0}


def test_a_hold_on_a_yard_lets_go_of_what_was_narrowed() -> None:
    house, _, _ = _house()
    house.do(Register("customer", {"name": "Packer"}))
    house.vessel("Tank 2")
    pull = house.load("Creek", 100_000, "Tank 2")
    drum = house.drum("Tank 2", 90_000)
    house.do(Amend(pull, "misread", yard="Hill"))
    house.do(PutOnHold("Creek", "treated"))
    send = Dispatch("Packer", (DispatchLine(drum),))
    assert refusal_of(house, send).key.startswith("held")
    house.do(Narrow(pull, "sheet checked", place="Creek"))
    house.do(send)


def test_a_place_that_was_narrowed_comes_back_when_it_is_amended_from_again() -> None:
    house, _, _ = _house()
    pull, _ = house.pull("Creek", 100_000)
    house.do(Amend(pull, "misread", yard="Hill"))
    house.do(Narrow(pull, "sheet checked", place="Creek"))
    house.do(Amend(pull, "it was Creek after all", yard="Creek"))
    house.do(Amend(pull, "no, Hill", yard="Hill"))
    assert house.shares(pull) == {"Hill": 1.0, "Creek": 0.0}


def test_a_source_that_is_known_now_can_be_narrowed_from_not_known() -> None:
    house, _, _ = _house()
    _, tag = house.pull("Creek", 100_000)
    house.vessel("Tank 2")
    unknown, _, drum = house.do(Fill("Tank 2", Weight(net_g=90_000))).codes
    house.do(Amend(unknown, "was not scanned", pallet=tag))
    assert not house.back(drum).reach_complete
    house.do(Narrow(unknown, "found the tag in the tank room", place="unknown"))
    assert house.back(drum).reach_complete
    assert house.shares(drum) == {"Creek": 1.0}
    house.do(Release(unknown, "found"))


def test_what_narrowing_refuses() -> None:
    house, drum, load = _house()
    pull, _ = house.pull("Creek", 100_000)
    (fill,) = (code for code in standing(house, "Tank 1") if code[0] == "T")
    made = house.house.ask(lambda view: view.lot_by_code(drum).made_by)
    said = {
        "signer": turned_down(house, Narrow(fill, "x", entry=load, line=1), operator=""),
        "reason": turned_down(house, Narrow(fill, "", entry=load, line=1)),
        "row": turned_down(house, Narrow(fill, "x", entry=load, line=2)),
        "other lot": turned_down(house, Narrow(drum, "x", entry=load, line=1)),
        "grams": turned_down(house, Narrow(fill, "x", entry=made, line=1)),
        "never": turned_down(house, Narrow(pull, "x", place="Hill")),
        "still": turned_down(house, Narrow(pull, "x", place="Creek")),
    }
    assert said == {
        "signer": "Say who signs: scan a badge, or name a person who works here.",
        "reason": "Give the reason in a word or two.",
        "row": f"{fill} has no origin row 2 in entry {load}. Look at the lot's card.",
        "other lot": f"{drum} has no origin row 1 in entry {load}. Look at the lot's card.",
        "grams": f"S26-0001-G is in {fill} with grams, not only in reach. Only a row of 0 g can "
        "be narrowed.",
        "never": f"{pull} was never booked from Hill. Nothing to narrow.",
        "still": f"{pull} still has its grams from Creek. Amend it first, then narrow.",
    }
    assert mark(house, pull, "not from/Creek") is None
    house.do(Narrow(fill, "x", entry=load, line=1))
    assert "has no origin row 1" in turned_down(house, Narrow(fill, "x", entry=load, line=1))
