"""Which drums to fill a product from, so that a later recall stays small.

Asked for is a number of jars. Whole drums are proposed, as many as hold that much: the last one
may be left in part, so the mass may be over by up to one drum. A drum that the product's label
would refuse by itself, or of a country it does not name, stays out; shares of countries hang on
the mix and are judged at the filler. An origin that a person typed freely is judged where it says
nothing but countries on record, such as "Product of France"; else it is told that it is not.
"""

import re
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from honeyledger.domain.phrases import phrase
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.claims import claims_of
from honeyledger.ledger.lookup import find_record
from honeyledger.ledger.places import DRUM, key_of
from honeyledger.ledger.stated import parts_in
from honeyledger.services.claims import (
    COUNTRIES_SAID,
    OTHER_COUNTRIES,
    claims_anything,
    label_against,
    label_rule,
)
from honeyledger.services.drums_page import DrumsPage, drums_page
from honeyledger.services.planning import Planner, Progress, Wanted
from honeyledger.services.recall_plans import MAY_BE_BLENDED, Plan, plan_blend
from honeyledger.services.store import View

NOT_AS_LABELLED = "not as its label says"
_SAID_AROUND = frozenset(
    {"a", "and", "country", "from", "honey", "in", "is", "of", "origin", "produced", "product"}
)
"""What may stand around names of countries in an origin without changing what it says."""

HOW_MANY_JARS = Sentence(
    "plan-how-many-jars",
    "Type about how many jars of which product are to be filled; then drums can be proposed.",
)
NET_NOT_KNOWN = Sentence(
    "plan-net-not-known",
    "{product} has no declared net content. Set it at Setup, then drums can be proposed.",
)


@dataclass(frozen=True, slots=True)
class BottlingAsked:
    """What is to be filled: jars of a product's declared net, and how the honey is to be.

    Args:
        against: codes of drums that the product's label would refuse.
        told: what of its label the drums could not be judged by; "" where there is no such thing.
    """

    product: str
    net_g: int
    jars: int
    against: frozenset[str]
    moisture_most: int | None = None
    lightest: int | None = None
    darkest: int | None = None
    told: str = ""

    @property
    def least_g(self) -> int:
        """What all the jars hold."""
        return self.net_g * self.jars


def bottling_asked(view: View, product: str, jars: int) -> BottlingAsked:
    """So many jars of a product, named or by its key.

    Raises:
        Refusal: nothing is asked for, or the product or its net content is not known.
    """
    if not product.strip() or jars < 1:
        raise Refusal(HOW_MANY_JARS, field="jars" if product.strip() else "product")
    subject, record = find_record(view, "product", product)
    net_g = record.get("net_g", 0)
    if not isinstance(net_g, int) or not net_g:
        name = str(record.get("name", product))
        raise Refusal(NET_NOT_KNOWN, field="product", product=name)
    against: set[str] = set()
    said, origin = str(record.get(COUNTRIES_SAID, "")), str(record.get("origin", ""))
    is_free = bool(origin.strip()) and not said
    named = {part.name for part in parts_in(said, COUNTRIES_SAID)} if said else set()
    if claims_anything(record) or is_free:
        rule = label_rule(view)
        drums = [(one, claims_of(view, {one.lot.id: one.grams})) for one in view.on_hand([DRUM])]
        if is_free:
            known = {part.name for _, claims in drums if claims for part in claims.countries}
            named = named_in(origin, known | _of_yards(view))
        for one, claims in drums:
            refusals = label_against(record, claims, one.lot.code, rule) if claims else ()
            if any(refusal.key != OTHER_COUNTRIES.key for refusal in refusals) or (
                claims and named and not named.issuperset(part.name for part in claims.countries)
            ):
                against.add(one.lot.code)
    told = ""
    if is_free and not named:
        told = phrase(
            "No drum was judged by the origin typed for its label, {origin}: it does not say "
            "countries on record alone. Compare it yourself.",
            origin=origin.strip(),
        )
    return BottlingAsked(key_of(subject), net_g, jars, frozenset(against), told=told)


def named_in(text: str, known: Iterable[str]) -> set[str]:
    """The countries on record that a free text is about; none where it says anything besides."""
    rest, found = f" {_plain(text)} ", set()
    for country in sorted(known, key=len, reverse=True):
        name = _plain(country)
        if name and f" {name} " in rest:
            rest = rest.replace(f" {name} ", "  ")
            found.add(country)
    return found if _SAID_AROUND.issuperset(rest.split()) else set()


def _plain(text: str) -> str:
    return " ".join(re.findall(r"[^\W\d_]+", text.casefold()))


def _of_yards(view: View) -> set[str]:
    """The countries of the house's own yards."""
    records = (mark.value for mark in view.marked("record", "yard/"))
    said = (one.get("country", "") for one in records if isinstance(one, Mapping))
    return {str(name).strip() for name in said if name}


def plan_bottling(
    page: DrumsPage,
    asked: BottlingAsked,
    planner: Planner,
    limit_s: float,
    go_on: Progress,
    own: Sequence[str] = (),
) -> Plan:
    """Which drums on hand to fill from.

    Args:
        own: the drums a person chose, to be compared with.

    Raises:
        Refusal: nothing may go in, too little may, or no choice comes out as asked.
    """
    rows = tuple(row for row in page.rows if row.code not in asked.against)
    largest_g = max((row.grams for row in rows if row.state in MAY_BE_BLENDED), default=0)
    wanted = Wanted(
        asked.least_g,
        asked.least_g + largest_g,
        asked.moisture_most,
        None,
        asked.lightest,
        asked.darkest,
    )
    found = plan_blend(replace(page, rows=rows), wanted, planner, limit_s, go_on, own)
    return replace(found, left_out={**found.left_out, **_refused(page, asked.against)})


def _refused(page: DrumsPage, against: Collection[str]) -> dict[str, str]:
    return {row.code: NOT_AS_LABELLED for row in page.rows if row.code in against}


def bottling_and_drums(
    view: View, now_ms: int, product: str, jars: int
) -> tuple[BottlingAsked, DrumsPage]:
    """All that a plan of a bottling is made from.

    Raises:
        Refusal: see `bottling_asked`.
    """
    return bottling_asked(view, product, jars), drums_page(view, now_ms)
