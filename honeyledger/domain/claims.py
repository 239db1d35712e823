"""What may be said of honey by where it is from: organic, one yard, one region, countries ...

A claim is judged by everything in reach, not by shares: what is in at 0 g is in. Each source that
speaks against it forbids it, each that says nothing leaves it unproved; so a claim never grows
stronger by one more source. Whether a claim may be made at all is a matter of the local code.

Shares of countries are estimates by proportional mixing. Directive (EU) 2024/1438 asks for them
in falling order by weight with a tolerance of 5 % for each share (as read at fsai.ie); whether
that is of the share or in points is not said there, so both are settings.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import pairwise

from honeyledger.domain.units import largest_remainder

ALL = 1000  # permille
TOLERANCE = 50  # permille
_SCALE = 1 << 60  # shares as integers, for adding up exactly
ORGANIC, YARD, REGION, FLORAL, CROP, COUNTRY, COUNTRIES, MARKET = (
    *("organic", "yard", "region", "floral", "crop"),
    *("country", "countries", "market"),
)


class Ruling(Enum):
    """What the books say to a claim."""

    ALLOWED = "allowed"
    NOT_PROVABLE = "not provable"
    NOT_ALLOWED = "not allowed"

    @property
    def strength(self) -> int:
        """How far a claim goes: 2 allowed, 1 not provable, 0 not allowed."""
        return {"allowed": 2, "not provable": 1, "not allowed": 0}[self.value]


@dataclass(frozen=True, slots=True)
class Source:
    """Honey of one source lot from one place, with what is on record of it; "" is not known.

    Args:
        lot: the code of the source lot; `source` is what its place is called.
        share: of all the honey; 0.0 is in reach.
        floral: what the bees worked, with commas between several.
        season: the year, 0 where nobody knows.
        organic: None where nobody said.
        countries: each with its part of this honey; "" for one not known.
        is_split: False where it is of several countries and nobody said how much of each.
        not_for: markets it is not for.
    """

    lot: str
    source: str
    share: float = 0.0
    yard: str = ""
    region: str = ""
    floral: str = ""
    season: int = 0
    organic: bool | None = None
    countries: tuple[tuple[str, float], ...] = (("", 1.0),)
    is_split: bool = True
    not_for: frozenset[str] = frozenset()
    is_known: bool = True


@dataclass(frozen=True, slots=True)
class Claimed:
    """A claim, what the books say to it, and what decides.

    Args:
        says: what it comes to: the one region, or all of them; those with the most first.
        lots: the lots that speak against it, else those that leave it unproved.
        sources: what their places are called.
    """

    claim: str
    ruling: Ruling
    says: tuple[str, ...] = ()
    lots: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CountryShare:
    """A country's part of the honey, permille; all of them add up to 1000.

    Args:
        lowest, highest: of any one jar: over the fills it may be of, with everything nobody can
            name once elsewhere, once here.
    """

    name: str
    share: int
    lowest: int
    highest: int


@dataclass(frozen=True, slots=True)
class Claims:
    """All claims of one lot or mixture."""

    claims: tuple[Claimed, ...]
    countries: tuple[CountryShare, ...]

    def of(self, claim: str) -> Claimed:
        """One claim by its name; one that was never judged is not provable."""
        found = (one for one in self.claims if one.claim == claim)
        return next(found, Claimed(claim, Ruling.NOT_PROVABLE))

    @property
    def markets(self) -> tuple[Claimed, ...]:
        """Those of markets the honey is not for."""
        return tuple(one for one in self.claims if one.claim.startswith(f"{MARKET}/"))

    def for_market(self, market: str) -> Claimed:
        """Whether it may be sold in a market: nobody says no, and every source is known."""
        wanted = f"{MARKET}/{market.casefold()}"
        for one in self.markets:
            if one.claim == wanted:
                return one
        known = self.of(MARKET)
        return Claimed(wanted, known.ruling, (market,), known.lots, known.sources)


def judged(sources: Sequence[Source]) -> tuple[Claimed, ...]:
    """What all these sources together say to each claim; none of them to none."""
    rows = sorted(sources, key=lambda one: (-one.share, one.lot))
    return (
        _one_value(YARD, rows, lambda one: one.yard),
        _one_value(REGION, rows, lambda one: one.region),
        _one_bloom(rows),
        _one_value(CROP, rows, lambda one: str(one.season or "")),
        _organic(rows),
        _one_country(rows),
        _told(COUNTRIES, rows, _tells_countries),
        _told(MARKET, rows, lambda one: one.is_known),
        *_not_for(rows),
    )


def country_shares(
    shares: Mapping[str, float], fills: Iterable[Mapping[str, float]]
) -> tuple[CountryShare, ...]:
    """Countries in falling order, with what they may be in any one jar.

    Args:
        shares: of the whole; "" is not known, and comes like any other.
        fills: the same of each fill the jars are of.
    """
    apart = [shares, *fills]
    names = sorted(shares, key=lambda name: (-shares[name], name))
    parts = _in_permille([shares[name] for name in names])
    rows = []
    for name, part in zip(names, parts, strict=True):
        low = min(_permille(one.get(name, 0.0)) for one in apart)
        high = max(_permille(one.get(name, 0.0) + one.get("", 0.0) * bool(name)) for one in apart)
        rows.append(CountryShare(name, part, min(low, part), max(high, part)))
    return tuple(rows)


def label_fits(
    said: Sequence[tuple[str, int | None]],
    found: Sequence[CountryShare],
    tolerance: int = TOLERANCE,
    *,
    relative: bool = False,
) -> bool:
    """Whether what a label says of countries is what the honey is, in falling order.

    Args:
        said: countries in the label's order, with their shares in permille, None where it says
            none.
        tolerance: how far each may be off, permille: in points, or of the share.
    """
    shares = {one.name.casefold(): one.share for one in found}
    names = [name.casefold() for name, _ in said]
    with_grams = {name for name, share in shares.items() if share}
    if "" in with_grams or not with_grams <= set(names) or not set(names) <= set(shares):
        return False
    for name, (_, share) in zip(names, said, strict=True):
        most = shares[name] * tolerance / ALL if relative else tolerance
        if share is not None and abs(share - shares[name]) > most:
            return False
    told = [share for _, share in said if share is not None]
    falls = told if len(told) == len(said) else [shares[name] for name in names]
    return all(first >= then for first, then in pairwise(falls))


def _one_value(claim: str, rows: Sequence[Source], value: Callable[[Source], str]) -> Claimed:
    """One and the same of all: a second one forbids it, one not known leaves it unproved."""
    known: dict[str, str] = {}
    for one in rows:
        if text := value(one).strip():
            known.setdefault(text.casefold(), text)
    silent = [one for one in rows if not value(one).strip()]
    says = tuple(known.values())
    if len(known) > 1:
        first = next(iter(known))
        others = [one for one in rows if value(one).strip().casefold() not in ("", first)]
        return _ruled(claim, Ruling.NOT_ALLOWED, says, others)
    if silent or not rows:
        return _ruled(claim, Ruling.NOT_PROVABLE, says, silent)
    return Claimed(claim, Ruling.ALLOWED, says)


def _one_bloom(rows: Sequence[Source]) -> Claimed:
    """One floral kind of all; bees may work several kinds at one yard."""
    split = [
        Source(one.lot, one.source, one.share, floral=kind.strip())
        for one in rows
        for kind in one.floral.replace(";", ",").split(",")
    ]
    return _one_value(FLORAL, split, lambda one: one.floral)


def _one_country(rows: Sequence[Source]) -> Claimed:
    """One country of all; honey bought in may be of several by itself."""
    split = [
        Source(one.lot, one.source, one.share * part, region=name)
        for one in rows
        for name, part in one.countries
    ]
    split.sort(key=lambda one: (-one.share, one.lot))
    return _one_value(COUNTRY, split, lambda one: one.region)


def _organic(rows: Sequence[Source]) -> Claimed:
    if against := [one for one in rows if one.organic is False]:
        return _ruled(ORGANIC, Ruling.NOT_ALLOWED, (), against)
    return _told(ORGANIC, rows, lambda one: bool(one.organic))


def _tells_countries(one: Source) -> bool:
    return one.is_split and all(name for name, _ in one.countries)


def _told(claim: str, rows: Sequence[Source], holds: Callable[[Source], bool]) -> Claimed:
    """Allowed where it is told of all."""
    silent = [one for one in rows if not holds(one)]
    if silent or not rows:
        return _ruled(claim, Ruling.NOT_PROVABLE, (), silent)
    return Claimed(claim, Ruling.ALLOWED)


def _not_for(rows: Sequence[Source]) -> list[Claimed]:
    """Each market that some of it is not for."""
    found: dict[str, tuple[str, list[Source]]] = {}
    for one in rows:
        for market in sorted(one.not_for):
            found.setdefault(market.casefold(), (market, []))[1].append(one)
    return [
        _ruled(f"{MARKET}/{key}", Ruling.NOT_ALLOWED, (name,), against)
        for key, (name, against) in sorted(found.items())
    ]


def _ruled(claim: str, ruling: Ruling, says: Sequence[str], deciding: Sequence[Source]) -> Claimed:
    lots = dict.fromkeys(one.lot for one in deciding)
    sources = dict.fromkeys(one.source for one in deciding)
    return Claimed(claim, ruling, tuple(says), tuple(lots), tuple(sources))


def _in_permille(shares: Sequence[float]) -> list[int]:
    """Shares that add up to a thousand, by largest remainder."""
    scaled = [int(share * _SCALE) for share in shares]
    return largest_remainder(ALL, scaled) if any(scaled) else [0 for _ in shares]


def _permille(share: float) -> int:
    return min(ALL, round(share * ALL))
