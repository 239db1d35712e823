"""What the bottling says of claims: what a label may say of the jars, may not, or cannot prove."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from honeyledger.desktop.language import refusal_words, say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.bottling.rows import tr
from honeyledger.domain.claims import (
    COUNTRIES,
    COUNTRY,
    CROP,
    FLORAL,
    ORGANIC,
    REGION,
    YARD,
    Claimed,
    Claims,
    CountryShare,
    Ruling,
)
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import format_number
from honeyledger.services.bottling_makeup import Makeup
from honeyledger.services.label_marks import LabelWarning

MOST_NAMED = 3
_WHY = ("names", "seasons", "found", "lots")  # as refusals of a label call what decides them
UNNAMED = "source not known"  # as a source is called that nobody can name


@dataclass(frozen=True, slots=True)
class Claim:
    """What a label may say of the jars, or may not."""

    mark: Mark
    lead: str
    text: str
    more: str = ""  # pointed at, where there is room for one line only


def claims(
    makeup: Makeup | None, origin: str = "", against: Sequence[Refusal] = ()
) -> tuple[Claim, ...]:
    """What the label would say that is refused, then each claim: allowed, not, or not proved.

    Args:
        origin: what the product's label says already.
        against: what it claims and may not.
    """
    if makeup is None:
        return ()
    found = makeup.claims
    rows = [_refused(one) for one in against]
    if not makeup.is_known:
        lead = tr("Source not known:")
        rows.append(Claim(Mark.WARNING, lead, tr("find it before they are sold")))
    one_of = {
        YARD: (tr("Single yard:"), tr("Not a single yard:"), tr("Yard not proved:")),
        REGION: (tr("Single region:"), tr("Not a single region:"), tr("Region not proved:")),
        FLORAL: (tr("Floral kind:"), tr("Several floral kinds:"), tr("Floral kind not proved:")),
        CROP: (tr("Single crop:"), tr("Several crops:"), tr("Crop not proved:")),
    }
    rows += [_one_of(found.of(claim), *leads) for claim, leads in one_of.items()]
    rows += [_organic(found.of(ORGANIC)), *_countries(found)]
    rows += [_not_for(one) for one in found.markets]
    if origin:
        rows.append(Claim(Mark.NOTE, tr("Its label says:"), origin))
    return tuple(rows)


def _refused(refusal: Refusal) -> Claim:
    lead = tr("Label refused:")
    names = next((str(refusal.facts[key]) for key in _WHY if refusal.facts.get(key)), "")
    text = tr("{claim}: {names}").format(claim=_about(refusal), names=names)
    return Claim(Mark.REFUSED, lead, text if names else _about(refusal), refusal_words(refusal))


def _about(refusal: Refusal) -> str:
    """What of a label a refusal is about, in a word."""
    about = {
        "other-crop": tr("crop year"),
        "not-all-organic": tr("organic"),
        "other-region": tr("region"),
        "other-yard": tr("single yard"),
        "other-floral-kind": tr("floral kind"),
        "other-countries": tr("countries"),
        "source-unknown": tr("source not known"),
    }
    return about.get(refusal.key, str(refusal.facts.get("market", "")))


def label_messages(against: Sequence[Refusal]) -> list[Message]:
    """That the product's label claims what it may not, and why; all of it is with the claims."""
    if not against:
        return []
    why = refusal_words(against[0])
    if others := list(dict.fromkeys(_about(one) for one in against[1:])):
        words = tr("{why} Also refused: {claims}.")
        why = words.format(why=why, claims=", ".join(others))
    return [Message(Mark.WARNING, tr("Label refused:"), why)]


def label_warning(warning: LabelWarning) -> Message:
    """What a label lacks, and where that it should have it is written."""
    mark = Mark.WARNING if warning.is_verified else Mark.NOTE
    source = tr("({source})") if warning.is_verified else tr("({source}; unverified)")
    return Message(mark, say(warning.text), source.format(source=say(warning.source)))


def _one_of(found: Claimed, allowed: str, refused: str, unproved: str) -> Claim:
    if found.ruling is Ruling.ALLOWED:
        return Claim(Mark.READY, allowed, found.says[0])
    if found.ruling is Ruling.NOT_ALLOWED:
        return Claim(Mark.NOTE, refused, _few(found.says), _decided(found))
    return Claim(Mark.NOTE, unproved, _not_said(found), _decided(found))


def _not_said(found: Claimed) -> str:
    if len(found.sources) > 1:
        return tr("{n} sources do not say").format(n=len(found.sources))
    return tr("{name} does not say").format(name=_few(_named(found)))


def _named(found: Claimed) -> list[str]:
    return [tr("source not known") if one == UNNAMED else one for one in found.sources]


def _decided(found: Claimed) -> str:
    """The lots that decide, for the one line there is room to point at."""
    if not found.lots:
        return ""
    words = tr("Decided by {lots}: {names}.")
    return words.format(lots=_few(found.lots), names=_few(_named(found)))


def _organic(found: Claimed) -> Claim:
    if found.ruling is Ruling.ALLOWED:
        return Claim(Mark.READY, tr("Organic:"), tr("every source claims it"))
    if found.ruling is Ruling.NOT_ALLOWED:
        words = tr("{n} sources are not").format(n=len(found.sources))
        if len(found.sources) == 1:
            words = tr("{name} is not").format(name=_few(_named(found)))
        return Claim(Mark.NOTE, tr("Not organic:"), words, _decided(found))
    return Claim(Mark.NOTE, tr("Organic not proved:"), _not_said(found), _decided(found))


def _countries(found: Claims) -> list[Claim]:
    parts = found.countries
    if [part.name for part in parts] == [""]:
        return [Claim(Mark.NOTE, tr("Country not known:"), tr("none on record"))]
    if found.of(COUNTRY).ruling is Ruling.ALLOWED:
        return [Claim(Mark.READY, tr("Single country:"), parts[0].name)]
    is_proved = found.of(COUNTRIES).ruling is Ruling.ALLOWED
    mark = Mark.NOTE if is_proved else Mark.WARNING
    return [Claim(mark, tr("Countries:"), country_shares(parts), _spread(parts))]


def country_shares(parts: Sequence[CountryShare]) -> str:
    """Every country with its share, in falling order, adding up to 100.0 %."""
    shares = [f"{format_number(Fraction(part.share, 10), 1)} %" for part in parts]
    pairs = zip(parts, shares, strict=True)
    return ", ".join(f"{part.name or tr('not known')} {share}" for part, share in pairs)


def _spread(parts: Sequence[CountryShare]) -> str:
    """What a country may be of any one jar, where that is not the same of all."""
    words = tr("{name} {lowest} to {highest} %")
    rows = [
        words.format(
            name=part.name,
            lowest=format_number(Fraction(part.lowest, 10), 1),
            highest=format_number(Fraction(part.highest, 10), 1),
        )
        for part in parts
        if part.name and part.lowest != part.highest
    ]
    return tr("Of any one jar: {shares}.").format(shares=", ".join(rows)) if rows else ""


def _not_for(found: Claimed) -> Claim:
    lead = tr("Not eligible for {market}:").format(market=", ".join(found.says))
    return Claim(Mark.WARNING, lead, _few(_named(found)), _decided(found))


def _few(names: Sequence[str]) -> str:
    more = len(names) - MOST_NAMED
    shown = ", ".join(names[:MOST_NAMED])
    return tr("{names} and {n} more").format(names=shown, n=more) if more > 0 else shown
