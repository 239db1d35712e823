"""The first schema: four tables written once, the head, and the projections.

Written out by itself, so that it stays what it was when `tables` moves on. Only tables are made
here; the guards are the upgrade's to install.
"""

from typing import Any

from alembic import op
from sqlalchemy import (
    BigInteger,
    CheckConstraint,
    Column,
    ForeignKeyConstraint,
    Integer,
    LargeBinary,
    PrimaryKeyConstraint,
    Text,
    UniqueConstraint,
    text,
)
from sqlalchemy.schema import Constraint
from sqlalchemy.types import TypeEngine

revision = "0001"
down_revision = None

_WHOLE = BigInteger().with_variant(Integer(), "sqlite")
_WORDS = Text().with_variant(Text(collation="C"), "postgresql")


def _make(
    name: str, columns: str, key: str, *constraints: Constraint, with_it: tuple[str, ...] = ()
) -> None:
    """A table; names of columns that hold text end in a dollar sign, those of digests in #."""
    kinds: dict[str, TypeEngine[Any]] = {"$": _WORDS, "#": LargeBinary()}
    parts = [
        Column(part.rstrip("$#"), kinds.get(part[-1], _WHOLE), autoincrement=False, nullable=False)
        for part in columns.split()
    ]
    op.create_table(
        name,
        *parts,
        PrimaryKeyConstraint(
            *key.split(), name=op.f(f"{name}_key"), postgresql_include=list(with_it)
        ),
        *constraints,
        sqlite_strict=True,
        sqlite_with_rowid=key == "id",
    )


def _index(name: str, table: str, columns: str, where: str = "", *, unique: bool = False) -> None:
    only = text(where) if where else None
    op.create_index(
        op.f(name),
        table,
        columns.split(),
        unique=unique,
        sqlite_where=only,
        postgresql_where=only,
    )


def _check(name: str, rule: str) -> CheckConstraint:
    return CheckConstraint(rule, name=op.f(name))


def _belongs(name: str, column: str, to: str, *, later: bool = False) -> ForeignKeyConstraint:
    return ForeignKeyConstraint(
        [column],
        [to],
        name=op.f(name),
        deferrable=later or None,
        initially="DEFERRED" if later else None,
    )


def upgrade() -> None:
    """Make all tables."""
    _make_written_once()
    _make(
        "head",
        "id ledger_id$ entry lot digest#",
        "id",
        _check("head_only_one", "id = 1"),
    )
    _make_projections()


def _make_written_once() -> None:
    _make(
        "entry",
        "id kind$ happened_ms offset_min zone$ recorded_ms operator$ station$ command$ part run$"
        " unsure_ms reverses facts$ previous# facts_digest# lots_digest# postings_digest#"
        " origins_digest# digest#",
        "id",
        _check("entry_numbered", "id > 0"),
        UniqueConstraint("command", "part", name=op.f("entry_one_command_part")),
    )
    _index("entry_by_kind_happened_ms", "entry", "kind happened_ms")
    _index("entry_by_happened_ms", "entry", "happened_ms")
    _index("entry_by_run", "entry", "run", "run <> ''")
    _make(
        "lot",
        "id code$ kind$ made_by made_g season attributes$",
        "id",
        _check("lot_made_of_something", "made_g > 0 OR (made_g = 0 AND kind = 'A')"),
        _check("lot_known_kind", "kind IN ('S', 'P', 'T', 'D', 'J', 'K', 'W', 'X', 'A')"),
        _belongs("lot_has_made_by", "made_by", "entry.id", later=True),
        UniqueConstraint("code", name=op.f("lot_one_code")),
    )
    _index("lot_by_made_by", "lot", "made_by")
    _make(
        "posting",
        "entry line lot place$ grams",
        "entry line",
        _belongs("posting_has_entry", "entry", "entry.id", later=True),
        _belongs("posting_has_lot", "lot", "lot.id"),
    )
    _index("posting_by_lot", "posting", "lot")
    _make(
        "origin",
        "entry line child parent grams late",
        "child parent entry line",
        _check("origin_ordered", "grams = 0 OR (grams > 0 AND parent < child AND late = 0)"),
        _check("origin_not_of_itself", "parent <> child"),
        _check("origin_yes_or_no", "late IN (0, 1)"),
        _belongs("origin_has_entry", "entry", "entry.id", later=True),
        _belongs("origin_has_child", "child", "lot.id"),
        _belongs("origin_has_parent", "parent", "lot.id"),
        UniqueConstraint("entry", "line", name=op.f("origin_one_entry_line")),
        with_it=("grams", "late"),
    )
    _index("origin_forward", "origin", "parent child entry line grams late")


def _make_projections() -> None:
    _make(
        "holding",
        "place$ lot side grams pieces",
        "lot place",
        _check("holding_never_overdrawn", "side <> 0 OR (grams >= 0 AND pieces >= 0)"),
    )
    _index("holding_here", "holding", "place lot", "side = 0 AND (grams <> 0 OR pieces <> 0)")
    _index("holding_source", "holding", "place lot", "side = 1")
    _make(
        "stay",
        "place$ lot entry since_ms until_ms latest_ms ended_by by_wash",
        "place latest_ms lot entry",
    )
    _index("stay_open", "stay", "place lot", "until_ms = -1", unique=True)
    _make("arrived", "place$ at_ms lot entry", "place at_ms lot entry")
    _index("arrived_by_at_ms", "arrived", "at_ms")
    _make("drawn", "place$ at_ms lot entry", "place at_ms lot entry")
    _make("touched", "place$ entry at_ms", "place at_ms entry")
    _make("mark", "subject$ name$ entry at_ms value$", "subject name entry")
    _index(
        "mark_by_name",
        "mark",
        "name subject",
        "replace(name, '/', '') = name AND name NOT IN ('condition', 'dispatched')",
    )
    _make("void_origin", "entry line by_entry", "entry line by_entry")
    _make("reversal", "entry by_entry", "entry")
    _index("reversal_by_by_entry", "reversal", "by_entry")
    _make("code_given", "code$ entry", "code")
    _make("last_number", "letter$ season number", "letter season")
