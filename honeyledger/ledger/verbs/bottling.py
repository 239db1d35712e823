"""Bottling: jars filled from a vessel or drum, change-overs, the jar lot at the end.

A jar's serial belongs to the fill that ran when it was filled. Around each change-over the
serial may be off by the margin, frozen with the lot; a serial inside it belongs in equal parts
to every fill within the margin.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.claims import freeze
from honeyledger.ledger.entry import Json
from honeyledger.ledger.holds import ask_held
from honeyledger.ledger.lookup import find_record, read_code
from honeyledger.ledger.mixing import contents, draw, feed, has_in, keep_late, recall_late, settle
from honeyledger.ledger.packaging import find_packaging, note_added, use_up
from honeyledger.ledger.places import FILLING, JARS, key_of, place
from honeyledger.ledger.sources import find_source, number_in
from honeyledger.ledger.wetness import note_fermenting

NO_BOTTLING = Sentence(
    "no-bottling", "{code} is not an open bottling. Start one: name the product and the vessel."
)
NO_PRODUCT = Sentence("no-product", "Name the product and the vessel or drum it is filled from.")
NO_NET_CONTENT = Sentence(
    "no-net-content", "{product} has no net content on record. Put it into its record first."
)
BELOW_NONE = Sentence("below-none", "{rejects} rejects cannot be: type 0 or more.")
COUNTER_BACK = Sentence(
    "counter-back",
    "The counter stood at {last} before and cannot be {jars} now. Read it again, or reverse the "
    "wrong change-over.",
)
NO_JARS = Sentence("no-jars", "No jars were filled: reverse the start of this bottling instead.")
BAD_MEAN = Sentence(
    "bad-mean-net",
    "A mean net of {mean} g does not fit jars of {net} g. Weigh the sample again, jar by jar.",
)
SERIALS_END = Sentence(
    "serials-end", "One jar lot has serials up to 99999. Close this bottling and start another."
)


@dataclass(frozen=True, slots=True)
class ChangeOver:
    """The jars so far leave the feed; with a new feed, the next ones come from there.

    Without a bottling it starts one: product and feed are needed, and jars is 0.

    Args:
        jars: what the counter says, from the start of this bottling.
        mean_net_mg: checked mean net of the jars since the last change-over, milligrams.
        empty: the feed ran empty: what still clings there in the books is difference.
    """

    kind: ClassVar[str] = "change-over"
    bottling: str = ""
    product: str = ""
    feed: str = ""
    jars: int = 0
    mean_net_mg: int | None = None
    empty: bool = False
    despite_hold: str = ""


@dataclass(frozen=True, slots=True)
class Bottle:
    """The bottling is closed: what was filled becomes one jar lot.

    Args:
        jars: the counter at the end.
        rejects: jars taken out after the counter; they widen the margin.
        in_line: labelled as filled, so that serials are in filling order.
        packaging: lots of jars, lids and labels used; they are in reach at 0 g.
    """

    kind: ClassVar[str] = "bottle"
    bottling: str
    jars: int
    mean_net_mg: int | None = None
    rejects: int = 0
    in_line: bool = True
    empty: bool = False
    despite_hold: str = ""
    packaging: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Open:
    code: str
    product: str
    net_g: int
    feed: str
    jars: int
    began_ms: int


def book_change_over(facts: ChangeOver, b: Booking) -> None:
    """Start a bottling, or move the jars so far and go on from another feed."""
    if not facts.bottling:
        _start(facts, b)
        return
    opened = _open(facts.bottling, b)
    _fill_jars(b, opened, facts.jars, facts.mean_net_mg, facts.empty, facts.despite_hold)
    source = find_source(b, facts.feed, "feed") if facts.feed else opened.feed
    _ask(b, source, facts.despite_hold)
    if source != opened.feed:
        note_fermenting(b, map(b.lot, contents(b, source)))
    _mark_open(b, opened.code, opened.product, opened.net_g, source, facts.jars)


def _start(facts: ChangeOver, b: Booking) -> None:
    if not facts.product or not facts.feed:
        raise Refusal(NO_PRODUCT, field="product" if not facts.product else "feed")
    subject, record = find_record(b.state, "product", facts.product)
    source = find_source(b, facts.feed, "feed")
    _ask(b, source, facts.despite_hold)
    net = number_in(record, "net_g", 0)
    if not net:
        raise Refusal(NO_NET_CONTENT, field="product", product=record.get("name", facts.product))
    note_fermenting(b, map(b.lot, contents(b, source)))
    code = b.new_code("J")
    _mark_open(b, code, key_of(subject), net, source, 0)
    b.mark(place("bottling", code), "started", 1)
    b.touches(place(FILLING, code))


def _ask(b: Booking, feed_place: str, why: str) -> None:
    ask_held(b, contents(b, feed_place), why, "feed")


def _mark_open(
    b: Booking, code: str, product: str, net_g: int, feed_place: str, jars: int
) -> None:
    value = {"product": product, "net_g": net_g, "feed": feed_place, "jars": jars}
    b.mark(place("bottling", code), "open", value)


def _open(text: str, b: Booking) -> _Open:
    code = str(read_code(b.state, text, "bottling"))
    mark = b.state.mark(place("bottling", code), "open")
    value = mark.value if mark else 0
    if not isinstance(value, Mapping):
        raise Refusal(NO_BOTTLING, field="bottling", code=code)
    net, jars = (int(str(value[name])) for name in ("net_g", "jars"))
    entry = b.state.entry(mark.entry) if mark else None
    began_ms = entry.act.happened.at_ms - entry.act.unsure_ms if entry else b.at_ms
    return _Open(code, str(value["product"]), net, str(value["feed"]), jars, began_ms)


def _fill_jars(
    b: Booking, opened: _Open, jars: int, mean_net_mg: int | None, empty: bool, why: str
) -> None:
    """The jars since the last change-over leave the feed, at their mean net.

    The filler is not washed inside a bottling: what ran before is in the reach of what runs now.
    """
    if jars < opened.jars:
        raise Refusal(COUNTER_BACK, field="jars", last=opened.jars, jars=jars)
    if jars > 99_999:
        raise Refusal(SERIALS_END, field="jars")
    mean_mg = mean_net_mg if mean_net_mg is not None else opened.net_g * 1000
    if not opened.net_g * 500 <= mean_mg <= opened.net_g * 1500:
        mean = f"{mean_mg / 1000:.1f}"
        raise Refusal(BAD_MEAN, field="mean_net_mg", mean=mean, net=opened.net_g)
    filling = place(FILLING, opened.code)
    b.touches(filling)
    filled = jars - opened.jars
    if not filled:
        if empty:
            _run_empty(b, opened.feed)
        return
    _ask(b, opened.feed, why)
    grams = (filled * mean_mg + 500) // 1000
    before = {row.lot.id for row in b.standing(filling)}
    taken = draw(b, opened.feed, grams, opened.began_ms)
    for lot, part in taken:
        b.comes(filling, lot)
        b.move(lot, opened.feed, filling, part)
    keep_late(b, filling, taken)
    if empty:
        _run_empty(b, opened.feed)
    clings = sorted(before - {lot for lot, _ in taken})
    lots = [lot for lot, _ in taken] + [one for one in clings if not has_in(b, opened.feed, one)]
    first = opened.jars + 1
    value = {"first": first, "last": jars, "lots": lots}
    b.mark(place("bottling", opened.code), f"segment/{first:05d}", value)


def _run_empty(b: Booking, feed_place: str) -> None:
    """What the books still see in a feed that ran empty clings there: weighing difference."""
    feed(b, feed_place)
    if (clings := b.grams_at(feed_place)) > 0:
        b.differ(settle(b, feed_place), feed_place, -clings)
        b.touches(feed_place)


def book_bottle(facts: Bottle, b: Booking) -> None:
    """Close the bottling: its jars become one lot, its segments and margin frozen in it."""
    opened = _open(facts.bottling, b)
    if facts.rejects < 0:
        raise Refusal(BELOW_NONE, field="rejects", rejects=facts.rejects)
    _fill_jars(b, opened, facts.jars, facts.mean_net_mg, facts.empty, facts.despite_hold)
    filling = place(FILLING, opened.code)
    rows = b.standing(filling)
    total = sum(row.grams for row in rows)
    if not total:
        raise Refusal(NO_JARS, field="jars")
    recall_late(b, filling)
    note_fermenting(b, [row.lot for row in rows])
    packaging = find_packaging(b, facts.packaging)
    ask_held(b, [one.id for one in packaging], facts.despite_hold, "packaging")
    use_up(b, packaging, facts.jars + facts.rejects)
    lot = b.make_lot(
        "J",
        total,
        [*((row.lot.id, row.grams) for row in rows), *((one.id, 0) for one in packaging)],
        code=opened.code,
        attributes={
            "product": opened.product,
            "net_g": opened.net_g,
            "jars": facts.jars,
            "margin": b.rules.jar_margin + facts.rejects,
            "segments": _segments(b, opened, facts.jars) if facts.in_line else [],
        },
    )
    for row in rows:
        b.post(row.lot.id, filling, -row.grams)
        b.leaves(filling, row.lot.id)
    note_added(b, lot)
    b.comes(JARS, lot.id)
    b.post(lot.id, JARS, total)
    b.pieces(lot.id, JARS, facts.jars)
    b.mark(place("bottling", opened.code), "open", 0)
    freeze(b, lot)
    b.touches(filling)


def _segments(b: Booking, opened: _Open, jars: int) -> list[Json]:
    """[fill, first serial, last serial] of each stretch, in order of filling."""
    rows: list[Json] = []
    for mark in b.state.marks(place("bottling", opened.code)):
        if mark.name.startswith("segment/") and isinstance(mark.value, Mapping):
            rows += _segment_rows(mark.value)
    if jars > opened.jars:
        for value in b.marked_now(place("bottling", opened.code), "segment/"):
            assert isinstance(value, Mapping)
            rows += _segment_rows(value)
    return rows


def _segment_rows(value: Mapping[str, Json]) -> list[Json]:
    lots = value["lots"]
    assert isinstance(lots, Sequence)
    return [[lot, value["first"], value["last"]] for lot in lots]
