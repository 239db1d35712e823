"""An entry in the making sees its own writing, and changes nothing until it is appended."""

from collections.abc import Iterator
from contextlib import ExitStack

import pytest

from honeyledger.domain.codes import next_code
from honeyledger.domain.moments import moment_at
from honeyledger.domain.phrases import Phrase
from honeyledger.domain.refusals import BrokenRule, Sentence
from honeyledger.ledger.booking import Booking, HouseRules, as_json, rules_of
from honeyledger.ledger.entry import Act, Origin, Posting
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.registers import Register
from tests.support.houses import START_MS, BuiltHouse

TANK = f"vessel/{next_code('E', 26, 0)}"


@pytest.fixture
def house() -> BuiltHouse:
    """100 kg of Creek, the only lot, stand in Tank 1."""
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.load("Creek", 100_000, "Tank 1")
    return house


@pytest.fixture
def booking(house: BuiltHouse) -> Iterator[Booking]:
    with ExitStack() as open_view:
        view = open_view.enter_context(house.store.reading())
        act = Act(moment_at(START_MS, "UTC"), "", "", "command-1")
        yield Booking(view, act, START_MS, 0)


def test_the_houses_rules_and_what_is_usual_where_it_says_nothing(house: BuiltHouse) -> None:
    house.do(Register("house", {"name": "Honey Hall", "jar_margin": 12, "unit": "lb"}))
    assert house.house.ask(rules_of) == HouseRules(name="Honey Hall", jar_margin=12)
    usual = HouseRules()
    assert (usual.margin_ms, usual.shortfall_permille, usual.jar_margin) == (3_600_000, 200, 24)


def test_facts_are_kept_without_what_says_nothing() -> None:
    facts = Fill("Tank 1", Weight(net_g=5), washed=False)
    assert as_json(facts) == {
        "source": "Tank 1",
        "weight": {"net_g": 5},
        "pending": 0,
        "whole": 0,
        "bung": 1,
        "top_up": 0,
        "washed": 0,
    }
    assert as_json({"a": (1, "x"), "b": (), "c": {"d": True}}) == {"a": [1, "x"], "c": {"d": 1}}
    assert as_json({"a": Phrase("", {}), "b": Phrase("x", {}), "c": 0, "d": None}) == {
        "b": "x",
        "c": 0,
    }
    with pytest.raises(BrokenRule):
        as_json({"share": 0.5})


def test_a_new_lot_has_the_next_id_and_code(booking: Booking) -> None:
    first = booking.make_lot("T", 100_000, [(1, 100_000)], attributes={"vessel": "E", "x": None})
    second = booking.make_lot("T", 100_000, [(first.id, 100_000)])
    assert (first.id, first.code[:9], first.attributes) == (2, "T26-0001-", {"vessel": "E"})
    assert (second.id, second.code[:9]) == (3, "T26-0002-")
    assert booking.lot(2) is first
    assert booking.lot(1).kind == "S"
    assert booking.parents(second.id) == [first.id]


def test_it_sees_what_it_has_moved(booking: Booking) -> None:
    assert booking.grams_at(TANK) == 100_000
    booking.move(1, TANK, "discarded", 30_000)
    booking.differ(1, TANK, 5_000)
    booking.pieces(1, TANK, 3)
    (row,) = booking.standing(TANK)
    assert (row.grams, row.pieces) == (75_000, 3)
    assert booking.state.standing(TANK)[0].grams == 100_000


def test_a_lot_that_leaves_and_comes_back_keeps_its_grams_and_its_stay(booking: Booking) -> None:
    booking.leaves(TANK, 1)
    assert booking.standing(TANK) == []
    booking.comes(TANK, 1)
    assert booking.grams_at(TANK) == 100_000
    booking.comes(TANK, 1)
    assert not booking.entry("test", {}).facts.get("effects")


def test_a_lot_that_comes_and_leaves_inside_one_entry_was_never_there(booking: Booking) -> None:
    lot = booking.make_lot("T", 100_000, [(1, 100_000)])
    booking.comes("vessel/other", lot.id)
    booking.leaves("vessel/other", lot.id)
    booking.leaves("vessel/other", lot.id)
    assert booking.entry("test", {}).facts["effects"] == {"codes": [[lot.code]]}


def test_a_washed_lot_that_is_kept_by_the_margin_begins_a_new_stay(booking: Booking) -> None:
    booking.move(1, TANK, "difference", 100_000)
    booking.washes(TANK)
    booking.comes(TANK, 1)
    assert booking.grams_at(TANK) == 0
    assert booking.entry("test", {}).facts["effects"] == {
        "washed": [[TANK, 1]],
        "came": [[TANK, 1]],
    }


def test_a_late_origin_is_said_once_and_never_of_itself(booking: Booking) -> None:
    fill = booking.make_lot("T", 100_000, [(1, 100_000)])
    booking.late_origin(fill.id, 1)
    booking.late_origin(fill.id, fill.id)
    other = booking.make_lot("T", 100_000, [(1, 100_000)])
    for _ in range(2):
        booking.late_origin(other.id, fill.id)
    assert booking.entry("test", {}).origins == (
        Origin(1, fill.id, 1, 100_000),
        Origin(2, other.id, 1, 100_000),
        Origin(3, other.id, fill.id, 0, True),
    )


def test_equal_rows_are_added_up_and_nothing_is_left_out(booking: Booking) -> None:
    booking.move(1, "pallet/G", "vessel/E", 70)
    booking.move(1, "vessel/E", "drum/D", 20)
    booking.move(1, "drum/D", "vessel/E", 20)
    booking.post(1, "vessel/E", 0)
    assert booking.entry("test", {}).postings == (
        Posting(1, 1, "pallet/G", -70),
        Posting(2, 1, "vessel/E", 70),
    )


def test_marks_of_this_entry_are_seen(booking: Booking) -> None:
    booking.mark("bottling/J", "segment/00001", {"first": 1, "last": None})
    booking.mark("bottling/J", "open", 0)
    assert booking.marked_now("bottling/J", "segment/") == [{"first": 1}]


def test_a_person_is_told_once(booking: Booking) -> None:
    sentence = Sentence("key", "{code} is green.")
    for code in ("S1", "S2", "S1"):
        booking.note(sentence, code=code)
    booking.touches("vessel/E")
    booking.touches("vessel/E")
    entry = booking.entry("test", {"x": 1})
    assert entry.facts == {
        "said": {"x": 1},
        "effects": {"touched": [["vessel/E"]]},
        "notes": [["key", "S1 is green."], ["key", "S2 is green."]],
    }


def test_an_entry_that_does_not_balance_cannot_be_made(booking: Booking) -> None:
    booking.post(1, "vessel/E", 5)
    with pytest.raises(BrokenRule, match="out of balance by 5 g"):
        booking.entry("test", {})


def test_how_far_reach_goes_where_the_time_is_unsure(house: BuiltHouse) -> None:
    def margin(unsure_ms: int) -> int:
        act = Act(moment_at(START_MS, "UTC"), "", "", "c", unsure_ms=unsure_ms)
        return house.house.ask(lambda view: Booking(view, act, START_MS, 0).margin_ms)

    assert margin(90_000) == 90_000
    house.do(Register("house", {"name": "Test House", "margin_ms": 60_000}))
    assert (margin(0), margin(90_000)) == (60_000, 90_000)
