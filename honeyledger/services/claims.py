"""A label says one thing, its lineage another: what a product claims is held against the reach.

Whether a claim is allowed at all is a matter of your local code; here it is only refused where
the books speak against it.
"""

from collections.abc import Mapping

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.mixing import few
from honeyledger.services.bottling_makeup import Makeup, makeup_of
from honeyledger.services.store import View

CROP, ORGANIC, REGION = "crop", "claims_organic", "claims_region"
CLAIMS = (CROP, ORGANIC, REGION)

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
SOURCE_UNKNOWN = Sentence(
    "source-unknown",
    "The label of {product} claims an origin, and nobody knows where all of {code} is from. Amend "
    "the unknown lot first.",
)


def refuse_claims(view: View, product: Mapping[str, Json], lot: Lot) -> None:
    """A jar lot's label is not printed with a claim that its lineage speaks against.

    Raises:
        Refusal: the crop year, the region or "organic" does not hold for all that is in reach.
    """
    if not any(product.get(claim) for claim in CLAIMS):
        return
    makeup = makeup_of(view, {lot.id: lot.made_g})
    if makeup is None:
        return
    shown = {"product": str(product.get("name", "")), "code": lot.code}
    if not makeup.is_known:
        raise Refusal(SOURCE_UNKNOWN, field="code", **shown)
    _check_crop(makeup, product, shown)
    if product.get(ORGANIC) and makeup.not_organic:
        names = few(makeup.not_organic)
        raise Refusal(NOT_ALL_ORGANIC, field="code", names=names, **shown)
    if region := str(product.get(REGION, "")):
        others = [part.name or "a yard without a region" for part in makeup.regions]
        others = [name for name in others if name.casefold() != region.casefold()]
        if others:
            raise Refusal(OTHER_REGION, field="code", region=region, names=few(others), **shown)


def _check_crop(makeup: Makeup, product: Mapping[str, Json], shown: Mapping[str, str]) -> None:
    crop = product.get(CROP)
    if crop and makeup.seasons != (crop,):
        seasons = " and ".join(str(season) for season in makeup.seasons)
        raise Refusal(OTHER_CROP, field="code", crop=crop, seasons=seasons, **shown)
