"""Core statements written out once for an engine, then run straight on the driver's cursor.

Building and compiling a statement takes longer than SQLite takes to answer it; a trace or an
entry runs dozens. Values go in the order in which the statement names them.
"""

import json
from collections.abc import Callable, Collection, Sequence
from contextlib import AbstractContextManager, nullcontext
from functools import cache
from typing import Any, TypeAlias

from sqlalchemy import (
    ARRAY,
    JSON,
    BigInteger,
    ColumnElement,
    Table,
    Text,
    any_,
    bindparam,
    cast,
    column,
    func,
    literal_column,
    select,
)
from sqlalchemy.engine import URL, Dialect
from sqlalchemy.sql import ClauseElement
from sqlalchemy.sql.selectable import Select

from honeyledger.domain.refusals import BrokenRule

Row: TypeAlias = tuple[Any, ...]
Build: TypeAlias = Callable[[str], ClauseElement]

_WAYS = {"sqlite": ("sqlite", "qmark"), "postgresql": ("postgresql+psycopg", "format")}
"""Each engine's dialect by name, since the other's need not be loaded, and its value marks."""


@cache
def _dialect(engine: str) -> Dialect:
    name, marks = _WAYS[engine]
    made: Callable[..., Dialect] = URL.create(name).get_dialect()
    return made(paramstyle=marks)


class Statement:
    """One statement, the same on both engines or built for each by name.

    Args:
        core: the statement, or what builds it for an engine's name.
        names: the names of its values, in the order in which a caller gives them.
    """

    def __init__(self, core: ClauseElement | Build, *names: str) -> None:
        self._core = core
        self._names = names
        self._written: dict[str, tuple[str, Callable[[Row], Row] | None]] = {}

    def run(self, cursor: Any, engine: str, values: Row) -> None:
        """Execute it once."""
        text, order = self._for(engine)
        cursor.execute(text, order(values) if order else values)

    def run_many(self, cursor: Any, engine: str, rows: Sequence[Row]) -> None:
        """Execute it once a row of values."""
        text, order = self._for(engine)
        cursor.executemany(text, [order(row) for row in rows] if order else rows)

    def _for(self, engine: str) -> tuple[str, Callable[[Row], Row] | None]:
        written = self._written.get(engine)
        if written is None:
            core = self._core if isinstance(self._core, ClauseElement) else self._core(engine)
            written = self._written[engine] = _written(core, engine, self._names)
        return written


def _written(
    core: ClauseElement, engine: str, names: tuple[str, ...]
) -> tuple[str, Callable[[Row], Row] | None]:
    """The text the driver takes, and how to put the values in its places."""
    compiled = core.compile(dialect=_dialect(engine))
    places: Sequence[str] = getattr(compiled, "positiontup", None) or ()
    fixed = {name: value for name, value in compiled.params.items() if value is not None}
    if set(places) - set(fixed) != set(names):
        raise BrokenRule(f"a statement takes the values {sorted(set(places))}, not {names}")
    if tuple(places) == names:
        return str(compiled), None
    known = (*names, *fixed)
    order = [known.index(name) for name in places]
    more = tuple(fixed.values())
    return str(compiled), lambda row: tuple([(*row, *more)[place] for place in order])


def the(name: str) -> ColumnElement[Any]:
    """A value given when the statement runs."""
    return bindparam(name)


def ids_given(engine: str, name: str = "ids") -> Select[Any]:
    """The whole numbers of a JSON list given as one value, however many they are."""
    if engine == "sqlite":
        each = func.json_each(the(name)).table_valued(column("value", BigInteger))
        return select(each.c.value.label("id"))
    return select(func.unnest(_array_given(name), type_=BigInteger).label("id"))


def is_among(column: ColumnElement[int], engine: str, name: str = "ids") -> ColumnElement[bool]:
    """Whether a column is one of the whole numbers of a JSON list given as one value."""
    if engine == "sqlite":
        return column.in_(ids_given(engine, name))
    return column == any_(_array_given(name))


def _array_given(name: str) -> ColumnElement[Any]:
    """The server's planner knows how long an array is, and takes any other list for a hundred."""
    text = func.translate(the(name), literal_column("'[]'"), literal_column("'{}'"))
    return cast(text, ARRAY(BigInteger))


def words_given(engine: str, name: str = "words") -> Select[Any]:
    """The texts of a JSON list given as one value."""
    if engine == "sqlite":
        each = func.json_each(the(name)).table_valued(column("value", Text))
        return select(each.c.value.label("word"))
    elements = func.json_array_elements_text(cast(the(name), JSON))
    return select(cast(elements.column_valued("each"), Text).label("word"))


def as_list(values: Collection[int] | Collection[str]) -> str:
    """A list as one value for `ids_given` and `words_given`."""
    listed = list(values)
    if listed and isinstance(listed[0], int):
        return str(listed)  # whole numbers are written alike, in a third of the time
    return json.dumps(listed, separators=(",", ":"))


def together(cursor: Any, engine: str) -> AbstractContextManager[object]:
    """What is executed inside is sent to a server without waiting for each answer.

    Faults come up, and counts of rows are known, at the end of the innermost such block.
    """
    if engine == "postgresql":
        pipeline: AbstractContextManager[object] = cursor.connection.pipeline()
        return pipeline
    return nullcontext()


def as_arrays(rows: Sequence[Row]) -> list[str]:
    """Rows as one PostgreSQL array a column, written out: the driver takes far longer over it."""
    return [_array(values) for values in zip(*rows, strict=True)]


def _array(values: Row) -> str:
    if isinstance(values[0], int):
        return f"{{{','.join(map(str, values))}}}"
    if isinstance(values[0], bytes):
        values = tuple(f"\\x{one.hex()}" for one in values)
    return f"{{{','.join(map(_quoted, values))}}}"


def _quoted(word: str) -> str:
    word = word.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{word}"'


_ARRAY_OF = {int: "bigint", str: "text", bytes: "bytea"}


class Insert:
    """Rows into one table, whole rows in the table's column order.

    PostgreSQL takes them as one statement over arrays, so that a trigger looks at them once;
    SQLite takes them one by one. `or_leave` keeps a row that is there already; a row is left out
    for which the question `unless` has an answer, which may name its columns as those of `new`.
    """

    def __init__(self, table: Table, *, or_leave: bool = False, unless: str = "") -> None:
        end = " ON CONFLICT DO NOTHING" if or_leave else ""
        names = ", ".join(part.name for part in table.columns)
        start = f"INSERT INTO {table.name} ({names})"
        marks = ", ".join("?" for _ in table.columns)
        arrays = ", ".join(f"%s::{_ARRAY_OF[part.type.python_type]}[]" for part in table.columns)
        self._one_row = f"{start} VALUES ({marks}){end}"
        self._arrays = f"{start} SELECT * FROM unnest({arrays}){end}"
        if unless:
            end = f" WHERE NOT EXISTS ({unless}){end}"
            one = ", ".join(f"? AS {part.name}" for part in table.columns)
            self._one_row = f"{start} SELECT * FROM (SELECT {one}) AS new{end}"
            self._arrays = f"{start} SELECT * FROM unnest({arrays}) AS new ({names}){end}"

    def run(self, cursor: Any, engine: str, rows: Sequence[Row]) -> None:
        """Insert the rows."""
        if not rows:
            return
        if engine == "sqlite":
            cursor.executemany(self._one_row, rows)
        else:
            cursor.execute(self._arrays, as_arrays(rows))
