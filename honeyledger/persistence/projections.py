"""Carries out an entry's changes on the projections, the same way live and in a replay.

Nothing is decided here: `effects.project` says what changes, and every row named here can be
made anew from the entries.
"""

from collections.abc import Callable, Iterable, Sequence
from contextlib import closing
from typing import Any

from sqlalchemy import case, delete, literal_column, select, update

from honeyledger.domain.refusals import BrokenRule
from honeyledger.ledger.effects import TOLD_AS_ENDED, project
from honeyledger.ledger.entry import Entry
from honeyledger.persistence.rows import code_parts
from honeyledger.persistence.short_rows import code_rows, in_short, stay_row
from honeyledger.persistence.statements import Insert, Row, Statement, as_arrays, the, together
from honeyledger.persistence.tables import (
    ARRIVED,
    CODE_GIVEN,
    DRAWN,
    HOLDING,
    IS_NOTHING_HERE,
    IS_OPEN,
    LAST_NUMBER,
    MARK,
    OPEN,
    REVERSAL,
    STAY,
    TOUCHED,
    VOID_ORIGIN,
)

_NEW_HOLDING = Insert(HOLDING)
_SURE_HOLDING = Insert(HOLDING, or_leave=True)
_NEW_STAY = Insert(
    STAY,
    unless=f"SELECT 1 FROM stay WHERE stay.place = new.place AND {IS_OPEN} AND stay.lot = new.lot",
)
_NEW_ARRIVED = Insert(ARRIVED)
_NEW_DRAWN = Insert(DRAWN)
_NEW_TOUCHED = Insert(TOUCHED, or_leave=True)
_NEW_MARK = Insert(MARK)
_NEW_VOID = Insert(VOID_ORIGIN, or_leave=True)
_NEW_REVERSAL = Insert(REVERSAL)
_NEW_CODE = Insert(CODE_GIVEN)
_SURE_NUMBER = Insert(LAST_NUMBER, or_leave=True)
_RAISE_NUMBER = Statement(
    update(LAST_NUMBER)
    .values(number=the("to"))
    .where(LAST_NUMBER.c.letter == the("of_letter"), LAST_NUMBER.c.season == the("of_season"))
    .where(LAST_NUMBER.c.number < the("to")),
    "of_letter",
    "of_season",
    "to",
)

_ADD_TO_HOLDING = Statement(
    update(HOLDING)
    .values(grams=HOLDING.c.grams + the("more_g"), pieces=HOLDING.c.pieces + the("more_pieces"))
    .where(HOLDING.c.lot == the("of_lot"), HOLDING.c.place == the("at_place")),
    "more_g",
    "more_pieces",
    "of_lot",
    "at_place",
)
_ADD_MANY_TO_HOLDINGS = (
    "UPDATE holding SET grams = holding.grams + more.g, pieces = holding.pieces + more.n FROM"
    " unnest(%s::bigint[], %s::bigint[], %s::bigint[], %s::text[]) AS more (g, n, lot, place)"
    " WHERE holding.lot = more.lot AND holding.place = more.place"
)
_DROP_HOLDING = Statement(
    delete(HOLDING).where(
        HOLDING.c.lot == the("of_lot"),
        HOLDING.c.place == the("at_place"),
        literal_column(IS_NOTHING_HERE),
    ),
    "of_lot",
    "at_place",
)
_DROP_MANY_HOLDINGS = (
    "DELETE FROM holding USING unnest(%s::bigint[], %s::text[]) AS less (lot, place)"
    f" WHERE holding.lot = less.lot AND holding.place = less.place AND {IS_NOTHING_HERE}"
)
_LATER = case((STAY.c.since_ms > the("at_ms"), STAY.c.since_ms), else_=the("at_ms"))
_EARLY = case(
    (STAY.c.since_ms > the("at_ms"), STAY.c.since_ms - the("at_ms")), else_=literal_column("0")
)
_TOLD_TOO = STAY.c.told.op("|")(the("as_ended"))
_END_STAY = Statement(
    update(STAY)
    .values(early_ms=_EARLY, latest_ms=_LATER, ended_by=the("by"), told=_TOLD_TOO)
    .where(STAY.c.place == the("at_place"), STAY.c.lot == the("of_lot"))
    .where(literal_column(IS_OPEN)),
    "at_ms",
    "by",
    "as_ended",
    "at_place",
    "of_lot",
)
_END_MANY_STAYS = (
    "UPDATE stay SET early_ms = greatest(stay.since_ms - gone.at_ms, 0),"
    " latest_ms = greatest(stay.since_ms, gone.at_ms),"
    " ended_by = gone.by_entry, told = stay.told | gone.told FROM"
    " unnest(%s::bigint[], %s::bigint[], %s::bigint[], %s::text[], %s::bigint[])"
    " AS gone (at_ms, by_entry, told, place, lot)"
    f" WHERE stay.place = gone.place AND stay.lot = gone.lot AND {IS_OPEN}"
)
_REOPEN_STAY = Statement(
    update(STAY)
    .values(
        early_ms=literal_column("0"),
        latest_ms=literal_column(str(OPEN)),
        ended_by=literal_column("0"),
        told=literal_column(f"told & ~{TOLD_AS_ENDED}"),
    )
    .where(
        STAY.c.place == the("at_place"),
        STAY.c.latest_ms >= the("ended_ms"),
        STAY.c.lot == the("of_lot"),
        STAY.c.ended_by == the("by"),
        literal_column(f"(told & {TOLD_AS_ENDED})") == the("as_ended"),
    ),
    "at_place",
    "ended_ms",
    "of_lot",
    "by",
    "as_ended",
)
_DROP_STAY = Statement(
    delete(STAY).where(
        STAY.c.place == the("place"),
        STAY.c.lot == the("lot"),
        STAY.c.entry == the("entry"),
        STAY.c.told == the("told"),
        literal_column(IS_OPEN),
    ),
    "place",
    "lot",
    "entry",
    "told",
)


def _dropping(table: Any) -> Statement:
    """Delete one row of a table by its whole key."""
    key = list(table.primary_key)
    rows = delete(table).where(*(part == the(part.name) for part in key))
    return Statement(rows, *(part.name for part in key))


_DROP_ARRIVED = _dropping(ARRIVED)
_DROP_DRAWN = _dropping(DRAWN)
_DROP_TOUCHED = _dropping(TOUCHED)
_DROP_MARK = _dropping(MARK)
_DROP_VOID = _dropping(VOID_ORIGIN)

_REVERSED = Statement(select(REVERSAL.c.by_entry).where(REVERSAL.c.entry == the("entry")), "entry")


class Projector:
    """Applies entries to the projections over one cursor.

    Args:
        find: gives an earlier entry, for what its reversal must take back.
    """

    def __init__(self, cursor: Any, engine: str, find: Callable[[int], Entry | None]) -> None:
        self._cursor = cursor
        self._engine = engine
        self._find = find
        self._sent: list[tuple[Any, int, str]] = []  # cursor, rows it should meet, if not

    def apply(self, entry: Entry) -> None:
        """Carry out everything the entry changes.

        Raises:
            BrokenRule: a stay would end that was never open, or begin where one is, or a reversal
                does not fit.
        """
        self.send(entry)
        self.check()

    def check(self) -> None:
        """Whether what was sent has met the rows it should, known when a server has answered."""
        sent, self._sent = self._sent, []
        for cursor, many, broken in sent:
            with closing(cursor):
                if cursor.rowcount != many:
                    raise BrokenRule(broken)

    def send(self, entry: Entry) -> None:
        """As `apply`, for the inside of `together`; `check` is called behind it."""
        new = entry.lots[0].id if entry.lots else OPEN
        changes = in_short(project(entry))
        if changes.undone:
            self._undo(changes.undone, entry.id)
            self._insert(_NEW_VOID, [(entry.id, one.line, entry.id) for one in entry.origins])
        self._hold(changes.held, new)
        self._end_stays(changes.ended)
        self._begin_stays(changes.began)
        self._insert(_NEW_ARRIVED, changes.arrived)
        self._insert(_NEW_DRAWN, changes.drawn)
        self._insert(_NEW_TOUCHED, changes.touched)
        self._insert(_NEW_MARK, changes.marks)
        self._insert(_NEW_VOID, changes.voids)
        self._insert(_NEW_CODE, code_rows(changes.codes, {lot.code for lot in entry.lots}))
        last = last_numbers(code for code, _ in changes.codes)
        self._insert(_SURE_NUMBER, last)
        self._many(_RAISE_NUMBER, last)

    def _insert(self, insert: Insert, rows: Sequence[Row]) -> None:
        insert.run(self._cursor, self._engine, rows)

    def _many(self, statement: Statement, rows: Sequence[Row]) -> int:
        """Run once a row; how many rows of the table were met."""
        if not rows:
            return 0
        with together(self._cursor, self._engine):
            statement.run_many(self._cursor, self._engine, rows)
        return int(self._cursor.rowcount)

    def _hold(self, changes: Sequence[Row], new: int) -> None:
        """A lot made by this entry has no holdings yet, so its rows need no looking up."""
        fresh = [row for row in changes if row[1] >= new]
        known = [row for row in changes if row[1] < new]
        self._insert(_NEW_HOLDING, [row for row in fresh if row[2] or row[3] or row[4]])
        if not known:
            return
        # A negative amount in an upsert would fail the check before it finds the row to add to.
        self._insert(_SURE_HOLDING, [(*row[:3], 0, 0) for row in known])
        more = [(grams, pieces, lot, place) for place, lot, _, grams, pieces in known]
        # Of what was more than nothing before, only a row that lost some can be nothing now.
        less = [(row[2], row[3]) for row in more if row[0] <= 0 and row[1] <= 0]
        if self._engine == "postgresql":
            self._cursor.execute(_ADD_MANY_TO_HOLDINGS, as_arrays(more))
            if less:
                self._cursor.execute(_DROP_MANY_HOLDINGS, as_arrays(less))
        else:
            self._many(_ADD_TO_HOLDING, more)
            self._many(_DROP_HOLDING, less)

    def _end_stays(self, ended: Sequence[Row]) -> None:
        rows = [(at_ms, entry, told, place, lot) for place, lot, at_ms, entry, told in ended]
        if not rows:
            return
        cursor = self._cursor.connection.cursor()
        if self._engine == "postgresql":
            cursor.execute(_END_MANY_STAYS, as_arrays(rows))
        else:
            _END_STAY.run_many(cursor, self._engine, rows)
        broken = f"entry {rows[0][1]}: a lot leaves a place it does not stand in"
        self._sent.append((cursor, len(rows), broken))

    def _begin_stays(self, began: Sequence[Row]) -> None:
        if not began:
            return
        cursor = self._cursor.connection.cursor()
        _NEW_STAY.run(cursor, self._engine, [stay_row(row) for row in began])
        broken = f"entry {began[0][2]}: a stay begins where the lot stands already"
        self._sent.append((cursor, len(began), broken))

    def _undo(self, undone: int, by: int) -> None:
        """Take back what the entry did, from the entry itself: it says all that it changed."""
        entry = self._find(undone)
        if entry is None or entry.reverses or self._is_reversed(undone):
            raise BrokenRule(f"entry {undone} cannot be reversed by entry {by}")
        changes = in_short(project(entry))
        # Stays the entry began go before those it ended open again, since a lot may have left a
        # place and come back at once.
        taken_back = (
            (_DROP_STAY, [(*row[:3], row[4]) for row in changes.began]),
            (_REOPEN_STAY, [(row[0], row[2], row[1], *row[3:]) for row in changes.ended]),
            (_DROP_ARRIVED, changes.arrived),
            (_DROP_DRAWN, changes.drawn),
            (_DROP_TOUCHED, [(place, at_ms, number) for place, number, at_ms in changes.touched]),
            (_DROP_MARK, [row[:3] for row in changes.marks]),
            (_DROP_VOID, changes.voids),
        )
        for statement, rows in taken_back:
            if self._many(statement, rows) != len(rows):
                raise BrokenRule(
                    f"entry {undone} cannot be reversed: something later builds on it"
                )
        self._insert(_NEW_VOID, [(entry.id, one.line, by) for one in entry.origins])
        self._insert(_NEW_REVERSAL, [(undone, by)])

    def _is_reversed(self, entry: int) -> bool:
        _REVERSED.run(self._cursor, self._engine, (entry,))
        return self._cursor.fetchone() is not None


def last_numbers(codes: Iterable[str]) -> list[Row]:
    """How far codes get, by letter and season; what is no code with a number is left out."""
    last: dict[tuple[str, int], int] = {}
    for letter, season, number in map(code_parts, codes):
        if letter:
            last[letter, season] = max(last.get((letter, season), 0), number)
    return [(*key, number) for key, number in last.items()]
