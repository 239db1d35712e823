"""Whether every projection is what its entries make of it: told by sums, not by a second copy.

An audit of a large house would spend most of its time in writing all projections once more and
in reading both. Here each row that the entries make is added to its table's sum by its hash, and
each one that a reversal takes back is taken off again; then the stored rows are added up alike.
What is still open (stays, holdings) is kept by its key alone. Sums that are equal say that the
rows are; what is wrong, where they are not, a replay row by row has to say.
"""

from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from itertools import islice

from sqlalchemy import Table

from honeyledger.ledger.effects import Changes, project
from honeyledger.ledger.entry import Entry
from honeyledger.persistence.projections import last_numbers
from honeyledger.persistence.short import written
from honeyledger.persistence.short_rows import code_rows, in_short, stay_row
from honeyledger.persistence.statements import Row
from honeyledger.persistence.tables import (
    ARRIVED,
    CODE_GIVEN,
    DRAWN,
    HOLDING,
    LAST_NUMBER,
    MARK,
    PROJECTIONS,
    REVERSAL,
    STAY,
    TOUCHED,
    VOID_ORIGIN,
)

_A_GRAM, _A_PIECE, _A_SIDE = 0x9E3779B97F4A7C15, 0xC2B2AE3D27D4EB4F, 0x165667B19E3779F9
"""Odd numbers without a pattern, so that grams, pieces and sides add up apart from each other."""

_AT_ONCE = 5_000
_FORMS = {
    table.name: "\x1f".join(
        "%s" if part.type.python_type is str else "%d" for part in table.columns
    )
    for table in PROJECTIONS
}
"""A row as text: the hash of a text is another in every process, that of a number is the number's.
"""


class Tally:
    """The sums of all projections over entries that come by id.

    Args:
        find: gives an earlier entry, for what its reversal takes back.
        reversed_later: entries known to be reversed, whose ended stays are remembered for it.
    """

    def __init__(
        self, find: Callable[[int], Entry | None], reversed_later: Collection[int]
    ) -> None:
        self._find = find
        self._reversed_later = reversed_later
        self._sums = {table.name: 0 for table in PROJECTIONS}
        self._open: dict[tuple[str, int], Row] = {}
        self._ended: dict[int, list[tuple[Row, Row]]] = {}  # by the entry: as begun, as ended
        self._held: set[int] = set()
        self._void: set[Row] = set()
        self._last: dict[tuple[str, int], int] = {}
        self._waiting: dict[Table, list[Row]] = {
            table: [] for table in (STAY, ARRIVED, DRAWN, TOUCHED, MARK, CODE_GIVEN)
        }

    def follow(
        self, changes: Changes, number: int, origin_lines: Sequence[int], made: Collection[str]
    ) -> None:
        """The next entry, by what it changes, the lines of its origins, and its lots' codes.

        Raises:
            KeyError: it cannot be carried out, as by a stay that ends and was not open.
        """
        changes = in_short(changes)
        if changes.undone:
            self._undo(changes.undone, number)
            self._void.update((number, line, number) for line in origin_lines)
        self._hold(changes.held)
        for place, lot, at_ms, entry, told in changes.ended:
            began = self._open.pop((place, lot))
            latest_ms = max(began[3], at_ms)
            ended = (*began[:4], latest_ms - at_ms, latest_ms, entry, began[7] | told)
            self._waiting[STAY].append(ended)
            if number in self._reversed_later:
                self._ended.setdefault(number, []).append((began, ended))
        for row in changes.began:
            self._begin(stay_row(row))
        waiting = self._waiting
        waiting[ARRIVED] += changes.arrived
        waiting[DRAWN] += changes.drawn
        waiting[TOUCHED] += changes.touched
        waiting[MARK] += changes.marks
        if changes.codes:
            waiting[CODE_GIVEN] += code_rows(changes.codes, made)
            for letter, season, last in last_numbers(code for code, _ in changes.codes):
                self._last[letter, season] = max(self._last.get((letter, season), 0), last)
        self._void.update(changes.voids)
        if len(waiting[STAY]) + len(waiting[MARK]) > _AT_ONCE:
            self._add_waiting()

    def _add_waiting(self) -> None:
        """Many rows at once: a call for each table and entry would take longer than the sums."""
        for table, rows in self._waiting.items():
            self._add(table, rows)
            rows.clear()

    def _add(self, table: Table, rows: Iterable[Row]) -> None:
        form = _FORMS[table.name]
        self._sums[table.name] += sum([hash(form % row) for row in rows])

    def _take(self, table: Table, rows: Iterable[Row]) -> None:
        form = _FORMS[table.name]
        self._sums[table.name] -= sum([hash(form % row) for row in rows])

    def _hold(self, held: Iterable[Row]) -> None:
        for place, lot, side, grams, pieces in held:
            key = _key(place, lot)
            more = key * (grams * _A_GRAM + pieces * _A_PIECE)
            # At an inside place a row of nothing is no row, so that having one adds nothing.
            if side and key not in self._held:
                self._held.add(key)
                more += key * (1 + side * _A_SIDE)
            self._sums[HOLDING.name] += more

    def _begin(self, stay: Row) -> None:
        if (stay[0], stay[1]) in self._open:
            raise KeyError(f"lot {stay[1]} stands in {written(stay[0])} already")
        self._open[stay[0], stay[1]] = stay

    def _undo(self, undone: int, by: int) -> None:
        """As the projector: what the entry began goes before what it ended is open again."""
        entry = self._find(undone)
        if entry is None or entry.reverses:
            raise KeyError(f"entry {undone} cannot be reversed")
        changes = in_short(project(entry))
        for place, lot, number, *_ in changes.began:
            if self._open.pop((place, lot))[2] != number:
                raise KeyError(f"entry {undone} did not begin what stands there")
        for began, ended in self._ended.pop(undone, ()):
            self._take(STAY, (ended,))
            self._begin(began)
        self._take(ARRIVED, changes.arrived)
        self._take(DRAWN, changes.drawn)
        self._take(TOUCHED, changes.touched)
        self._take(MARK, changes.marks)
        self._void.difference_update(changes.voids)
        self._void.update((undone, origin.line, by) for origin in entry.origins)
        self._add(REVERSAL, ((undone, by),))

    def differs(self, rows_of: Callable[[Table], Iterator[Row]]) -> bool:
        """Whether the stored rows of any table, in the columns' order, add up to another sum."""
        self._add_waiting()
        self._add(STAY, self._open.values())
        self._add(VOID_ORIGIN, self._void)
        self._add(LAST_NUMBER, ((*key, last) for key, last in self._last.items()))
        return any(
            self._sums[table.name] != _sum_of(table, rows_of(table)) for table in PROJECTIONS
        )


def _key(place: str, lot: int) -> int:
    return hash(f"{lot} {place}")


def _sum_of(table: Table, rows: Iterator[Row]) -> int:
    if table is HOLDING:
        return sum(
            _key(place, lot)
            * (
                (1 + side * _A_SIDE if side else not (grams or pieces))
                + (grams * _A_GRAM + pieces * _A_PIECE)
            )
            for place, lot, side, grams, pieces in rows
        )
    form, total = _FORMS[table.name], 0
    while some := list(islice(rows, _AT_ONCE)):
        total += sum([hash(form % row) for row in some])
    return total
