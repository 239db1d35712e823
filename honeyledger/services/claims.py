"""A label says one thing, its lineage another: what a product claims is held against the reach.

A label is refused where the books speak against it, as they are now or as they were when the jars
were bottled; what was only not on record then may have been put there since. Whether a claim is
allowed at all is a matter of your local code.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from honeyledger.domain.claims import (
    COUNTRIES,
    CROP,
    FLORAL,
    ORGANIC,
    REGION,
    TOLERANCE,
    YARD,
    Claimed,
    Claims,
    CountryShare,
    Ruling,
    label_fits,
)
from honeyledger.domain.phrases import phrase
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_number
from honeyledger.ledger.claims import claims_of, frozen, names_in
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.lookup import find_lot
from honeyledger.ledger.mixing import few
from honeyledger.ledger.stated import parts_in
from honeyledger.services.store import View

COUNTRIES_SAID, MARKETS_SAID = "claims_countries", "for_markets"
SAID = {
    CROP: "crop",
    ORGANIC: "claims_organic",
    REGION: "claims_region",
    YARD: "claims_yard",
    FLORAL: "claims_floral",
}
"""What a product's label says, by the name in its record."""

OTHER_CROP = Sentence(
    "other-crop",
    "The label of {product} says crop {crop}, and {code} holds honey of {seasons}. Amend its "
    "product, or take the year out of the product's record.",
)
NOT_ALL_ORGANIC = Sentence(
    "not-all-organic",
    "The label of {product} says organic, and {names} in {code} are not on record as organic. "
    "Amend its product, or the records.",
)
OTHER_REGION = Sentence(
    "other-region",
    "The label of {product} says {region}, and {code} holds honey of {names}. Amend its product, "
    "or the records.",
)
OTHER_YARD = Sentence(
    "other-yard",
    "The label of {product} says the one yard {yard}, and {code} holds honey of {names}. Amend "
    "its product, or take the yard out of the product's record.",
)
OTHER_FLORAL = Sentence(
    "other-floral-kind",
    "The label of {product} says {floral}, and {code} holds honey of {names}. Amend its product, "
    "or the records of what the bees work.",
)
OTHER_COUNTRIES = Sentence(
    "other-countries",
    "The label of {product} says {said}, and {code} is {found}, in falling order, each within "
    "{tolerance}. Put them so in the product's record, or amend the jars' product.",
)
NOT_FOR_MARKET = Sentence(
    "not-for-market",
    "{product} is labelled for {market}, and {lots} in {code} are not eligible for export there. "
    "Amend its product, and keep it out of {market}.",
)
MARKET_NOT_PROVED = Sentence(
    "market-not-proved",
    "{product} is labelled for {market}, and nobody knows where {lots} in {code} are from. Amend "
    "the unknown lot first.",
)
SOURCE_UNKNOWN = Sentence(
    "source-unknown",
    "The label of {product} claims an origin, and nobody knows where all of {code} is from. Amend "
    "the unknown lot first.",
)
COUNTRIES_LATER = Sentence(
    "countries-later",
    "The label of {product} names the countries of its honey, and they are known when {code} is "
    "closed. Close the bottling first.",
)
COUNTRIES_UNKNOWN = Sentence(
    "countries-unknown",
    "The label of {product} names the countries of its honey, and of {lots} in {code} no country "
    "is on record. Put it there first.",
)
COUNTRIES_HERE = "{countries}"
"""In an origin line, where the countries of the honey stand with their shares."""
NOT_SAID = phrase("a source that does not say")
NO_REGION = phrase("a yard without a region")


@dataclass(frozen=True, slots=True)
class LabelRule:
    """How far a label's shares of countries may be off.

    Args:
        tolerance: permille, in points or, where `relative`, of the share.
    """

    tolerance: int = TOLERANCE
    relative: bool = False


@dataclass(frozen=True, slots=True)
class LotClaims:
    """What may be claimed of a lot: by the books now, and as sealed when it was bottled.

    Args:
        against: what a label of its product claims and may not, in words.
    """

    code: str
    now: Claims | None
    sealed: Claims | None
    against: tuple[Refusal, ...]


def lot_claims(view: View, text: str) -> LotClaims:
    """The claims of a lot, and what of its label they refuse.

    Raises:
        Refusal: no such code.
    """
    lot = find_lot(view, text, field="code")
    now = claims_of(view, {lot.id: lot.made_g})
    product = product_of(view, lot)
    return LotClaims(lot.code, now, frozen(view, lot.code), _label_refusals(view, product, lot))


def refuse_claims(view: View, product: Mapping[str, Json], lot: Lot) -> None:
    """A jar lot's label is not printed with a claim that its lineage speaks against.

    Raises:
        Refusal: it claims what does not hold for all that is in reach.
    """
    for refusal in _label_refusals(view, product, lot):
        raise refusal


def product_of(view: View, lot: Lot) -> Mapping[str, Json]:
    """The record of the product a jar lot is, amended or not; nothing of other lots."""
    amended = view.mark(lot.code, "product")
    key = str(amended.value if amended else lot.attributes.get("product", ""))
    return _record(view, f"product/{key}") if key else {}


def label_rule(view: View) -> LabelRule:
    """The house's own tolerance for the shares on a label."""
    record = _record(view, "house")
    tolerance = record.get("share_tolerance_permille", TOLERANCE)
    return LabelRule(
        tolerance if isinstance(tolerance, int) else TOLERANCE,
        bool(record.get("share_tolerance_relative")),
    )


def origin_line(view: View, product: Mapping[str, Json], lot: Lot | None, code: str) -> str:
    """The origin line of a label; where it says so, with the countries as they were sealed.

    Raises:
        Refusal: they are not known yet, or not of all of it.
    """
    line, name = str(product.get("origin", "")), str(product.get("name", ""))
    if COUNTRIES_HERE not in line:
        return line
    if lot is None:
        raise Refusal(COUNTRIES_LATER, field="code", product=name, code=code)
    found = frozen(view, code) or claims_of(view, {lot.id: lot.made_g})
    told = found.of(COUNTRIES) if found else None
    if found is None or told is None or told.ruling is not Ruling.ALLOWED:
        lots = few(told.lots) if told else code
        raise Refusal(COUNTRIES_UNKNOWN, field="code", product=name, code=code, lots=lots)
    return line.replace(COUNTRIES_HERE, shares_text(found.countries))


def claims_anything(product: Mapping[str, Json]) -> bool:
    """Whether a product's label says anything of where its honey is from."""
    return any(product.get(name) for name in (*SAID.values(), COUNTRIES_SAID, MARKETS_SAID))


def label_against(
    product: Mapping[str, Json], claims: Claims, code: str, rule: LabelRule
) -> Iterator[Refusal]:
    """What a product's label claims and these claims refuse, each with a sentence."""
    shown = {"product": str(product.get("name", "")), "code": code}
    for claim, name in SAID.items():
        if said := product.get(name):
            found = claims.of(claim)
            if refusal := _one(found, str(said), claim, shown):
                yield refusal
    if said := product.get(COUNTRIES_SAID):
        parts = [(part.name, part.permille) for part in parts_in(str(said), COUNTRIES_SAID)]
        if not label_fits(parts, claims.countries, rule.tolerance, relative=rule.relative):
            yield Refusal(
                OTHER_COUNTRIES,
                field="code",
                said=str(said),
                found=shares_text(claims.countries),
                tolerance=tolerance_text(rule),
                **shown,
            )
    for market in names_in(str(product.get(MARKETS_SAID, ""))):
        found = claims.for_market(market)
        if found.ruling is not Ruling.ALLOWED:
            is_no = found.ruling is Ruling.NOT_ALLOWED
            sentence = NOT_FOR_MARKET if is_no else MARKET_NOT_PROVED
            yield Refusal(sentence, field="code", market=market, lots=few(found.lots), **shown)


def shares_text(countries: tuple[CountryShare, ...]) -> str:
    """Countries with their shares as a label would have them."""
    return ", ".join(
        f"{one.name or 'not known'} {format_number(Fraction(one.share, 10), 1)} %"
        for one in countries
    )


def tolerance_text(rule: LabelRule) -> str:
    """The tolerance in words."""
    figure = format_number(Fraction(rule.tolerance, 10), 1 if rule.tolerance % 10 else 0)
    if rule.relative:
        return phrase("{figure} % of its share", figure=figure)
    return phrase("{figure} points of percent", figure=figure)


def _record(view: View, subject: str) -> Mapping[str, Json]:
    mark = view.mark(subject, "record")
    return mark.value if mark and isinstance(mark.value, Mapping) else {}


def _label_refusals(view: View, product: Mapping[str, Json], lot: Lot) -> tuple[Refusal, ...]:
    """What the books refuse now, else what they refused for good when the jars were bottled."""
    if not claims_anything(product):
        return ()
    rule, now = label_rule(view), claims_of(view, {lot.id: lot.made_g})
    found = list(label_against(product, now, lot.code, rule)) if now else []
    sealed = frozen(view, lot.code)
    if sealed is None:
        return tuple(found)
    keys = {one.key for one in found}
    # What was sealed then is put right by the verb `judge claims`.
    code = phrase("{code} as it was bottled", code=lot.code)
    then = label_against(product, sealed, code, rule)
    return (*found, *(one for one in then if one.key not in keys and _is_final(one, sealed)))


def _is_final(refusal: Refusal, sealed: Claims) -> bool:
    """Whether it was refused by what was on record, not by what was missing there."""
    silent = [one.claim for one in sealed.claims if one.ruling is Ruling.NOT_PROVABLE]
    about = {
        OTHER_CROP.key: CROP,
        NOT_ALL_ORGANIC.key: ORGANIC,
        OTHER_REGION.key: REGION,
        OTHER_YARD.key: YARD,
        OTHER_FLORAL.key: FLORAL,
        OTHER_COUNTRIES.key: "countries",
    }
    if refusal.key in (SOURCE_UNKNOWN.key, MARKET_NOT_PROVED.key):
        return False
    return about.get(refusal.key, "") not in silent


def _one(found: Claimed, said: str, claim: str, shown: Mapping[str, str]) -> Refusal | None:
    """A claim of one value: allowed with just that, or refused with why."""
    is_same = claim == ORGANIC or [one.casefold() for one in found.says] == [said.casefold()]
    if found.ruling is Ruling.ALLOWED and is_same:
        return None
    if found.ruling is Ruling.NOT_PROVABLE and "source not known" in found.sources:
        return Refusal(SOURCE_UNKNOWN, field="code", **shown)
    if claim == ORGANIC:
        return Refusal(NOT_ALL_ORGANIC, field="code", names=few(found.sources), **shown)
    others = [one for one in found.says if one.casefold() != said.casefold()]
    silent = found.ruling is Ruling.NOT_PROVABLE
    if claim == CROP:
        seasons = " and ".join(sorted(found.says))
        return Refusal(OTHER_CROP, field="code", crop=said, seasons=seasons, **shown)
    told = [*others, *([_silent(claim)] if silent else [])]
    names = told[0] if len(told) == 1 else few(told)
    sentence = {REGION: OTHER_REGION, YARD: OTHER_YARD, FLORAL: OTHER_FLORAL}[claim]
    return Refusal(sentence, field="code", names=names, **{claim: said}, **shown)


def _silent(claim: str) -> str:
    return NO_REGION if claim == REGION else NOT_SAID
