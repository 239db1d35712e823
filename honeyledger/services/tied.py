"""What lots would tie together were they mixed: told before anything is signed.

Whatever is mixed comes back together when one of its sources is found bad. Told is the worst of
them: the source that most would come back with, the whole mixture and all else that it reaches.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.places import CUSTOMER, GATE, INSIDE, class_of, is_source, key_of
from honeyledger.services.bottling import Feeds, feed_of, standing_in
from honeyledger.services.holding import NOT_KNOWN
from honeyledger.services.reach_bits import bits_of, reached_bits
from honeyledger.services.store import View

NOT_TO_MIX = Sentence(
    "nothing-to-mix",
    "{code} is no drum or tank with honey in it. Scan what is to go together, or one code alone.",
)


@dataclass(frozen=True, slots=True)
class Tied:
    """What would come back with the worst source of a mixture.

    Args:
        grams: what goes in, `sources` in its reach.
        name: the worst source's.
        back_g, jars, customers: what would come back with it, here and sent, the whole mixture
            among it; the farm gate counts by day.
        more_g: what of `back_g` comes back only because it is mixed.
    """

    grams: int
    sources: int
    name: str
    back_g: int
    jars: int
    customers: int
    more_g: int


def tied_by_codes(view: View, codes: Sequence[str]) -> Tied | None:
    """What drums and tanks would tie together, all that is in them.

    Raises:
        Refusal: one of them has no honey in it.
    """
    feeds = Feeds(view).on_hand()
    grams: dict[int, int] = {}
    for code in codes:
        feed = feed_of(feeds, code)
        if feed is None:
            raise Refusal(NOT_TO_MIX, field="code", code=code.strip())
        for row in standing_in(view, feed.place):
            grams[row.lot.id] = max(0, row.grams)
    return tied_by(view, grams)


def tied_by(view: View, grams: Mapping[int, int]) -> Tied | None:
    """What honey of these lots would tie together; None where nobody knows a source of it."""
    own: dict[int, int] = {}
    edges = view.ancestry(sorted(grams))
    above = {edge.parent for edge in edges} | set(grams)
    rows = [row for row in view.sources_of(sorted(above)) if is_source(row.place)]
    places = sorted({row.place for row in rows if row.grams < 0})
    if not places:
        return None
    at = {where: 1 << bit for bit, where in enumerate(places)}
    for row in rows:
        own[row.lot] = own.get(row.lot, 0) | at.get(row.place, 0)
    down = sorted({*view.descent(sorted(own)), *edges}, key=lambda one: (one.child, one.parent))
    lots = {*above, *(edge.child for edge in down), *(edge.parent for edge in down)}
    bits = reached_bits(down, lots, own)
    worst = _Worst(len(places))
    for lot, part_g in grams.items():
        worst.mix(bits[lot], part_g)
    jars = {lot for lot, head in view.lot_heads(lots).items() if head.kind == "J"}
    for row in view.holdings_of(sorted(lots)):
        kind = class_of(row.place)
        if kind in INSIDE or kind in (CUSTOMER, GATE):
            sent = row.place if kind not in INSIDE else ""
            worst.add(bits[row.lot], row.grams, row.pieces if row.lot in jars else 0, sent)
    return worst.told(view, places)


class _Worst:
    """What comes back with each of some sources, by its bit."""

    def __init__(self, sources: int) -> None:
        self._mixed_g = 0
        self._has_g = [0] * sources
        self._back_g = [0] * sources
        self._jars = [0] * sources
        self._customers: list[set[str]] = [set() for _ in range(sources)]

    def mix(self, bits: int, grams: int) -> None:
        """A part of the mixture: it comes back with its own sources anyway."""
        self._mixed_g += grams
        for bit in bits_of(bits):
            self._has_g[bit] += grams

    def add(self, bits: int, grams: int, jars: int, customer: str) -> None:
        """What stands somewhere, or was sent."""
        for bit in bits_of(bits):
            self._back_g[bit] += grams
            self._jars[bit] += jars
            if customer and (grams or jars):
                self._customers[bit].add(customer)

    def told(self, view: View, places: Sequence[str]) -> Tied:
        """The worst of them, the mixture made."""
        more_g = [self._mixed_g - has for has in self._has_g]
        at = max(range(len(places)), key=lambda bit: (self._back_g[bit] + more_g[bit], -bit))
        where = places[at]
        return Tied(
            self._mixed_g,
            len(places),
            view.names_of([where]).get(where, key_of(where) or NOT_KNOWN),
            self._back_g[at] + more_g[at],
            self._jars[at],
            len(self._customers[at]),
            more_g[at],
        )
