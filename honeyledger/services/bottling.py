"""The bottling: what can be bottled from, the bottlings that are open, and how one goes on.

Everything here is as the books have it: jars since the last change-over are still honey in the
feed, and how many a feed still gives follows from its mass.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from honeyledger.domain.phrases import phrase
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.holds import Hold
from honeyledger.ledger.mixing import fed_by
from honeyledger.ledger.places import DRUM, FILLING, VESSEL, class_of, key_of, place
from honeyledger.ledger.state import Mark, Standing
from honeyledger.ledger.wetness import dry_first_over, limit_words
from honeyledger.services.holding import (
    held_lots,
    held_sentence,
    hold_sentence,
    reading,
    values_on,
)
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View

LINE = "line"  # a vessel of this sort is an extracting line: jars are not filled from it


@dataclass(frozen=True, slots=True)
class Product:
    """What is bottled: its key, its name, the declared net, and the origin its label gives."""

    key: str
    name: str
    net_g: int
    origin: str


@dataclass(frozen=True, slots=True)
class Feed:
    """A drum or vessel that jars are filled from.

    Masses in grams, moisture in hundredths of a percent, colour in tenths of a Pfund millimetre.

    Args:
        place: the ledger's name of the place.
        code: the lot's code of a drum with one lot, else the container's or vessel's own.
        codes: every code that means it when it is scanned.
        state: "ready", "not read", "above" the house's limit, "not weighed" or "hold".
        reason: what holds it, in words.
    """

    place: str
    code: str
    codes: tuple[str, ...]
    name: str
    state: str
    reason: str
    grams: int
    moisture: int | None
    colour: int | None

    @property
    def is_drum(self) -> bool:
        """Whether it is a drum, which is mostly emptied, and not a vessel."""
        return class_of(self.place) == DRUM


@dataclass(frozen=True, slots=True)
class OpenBottling:
    """A bottling that goes on.

    Args:
        jars: what the counter said at the last change-over.
    """

    code: str
    product: Product
    feed: str
    feed_name: str
    jars: int
    started_ms: int


@dataclass(frozen=True, slots=True)
class Segment:
    """Jars of one feed, by their first and last serial: their honey, and its mean net."""

    first: int
    last: int
    code: str
    name: str
    grams: int

    @property
    def jars(self) -> int:
        """How many."""
        return self.last - self.first + 1

    @property
    def mean_mg(self) -> int:
        """The mean net of a jar as it was booked, milligrams."""
        return (self.grams * 2000 + self.jars) // (2 * self.jars)


@dataclass(frozen=True, slots=True)
class BottlingSheet:
    """A bottling in hand: its segments so far, and the feed that runs."""

    bottling: OpenBottling
    feed: Feed
    segments: tuple[Segment, ...]
    filled_g: int


def jars_in(grams: int, mean_mg: int) -> int:
    """How many whole jars of a mean net so much honey gives."""
    return max(0, grams) * 1000 // mean_mg


def products(view: View) -> tuple[Product, ...]:
    """All products, by name."""
    rows = [
        _product(key_of(mark.subject), mark.value)
        for mark in view.marked("record", "product/")
        if isinstance(mark.value, Mapping)
    ]
    return tuple(sorted(rows, key=lambda row: row.name.casefold()))


def _product(key: str, record: Mapping[str, Json]) -> Product:
    net = record.get("net_g", 0)
    return Product(
        key,
        str(record.get("name", key)),
        net if isinstance(net, int) else 0,
        str(record.get("origin", "")),
    )


class Feeds:
    """The drums and vessels of a house, looked up by place, from one reading of its holds."""

    def __init__(self, view: View) -> None:
        self._view = view
        self._held: Mapping[int, tuple[Hold, ...]] = held_lots(view)
        self._names = PlaceNames(view)
        self._dry_first = dry_first_over(view)

    def on_hand(self) -> tuple[Feed, ...]:
        """Drums and tanks with honey in them: those ready first, oldest first among equals."""
        oldest: dict[str, int] = {}
        for row in self._view.on_hand([DRUM, VESSEL]):
            if row.grams and not self._is_line(row.place):
                oldest.setdefault(row.place, row.lot.id)
        rows = [(self.at(where), lot) for where, lot in oldest.items()]
        order = {"hold": 2, "not weighed": 1}
        rows.sort(key=lambda row: (order.get(row[0].state, 0), row[0].is_drum, row[1]))
        return tuple(feed for feed, _ in rows)

    def _is_line(self, where: str) -> bool:
        mark = self._view.mark(where, "record")
        return bool(mark and isinstance(mark.value, Mapping) and mark.value.get("sort") == LINE)

    def at(self, where: str) -> Feed:
        """The feed at a place, whatever is left in it."""
        standing = standing_in(self._view, where)
        here = [row for row in standing if row.grams] or standing
        lots = [row.lot for row in here]
        one = lots[0] if len(lots) == 1 and class_of(where) == DRUM else None
        own = key_of(where)
        code = one.code if one is not None else own
        reasons = self.reasons({row.lot.id for row in standing})
        moisture = max(
            (value for lot in lots if (value := self._reading(lot, "moisture")) is not None),
            default=None,
        )
        name = self._names.of_record(where)
        return Feed(
            place=where,
            code=code,
            codes=tuple(dict.fromkeys((code, own, *(lot.code for lot in lots)))),
            name=name,
            state=self._state(reasons, lots, moisture, is_drum=class_of(where) == DRUM),
            reason=reasons[0] if reasons else "",
            grams=sum(row.grams for row in standing),
            moisture=moisture,
            colour=self._reading(one, "colour") if one is not None else None,
        )

    def _reading(self, lot: Lot, name: str) -> int | None:
        return reading(self._view, lot.code, name)

    def reasons(self, lots: Collection[int]) -> tuple[str, ...]:
        """The holds that reach any of these lots, in words."""
        holds = {hold.subject: hold for lot in lots for hold in self._held.get(lot, ())}
        return tuple(hold_sentence(self._view, holds[subject]) for subject in sorted(holds))

    def by_way(self, lots: Collection[int]) -> tuple[str, ...]:
        """The same with the way by which each hold comes to the first of them it reaches."""
        first = {
            hold.subject: (lot, hold)
            for lot in sorted(lots, reverse=True)
            for hold in self._held.get(lot, ())
        }
        return tuple(
            held_sentence(self._view, self._view.lot(first[subject][0]), first[subject][1])
            for subject in sorted(first)
        )

    def _state(
        self, reasons: Sequence[str], lots: Sequence[Lot], moisture: int | None, *, is_drum: bool
    ) -> str:
        if reasons:
            return phrase("hold")
        if values_on(self._view, "pending", [lot.code for lot in lots]):
            return phrase("not weighed")
        if moisture is not None and moisture > self._dry_first:
            return phrase("above {limit}", limit=limit_words(self._dry_first))
        return phrase("not read") if moisture is None and is_drum else phrase("ready")

    def name_of(self, lot: Lot) -> str:
        """What a lot is drawn from, as people call it: its tank, or its container."""
        if lot.kind == "T":
            return self._names.of_record(place(VESSEL, str(lot.attributes.get("vessel", ""))))
        amended = self._view.mark(lot.code, "container")
        container = str(amended.value if amended else lot.attributes.get("container", ""))
        return self._names.of_record(place(DRUM, container)) if container else lot.code

    def named(self, where: str) -> str:
        """What a place is called."""
        return self._names.of_record(where)


def feed_of(feeds: Sequence[Feed], code: str) -> Feed | None:
    """The feed a code, or its name, stands for; None for none with honey in it."""
    wanted = code.strip().casefold()
    for feed in feeds:
        if wanted and wanted in [one.casefold() for one in (*feed.codes, feed.name)]:
            return feed
    return None


def standing_in(view: View, where: str) -> list[Standing]:
    """What a draw from a place takes from: what stands there, and in the lines that feed it."""
    return [row for one in (where, *fed_by(view, where)) for row in view.standing(one)]


def open_bottlings(view: View) -> tuple[OpenBottling, ...]:
    """All bottlings that go on, oldest first."""
    names = PlaceNames(view)
    rows = []
    for mark in view.marked("open", "bottling/"):
        if isinstance(mark.value, Mapping):
            rows.append(_open(view, mark, mark.value, names))
    return tuple(sorted(rows, key=lambda row: (row.started_ms, row.code)))


def _open(view: View, mark: Mark, value: Mapping[str, Json], names: PlaceNames) -> OpenBottling:
    key, feed, jars = str(value["product"]), str(value["feed"]), value["jars"]
    record = view.mark(place("product", key), "record")
    known = record.value if record and isinstance(record.value, Mapping) else {}
    # The declared net is frozen as the bottling begins.
    product = _product(key, {**known, "net_g": value["net_g"]})
    started = view.mark(mark.subject, "started")
    return OpenBottling(
        code=key_of(mark.subject),
        product=product,
        feed=feed,
        feed_name=names.of_record(feed),
        jars=jars if isinstance(jars, int) else 0,
        started_ms=started.at_ms if started else mark.at_ms,
    )


def bottling_sheet(view: View, bottling: OpenBottling, feeds: Feeds) -> BottlingSheet:
    """A bottling as the entries have it now."""
    filling = place(FILLING, bottling.code)
    segments = []
    for mark in view.marks(place("bottling", bottling.code)):
        if mark.name.startswith("segment/") and isinstance(mark.value, Mapping):
            segments.append(_segment(view, mark, mark.value, feeds, filling))
    return BottlingSheet(
        bottling=bottling,
        feed=feeds.at(bottling.feed),
        segments=tuple(sorted(segments, key=lambda row: row.first)),
        filled_g=sum(row.grams for row in view.standing(filling)),
    )


def _segment(
    view: View, mark: Mark, value: Mapping[str, Json], feeds: Feeds, filling: str
) -> Segment:
    lots, first, last = value["lots"], value["first"], value["last"]
    assert isinstance(lots, Sequence)
    drawn = view.lot(int(str(lots[0])))
    entry = view.entry(mark.entry)
    rows = entry.postings if entry else ()
    return Segment(
        first=int(str(first)),
        last=int(str(last)),
        code=drawn.code,
        name=feeds.name_of(drawn),
        grams=sum(row.grams for row in rows if row.place == filling),
    )
