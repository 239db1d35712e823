"""Questions about lots and their origins: the two walks that traces are made of.

A walk goes over the origin table's own order backward and its covering index forward, and ends
where late origins close a circle. On SQLite it asks level by level, which looks up each lot once;
a server recurses by itself, on ids alone with UNION, since each question is a journey.
"""

from collections.abc import Callable, Collection, Mapping, Sequence
from functools import lru_cache, partial
from operator import itemgetter
from typing import Any

from sqlalchemy import Select, and_, case, exists, literal_column, select
from sqlalchemy.sql import ColumnElement

from honeyledger.domain.refusals import Damage
from honeyledger.ledger.entry import SOURCE_KINDS, Lot
from honeyledger.ledger.state import Edge, Holding
from honeyledger.persistence.reader import Reader
from honeyledger.persistence.rows import lot_of, value_of
from honeyledger.persistence.statements import Row, Statement, as_list, ids_given, is_among, the
from honeyledger.persistence.tables import HOLDING, IS_SOURCE, LOT, ORIGIN, VOID_ORIGIN
from honeyledger.services.store import LotHead

_LOTS = Statement(lambda engine: select(*LOT.c).where(is_among(LOT.c.id, engine)), "ids")
_HEADS = Statement(
    lambda engine: _given(
        select(
            LOT.c.id,
            LOT.c.code,
            LOT.c.kind,
            LOT.c.made_g,
            case(
                (LOT.c.kind == literal_column("'T'"), LOT.c.attributes),
                else_=literal_column("''"),
            ),
        ),
        LOT.c.id,
        engine,
    ),
    "ids",
)
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
    lambda engine: (
        select(HOLDING.c.place, HOLDING.c.lot, HOLDING.c.grams, HOLDING.c.pieces)
        .where(is_among(HOLDING.c.lot, engine), literal_column(IS_SOURCE))
        .order_by(HOLDING.c.lot, HOLDING.c.place)
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
_head: Callable[[Row], LotHead] = partial(tuple.__new__, LotHead)


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
        wanted = sorted(set(lot_ids))
        heads = {}
        for row in self._all(_HEADS, as_list(wanted)):
            if row[4]:
                row = (*row[:4], _vessel_in(row[4]))
            heads[row[0]] = _head(row)
        if len(heads) < len(wanted):
            gone = next(lot_id for lot_id in wanted if lot_id not in heads)
            raise Damage(f"lot {gone}: its row is missing")
        return heads

    def lot_by_code(self, code: str) -> Lot | None:
        """A lot by its code in normal form, reversed ones included."""
        lot = self._codes_read.get(code)
        if lot is None and (row := self._one(_LOT_BY_CODE, code)):
            lot = self._codes_read[code] = self._lots_read[row[0]] = lot_of(row)
        return lot

    def source_lots(self, place: str) -> Sequence[Lot]:
        """Source lots that ever came from this outside place, by id."""
        return [lot_of(row) for row in self._all(_SOURCE_LOTS, place)]

    def sources_of(self, lot_ids: Collection[int]) -> Sequence[Holding]:
        """Holdings at the outside places lots came from, those come to nothing included."""
        return list(map(Holding._make, self._all(_SOURCES_OF, as_list(lot_ids))))

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

    def _reached(self, lot_ids: Collection[int], *, forward: bool) -> list[Edge]:
        """The walk. Sorting once at the end, by the first column of the way it goes."""
        walk = (_DESCENT if forward else _ANCESTRY)[self._looks_for_voids()]
        if self._engine == "postgresql":
            return list(map(_edge, self._all(walk, as_list(lot_ids))))
        start, end = (1, 0) if forward else (0, 1)
        found: list[Row] = []
        seen, level = set(lot_ids), set(lot_ids)
        while level:
            rows = self._all(walk, as_list(level))
            found += rows
            level = {row[end] for row in rows}
            level -= seen
            seen |= level
        found.sort(key=itemgetter(start), reverse=not forward)
        return list(map(_edge, found))

    def _edges(self, statements: tuple[Statement, Statement], value: object) -> list[Edge]:
        return list(map(_edge, self._all(statements[self._looks_for_voids()], value)))

    def _looks_for_voids(self) -> bool:
        """Looking for void rows at each step costs a fifth, so it is done only where any are.

        On a server the question whether there are any costs more.
        """
        if self._engine == "postgresql":
            self._has_voids = True
        elif self._has_voids is None:
            self._has_voids = self._one(_ANY_VOID) is not None
        return self._has_voids


@lru_cache(maxsize=1024)
def _vessel_in(attributes: str) -> str:
    """The vessel of a tank fill; a house has few, and thousands of fills."""
    return str(value_of(attributes).get("vessel", ""))
