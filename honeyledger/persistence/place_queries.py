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
from honeyledger.ledger.places import INSIDE
from honeyledger.ledger.state import Event, Holding, Standing, Stay
from honeyledger.persistence.lot_queries import LotQueries
from honeyledger.persistence.rows import lot_of
from honeyledger.persistence.statements import Row, Statement, as_list, is_among, the
from honeyledger.persistence.tables import (
    ARRIVED,
    DRAWN,
    HOLDING,
    IS_HERE,
    IS_OPEN,
    IS_SOMETHING,
    LOT,
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
    select(STAY.c.place, STAY.c.lot, STAY.c.since_ms, STAY.c.until_ms, STAY.c.told)
    .where(STAY.c.place == the("place"), STAY.c.latest_ms >= the("since"))
    .order_by(STAY.c.lot, STAY.c.entry),
    "place",
    "since",
)
_HOLDINGS = Statement(
    select(*_HELD).where(HOLDING.c.lot == the("lot")).order_by(HOLDING.c.place), "lot"
)


def _holdings_of(engine: str) -> Select[Any]:
    wanted = select(*_HELD).where(is_among(HOLDING.c.lot, engine))
    return wanted.order_by(HOLDING.c.lot, HOLDING.c.place)


_EVER_HOLDINGS_OF = Statement(_holdings_of, "ids")
_HOLDINGS_OF = Statement(
    lambda engine: _holdings_of(engine).where(literal_column(f"({IS_SOMETHING})")), "ids"
)
_BETWEEN = (HOLDING.c.place >= the("first")) & (HOLDING.c.place < the("after"))
_BY_PLACE = (HOLDING.c.place, HOLDING.c.lot)
_HELD_HERE = Statement(
    select(*_HELD).where(_BETWEEN, literal_column(IS_HERE)).order_by(*_BY_PLACE), "first", "after"
)
_HELD_ANYWHERE = Statement(
    select(*_HELD).where(_BETWEEN, literal_column(f"({IS_SOMETHING})")).order_by(*_BY_PLACE),
    "first",
    "after",
)
_ON_HAND = Statement(
    select(*LOT.c, HOLDING.c.place, HOLDING.c.grams, HOLDING.c.pieces)
    .join_from(HOLDING, LOT, LOT.c.id == HOLDING.c.lot)
    .where(_BETWEEN, literal_column(IS_HERE))
    .order_by(*_BY_PLACE),
    "first",
    "after",
)


_TOTAL = Statement(select(func.sum(HOLDING.c.grams)))


def _since(table: Table, bit: int) -> CompoundSelect[Any]:
    """What came or went since, told by a row of its own or by a stay that began so."""
    own, begun = (
        select(rows.c.place, rows.c.lot, at_ms.label("at_ms"), rows.c.entry).where(
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


def _latest(at_ms: Column[int], entry: Column[int], *where: ColumnElement[bool]) -> Select[Any]:
    """The latest of a place's rows, by when and then by which entry."""
    latest = select(at_ms.label("at_ms"), entry.label("entry"))
    latest = latest.where(at_ms.table.c.place == the("place"), *where)
    latest = latest.order_by(at_ms.desc(), entry.desc()).limit(literal_column("1"))
    return select(latest.subquery())


# Only stays need be looked at that had not ended before the last end that tells of a touch.
_LAST_END = (
    select(STAY.c.until_ms)
    .where(STAY.c.place == the("place"), is_told(TOUCHED_AS_ENDED))
    .order_by(STAY.c.latest_ms.desc())
    .limit(literal_column("1"))
    .scalar_subquery()
)
_LATELY = STAY.c.latest_ms >= func.coalesce(_LAST_END, literal_column("0"))
_EACH_LATEST = union_all(
    *(_latest(table.c.at_ms, table.c.entry) for table in (TOUCHED, ARRIVED, DRAWN)),
    _latest(STAY.c.since_ms, STAY.c.entry, _LATELY, is_told(TOUCHED_AS_BEGAN)),
    _latest(STAY.c.until_ms, STAY.c.ended_by, _LATELY, is_told(TOUCHED_AS_ENDED)),
).subquery()
_LAST_TOUCH = Statement(
    select(_EACH_LATEST.c.at_ms, _EACH_LATEST.c.entry)
    .order_by(_EACH_LATEST.c.at_ms.desc(), _EACH_LATEST.c.entry.desc())
    .limit(literal_column("1")),
    "place",
)


def _spans(classes: Iterable[str]) -> Iterable[tuple[str, str]]:
    """The span of place names of each class: "vessel" itself and "vessel/..." (0 follows /)."""
    for name in sorted(classes):
        yield name, f"{name}0"


class PlaceQueries(LotQueries):
    """What stands, stood, came and went at places."""

    def standing(self, place: str) -> Sequence[Standing]:
        """What stands in a place now, 0 g included, by lot id."""
        rows = self._all(_STANDING, place)
        lots = {row[0]: lot_of(row[:7]) for row in rows}
        self._lots_read.update(lots)
        return [Standing(lots[row[0]], row[7] or 0, row[8] or 0, row[9]) for row in rows]

    def stays(self, place: str, since_ms: int) -> Sequence[Stay]:
        """Stays in a place that had not ended by `since_ms`, and all begun since, by lot id."""
        rows = self._all(_STAYS, place, since_ms)
        self._lots_named.update(row[1] for row in rows)
        return [Stay(row[0], row[1], row[2], row[3], bool(row[4] & BY_WASH)) for row in rows]

    def holdings(self, lot_id: int) -> Sequence[Holding]:
        """Where a lot is, by place; outside, rows that came to nothing are included."""
        return [Holding(*row) for row in self._all(_HOLDINGS, lot_id)]

    def holdings_of(self, lot_ids: Collection[int], *, emptied: bool = False) -> Sequence[Holding]:
        """Holdings of many lots, outside places too, by lot then place.

        Rows that came to nothing are left out unless `emptied`; only outside places keep them.
        """
        asked = _EVER_HOLDINGS_OF if emptied else _HOLDINGS_OF
        return list(map(Holding._make, self._all(asked, as_list(lot_ids))))

    def held_at(self, place_class: str) -> Sequence[Holding]:
        """All holdings with grams or pieces at places of a class, by place, lot.

        An index has what is in the house; the world holds more each year, and is asked seldom.
        """
        held = _HELD_HERE if place_class in INSIDE else _HELD_ANYWHERE
        rows = [row for span in _spans([place_class]) for row in self._all(held, *span)]
        return [Holding(*row) for row in rows if _is_of(row[0], place_class)]

    def on_hand(self, classes: Collection[str] = ()) -> Sequence[OnHand]:
        """Everything with grams or pieces at inside places (of these classes), by place, lot."""
        wanted = INSIDE & set(classes) if classes else INSIDE
        found = []
        for name, after in _spans(wanted):
            rows = self._all(_ON_HAND, name, after)
            found += [OnHand(lot_of(row[:7]), *row[7:]) for row in rows if _is_of(row[7], name)]
        return found

    def total_g(self) -> int:
        """All places together, inside and outside: 0 g where all is well."""
        row = self._one(_TOTAL)
        return int(row[0] or 0) if row else 0

    def arrivals(self, place: str, since_ms: int) -> Sequence[Event]:
        """What was loaded or poured into a place at or after a time, by time then lot."""
        rows = self._all(_ARRIVALS, place, since_ms)
        self._lots_named.update(row[1] for row in rows)
        self._entries_named.update(row[3] for row in rows)
        return _events(rows)

    def draws(self, place: str, since_ms: int) -> Sequence[Event]:
        """What was taken from a place at or after a time, by time then lot."""
        return _events(self._all(_DRAWS, place, since_ms))

    def last_touch(self, place: str) -> Event | None:
        """The latest happening on a place, by when it happened."""
        row = self._one(_LAST_TOUCH, place)
        return Event(place, 0, *row) if row else None


def _is_of(place: str, place_class: str) -> bool:
    return place == place_class or place.startswith(f"{place_class}/")


def _events(rows: Iterable[Row]) -> list[Event]:
    return [Event(*row) for row in rows]
