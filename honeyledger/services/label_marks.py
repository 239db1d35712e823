"""What a label's date and lot mark lack by what a market asks, each with where that is written.

These are warnings and no more: they print nothing and hold nothing back. What was not seen in its
source is told so; what has none is common practice. Follow your local code.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from honeyledger.domain.moments import day_of, house_day
from honeyledger.domain.phrases import Phrase, phrase
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.claims import claims_of, names_in
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.lookup import find_lot
from honeyledger.services.claims import MARKETS_SAID, product_of
from honeyledger.services.store import View

LOT_MARK, BY_DATE = "lot_mark", "date"  # as the house's record says what stands for the lot
PRACTICE = phrase("common practice, no source")
DAY_MS = 86_400_000
ANNEX_X = "Regulation (EU) 1169/2011, annex X"
YEAR_IS_ENOUGH, DAY_IS_NEEDED = 18, 3  # months; from annex X
# Grams; up to 150 g any. Archived page of the Canadian agency under the former Honey Regulations.
_CANADIAN = (250, 375, 500, 750, 1_000, 1_500, 2_000, 3_000, 5_000)
_ANY_CANADIAN = 150
_ARCHIVED = phrase("archived Honey Regulations; check the current list")


@dataclass(frozen=True, slots=True)
class LabelWarning:
    """What a label lacks, and where that it should have it is written.

    Args:
        is_verified: whether that was seen in its source.
    """

    text: Phrase
    source: str
    is_verified: bool = True


def label_warnings(view: View, text: str, now_ms: int) -> tuple[LabelWarning, ...]:
    """What is worth knowing before labels of a jar lot are printed; nothing of other lots.

    Raises:
        Refusal: no such code.
    """
    lot = find_lot(view, text, field="code")
    product = product_of(view, lot)
    if lot.kind != "J" or not product:
        return ()
    entry = view.entry(lot.made_by)
    assert entry is not None
    bottled = day_of(entry.act.happened)
    markets = {one.casefold() for one in names_in(str(product.get(MARKETS_SAID, "")))}
    return (
        *_of_lot_mark(view, lot, bottled),
        *_of_best_before(product, bottled, house_day(now_ms, rules_of(view).zone)),
        *_of_age(view, lot, bottled),
        *_of_markets(product, markets),
    )


def lot_mark(view: View, code: str, bottled: date) -> str:
    """What stands for the lot on a label: its code, or the day it was bottled."""
    return f"{bottled:%d %m %Y}" if _goes_by_date(view) else code


def _goes_by_date(view: View) -> bool:
    mark = view.mark("house", "record")
    record = mark.value if mark and isinstance(mark.value, Mapping) else {}
    return record.get(LOT_MARK) == BY_DATE


def _of_lot_mark(view: View, lot: Lot, bottled: date) -> Iterator[LabelWarning]:
    if not _goes_by_date(view):
        return
    made = view.entry(lot.made_by)
    since = made.act.happened.at_ms - DAY_MS if made else 0
    others = [
        one.code
        for entry in view.entries(("bottle",), since)
        if day_of(entry.act.happened) == bottled and not view.reversed_by(entry.id)
        for one in entry.lots
        if one.kind == "J" and one.id != lot.id
    ]
    if others:
        words = phrase(
            "The day alone is the lot mark, and {others} shares it: a call-back takes both.",
            others=", ".join(others),
        )
        yield LabelWarning(words, "Directive 2011/91/EU, article 3")


def _of_best_before(
    product: Mapping[str, Json], bottled: date, today: date
) -> Iterator[LabelWarning]:
    line, keeps = str(product.get("best_before", "")), product.get("keeps_months")
    months = keeps if isinstance(keeps, int) else 0
    if not line and not months:
        words = phrase("It has no best-before line: put how many months it keeps on record.")
        yield LabelWarning(words, PRACTICE)
        return
    if line and 0 < months <= YEAR_IS_ENOUGH and _names_only_a_year(line):
        words = phrase("Its best-before line names a year only; up to 18 months the month is due.")
        yield LabelWarning(words, ANNEX_X)
    if months and _months_on(bottled, months) < (today.year, today.month):
        yield LabelWarning(phrase("Its best before is over by now."), PRACTICE)


def _of_age(view: View, lot: Lot, bottled: date) -> Iterator[LabelWarning]:
    """Honey may be older than its jar."""
    claims = claims_of(view, {lot.id: lot.made_g})
    oldest = min((int(one) for one in claims.of("crop").says), default=0) if claims else 0
    if oldest and oldest < bottled.year:
        words = phrase(
            "Its best before counts from bottling, and its oldest honey is of {year}.", year=oldest
        )
        yield LabelWarning(words, PRACTICE)


def _names_only_a_year(line: str) -> bool:
    without = re.sub(r"\b(?:19|20)\d\d\b", "", line)
    months = r"\d|jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec"
    return without != line and re.search(months, without, re.I) is None


def _months_on(day: date, months: int) -> tuple[int, int]:
    """The year and month so many months later."""
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return year, month + 1


def _of_markets(product: Mapping[str, Json], markets: set[str]) -> Iterator[LabelWarning]:
    net = product.get("net_g", 0)
    net_g = net if isinstance(net, int) else 0
    if "canada" in markets and net_g > _ANY_CANADIAN and net_g not in _CANADIAN:
        words = phrase("{net} g was no size for honey in jars there.", net=net_g)
        yield LabelWarning(words, _ARCHIVED)
