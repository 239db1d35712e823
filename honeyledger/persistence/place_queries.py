"""Questions about places: what stands there, what stood there, what came and went."""

from collections.abc import Collection, Iterable, Sequence
from typing import Any

from sqlalchemy import (
    Column,
    ColumnElement,
    CompoundSelect,
    Select,
    Table,
    func,
    literal_column,
    select,
    union_all,
)

from honeyledger.ledger.effects import (
    ARRIVED_AS_BEGAN,
    BY_WASH,
    DRAWN_AS_BEGAN,
    TOUCHED_AS_BEGAN,
    TOUCHED_AS_ENDED,
)
from honeyledger.ledger.places import INSIDE, class_of
from honeyledger.ledger.state import Event, Holding, Standing, Stay
from honeyledger.persistence.lot_queries import LotQueries, holdings_by_lot
from honeyledger.persistence.rows import lot_of
from honeyledger.persistence.short import class_lies_between, short, written
from honeyledger.persistence.statements import Row, Statement, as_list, is_among, the
from honeyledger.persistence.tables import (
    ARRIVED,
    DRAWN,
    HOLDING,
    IS_HERE,
    IS_OPEN,
    IS_SOMETHING,
    LOT,
    OPEN,
    STAY,
    TOUCHED,
    is_told,
)
from honeyledger.services.store import OnHand

_HELD = (HOLDING.c.place, HOLDING.c.lot, HOLDING.c.grams, HOLDING.c.pieces)

_STANDING = Statement(
    select(*LOT.c, HOLDING.c.grams, HOLDING.c.pieces, STAY.c.since_ms)
    .join_from(STAY, LOT, LOT.c.id == STAY.c.lot)
    .outerjoin(HOLDING, (HOLDING.c.lot == STAY.c.lot) & (HOLDING.c.place == STAY.c.place))
    .where(STAY.c.place == the("place"), literal_column(IS_OPEN))
    .order_by(STAY.c.lot),
    "place",
)
_STAYS = Statement(
    select(STAY.c.lot, STAY.c.since_ms, STAY.c.latest_ms, STAY.c.early_ms, STAY.c.told)
    .where(STAY.c.place == the("place"), STAY.c.latest_ms >= the("since"))
    .order_by(STAY.c.lot, STAY.c.entry),
    "place",
    "since",
)
_HOLDINGS = Statement(select(*_HELD).where(HOLDING.c.lot == the("lot")), "lot")


def _holdings_of(engine: str) -> Select[Any]:
    return select(*_HELD).where(is_among(HOLDING.c.lot, engine))


_EVER_HOLDINGS_OF = Statement(_holdings_of, "ids")
_HOLDINGS_OF = Statement(
    lambda engine: _holdings_of(engine).where(literal_column(f"({IS_SOMETHING})")), "ids"
)
_BETWEEN = (HOLDING.c.place >= the("first")) & (HOLDING.c.place < the("after"))
_HELD_HERE = Statement(select(*_HELD).where(_BETWEEN, literal_column(IS_HERE)), "first", "after")
_HELD_ANYWHERE = Statement(
    select(*_HELD).where(_BETWEEN, literal_column(f"({IS_SOMETHING})")), "first", "after"
)
_ON_HAND = Statement(
    select(*LOT.c, HOLDING.c.place, HOLDING.c.grams, HOLDING.c.pieces)
    .join_from(HOLDING, LOT, LOT.c.id == HOLDING.c.lot)
    .where(_BETWEEN, literal_column(IS_HERE)),
    "first",
    "after",
)


_TOTAL = Statement(select(func.sum(HOLDING.c.grams)))


def _since(table: Table, bit: int) -> CompoundSelect[Any]:
    """What came or went since, told by a row of its own or by a stay that began so."""
    own, begun = (
        select(rows.c.lot, at_ms.label("at_ms"), rows.c.entry).where(
            rows.c.place == the("place"), at_ms >= the("since")
        )
        for rows, at_ms in ((table, table.c.at_ms), (STAY, STAY.c.since_ms))
    )
    # A stay is kept in the order of its latest time, which is never before it began.
    begun = begun.where(STAY.c.latest_ms >= the("since"), is_told(bit))
    both = union_all(own, begun)
    return both.order_by(*(both.selected_columns[name] for name in ("at_ms", "lot", "entry")))


_ARRIVALS = Statement(_since(ARRIVED, ARRIVED_AS_BEGAN), "place", "since")
_DRAWS = Statement(_since(DRAWN, DRAWN_AS_BEGAN), "place", "since")


def _latest(
    at_ms: ColumnElement[int], entry: Column[int], *where: ColumnElement[bool]
) -> Select[Any]:
    """The latest of a place's rows, by when and then by which entry."""
    latest = select(at_ms.label("at_ms"), entry.label("entry"))
    latest = latest.where(entry.table.c.place == the("place"), *where)
    latest = latest.order_by(at_ms.desc(), entry.desc()).limit(literal_column("1"))
    return select(latest.subquery())


_UNTIL_MS = STAY.c.latest_ms - STAY.c.early_ms  # of what has ended
# Only stays need be looked at that had not ended before the last end that tells of a touch.
_LAST_END = (
    select(_UNTIL_MS)
    .where(STAY.c.place == the("place"), is_told(TOUCHED_AS_ENDED))
    .order_by(STAY.c.latest_ms.desc())
    .limit(literal_column("1"))
    .scalar_subquery()
)
_LATELY = STAY.c.latest_ms >= func.coalesce(_LAST_END, literal_column("0"))
_EACH_LATEST = union_all(
    *(_latest(table.c.at_ms, table.c.entry) for table in (TOUCHED, ARRIVED, DRAWN)),
    _latest(STAY.c.since_ms, STAY.c.entry, _LATELY, is_told(TOUCHED_AS_BEGAN)),
    _latest(_UNTIL_MS, STAY.c.ended_by, _LATELY, is_told(TOUCHED_AS_ENDED)),
).subquery()
_LAST_TOUCH = Statement(
    select(_EACH_LATEST.c.at_ms, _EACH_LATEST.c.entry)
    .order_by(_EACH_LATEST.c.at_ms.desc(), _EACH_LATEST.c.entry.desc())
    .limit(literal_column("1")),
    "place",
)


class PlaceQueries(LotQueries):
    """What stands, stood, came and went at places."""

    def standing(self, place: str) -> Sequence[Standing]:
        """What stands in a place now, 0 g included, by lot id."""
        rows = self._all(_STANDING, short(place))
        lots = {row[0]: lot_of(row[:7]) for row in rows}
        self._lots_read.update(lots)
        return [Standing(lots[row[0]], row[7] or 0, row[8] or 0, row[9]) for row in rows]

    def stays(self, place: str, since_ms: int) -> Sequence[Stay]:
        """Stays in a place that had not ended by `since_ms`, and all begun since, by lot id."""
        rows = self._all(_STAYS, short(place), since_ms)
        self._lots_named.update(row[0] for row in rows)
        return [_stay(place, *row) for row in rows]

    def holdings(self, lot_id: int) -> Sequence[Holding]:
        """Where a lot is, by place; outside, rows that came to nothing are included."""
        return holdings_by_lot(self._all(_HOLDINGS, lot_id))

    def holdings_of(self, lot_ids: Collection[int], *, emptied: bool = False) -> Sequence[Holding]:
        """Holdings of many lots, outside places too, by lot then place.

        Rows that came to nothing are left out unless `emptied`; only outside places keep them.
        """
        asked = _EVER_HOLDINGS_OF if emptied else _HOLDINGS_OF
        return holdings_by_lot(self._all(asked, as_list(lot_ids)))

    def held_at(self, place_class: str) -> Sequence[Holding]:
        """All holdings with grams or pieces at places of a class, by place, lot.

        An index has what is in the house; the world holds more each year, and is asked seldom.
        """
        held = _HELD_HERE if place_class in INSIDE else _HELD_ANYWHERE
        found = holdings_by_lot(self._all(held, *class_lies_between(place_class)))
        return sorted(one for one in found if class_of(one.place) == place_class)

    def on_hand(self, classes: Collection[str] = ()) -> Sequence[OnHand]:
        """Everything with grams or pieces at inside places (of these classes), by place, lot."""
        wanted = INSIDE & set(classes) if classes else INSIDE
        found = []
        for name in sorted(wanted):
            rows = self._all(_ON_HAND, *class_lies_between(name))
            held = [OnHand(lot_of(row[:7]), written(row[7]), *row[8:]) for row in rows]
            held = [one for one in held if class_of(one.place) == name]
            found += sorted(held, key=lambda one: (one.place, one.lot.id))
        return found

    def total_g(self) -> int:
        """All places together, inside and outside: 0 g where all is well."""
        row = self._one(_TOTAL)
        return int(row[0] or 0) if row else 0

    def arrivals(self, place: str, since_ms: int) -> Sequence[Event]:
        """What was loaded or poured into a place at or after a time, by time then lot."""
        events = _events(place, self._all(_ARRIVALS, short(place), since_ms))
        self._lots_named.update(event.lot for event in events)
        self._entries_named.update(event.entry for event in events)
        return events

    def draws(self, place: str, since_ms: int) -> Sequence[Event]:
        """What was taken from a place at or after a time, by time then lot."""
        return _events(place, self._all(_DRAWS, short(place), since_ms))

    def last_touch(self, place: str) -> Event | None:
        """The latest happening on a place, by when it happened."""
        row = self._one(_LAST_TOUCH, short(place))
        return Event(place, 0, *row) if row else None


def _stay(place: str, lot: int, since_ms: int, latest_ms: int, early_ms: int, told: int) -> Stay:
    until_ms = -1 if latest_ms == OPEN else latest_ms - early_ms
    return Stay(place, lot, since_ms, until_ms, bool(told & BY_WASH))


def _events(place: str, rows: Iterable[Row]) -> list[Event]:
    return [Event(place, *row) for row in rows]
