"""The tables: four that are written once, the head, and the projections of entries.

Only whole numbers, text and the bytes of digests are stored, so that both engines keep the same
values. On SQLite the tables are STRICT, since otherwise a word would be taken as grams; on
PostgreSQL text is compared by its bytes, so that both engines sort alike.
"""

from typing import Any

from sqlalchemy import (
    BigInteger,
    CheckConstraint,
    Column,
    ColumnElement,
    Connection,
    ForeignKey,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    PrimaryKeyConstraint,
    Table,
    Text,
    UniqueConstraint,
    event,
    literal_column,
    text,
)

from honeyledger.ledger.entry import LOT_KINDS

OPEN = 9_223_372_036_854_775_807
"""`stay.latest_ms` of a stay that has not ended: later than any time.

Of one that has it is the later of its beginning and its end, which may have come before it where
times are unsure: by `stay.early_ms`, which is nearly always 0.
"""

INSIDE_SIDE, SOURCE_SIDE, OTHER_SIDE = 0, 1, 2
"""`holding.side`: inside the house, where honey comes from, or elsewhere in the world."""

WHOLE = BigInteger().with_variant(Integer(), "sqlite")
WORDS = Text().with_variant(Text(collation="C"), "postgresql")

_WITH_IT = "columns a server's key index carries"

METADATA = MetaData(
    naming_convention={
        "ix": "%(table_name)s_by_%(column_0_N_name)s",
        "uq": "%(table_name)s_one_%(column_0_N_name)s",
        "ck": "%(table_name)s_%(constraint_name)s",
        "fk": "%(table_name)s_has_%(column_0_name)s",
        "pk": "%(table_name)s_key",
    }
)


def _whole(name: str, *more: ForeignKey) -> Column[int]:
    return Column(name, WHOLE, *more, nullable=False, autoincrement=False)


def _words(name: str) -> Column[str]:
    return Column(name, WORDS, nullable=False)


def _digest(name: str) -> Column[bytes]:
    """A digest's 32 bytes, half of what it takes written out; there are six an entry."""
    return Column(name, LargeBinary, nullable=False)


def _of_entry() -> ForeignKey:
    """An entry's own row is written last, so its other rows wait for it until the commit."""
    return ForeignKey("entry.id", deferrable=True, initially="DEFERRED")


def _table(name: str, *parts: Column[Any] | CheckConstraint, key: str, with_it: str = "") -> Table:
    """A table kept in the order of its key, which is how nearly all of it is read.

    PostgreSQL has no such tables; there the key's index carries the columns in `with_it`.
    """
    columns = key.split()
    one_number = columns == ["id"]
    return Table(
        name,
        METADATA,
        *parts,
        PrimaryKeyConstraint(*columns),
        sqlite_strict=True,
        sqlite_with_rowid=one_number,
        info={_WITH_IT: with_it.split()},
    )


@event.listens_for(METADATA, "before_create")
def _say_it_to_a_server(_metadata: object, connection: Connection, **_: object) -> None:
    """What a server's tables are made with, said only where one makes them.

    Naming an option of PostgreSQL loads all that is written for it, which takes as long as a
    trace's whole answer.
    """
    if connection.dialect.name != "postgresql":
        return
    for table in METADATA.tables.values():
        key = table.primary_key
        key.dialect_options["postgresql"]["include"] = table.info[_WITH_IT]
        for index in table.indexes:
            where = index.dialect_options["sqlite"]["where"]
            index.dialect_options["postgresql"]["where"] = where


ENTRY = _table(
    "entry",
    _whole("id"),
    _words("kind"),
    _whole("happened_ms"),
    _whole("offset_min"),
    _words("zone"),
    _whole("recorded_ms"),
    _words("operator"),
    _words("station"),
    _words("command"),
    _whole("part"),
    _words("run"),
    _whole("unsure_ms"),
    _whole("reverses"),
    _words("facts"),
    _digest("previous"),
    _digest("facts_digest"),
    _digest("lots_digest"),
    _digest("postings_digest"),
    _digest("origins_digest"),
    _digest("digest"),
    CheckConstraint("id > 0", name="numbered"),
    key="id",
)
ENTRY.append_constraint(UniqueConstraint(ENTRY.c.command, ENTRY.c.part))
Index(None, ENTRY.c.kind, ENTRY.c.happened_ms)
Index(None, ENTRY.c.happened_ms)
Index(
    "entry_by_run",
    ENTRY.c.run,
    sqlite_where=text("run <> ''"),
)

LOT = _table(
    "lot",
    _whole("id"),
    _words("code"),
    _words("kind"),
    _whole("made_by", _of_entry()),
    _whole("made_g"),
    _whole("season"),
    _words("attributes"),
    CheckConstraint("made_g > 0 OR (made_g = 0 AND kind = 'A')", name="made_of_something"),
    CheckConstraint(f"kind IN ({', '.join(repr(kind) for kind in LOT_KINDS)})", name="known_kind"),
    key="id",
)
LOT.append_constraint(UniqueConstraint(LOT.c.code))
Index(None, LOT.c.made_by)

POSTING = _table(
    "posting",
    _whole("entry", _of_entry()),
    _whole("line"),
    _whole("lot", ForeignKey("lot.id")),
    _words("place"),
    _whole("grams"),
    key="entry line",
)
Index(None, POSTING.c.lot)

ORIGIN = _table(
    "origin",
    _whole("entry", _of_entry()),
    _whole("line"),
    _whole("child", ForeignKey("lot.id")),
    _whole("parent", ForeignKey("lot.id")),
    _whole("grams"),
    _whole("late"),
    # Id order is then a topological order for shares; rows of 0 g carry reach only.
    CheckConstraint("grams = 0 OR (grams > 0 AND parent < child AND late = 0)", name="ordered"),
    CheckConstraint("parent <> child", name="not_of_itself"),
    CheckConstraint("late IN (0, 1)", name="yes_or_no"),
    key="child parent entry line",
    with_it="grams late",
)
ORIGIN.append_constraint(UniqueConstraint(ORIGIN.c.entry, ORIGIN.c.line))
Index(
    "origin_forward",
    *(ORIGIN.c[name] for name in ("parent", "child", "entry", "line", "grams", "late")),
)

HEAD = _table(
    "head",
    _whole("id"),
    _words("ledger_id"),
    _whole("entry"),
    _whole("lot"),
    _digest("digest"),
    CheckConstraint("id = 1", name="only_one"),
    key="id",
)

HOLDING = _table(
    "holding",
    _words("place"),
    _whole("lot"),
    _whole("side"),
    _whole("grams"),
    _whole("pieces"),
    CheckConstraint("side <> 0 OR (grams >= 0 AND pieces >= 0)", name="never_overdrawn"),
    key="lot place",
)
IS_SOMETHING = "grams <> 0 OR pieces <> 0"
IS_HERE = f"side = {INSIDE_SIDE} AND ({IS_SOMETHING})"
IS_SOURCE = f"side = {SOURCE_SIDE}"
IS_NOTHING_HERE = f"side = {INSIDE_SIDE} AND grams = 0 AND pieces = 0"
"""What has left an inside place is not kept: most of what ever stood in the house is gone."""

for _name, _where in (("holding_here", IS_HERE), ("holding_source", IS_SOURCE)):
    Index(
        _name,
        HOLDING.c.place,
        HOLDING.c.lot,
        sqlite_where=text(_where),
    )

STAY = _table(
    "stay",
    _words("place"),
    _whole("lot"),
    _whole("entry"),
    _whole("since_ms"),
    _whole("early_ms"),
    _whole("latest_ms"),
    _whole("ended_by"),
    _whole("told"),
    # The latest last, so that one order serves what stands, what stood lately, and the key.
    key="place latest_ms lot entry",
)
IS_OPEN = f"stay.latest_ms = {OPEN}"
"""Of stays: not ended. The key finds them; that a lot has one a place, the projector sees to."""


def is_told(bit: int) -> ColumnElement[bool]:
    """Of stays: whether they tell this besides (`effects`)."""
    return literal_column(f"(stay.told & {bit}) <> 0")


ARRIVED = _table(
    "arrived",
    *(_words("place"), _whole("at_ms"), _whole("lot"), _whole("entry")),
    key="place at_ms lot entry",
)

DRAWN = _table(
    "drawn",
    *(_words("place"), _whole("at_ms"), _whole("lot"), _whole("entry")),
    key="place at_ms lot entry",
)

TOUCHED = _table(
    "touched",
    *(_words("place"), _whole("entry"), _whole("at_ms")),
    key="place at_ms entry",
)

MARK = _table(
    "mark",
    *(_words("subject"), _words("name"), _whole("entry"), _whole("at_ms"), _words("value")),
    key="subject name entry",
)
RECORD = "record"
"""The mark on a yard, a vessel, a box ... that holds its register's record."""

IN_FACTS, LONG = "", 250
"""`mark.value` of one longer than that: it is read from its entry's facts, where it stands, too.

A record is kept here however long it is, since names are read by the hundred.
"""

ONLY_OF_SUBJECT = (
    "barrel",
    "claims",
    "condition",
    "dispatched",
    "started",
    "washed",
    "weighed_g",
)
"""Names of marks that are asked for by their subject alone, though many subjects have one."""

IS_ONE_NAME = (
    f"replace(name, '/', '') = name AND name NOT IN ({', '.join(map(repr, ONLY_OF_SUBJECT))})"
)
"""Of marks: a name on many subjects ("record"), not one of many on a subject ("note/N26-0001-X").

Only those are asked for by name, and the others are most.
"""
Index("mark_by_name", MARK.c.name, MARK.c.subject, sqlite_where=text(IS_ONE_NAME))

VOID_ORIGIN = _table(
    "void_origin", _whole("entry"), _whole("line"), _whole("by_entry"), key="entry line by_entry"
)

REVERSAL = _table("reversal", _whole("entry"), _whole("by_entry"), key="entry")
Index(None, REVERSAL.c.by_entry)

CODE_GIVEN = _table("code_given", _words("code"), _whole("entry"), key="code")
"""Codes of what is no lot; a lot's own row has its code."""

LAST_NUMBER = _table(
    "last_number",
    *(_words("letter"), _whole("season"), _whole("number")),
    key="letter season",
)
"""How far the codes of a letter and season have got, lots' too."""

WRITTEN_ONCE = (ENTRY, LOT, POSTING, ORIGIN)
PROJECTIONS = (
    HOLDING,
    STAY,
    ARRIVED,
    DRAWN,
    TOUCHED,
    MARK,
    VOID_ORIGIN,
    REVERSAL,
    CODE_GIVEN,
    LAST_NUMBER,
)
