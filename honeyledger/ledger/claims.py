"""What may be claimed of a lot by its sources, and what is frozen of it as it is bottled.

Records of yards and suppliers change, and honey comes into reach late; so what the books said on
the day stands in the entry, as a mark of the jar lot. Jars bottled before this was kept have no
such mark, and only what the books say now.
"""

from collections.abc import Collection, Mapping, Sequence
from itertools import groupby
from math import fsum
from typing import Final

from honeyledger.domain.claims import (
    Claimed,
    Claims,
    CountryShare,
    Ruling,
    Source,
    country_shares,
    judged,
)
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.certificates import FLORAL
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.places import SUPPLIER, UNKNOWN, YARD, class_of, key_of
from honeyledger.ledger.source_places import source_places
from honeyledger.ledger.sources import first_place
from honeyledger.ledger.state import Edge, State
from honeyledger.ledger.stated import ALL
from honeyledger.ledger.trace import Start, carry_back

CLAIMS: Final = "claims"
NOT_FOR = "not_for"  # as records of yards and suppliers name the markets their honey is not for
MOST_LOTS = 12  # that decide a claim are kept by name
Record = Mapping[str, Json]


def claims_of(state: State, grams: Mapping[int, int]) -> Claims | None:
    """What may be said of honey of these lots, mixed as it stands; None where there is none.

    A lot with 0 g is in its reach.
    """
    return _claims(state, grams, (), {})


def freeze(b: Booking, lot: Lot) -> None:
    """Seal with a jar lot what may be claimed of it now, this entry's own lots included."""
    new = [
        Edge(child, parent, grams, int(late), b.entry_id, line)
        for line, (child, parent, grams, late) in enumerate(b.new_origins(), start=1)
    ]
    ids = {lot.id, *(edge.child for edge in new), *(edge.parent for edge in new)}
    fresh = {one: b.lot(one) for one in ids if one >= b.state.next_lot}
    found = _claims(b.state, {lot.id: lot.made_g}, new, fresh)
    if found is not None:
        b.mark(lot.code, CLAIMS, as_kept(found))


def frozen(state: State, code: str) -> Claims | None:
    """What was sealed of a jar lot's claims; None of one bottled before that was done."""
    mark = state.mark(code, CLAIMS)
    return as_claims(mark.value) if mark and isinstance(mark.value, Mapping) else None


def _claims(
    state: State, grams: Mapping[int, int], new: Sequence[Edge], fresh: Mapping[int, Lot]
) -> Claims | None:
    total = sum(grams.values())
    if total <= 0:
        return None
    starts = {lot: Start(part / total) for lot, part in grams.items()}
    edges = _reached(state, set(starts), new, fresh)
    ids = {*starts, *(edge.parent for edge in edges)} - set(fresh)
    lots = {**state.lots(ids), **fresh}
    shares = carry_back(starts, edges, {one.id: one.made_g for one in lots.values()})
    added = fsum(shares[one.id] for one in lots.values() if one.kind == "A" and one.id in shares)
    sources = _Sources(state, lots, fresh).of(shares, 1.0 - added)
    fills = _fills(grams, edges, lots, sources)
    by_country: dict[str, float] = {}
    for row in sources:
        for name, part in row.countries:
            by_country[name] = by_country.get(name, 0.0) + part * row.share
    return Claims(judged(sources), country_shares(by_country, fills))


def _reached(
    state: State, starts: set[int], new: Sequence[Edge], fresh: Mapping[int, Lot]
) -> list[Edge]:
    """The rows in reach back, those not written yet included, newest child first."""
    by_child: dict[int, list[Edge]] = {}
    for edge in new:
        by_child.setdefault(edge.child, []).append(edge)
    edges: list[Edge] = []
    seen: set[int] = set()
    ahead = starts
    while ahead:
        known = sorted(ahead - set(fresh))
        old = state.ancestry(known) if known else ()
        here = ahead | {edge.parent for edge in old}
        own = [edge for lot in here - seen for edge in by_child.get(lot, ())]
        edges += [edge for edge in old if edge.child not in seen] + own
        seen |= here
        ahead = {edge.parent for edge in own} - seen
    edges.sort(key=lambda edge: (-edge.child, edge.parent))
    return edges


class _Sources:
    """Source lots as the records of their places have them now."""

    def __init__(self, state: State, lots: Mapping[int, Lot], fresh: Mapping[int, Lot]) -> None:
        self._state = state
        self._fresh = fresh
        self._lots = lots
        self._records: dict[str, Record] = {}
        for kind in (YARD, SUPPLIER):
            for mark in state.marked("record", f"{kind}/"):
                if isinstance(mark.value, Mapping):
                    self._records[mark.subject] = mark.value
        house = state.mark("house", "record")
        record = house.value if house and isinstance(house.value, Mapping) else {}
        self._country = str(record.get("country", ""))
        self._spelt: dict[str, str] = {}

    def of(self, shares: Mapping[int, float], honey: float) -> list[Source]:
        """Each source lot with each of its places; shares are of the honey."""
        whole = honey if honey > 0 else 1.0
        kinds = {one.id: one.kind for one in self._lots.values() if one.id not in self._fresh}
        found = dict(source_places(self._state, kinds))
        for one in self._fresh.values():
            if one.kind in "SP":
                found[one.id] = ((first_place(one), 1.0, False),)
        return [
            self._source(self._lots[lot], where, shares.get(lot, 0.0) * part / whole)
            for lot, places in sorted(found.items())
            for where, part, _ in places
        ]

    def _source(self, lot: Lot, where: str, share: float) -> Source:
        kind, record = class_of(where), self._records.get(where, {})
        if kind == UNKNOWN:
            return Source(lot.code, "source not known", share, is_known=False)
        name = str(record.get("name", key_of(where)))
        organic = record.get("organic")
        countries, is_split = self._countries(lot, where, record)
        return Source(
            lot=lot.code,
            source=name,
            share=share,
            yard=name if kind == YARD else "",
            region=str(record.get("region", "")),
            floral=str(lot.attributes.get(FLORAL) or record.get("forage", "")),
            season=lot.season,
            organic=None if organic is None else bool(organic),
            countries=countries,
            is_split=is_split,
            not_for=frozenset(names_in(str(record.get(NOT_FOR, "")))),
        )

    def _countries(
        self, lot: Lot, where: str, record: Record
    ) -> tuple[tuple[tuple[str, float], ...], bool]:
        """A yard is in its own country, else in the house's; a drum bought in says its own.

        Where it does not, its papers do, else its supplier.
        """
        said = str(record.get("country", ""))
        if class_of(where) == YARD:
            return ((self._spell(said or self._country), 1.0),), True
        parts = lot.attributes.get("countries", {})
        if isinstance(parts, Mapping) and parts:
            if all(parts.values()):
                rows = [(self._spell(name), int(str(part)) / ALL) for name, part in parts.items()]
                return tuple(rows), True
            return ((str(lot.attributes.get("country", "")), 1.0),), False
        papers = self._state.mark(lot.code, "country")
        country = papers.value if papers else lot.attributes.get("country", "")
        return ((self._spell(str(country or said)), 1.0),), True

    def _spell(self, name: str) -> str:
        """One spelling of a country, the first that came."""
        return self._spelt.setdefault(name.casefold(), name)


def names_in(text: str) -> tuple[str, ...]:
    """Names with commas between them, each once."""
    parts = (part.strip() for part in text.replace(";", ",").split(","))
    return tuple(dict.fromkeys(part for part in parts if part))


def _fills(
    grams: Mapping[int, int],
    edges: Sequence[Edge],
    lots: Mapping[int, Lot],
    sources: Collection[Source],
) -> list[dict[str, float]]:
    """The countries of each fill a jar may be of, by their shares in its honey."""
    own: dict[str, dict[str, float]] = {}
    whole: dict[str, float] = {}
    for row in sources:
        whole[row.lot] = whole.get(row.lot, 0.0) + row.share
    for row in sources:
        part = row.share / whole[row.lot] if whole[row.lot] else 0.0
        for name, of_it in row.countries:
            mine = own.setdefault(row.lot, {})
            mine[name] = mine.get(name, 0.0) + part * of_it
    parts = {one.id: own[one.code] for one in lots.values() if one.code in own}
    # Oldest child first, so that what it is made of is known already.
    for child, rows in groupby(reversed(edges), key=lambda edge: edge.child):
        here: dict[str, float] = {}
        for edge in rows:
            if edge.grams and lots[edge.parent].kind != "A":
                for name, of_it in parts.get(edge.parent, {}).items():
                    here[name] = here.get(name, 0.0) + of_it * edge.grams
        if total := fsum(here.values()):
            parts[child] = {name: part / total for name, part in here.items()}
    jars = {lot for lot in grams if lots[lot].kind == "J"}
    ran = {edge.parent for edge in edges if edge.child in jars and edge.grams}
    ran |= {lot for lot, part in grams.items() if part > 0 and lot not in jars}
    return [parts[lot] for lot in sorted(ran) if parts.get(lot)]


def as_kept(claims: Claims) -> dict[str, Json]:
    """Claims as the ledger keeps them: a list that several of them name stands there once."""
    lists: dict[tuple[str, ...], int] = {}
    rows: list[Json] = []
    for one in claims.claims:
        named = [texts[:MOST_LOTS] for texts in (one.says, one.lots, one.sources)]
        places = [lists.setdefault(tuple(texts), len(lists)) for texts in named]
        rows.append([one.claim, one.ruling.value, *places])
    countries: list[Json] = [
        [one.name, one.share, one.lowest, one.highest] for one in claims.countries
    ]
    return {"claims": rows, "lists": [list(texts) for texts in lists], "countries": countries}


def as_claims(kept: Mapping[str, Json]) -> Claims:
    """Claims from what the ledger keeps."""
    claims, countries = kept.get("claims", ()), kept.get("countries", ())
    lists = [tuple(map(str, texts)) for texts in _rows(kept.get("lists", ()))]
    return Claims(
        tuple(
            Claimed(str(name), Ruling(ruling), *(lists[int(str(place))] for place in places))
            for name, ruling, *places in _rows(claims)
        ),
        tuple(
            CountryShare(str(name), *(int(str(part)) for part in parts))
            for name, *parts in _rows(countries)
        ),
    )


def _rows(kept: Json) -> list[Sequence[Json]]:
    rows = kept if isinstance(kept, Sequence) and not isinstance(kept, str) else ()
    return [row for row in rows if isinstance(row, Sequence) and not isinstance(row, str)]
