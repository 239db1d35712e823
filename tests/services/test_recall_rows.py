"""The sums of a case that has nothing."""

from honeyledger.services.recall_rows import ScopeLot


def test_a_way_is_told_short() -> None:
    ways = tuple(f"T26-000{at}-X" for at in range(1, 9))
    lot = ScopeLot("D", "drum", "", ways, *(0 for _ in range(10)))
    assert lot.why_text == "T26-0001-X, T26-0002-X, 5 more and T26-0008-X"
