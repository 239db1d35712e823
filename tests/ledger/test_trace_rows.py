"""What a trace answers adds up by itself."""

from honeyledger.ledger.trace_rows import AddedLot, BackTrace


def test_honey_is_what_was_not_added() -> None:
    spice = AddedLot("A26-0001-Q", "ingredient", "Cinnamon", "Spice Trade", "", 0.02, 2_000)
    jars = AddedLot("A26-0002-O", "packaging", "Jars", "Glass Works", "7", 0.0, 0)
    trace = BackTrace("D26-0001-C", 1, 100_000, (), (), (), (), True, added=(spice, jars))
    assert trace.honey_g == 98_000
    assert BackTrace("D26-0001-C", 1, 100_000, (), (), (), (), True).honey_g == 100_000
