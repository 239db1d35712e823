"""Everything the bottling station shows at once: what can be bottled, what is, what it holds."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from honeyledger.domain.phrases import phrase
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.places import FILLING, key_of, place
from honeyledger.services.bottling import (
    BottlingSheet,
    Feed,
    Feeds,
    OpenBottling,
    Product,
    bottling_sheet,
    feed_of,
    open_bottlings,
    products,
    standing_in,
)
from honeyledger.services.bottling_makeup import Makeup, makeup_of
from honeyledger.services.claims import claims_anything, label_against, label_rule
from honeyledger.services.dock import Choice
from honeyledger.services.instruments import instruments
from honeyledger.services.setup import mass_unit
from honeyledger.services.standing_now import JarsNow, jars_now
from honeyledger.services.store import View
from honeyledger.services.tied import Tied, tied_by

FILLED = phrase("what is filled")


@dataclass(frozen=True, slots=True)
class Wanted:
    """What the station has in hand.

    Args:
        bottling: an open one's code; where it is none, the oldest open one is taken.
        is_starting: whether another one is about to be begun, so that none is in hand.
        order: codes of the feeds that are to come, in their order.
    """

    bottling: str = ""
    is_starting: bool = False
    order: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class BottlingPage:
    """The station at one moment.

    Args:
        ledger: the ledger's own id, which tells two houses apart.
        feeds: what has honey in it.
        sheet: the bottling in hand, None where none is.
        makeup: what the jars will hold once the feed that runs and those to come are used up.
        holds: what holds any of that honey, in words.
        jar_margin: how many jars a change-over may be off.
        net_rule: the rule for net contents the house goes by, "" for the usual one.
        against: by product, what its label claims and the make-up refuses.
        tied: what that honey ties together, were a source of it called back.
    """

    ledger: str
    unit: MassUnit
    zone: str
    products: tuple[Product, ...]
    feeds: tuple[Feed, ...]
    bottlings: tuple[OpenBottling, ...]
    sheet: BottlingSheet | None
    makeup: Makeup | None
    holds: tuple[str, ...]
    jars: tuple[JarsNow, ...]
    jar_margin: int
    net_rule: str
    against: Mapping[str, tuple[Refusal, ...]]
    instruments: tuple[Choice, ...] = ()
    tied: Tied | None = None


def bottling_page(view: View, wanted: Wanted) -> BottlingPage:
    """The station with what it has in hand."""
    feeds, bottlings = Feeds(view), open_bottlings(view)
    on_hand = feeds.on_hand()
    in_hand = None if wanted.is_starting else _in_hand(bottlings, wanted.bottling)
    sheet = bottling_sheet(view, in_hand, feeds) if in_hand else None
    grams = _planned(view, sheet, [feed_of(on_hand, code) for code in wanted.order])
    rules, makeup = rules_of(view), makeup_of(view, grams)
    return BottlingPage(
        ledger=view.head().ledger_id,
        unit=mass_unit(view),
        zone=rules.zone,
        products=products(view),
        feeds=on_hand,
        bottlings=bottlings,
        sheet=sheet,
        makeup=makeup,
        holds=feeds.by_way(grams),
        jars=jars_now(view),
        jar_margin=rules.jar_margin,
        net_rule=_net_rule(view),
        instruments=instruments(view),
        against=_against(view, makeup) if makeup else {},
        tied=tied_by(view, grams) if grams else None,
    )


def _net_rule(view: View) -> str:
    mark = view.mark("house", "record")
    return str(mark.value.get("net_rule", "")) if mark and isinstance(mark.value, Mapping) else ""


def _against(view: View, makeup: Makeup) -> Mapping[str, tuple[Refusal, ...]]:
    """What the label of each product would claim of this make-up, and may not."""
    rule, found = label_rule(view), {}
    for mark in view.marked("record", "product/"):
        if isinstance(mark.value, Mapping) and claims_anything(mark.value):
            refusals = label_against(mark.value, makeup.claims, FILLED, rule)
            found[key_of(mark.subject)] = tuple(refusals)
    return found


def product_in_hand(page: BottlingPage, product: str) -> Product | None:
    """The product of the bottling in hand, else the one that is about to be filled."""
    if page.sheet is not None:
        return page.sheet.bottling.product
    return next((row for row in page.products if row.key == product), None)


def _in_hand(bottlings: Sequence[OpenBottling], code: str) -> OpenBottling | None:
    named = [row for row in bottlings if row.code == code]
    return next(iter((*named, *bottlings)), None)


def _planned(
    view: View, sheet: BottlingSheet | None, order: Sequence[Feed | None]
) -> Mapping[int, int]:
    """The lots in the jars so far, in the feed that runs, and in those to come."""
    places = [place(FILLING, sheet.bottling.code), sheet.feed.place] if sheet else []
    places += [feed.place for feed in order if feed is not None]
    grams: dict[int, int] = {}
    for where in dict.fromkeys(places):
        for row in standing_in(view, where):
            grams[row.lot.id] = grams.get(row.lot.id, 0) + max(0, row.grams)
    return grams
