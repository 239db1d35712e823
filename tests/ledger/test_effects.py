"""What an entry changes in every projection follows from the entry alone."""

from typing import Any

from honeyledger.domain.moments import Moment
from honeyledger.ledger.effects import (
    ARRIVED_AS_BEGAN,
    BY_WASH,
    DRAWN_AS_BEGAN,
    TOUCHED_AS_BEGAN,
    TOUCHED_AS_ENDED,
    Changes,
    effects_of,
    project,
    rows_of,
)
from honeyledger.ledger.entry import Act, Entry, Json, Posting


def _entry(
    rows: dict[str, Json],
    postings: tuple[Posting, ...] = (),
    *,
    unsure_ms: int = 0,
    reverses: int = 0,
) -> Entry:
    act = Act(Moment(1_000, 0, "UTC"), "", "", "command-1", unsure_ms=unsure_ms)
    facts: dict[str, Json] = {"effects": rows} if rows else {}
    return Entry(9, "load", act, 0, 0, facts, (), postings, (), reverses)


def _only(**rows: Any) -> Changes:
    """Changes that are none but these."""
    none: dict[str, Any] = {name: [] for name in Changes._fields}
    return Changes(**{**none, "undone": 0, **rows})


def test_an_entry_without_effects_changes_nothing() -> None:
    entry = _entry({})
    assert (effects_of(entry), rows_of(entry, "came"), project(entry)) == ({}, (), _only())


def test_grams_and_pieces_of_a_lot_at_a_place_are_one_change() -> None:
    postings = (
        Posting(1, 3, "pallet/G", -100),
        Posting(2, 3, "vessel/E", 150),
        Posting(3, 3, "difference", -50),
    )
    entry = _entry({"pieces": [["pallet/G", 3, -4], ["jars", 5, 7]]}, postings)
    assert project(entry) == _only(
        held=[
            ("pallet/G", 3, -100, -4),
            ("vessel/E", 3, 150, 0),
            ("difference", 3, -50, 0),
            ("jars", 5, 0, 7),
        ]
    )


def test_stays_end_before_others_begin() -> None:
    entry = _entry(
        {
            "came": [["vessel/E", 4], ["vessel/E", 3]],
            "left": [["pallet/G", 4]],
            "washed": [["vessel/E", 3]],
        }
    )
    assert project(entry) == _only(
        ended=[("pallet/G", 4, 1_000, 9, 0), ("vessel/E", 3, 1_000, 9, BY_WASH)],
        began=[("vessel/E", 4, 9, 1_000, 0), ("vessel/E", 3, 9, 1_000, 0)],
    )
    assert Changes._fields.index("ended") < Changes._fields.index("began")


def test_a_time_that_is_unsure_is_stretched_to_the_wider_side() -> None:
    """What came may have come earlier, what went may have gone later."""
    rows: dict[str, Json] = {
        "came": [["vessel/E", 4]],
        "left": [["pallet/G", 4]],
        "arrived": [["vessel/E", 4]],
        "drawn": [["vessel/E", 5]],
        "touched": [["vessel/E"], ["vessel/F"]],
        "marks": [["D26-0001-C", "moisture", 1750]],
    }
    assert project(_entry(rows, unsure_ms=300)) == _only(
        ended=[("pallet/G", 4, 1_300, 9, 0)],
        began=[("vessel/E", 4, 9, 700, 0)],
        arrived=[("vessel/E", 1_300, 4, 9)],
        drawn=[("vessel/E", 1_300, 5, 9)],
        touched=[("vessel/F", 9, 1_300)],
        marks=[("D26-0001-C", "moisture", 9, 1_000, 1750)],
    )


def test_what_is_said_twice_is_one_change_and_the_later_mark_counts() -> None:
    rows: dict[str, Json] = {
        "arrived": [["vessel/E", 4], ["vessel/E", 4]],
        "touched": [["vessel/G"], ["vessel/F"], ["vessel/G"]],
        "marks": [["D", "a", 1], ["D", "b", 2], ["D", "a", 3]],
    }
    assert project(_entry(rows)) == _only(
        arrived=[("vessel/E", 1_000, 4, 9)],
        touched=[("vessel/G", 9, 1_000), ("vessel/F", 9, 1_000)],
        marks=[("D", "a", 9, 1_000, 3), ("D", "b", 9, 1_000, 2)],
    )


def test_what_is_put_into_a_place_or_taken_out_is_in_its_history_once() -> None:
    rows: dict[str, Json] = {
        "arrived": [["vessel/E", 4]],
        "drawn": [["vessel/F", 5]],
        "touched": [["vessel/E"], ["vessel/F"], ["drum/G"]],
    }
    assert project(_entry(rows)) == _only(
        arrived=[("vessel/E", 1_000, 4, 9)],
        drawn=[("vessel/F", 1_000, 5, 9)],
        touched=[("drum/G", 9, 1_000)],
    )


def test_what_a_stay_tells_as_it_begins_or_ends_has_no_row_of_its_own() -> None:
    rows: dict[str, Json] = {
        "left": [["pallet/G", 4]],
        "washed": [["vessel/E", 3]],
        "came": [["vessel/E", 4], ["vessel/E", 5], ["drum/W", 6]],
        "arrived": [["vessel/E", 4], ["vessel/E", 2]],
        "drawn": [["vessel/E", 5]],
        "touched": [["pallet/G"], ["vessel/E"], ["drum/W"], ["filling/F"]],
    }
    ended = [
        ("pallet/G", 4, 1_000, 9, TOUCHED_AS_ENDED),
        ("vessel/E", 3, 1_000, 9, BY_WASH | TOUCHED_AS_ENDED),
    ]
    began = [
        ("vessel/E", 4, 9, 1_000, TOUCHED_AS_BEGAN | ARRIVED_AS_BEGAN),
        ("vessel/E", 5, 9, 1_000, TOUCHED_AS_BEGAN | DRAWN_AS_BEGAN),
        ("drum/W", 6, 9, 1_000, TOUCHED_AS_BEGAN),
    ]
    assert project(_entry(rows)) == _only(
        ended=ended,
        began=began,
        arrived=[("vessel/E", 1_000, 2, 9)],
        touched=[("filling/F", 9, 1_000)],
    )


def test_a_stay_that_may_have_begun_earlier_tells_nothing_of_its_beginning() -> None:
    """What else happened did so at the latest it can have; what ends does so as well."""
    rows: dict[str, Json] = {
        "left": [["pallet/G", 4]],
        "came": [["vessel/E", 5], ["drum/W", 6]],
        "drawn": [["vessel/E", 5]],
        "touched": [["pallet/G"], ["drum/W"]],
    }
    assert project(_entry(rows, unsure_ms=300)) == _only(
        ended=[("pallet/G", 4, 1_300, 9, TOUCHED_AS_ENDED)],
        began=[("vessel/E", 5, 9, 700, 0), ("drum/W", 6, 9, 700, 0)],
        drawn=[("vessel/E", 1_300, 5, 9)],
        touched=[("drum/W", 9, 1_300)],
    )


def test_voids_codes_and_reversals() -> None:
    entry = _entry({"voids": [[3, 2]], "codes": [["D26-0001-C"]]}, reverses=7)
    assert project(entry) == _only(undone=7, voids=[(3, 2, 9)], codes=[("D26-0001-C", 9)])
    assert rows_of(entry, "voids") == [[3, 2]]
