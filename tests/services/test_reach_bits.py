"""Sources in reach as bits, with lots in each other's reach."""

from honeyledger.ledger.state import Edge
from honeyledger.services.reach_bits import bits_of, reached_bits


def edge(child: int, parent: int, grams: int = 1) -> Edge:
    return Edge(child, parent, grams, False, child, 1)


def test_reach_goes_on_until_nothing_grows() -> None:
    edges = [edge(2, 5, 0), edge(3, 1), edge(3, 2), edge(5, 3), edge(6, 4)]
    found = reached_bits(edges, [1, 2, 3, 4, 5, 6], {1: 0b01, 4: 0b10})
    assert found == {1: 1, 2: 1, 3: 1, 4: 2, 5: 1, 6: 2}


def test_the_places_of_bits() -> None:
    assert list(bits_of(0b10110)) == [1, 2, 4]
    assert list(bits_of(0)) == []
