"""What a card of jars says of claims: what may be said, what not, and what its label lacks."""

from collections.abc import Sequence
from fractions import Fraction

from PySide6.QtCore import QCoreApplication

from honeyledger.assets import resource
from honeyledger.desktop.language import refusal_words, say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.lot_card import CardQuality
from honeyledger.domain.claims import Claimed, Claims, Ruling
from honeyledger.domain.units import format_number
from honeyledger.exchange.label_content import shipped_markets
from honeyledger.services.claims import LotClaims, lot_claims
from honeyledger.services.label_marks import LabelWarning
from honeyledger.services.labelling import jar_warnings
from honeyledger.services.store import View

JUDGED = "J"
_MOST_NAMED = 3


def _tr(text: str) -> str:
    return QCoreApplication.translate("card", text)


def claims_part(view: View, code: str, now_ms: int) -> tuple[CardQuality, ...]:
    """The rows of the part of a jar lot."""
    markets = shipped_markets(resource("labels", "content"))
    return claim_rows(lot_claims(view, code), jar_warnings(view, code, now_ms, markets))


def claim_rows(found: LotClaims, warnings: Sequence[LabelWarning] = ()) -> tuple[CardQuality, ...]:
    """What may be claimed as it was bottled, else by the books now, and what the label lacks."""
    claims = found.sealed or found.now
    if claims is None:
        return ()
    since = _tr("As it was bottled.") if found.sealed else _tr("By the books now.")
    rows = []
    for ruling, label in (
        (Ruling.ALLOWED, _tr("May be claimed")),
        (Ruling.NOT_PROVABLE, _tr("Not proved")),
        (Ruling.NOT_ALLOWED, _tr("Not to be claimed")),
    ):
        judged = [one for one in claims.claims if one.ruling is ruling and _name(one)]
        if judged:
            notes = _notes(judged) if ruling is not Ruling.ALLOWED else (since,)
            rows.append(CardQuality(label, ", ".join(map(_named, judged)), notes))
    if claims.countries:
        rows.append(CardQuality(_tr("Countries"), _shares(claims), _spread(claims)))
    if found.against:
        notes = tuple(refusal_words(one) for one in found.against)
        rows.append(CardQuality(_tr("Label"), _tr("is refused"), notes, Mark.WARNING))
    if warnings:
        notes = tuple(f"{say(one.text)} ({say(one.source)})" for one in warnings)
        rows.append(CardQuality(_tr("Label lacks"), _tr("see below"), notes))
    return tuple(rows)


def _name(one: Claimed) -> str:
    """What a claim is called; "" for those that have a row of their own."""
    names = {
        "yard": _tr("one yard"),
        "region": _tr("one region"),
        "floral": _tr("one floral kind"),
        "crop": _tr("one crop"),
        "organic": _tr("organic"),
        "country": _tr("one country"),
    }
    if one.claim.startswith("market/"):
        return _tr("eligible for {market}").format(market=", ".join(one.says))
    return names.get(one.claim, "")


def _named(one: Claimed) -> str:
    is_told = one.ruling is Ruling.ALLOWED and one.says
    return f"{_name(one)} ({one.says[0]})" if is_told else _name(one)


def _notes(judged: Sequence[Claimed]) -> tuple[str, ...]:
    """Which lots decide; claims that the same lots decide have one note together."""
    words = _tr("{claims}: decided by {lots} of {sources}")
    decided: dict[tuple[tuple[str, ...], tuple[str, ...]], list[str]] = {}
    for one in judged:
        decided.setdefault((one.lots, one.sources), []).append(_name(one))
    return tuple(
        words.format(claims=", ".join(names), lots=_few(lots), sources=_few(sources))
        for (lots, sources), names in decided.items()
    )


def _few(names: Sequence[str]) -> str:
    more = len(names) - _MOST_NAMED
    shown = ", ".join(names[:_MOST_NAMED])
    return _tr("{names} and {n} more").format(names=shown, n=more) if more > 0 else shown


def _shares(claims: Claims) -> str:
    return ", ".join(
        f"{one.name or _tr('not known')} {_percent(one.share)} %" for one in claims.countries
    )


def _spread(claims: Claims) -> tuple[str, ...]:
    words = _tr("Of any one jar {name} may be {lowest} to {highest} %.")
    return tuple(
        words.format(name=one.name, lowest=_percent(one.lowest), highest=_percent(one.highest))
        for one in claims.countries
        if one.name and one.lowest != one.highest
    )


def _percent(permille: int) -> str:
    return format_number(Fraction(permille, 10), 1)
