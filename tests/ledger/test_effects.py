"""What an entry changes in every projection follows from the entry alone."""

from honeyledger.domain.moments import Moment
from honeyledger.ledger import effects
from honeyledger.ledger.effects import effects_of, project, rows_of
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


def test_an_entry_without_effects_changes_nothing() -> None:
    entry = _entry({})
    assert (effects_of(entry), rows_of(entry, "came"), project(entry)) == ({}, (), ())


def test_grams_and_pieces_of_a_lot_at_a_place_are_one_change() -> None:
    postings = (
        Posting(1, 3, "pallet/G", -100),
        Posting(2, 3, "vessel/E", 150),
        Posting(3, 3, "difference", -50),
    )
    entry = _entry({"pieces": [["pallet/G", 3, -4], ["jars", 5, 7]]}, postings)
    assert project(entry) == (
        effects.Held("pallet/G", 3, -100, -4),
        effects.Held("vessel/E", 3, 150, 0),
        effects.Held("difference", 3, -50, 0),
        effects.Held("jars", 5, 0, 7),
    )


def test_stays_end_before_others_begin() -> None:
    entry = _entry(
        {
            "came": [["vessel/E", 4], ["vessel/E", 3]],
            "left": [["pallet/G", 4]],
            "washed": [["vessel/E", 3]],
        }
    )
    assert project(entry) == (
        effects.StayEnded("pallet/G", 4, 1_000, 9, False),
        effects.StayEnded("vessel/E", 3, 1_000, 9, True),
        effects.StayBegan("vessel/E", 4, 1_000, 9),
        effects.StayBegan("vessel/E", 3, 1_000, 9),
    )


def test_a_time_that_is_unsure_is_stretched_to_the_wider_side() -> None:
    """What came may have come earlier, what went may have gone later."""
    rows: dict[str, Json] = {
        "came": [["vessel/E", 4]],
        "left": [["pallet/G", 4]],
        "arrived": [["vessel/E", 4]],
        "drawn": [["vessel/E", 5]],
        "touched": [["vessel/E"]],
        "marks": [["D26-0001-C", "moisture", 1750]],
    }
    assert project(_entry(rows, unsure_ms=300)) == (
        effects.StayEnded("pallet/G", 4, 1_300, 9, False),
        effects.StayBegan("vessel/E", 4, 700, 9),
        effects.Arrived("vessel/E", 4, 1_300, 9),
        effects.Drawn("vessel/E", 5, 1_300, 9),
        effects.Touched("vessel/E", 1_300, 9),
        effects.Marked("D26-0001-C", "moisture", 1750, 1_000, 9),
    )


def test_voids_codes_and_reversals() -> None:
    entry = _entry({"voids": [[3, 2]], "codes": [["D26-0001-C"]]}, reverses=7)
    assert project(entry) == (
        effects.Undone(7, 9),
        effects.Voided(3, 2, 9),
        effects.CodeGiven("D26-0001-C", 9),
    )
    assert rows_of(entry, "voids") == [[3, 2]]
