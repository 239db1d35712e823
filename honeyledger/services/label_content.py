"""What a jar's label says, and what it lacks by the markets its product is for.

Markets come from outside, see `exchange.label_content`; a house's own wordings stand over them.
Where a market wants the countries of origin and the product's record has no line for them, the
line is made from the ledger: the countries of the honey in reach, with their shares.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from honeyledger.domain.claims import COUNTRIES, Claims, Ruling
from honeyledger.domain.label_content import (
    ADDRESS,
    BEST_BEFORE,
    CAUTION,
    COLOUR,
    GRADE,
    ITEMS,
    LOOK,
    LOT,
    NAME,
    NET,
    ORIGIN,
    PARTY,
    STORAGE,
    STYLE,
    US_FIRST,
    Asked,
    Market,
    Said,
    doubtful,
    lacking,
    markets_named,
    printed_texts,
    with_own,
)
from honeyledger.domain.phrases import Phrase, phrase
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.claims import claims_of, frozen, names_in
from honeyledger.ledger.entry import Json, Lot
from honeyledger.services.best_before import best_before
from honeyledger.services.claims import COUNTRIES_SAID, MARKETS_SAID, origin_line, shares_text
from honeyledger.services.label_marks import PRACTICE, LabelWarning, lot_mark
from honeyledger.services.papers import INFANT_CAUTION, net_content
from honeyledger.services.store import View

LABEL_LACKS = Sentence(
    "label-lacks",
    "The label of {product} lacks {missing}. Put it on record under Products or The house, then "
    "print again; check your local code, too.",
)

Record = Mapping[str, Json]


@dataclass(frozen=True, slots=True)
class ContentRow:
    """One line a market asks for, and what stands there.

    Args:
        says: the words on the label, "" where there are none.
        lacks: it has to be there and is not; where not `verified`, it may have to be.
    """

    market: str
    what: Phrase
    says: str
    lacks: bool
    verified: bool
    source: str
    as_of: str


@dataclass(frozen=True, slots=True)
class LabelContent:
    """All that stands on a jar's label but its own code.

    Args:
        markets: those it is for, a house's own wordings over them.
        unknown: markets its product names of which no file says anything.
    """

    product: str
    net_g: int
    items: Mapping[str, str]
    markets: tuple[Market, ...]
    unknown: tuple[str, ...]
    panel_mm2: float
    said: Said

    @property
    def missing(self) -> tuple[Asked, ...]:
        """What has to be on it and is not."""
        return lacking(self.markets, self.said)

    @property
    def in_doubt(self) -> tuple[Asked, ...]:
        """What may have to be on it: nobody has seen that in its source."""
        return doubtful(self.markets, self.said)

    @property
    def texts(self) -> tuple[str, ...]:
        """What the house wants printed besides."""
        return printed_texts(self.markets)

    @property
    def us_first(self) -> bool:
        """Whether ounces and pounds stand before grams."""
        return any(market.units == US_FIRST for market in self.markets)

    def refuse_gaps(self) -> None:
        """Nothing is printed that lacks what its markets ask for.

        Raises:
            Refusal: something is missing; all of it is named.
        """
        if self.missing:
            missing = "; ".join(one.words for one in self.missing)
            raise Refusal(LABEL_LACKS, field="code", product=self.product, missing=missing)


def label_content(
    view: View,
    product: Record,
    lot: Lot | None,
    code: str,
    bottled: date,
    markets: Sequence[Market],
) -> LabelContent:
    """What the label of a jar lot, or of an open bottling, says.

    Raises:
        Refusal: its origin line asks for countries that are not known.
    """
    house = _record(view, "house")
    own = [mark.value for mark in view.marked("record", "wording/")]
    known = with_own(markets, [one for one in own if isinstance(one, Mapping)])
    names = names_in(_text(product, MARKETS_SAID)) or names_in(_text(house, "markets"))
    chosen = markets_named(known, names)
    origin, told = _origin(view, product, lot, code, chosen)
    keeps, net = (_number(product, name) for name in ("keeps_months", "net_g"))
    party = _text(product, "party")
    address = _text(product, "party_address") if party else ""
    items = {
        NAME: _text(product, "label") or _text(product, "name"),
        NET: net_content(net, us_first=any(one.units == US_FIRST for one in chosen))
        if net
        else "",
        PARTY: party or _text(house, "producer") or _text(house, "name"),
        ADDRESS: address or ("" if party else _text(house, "address") or _text(house, "place")),
        ORIGIN: origin,
        LOT: lot_mark(view, code, bottled),
        BEST_BEFORE: _text(product, "best_before") or best_before(bottled, keeps or None),
        GRADE: _text(product, "grade"),
        COLOUR: _text(product, "colour_class"),
        STYLE: _text(product, "style"),
        CAUTION: _text(house, "caution") or INFANT_CAUTION,
        STORAGE: _text(product, "storage") or _text(house, "storage"),
    }
    return LabelContent(
        product=_text(product, "name"),
        net_g=net,
        items=items,
        markets=chosen,
        unknown=tuple(one for one in names if not any(market.is_called(one) for market in known)),
        panel_mm2=_number(product, "panel_width_um") * _number(product, "panel_height_um") / 1e6,
        said=Said(items, keeps or None, told),
    )


def content_rows(content: LabelContent) -> tuple[ContentRow, ...]:
    """Each line of each market, with what stands there."""
    missing, doubt = set(content.missing), set(content.in_doubt)
    rows = []
    for market in content.markets:
        for line in market.lines:
            asked = Asked(market.name, line)
            looks = line.item == LOOK
            rows.append(
                ContentRow(
                    market=market.name,
                    what=phrase("to look at: {text}", text=line.text)
                    if looks
                    else ITEMS[line.item],
                    says="" if looks else content.items.get(line.item, ""),
                    lacks=asked in missing or asked in doubt,
                    verified=line.mark.decides,
                    source=line.source,
                    as_of=line.as_of,
                )
            )
    return tuple(rows)


def content_warnings(content: LabelContent) -> tuple[LabelWarning, ...]:
    """What a label lacks, before it is printed: what is refused then, and what is in doubt."""
    found = [
        LabelWarning(
            phrase("It lacks {what}, for {market}.", what=ITEMS[one.line.item], market=one.market),
            one.line.source,
            one.line.mark.decides,
        )
        for one in (*content.missing, *content.in_doubt)
    ]
    found += [
        LabelWarning(phrase("No content of labels is on file for {market}.", market=one), PRACTICE)
        for one in content.unknown
    ]
    return tuple(found)


def _origin(
    view: View, product: Record, lot: Lot | None, code: str, markets: Sequence[Market]
) -> tuple[str, bool]:
    """The origin line, and whether it names each country of a blend with its share."""
    typed = _text(product, "origin")
    asked = [line for market in markets for line in market.lines if line.item == ORIGIN]
    claims = (frozen(view, code) or claims_of(view, {lot.id: lot.made_g})) if lot else None
    if not typed and asked and lot is not None:
        typed = _computed(claims, shares=any(line.shares for line in asked))
        return typed, True
    line = origin_line(view, product, lot, code)
    if claims is None or len(claims.countries) < 2 or product.get(COUNTRIES_SAID):
        return line, True
    names = [one.name.casefold() for one in claims.countries]
    told = all(name and name in line.casefold() for name in names)
    return line, told and line.count("%") >= len(names)


def _computed(claims: Claims | None, *, shares: bool) -> str:
    """The countries in reach as a label has them; "" where not all are on record."""
    told = claims.of(COUNTRIES) if claims else None
    if claims is None or told is None or told.ruling is not Ruling.ALLOWED:
        return ""
    if len(claims.countries) == 1:
        return f"Origin: {claims.countries[0].name}"
    if shares:
        return f"Origin: {shares_text(claims.countries)}"
    return f"Origin: {', '.join(one.name for one in claims.countries)}"


def _record(view: View, subject: str) -> Record:
    mark = view.mark(subject, "record")
    return mark.value if mark and isinstance(mark.value, Mapping) else {}


def _text(record: Record, name: str) -> str:
    return str(record.get(name, "")).strip()


def _number(record: Record, name: str) -> int:
    value = record.get(name)
    return value if isinstance(value, int) else 0
