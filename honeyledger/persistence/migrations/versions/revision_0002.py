"""Smaller projections: long marks stand in their entry's facts only, and three indexes go.

No rows are made anew: what is longer than 250 signs is let go where the facts have it, and the
rest stays as it is. On SQLite the room is used again by what is written next.
"""

from alembic import op
from sqlalchemy import text

revision = "0002"
down_revision = "0001"

_BY_NAME = text(
    "replace(name, '/', '') = name AND name NOT IN ('barrel', 'claims', 'condition',"
    " 'dispatched', 'started', 'washed', 'weighed_g')"
)


def upgrade() -> None:
    """Let go of what nobody asks for, or what is said twice."""
    op.drop_index(op.f("stay_open"), "stay")
    op.drop_index(op.f("arrived_by_at_ms"), "arrived")
    op.drop_index(op.f("mark_by_name"), "mark")
    op.execute("UPDATE mark SET value = '' WHERE length(value) > 250 AND name <> 'record'")
    op.create_index(
        op.f("mark_by_name"),
        "mark",
        ["name", "subject"],
        sqlite_where=_BY_NAME,
        postgresql_where=_BY_NAME,
    )
