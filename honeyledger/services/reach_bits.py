"""What each of many lots has in reach, as bits of one number: a bit a source."""

from collections.abc import Collection, Iterable, Mapping

from honeyledger.ledger.state import Edge

_OF_BYTE = tuple(tuple(bit for bit in range(8) if byte >> bit & 1) for byte in range(256))


def reached_bits(
    edges: Collection[Edge], lots: Collection[int], own: Mapping[int, int]
) -> dict[int, int]:
    """Each lot's sources.

    Args:
        edges: oldest child first, so that one round mostly does.
        own: the sources each lot has by itself.
    """
    return spread_bits(edges, {lot: own.get(lot, 0) for lot in lots})


def spread_bits(edges: Collection[Edge], bits: dict[int, int]) -> dict[int, int]:
    """The same lots, each with what its parents have as well.

    Lots may be in each other's reach at 0 g, so it goes round until nothing grows.
    """
    late = {edge.parent for edge in edges if edge.parent > edge.child}
    grows = True
    while grows:
        grows = False
        for edge in edges:
            was = bits[edge.child]
            now = was | bits[edge.parent]
            if now != was:
                bits[edge.child] = now
                # A row that was passed by is to be looked at again.
                grows = grows or edge.child in late
    return bits


def bits_of(number: int) -> Iterable[int]:
    """The places of the bits that are set, the lowest first; a byte is looked up at once."""
    for at, byte in enumerate(number.to_bytes((number.bit_length() + 7) // 8, "little")):
        for bit in _OF_BYTE[byte]:
            yield 8 * at + bit
