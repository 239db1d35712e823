"""Questions about lots and their origins: the two walks that traces are made of.

A walk goes over the origin table's own order backward and its covering index forward, and ends
where late origins close a circle. On SQLite it asks level by level, which looks up each lot once;
a server recurses by itself, on ids alone with UNION, since each question is a journey.
"""

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from functools import partial
from operator import itemgetter
from typing import Any, TypeVar

from sqlalchemy import Select, and_, case, exists, func, literal_column, select
from sqlalchemy.sql import ColumnElement

from honeyledger.domain.refusals import Damage
from honeyledger.ledger.entry import SOURCE_KINDS, Lot
from honeyledger.ledger.source_places import OF_HONEY
from honeyledger.ledger.state import Edge, EdgeRow, Holding, HoldingRow
from honeyledger.persistence.reader import Reader
from honeyledger.persistence.remembered import Sourced
from honeyledger.persistence.rows import lot_of
from honeyledger.persistence.short import short, written
from honeyledger.persistence.statements import Row, Statement, as_list, ids_given, is_among, the
from honeyledger.persistence.tables import HOLDING, IS_SOURCE, LOT, ORIGIN, VOID_ORIGIN
from honeyledger.services.store import HeadRow, LotHead

_LOTS = Statement(lambda engine: select(*LOT.c).where(is_among(LOT.c.id, engine)), "ids")
_VESSEL = {
    "sqlite": "json_extract(lot.attributes, '$.vessel')",
    "postgresql": "lot.attributes::json ->> 'vessel'",
}
"""The vessel of a tank fill."""


def _heads(engine: str) -> Select[tuple[Any, ...]]:
    is_fill = LOT.c.kind == literal_column("'T'")
    none: ColumnElement[str] = literal_column("''")
    vessel = case((is_fill, func.coalesce(literal_column(_VESSEL[engine]), none)), else_=none)
    return _given(select(LOT.c.id, LOT.c.code, LOT.c.kind, LOT.c.made_g, vessel), LOT.c.id, engine)


def _sourced_heads(engine: str) -> Select[tuple[Any, ...]]:
    """A row for each place of a lot that honey comes from, and one for every other lot."""
    its_places = and_(HOLDING.c.lot == LOT.c.id, literal_column(IS_SOURCE), _IS_OF_HONEY)
    heads = _heads(engine).add_columns(HOLDING.c.place, HOLDING.c.grams, HOLDING.c.pieces)
    if engine == "sqlite":
        return heads.outerjoin(HOLDING, its_places)
    return heads.outerjoin_from(LOT, HOLDING, its_places)


_IS_OF_HONEY = LOT.c.kind.in_([literal_column(repr(kind)) for kind in OF_HONEY])
_HEADS = Statement(_heads, "ids")
_SOURCED_HEADS = Statement(_sourced_heads, "ids")
_LOT_BY_CODE = Statement(select(*LOT.c).where(LOT.c.code == the("code")), "code")
_IS_SOURCE_KIND = LOT.c.kind.in_([literal_column(repr(kind)) for kind in SOURCE_KINDS])
_SOURCE_LOTS = Statement(
    select(*LOT.c)
    .join_from(HOLDING, LOT, LOT.c.id == HOLDING.c.lot)
    .where(HOLDING.c.place == the("place"), literal_column(IS_SOURCE), _IS_SOURCE_KIND)
    .order_by(LOT.c.id),
    "place",
)
_SOURCES_OF = Statement(
    lambda engine: select(HOLDING.c.place, HOLDING.c.lot, HOLDING.c.grams, HOLDING.c.pieces).where(
        is_among(HOLDING.c.lot, engine), literal_column(IS_SOURCE)
    ),
    "ids",
)

_EDGE = (
    ORIGIN.c.child,
    ORIGIN.c.parent,
    ORIGIN.c.grams,
    ORIGIN.c.late,
    ORIGIN.c.entry,
    ORIGIN.c.line,
)
_COUNTS = ~exists().where(
    VOID_ORIGIN.c.entry == ORIGIN.c.entry, VOID_ORIGIN.c.line == ORIGIN.c.line
)
_ANY_VOID = Statement(select(VOID_ORIGIN.c.entry).limit(1))
_MOST_VOIDS = 5_000
_VOIDS = Statement(select(VOID_ORIGIN.c.entry, VOID_ORIGIN.c.line).limit(_MOST_VOIDS + 1))


def _given(
    rows: Select[tuple[Any, ...]], key: ColumnElement[int], engine: str
) -> Select[tuple[Any, ...]]:
    """Rows whose key is one of the ids given, each once; a join keeps no list of them."""
    if engine == "sqlite":
        ids = ids_given(engine).subquery("given")
        return rows.join_from(ids, key.table, key == ids.c.id)
    return rows.where(is_among(key, engine))


def _origins(*also: ColumnElement[bool]) -> Statement:
    wanted = select(*_EDGE).where(ORIGIN.c.child == the("child"), *also)
    return Statement(wanted.order_by(ORIGIN.c.parent, ORIGIN.c.entry, ORIGIN.c.line), "child")


def _walk(*also: ColumnElement[bool], forward: bool) -> Statement:
    """All origin rows in the reach of the lots given, back or forward; on SQLite one level."""
    start, end = (
        (ORIGIN.c.parent, ORIGIN.c.child) if forward else (ORIGIN.c.child, ORIGIN.c.parent)
    )

    def built(engine: str) -> Select[tuple[int, ...]]:
        if engine == "sqlite":
            return _given(select(*_EDGE).where(*also), start, engine)
        reach = ids_given(engine).cte("reach", recursive=True)
        step = select(end).join_from(reach, ORIGIN, and_(start == reach.c.id, *also))
        reach = reach.union(step)
        rows = select(*_EDGE).join_from(reach, ORIGIN, and_(start == reach.c.id, *also))
        return rows.order_by(ORIGIN.c.parent if forward else ORIGIN.c.child.desc())

    return Statement(built, "ids")


_ORIGINS = (_origins(), _origins(_COUNTS))
_ANCESTRY = (_walk(forward=False), _walk(_COUNTS, forward=False))
_DESCENT = (_walk(forward=True), _walk(_COUNTS, forward=True))


# As `_make`, without looking how long each row is: a trace makes thousands.
_edge: Callable[[Row], Edge] = partial(tuple.__new__, Edge)
_holding: Callable[[Row], Holding] = partial(tuple.__new__, Holding)
_head: Callable[[Row], LotHead] = partial(tuple.__new__, LotHead)

V = TypeVar("V")


class LotQueries(Reader):
    """Lots, their origins, and the reach back and forward."""

    _lots_read: dict[int, Lot]
    _lots_named: set[int]
    _entries_named: set[int]
    _codes_read: dict[str, Lot]
    _has_voids: bool | None = None

    def lot(self, lot_id: int) -> Lot:
        """A lot by its id. Raises Damage where there is none.

        Who asks for one lot of an answer soon asks for the others, so they are all read at once.
        """
        if lot_id not in self._lots_read:
            wanted = {lot_id, *self._lots_named}.difference(self._lots_read)
            self._lots_named.clear()
            self._read_lots(wanted)
        lot = self._lots_read.get(lot_id)
        if lot is None:
            raise Damage(f"lot {lot_id}: its row is missing")
        return lot

    def _read_lots(self, wanted: Collection[int]) -> None:
        rows = self._all(_LOTS, as_list(wanted)) if wanted else []
        self._lots_read.update((row[0], lot_of(row)) for row in rows)

    def lots(self, lot_ids: Collection[int]) -> Mapping[int, Lot]:
        """Many lots by id."""
        known = self._lots_read
        self._read_lots({lot_id for lot_id in lot_ids if lot_id not in known})
        gone = [lot_id for lot_id in lot_ids if lot_id not in known]
        if gone:
            raise Damage(f"lot {gone[0]}: its row is missing")
        return {lot_id: known[lot_id] for lot_id in lot_ids}

    def lot_heads(self, lot_ids: Collection[int]) -> Mapping[int, LotHead]:
        """Heads of many lots, by id."""
        known = self._remembered()
        rows = known.answers(known.heads, sorted(set(lot_ids)), self._read_heads)
        return {lot: _head(row) for lot, row in rows.items()}

    def _read_heads(self, lot_ids: Collection[int]) -> dict[int, HeadRow]:
        rows = self._all(_HEADS, as_list(lot_ids))
        return _all_there({row[0]: row for row in rows}, lot_ids)

    def sourced_heads(
        self, lot_ids: Collection[int]
    ) -> tuple[Mapping[int, HeadRow], Sequence[HoldingRow]]:
        """Heads by id, in its order, and as `sources_of` the places that honey of them is from.

        In plain rows, since there are thousands.
        """
        known = self._remembered()
        found = known.answers(known.sourced, sorted(set(lot_ids)), self._read_sourced)
        heads = {lot: head for lot, (head, _) in found.items()}
        return heads, [place for _, places in found.values() for place in places]

    def _read_sourced(self, lot_ids: Collection[int]) -> dict[int, Sourced]:
        rows = self._all(_SOURCED_HEADS, as_list(lot_ids))
        found: dict[int, Sourced] = {}
        for lot, code, kind, made_g, vessel, place, grams, pieces in rows:
            places = () if place is None else ((written(place), lot, grams, pieces),)
            if lot in found:
                found[lot] = (found[lot][0], tuple(sorted(found[lot][1] + places)))
            else:
                found[lot] = ((lot, code, kind, made_g, vessel), places)
        return _all_there(found, lot_ids)

    def lot_by_code(self, code: str) -> Lot | None:
        """A lot by its code in normal form, reversed ones included."""
        lot = self._codes_read.get(code)
        if lot is None and (row := self._one(_LOT_BY_CODE, code)):
            lot = self._codes_read[code] = self._lots_read[row[0]] = lot_of(row)
        return lot

    def source_lots(self, place: str) -> Sequence[Lot]:
        """Source lots that ever came from this outside place, by id."""
        return [lot_of(row) for row in self._all(_SOURCE_LOTS, short(place))]

    def sources_of(self, lot_ids: Collection[int]) -> Sequence[Holding]:
        """Holdings at the outside places lots came from, those come to nothing included."""
        return holdings_by_lot(self._all(_SOURCES_OF, as_list(lot_ids)))

    def origins(self, lot_id: int) -> Sequence[Edge]:
        """Origin rows of a lot that count, by parent."""
        edges = self._edges(_ORIGINS, lot_id)
        self._lots_named.update(edge.parent for edge in edges)
        return edges

    def ancestry(self, lot_ids: Collection[int]) -> Sequence[Edge]:
        """All origin rows that count in the reach back from these lots, newest child first."""
        return self._reached(lot_ids, forward=False)

    def descent(self, lot_ids: Collection[int]) -> Sequence[Edge]:
        """All origin rows that count in the reach forward from these lots, oldest parent first."""
        return self._reached(lot_ids, forward=True)

    def reach_back(self, lot_ids: Collection[int]) -> tuple[Sequence[EdgeRow], Collection[int]]:
        """As `ancestry`, in plain rows since there are thousands, and all lots they reach."""
        return self._walked(lot_ids, forward=False)

    def _reached(self, lot_ids: Collection[int], *, forward: bool) -> list[Edge]:
        return list(map(_edge, self._walked(lot_ids, forward=forward)[0]))

    def _walked(self, lot_ids: Collection[int], *, forward: bool) -> tuple[list[Row], set[int]]:
        """The walk. Sorting once at the end, by the first column of the way it goes."""
        walks = _DESCENT if forward else _ANCESTRY
        start, end = (1, 0) if forward else (0, 1)
        if self._engine == "postgresql":
            found = self._all(walks[True], as_list(lot_ids))
            return found, {*lot_ids, *[row[end] for row in found]}
        voids = self._voids()
        walk = walks[voids is None and self._looks_for_voids()]
        found = []
        seen, level = set(lot_ids), set(lot_ids)
        while level:
            rows = self._all(walk, as_list(level))
            if voids:
                rows = [row for row in rows if row[4] not in voids or row[5] not in voids[row[4]]]
            found += rows
            level = {row[end] for row in rows}
            level -= seen
            seen |= level
        found.sort(key=itemgetter(start), reverse=not forward)
        return found, seen

    def _edges(self, statements: tuple[Statement, Statement], value: object) -> list[Edge]:
        return list(map(_edge, self._all(statements[self._looks_for_voids()], value)))

    def _voids(self) -> Mapping[int, Collection[int]] | None:
        """Lines of entries that do not count, where they are few and this is not the first walk.

        Known beforehand they cost a walk less than a look at each step, and once as much. A unit
        of work has few walks, all of them short.
        """
        known = self._remembered()
        if known.voids is None and known.walks == 1 and not self._locks:
            rows = self._all(_VOIDS)
            if len(rows) <= _MOST_VOIDS:
                voids: dict[int, tuple[int, ...]] = {}
                for entry, line in rows:
                    voids[entry] = (*voids.get(entry, ()), line)
                known.voids = voids
        known.walks += 1
        return known.voids

    def _looks_for_voids(self) -> bool:
        """Looking for void rows at each step costs a fifth, so it is done only where any are.

        On a server the question whether there are any costs more.
        """
        if self._engine == "postgresql":
            self._has_voids = True
        elif self._has_voids is None:
            self._has_voids = self._one(_ANY_VOID) is not None
        return self._has_voids


def holdings_by_lot(rows: Iterable[Row]) -> list[Holding]:
    """Holdings from their rows, by lot then place. Plain rows sort in half the time."""
    plain = sorted([(lot, written(place), grams, n) for place, lot, grams, n in rows])
    return [_holding((place, lot, grams, pieces)) for lot, place, grams, pieces in plain]


def _all_there(found: dict[int, V], wanted: Collection[int]) -> dict[int, V]:
    """What was found of these lots. Raises Damage where one is missing."""
    if len(found) < len(wanted):
        gone = next(lot_id for lot_id in wanted if lot_id not in found)
        raise Damage(f"lot {gone}: its row is missing")
    return found
