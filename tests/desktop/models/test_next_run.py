"""The order of the next run, kept and applied."""

from dataclasses import dataclass

from honeyledger.desktop.models.next_run import codes_from, in_order, order_draft


@dataclass(frozen=True)
class Pallet:
    pallet: str


def test_an_order_is_kept_by_house() -> None:
    assert order_draft("a") != order_draft("b")


def test_an_order_is_read_as_it_was_kept() -> None:
    assert codes_from({"order": ["A", "B"]}) == ("A", "B")
    for broken in ({}, {"order": 3}, {"order": "AB"}, [], None):
        assert codes_from(broken) == ()


def test_the_next_run_comes_first_and_what_is_gone_is_left_out() -> None:
    rows = [Pallet(code) for code in "ABCD"]
    found = in_order(rows, ("C", "gone", "A"))
    assert [row.pallet for row in found] == ["C", "A", "B", "D"]
    assert in_order(rows, ()) == rows
