"""From one step of a bottling to the next: what the form shows when something is chosen, scanned,
or recorded.

Nothing is recorded here, and nothing that was typed is lost: a choice begins a field only where it
is empty.
"""

import re
from dataclasses import dataclass, replace

from honeyledger.desktop.stations.bottling.typed import (
    CHANGE,
    CLOSE,
    LABELS,
    LEFT,
    NO,
    OF_BOTTLING,
    OF_CHANGE,
    START,
    WEIGH,
    YES,
    AtFiller,
    Typed,
    cleared,
    jars_by_mass,
    packaging_of,
)
from honeyledger.services.bottling import Feed, feed_of
from honeyledger.services.bottling_page import BottlingPage

_CODE_OF_PACKAGING = re.compile(r"[A-Z]*A\d\d-")


@dataclass(frozen=True, slots=True)
class After:
    """What follows from a scan.

    Args:
        at: the field the keyboard goes to; "" for where the form begins.
        bottling: an open bottling that is taken in hand.
        note: what is said of it, where nothing changes.
        is_double: the same code was scanned a moment ago, so that nothing follows.
    """

    typed: Typed
    at: str = ""
    bottling: str = ""
    note: str = ""
    is_double: bool = False


def kinds_now(is_open: bool) -> tuple[str, ...]:
    """What can happen: in a bottling, or while none is in hand."""
    return (WEIGH, CHANGE, CLOSE, LABELS) if is_open else (START, LABELS, LEFT)


def chosen(typed: Typed, kind: str, page: BottlingPage, filler: AtFiller) -> Typed:
    """The form for another kind of happening, with what is known already."""
    sheet = page.sheet
    changed = replace(typed, kind=kind)
    if typed.kind == kind:
        return changed
    if kind == START:
        return _with_product(changed, page)
    if kind == CHANGE and sheet is not None:
        following = typed.next or next(iter(typed.order), "")
        return replace(changed, empty=YES if sheet.feed.is_drum else NO, next=following)
    if kind == CLOSE:
        return replace(changed, empty=NO)
    if kind == LABELS and sheet is not None:
        coming = [feed_of(page.feeds, code) for code in typed.order]
        more_g = sum(feed.grams for feed in coming if feed is not None)
        last = str(jars_by_mass(sheet, filler, more_g))
        return replace(changed, lot=sheet.bottling.code, first="1", last=last)
    return changed


def _with_product(typed: Typed, page: BottlingPage) -> Typed:
    """The only product there is need not be chosen."""
    if typed.product or len(page.products) != 1:
        return typed
    return replace(typed, product=page.products[0].key)


def fitting(typed: Typed, page: BottlingPage, filler: AtFiller) -> Typed:
    """The form with a kind of happening that can be now, as the page has come."""
    if typed.kind in kinds_now(page.sheet is not None):
        return _with_product(typed, page) if typed.kind == START else typed
    kind = WEIGH if page.sheet is not None else START
    return chosen(typed, kind, page, filler)


def scanned(
    page: BottlingPage, typed: Typed, filler: AtFiller, code: str, serial: int = 0
) -> After | None:
    """What a code means here; None where it means nothing and its card is to open.

    Args:
        serial: of a jar's code, which jar; 0 of every other.
    """
    if (jar := _jar(page, typed, filler, code, serial)) is not None:
        return jar
    if page.sheet is not None and code in page.sheet.feed.codes:
        return _ran_empty(page, typed, filler)
    if typed.kind == CLOSE and _CODE_OF_PACKAGING.match(code):
        codes = dict.fromkeys((*packaging_of(typed), code))
        return After(replace(typed, packaging=", ".join(codes)), "packaging")
    feed = feed_of(page.feeds, code)
    if feed is None:
        return None
    if typed.kind == LEFT:
        return After(replace(typed, lot=feed.code), "gross") if feed.is_drum else None
    if page.sheet is None:
        return with_feed(chosen(typed, START, page, filler), feed)
    kind = CHANGE if typed.kind != CHANGE else typed.kind
    return After(replace(chosen(typed, kind, page, filler), next=feed.code), "jars")


def _jar(
    page: BottlingPage, typed: Typed, filler: AtFiller, code: str, serial: int
) -> After | None:
    """A jar of the bottling in hand is the counter; another open bottling is taken in hand."""
    in_hand = page.sheet.bottling.code if page.sheet else ""
    if code == in_hand and serial:
        kind = CLOSE if typed.kind == CLOSE else CHANGE
        counted = str(serial + filler.counter)
        return After(replace(chosen(typed, kind, page, filler), jars=counted, case=""), "jars")
    if code in [row.code for row in page.bottlings]:
        return After(typed, bottling=code)
    if typed.kind == LABELS and code in [row.code for row in page.jars]:
        which = str(serial) if serial else ""
        return After(replace(typed, lot=code, first=which, last=which), "first")
    return None


def _ran_empty(page: BottlingPage, typed: Typed, filler: AtFiller) -> After:
    """The feed that runs was scanned: it is empty, and the counter or its mass says the serial."""
    kind = CLOSE if typed.kind == CLOSE else CHANGE
    changed = replace(chosen(typed, kind, page, filler), empty=YES)
    return After(changed, "next" if kind == CHANGE and not changed.next else "jars")


def with_feed(typed: Typed, feed: Feed) -> After:
    """One more feed in the order; none stands in it twice."""
    if feed.code in typed.order:
        return After(typed, "feed", note=feed.name)
    at = "feed" if typed.product else "product"
    return After(replace(typed, order=(*typed.order, feed.code), feed=""), at)


def after_start(typed: Typed) -> Typed:
    """The first feed runs, the others are still to come."""
    order = typed.order if typed.order else (typed.feed.strip(),)
    emptied = cleared(typed, ("feed", "about", "counter", *OF_BOTTLING))
    return replace(emptied, kind=WEIGH, order=order[1:])


def after_change(typed: Typed, page: BottlingPage) -> Typed:
    """The next feed runs, and is no longer to come."""
    ran = feed_of(page.feeds, typed.next)
    codes = ran.codes if ran is not None else (typed.next.strip(),)
    order = tuple(code for code in typed.order if code not in codes)
    return replace(cleared(typed, OF_CHANGE), kind=WEIGH, order=order)


def after_close(typed: Typed, code: str, left_in: str) -> Typed:
    """The jars are made: their labels are next, or what is left in the drum, or another start."""
    emptied = replace(cleared(typed, (*OF_BOTTLING, "first", "last", "gross")), order=())
    if typed.in_line == NO:
        return replace(emptied, kind=LABELS, lot=code)
    if left_in:
        return replace(emptied, kind=LEFT, lot=left_in)
    return replace(emptied, kind=START, lot="")
