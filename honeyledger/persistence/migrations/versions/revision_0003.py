"""Stays tell what happened as they began or ended; what they tell has no row of its own.

Rows are found by the keys they have. On SQLite the room is used again by what is written next.
"""

from alembic import op

revision = "0003"
down_revision = "0002"

_HERE = "SELECT 1 FROM {} AS own WHERE own.place = stay.place AND own.at_ms = stay.{}_ms"


def upgrade() -> None:
    """Let stays tell, then let go of what they tell."""
    op.alter_column("stay", "by_wash", new_column_name="told")
    _rename_on_a_server()
    began, ended = _touched("since", "entry"), _touched("until", "ended_by")
    op.execute(
        f"UPDATE stay SET told = told + CASE WHEN {ended} THEN 2 ELSE 0 END"
        f" + CASE WHEN {began} THEN 4 ELSE 0 END"
        f" + CASE WHEN {_of_lot('arrived')} THEN 8 ELSE 0 END"
        f" + CASE WHEN {_of_lot('drawn')} THEN 16 ELSE 0 END"
    )
    for table, bit in (("arrived", 8), ("drawn", 16)):
        op.execute(
            f"DELETE FROM {table} WHERE (place, at_ms, lot, entry) IN"
            f" (SELECT place, since_ms, lot, entry FROM stay WHERE (told & {bit}) <> 0)"
        )
    op.execute(
        "DELETE FROM touched WHERE (place, at_ms, entry) IN"
        " (SELECT place, since_ms, entry FROM stay WHERE (told & 4) <> 0"
        " UNION SELECT place, until_ms, ended_by FROM stay WHERE (told & 2) <> 0)"
    )


def _rename_on_a_server() -> None:
    """Newer servers name what says that a column is never empty, after the column."""
    connection = op.get_bind()
    if (
        connection.dialect.name == "postgresql"
        and connection.exec_driver_sql(
            "SELECT 1 FROM pg_constraint WHERE conrelid = 'stay'::regclass"
            " AND conname = 'stay_by_wash_not_null'"
        ).fetchone()
    ):
        op.execute(
            "ALTER TABLE stay RENAME CONSTRAINT stay_by_wash_not_null TO stay_told_not_null"
        )


def _touched(time: str, entry: str) -> str:
    """Whether the entry says then that it touched the place, or what moved there says so."""
    return " OR ".join(
        f"EXISTS ({_HERE.format(table, time)} AND own.entry = stay.{entry})"
        for table in ("touched", "arrived", "drawn")
    )


def _of_lot(table: str) -> str:
    """Whether the lot is said to have come, or to have been drawn, as it began to stand there."""
    here = _HERE.format(table, "since")
    return f"EXISTS ({here} AND own.lot = stay.lot AND own.entry = stay.entry)"
