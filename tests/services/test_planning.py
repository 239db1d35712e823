"""What a plan is worth, by hand and by counting, and which choices are what was asked."""

from fractions import Fraction

import pytest

from honeyledger.services.planning import (
    Parcel,
    Proposal,
    Runs,
    Wanted,
    blend_recall_g,
    expected_recall_g,
    first_in_blend,
    first_in_runs,
    fits,
    fits_runs,
    keeps_moisture,
    may_go_in,
    oldest_first,
    runs_recall_g,
)
from tests.support.parcels import drums, pallets

A = Parcel("A", 100, frozenset({"x"}), 1700, 300, 3)
B = Parcel("B", 200, frozenset({"x", "y"}), 1800, 400, 1)
C = Parcel("C", 400, frozenset({"z"}), 1900, 500, 2)


def test_the_recall_to_expect_by_hand() -> None:
    # x brings back A and B, y brings back B, z brings back C.
    assert expected_recall_g([[A], [B], [C]]) == Fraction(300 + 200 + 400, 3)
    # Together x and y bring back both.
    assert blend_recall_g([A, B, C], ["A", "B"]) == round(Fraction(300 + 300 + 400, 3))
    assert blend_recall_g([A, B, C], ["A", "C"]) == round(Fraction(700 + 200 + 500, 3))
    assert runs_recall_g([A, B, C], [["A", "B", "C"]]) == 700
    assert expected_recall_g([]) == 0


def test_putting_more_together_never_makes_a_recall_smaller() -> None:
    some = drums(3, 20, 9)
    apart = expected_recall_g([one] for one in some)
    for many in range(2, 20):
        together = [some[:many], *([one] for one in some[many:])]
        assert expected_recall_g(together) >= apart
        apart = expected_recall_g(together)


@pytest.mark.parametrize(
    ("parcel", "wanted", "may"),
    [
        (A, Wanted(0, 1, 1600), True),  # one wet part may be mended by the others
        (A, Wanted(0, 1, lightest=300, darkest=300), True),
        (A, Wanted(0, 1, lightest=301), False),
        (A, Wanted(0, 1, darkest=299), False),
        (Parcel("N", 1, frozenset({"x"})), Wanted(0, 1), True),
        (Parcel("N", 1, frozenset({"x"})), Wanted(0, 1, 1800), False),
        (Parcel("N", 1, frozenset({"x"})), Wanted(0, 1, darkest=500), False),
    ],
)
def test_what_may_be_a_part(parcel: Parcel, wanted: Wanted, may: bool) -> None:
    assert may_go_in(parcel, wanted) is may


def test_limits_are_met_to_the_gram_and_the_hundredth() -> None:
    # (100 × 17.00 + 200 × 18.00) / 300 is 17.666…
    assert keeps_moisture([A, B], None, 1767)
    assert not keeps_moisture([A, B], None, 1766)
    assert keeps_moisture([A, B], 1766, None)
    assert not keeps_moisture([A, B], 1767, None)
    assert fits([A, B], Wanted(300, 300))
    assert not fits([A, B], Wanted(301, 400))
    assert not fits([A, B], Wanted(200, 299))


def test_oldest_first_skips_what_would_spoil_the_blend() -> None:
    assert [one.code for one in oldest_first([A, B, C])] == ["B", "C", "A"]
    found = first_in_blend([A, B, C], Wanted(300, 700, 1800))
    assert found == Proposal((("B", "A"),), blend_recall_g([A, B, C], "AB"), None, "by age")
    assert first_in_blend([A, B, C], Wanted(650, 699)) is None


def test_oldest_first_begins_a_run_where_one_is_full() -> None:
    found = first_in_runs([A, B, C], Runs(600, 2))
    assert found.lots == (("B", "C"), ("A",))
    assert found.expected_g == runs_recall_g([A, B, C], found.lots)


@pytest.mark.parametrize(
    ("runs", "asked", "do"),
    [
        ((("A", "B"), ("C",)), Runs(400, 2), True),
        ((("A", "B"), ("C",)), Runs(400, 1), False),
        ((("A", "B", "C"),), Runs(699, 1), False),
        ((("A", "B"),), Runs(700, 2), False),
        ((("A", "A"), ("B", "C")), Runs(700, 2), False),
        ((("A", "B"), ("C",)), Runs(400, 2, latest=(("C", 0),)), False),
        ((("C",), ("A", "B")), Runs(400, 2, latest=(("C", 0),)), True),
        ((("A", "B"), ("C",)), Runs(400, 2, 1899), False),
        ((("A", "B"), ("C",)), Runs(400, 2, 1900), True),
    ],
)
def test_which_runs_keep_what_is_asked(
    runs: tuple[tuple[str, ...], ...], asked: Runs, do: bool
) -> None:
    assert fits_runs([A, B, C], runs, asked) is do


def test_a_gap_is_told_against_its_own_figure() -> None:
    assert Proposal((), 200, 150, "time").gap == 0.25
    assert Proposal((), 200, None, "by age").gap is None
    assert Proposal((), 0, 0, "proved").gap == 0
    assert len(pallets(1, 4)) == 4
