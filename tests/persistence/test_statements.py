import pytest
from sqlalchemy import literal_column, select

from honeyledger.domain.refusals import BrokenRule
from honeyledger.persistence.statements import Insert, Statement, as_arrays, ids_given, the
from honeyledger.persistence.store import SqlStore
from honeyledger.persistence.tables import LOT, MARK


class Listener:
    """A cursor that only hears what it is told."""

    def __init__(self) -> None:
        self.heard: list[tuple[str, object]] = []

    def execute(self, text: str, values: object) -> None:
        self.heard.append((text, values))

    executemany = execute


def test_values_go_where_the_statement_has_them() -> None:
    core = select(LOT.c.id).where(
        LOT.c.code == the("b"), LOT.c.kind == the("a"), LOT.c.id == the("b")
    )
    cursor = Listener()
    Statement(core, "a", "b").run(cursor, "sqlite", ("A", "B"))
    assert cursor.heard[0][1] == ("B", "A", "B")
    assert "%s" not in cursor.heard[0][0]
    Statement(core, "a", "b").run(cursor, "postgresql", ("A", "B"))
    assert cursor.heard[1][0].count("%s") == 3


def test_values_written_into_the_statement_stay() -> None:
    cursor = Listener()
    Statement(select(LOT.c.id).where(LOT.c.id == the("id")).limit(1), "id").run(
        cursor, "postgresql", (5,)
    )
    assert cursor.heard[0][1] == (5, 1)


def test_names_must_fit() -> None:
    core = select(LOT.c.id).where(LOT.c.id == the("id"))
    with pytest.raises(BrokenRule, match=r"a statement takes the values \['id'\], not \('lot',\)"):
        Statement(core, "lot").run(Listener(), "sqlite", (1,))


def test_a_list_of_ids_is_one_value(store: SqlStore) -> None:
    many = Statement(lambda engine: select(literal_column("count(*)")).select_from(
        ids_given(engine).subquery()), "ids")  # fmt: skip
    with store.reading() as view:
        assert view._one(many, str(list(range(100_000)))) == (100_000,)
        assert view._one(many, "[]") == (0,)


def test_every_text_survives(store: SqlStore) -> None:
    words = [
        'quote " and \\ slash',
        "comma, {brace}",
        "Größe 蜂蜜",
        "",
        "NULL",
        "two\nlines",
        "%s",
    ]
    rows = [("house", str(place), 1, 2, word) for place, word in enumerate(words)]
    with store.writing() as unit:
        Insert(MARK).run(unit._cursor, unit._engine, rows)
        kept = unit._all(Statement(select(MARK.c.value).order_by(MARK.c.name)))
    assert [row[0] for row in kept] == words


def test_a_row_is_left_out_unless_a_question_has_no_answer(store: SqlStore) -> None:
    taken = "SELECT 1 FROM mark WHERE mark.subject = new.subject AND mark.value = new.value"
    rows = [("house", str(place), 1, 2, word) for place, word in enumerate(("a", "b"))]
    with store.writing() as unit:
        Insert(MARK).run(unit._cursor, unit._engine, rows[:1])
        more = [("house", "2", 1, 2, "a"), *rows[1:], ("yard", "0", 1, 2, "a")]
        Insert(MARK, unless=taken).run(unit._cursor, unit._engine, more)
        assert unit._cursor.rowcount == 2
        kept = unit._all(Statement(select(*MARK.c).order_by(MARK.c.subject, MARK.c.name)))
    assert [tuple(row) for row in kept] == [*rows, more[-1]]


def test_arrays_are_columns() -> None:
    assert as_arrays([(1, "a"), (2, 'b"')]) == ["{1,2}", '{"a","b\\""}']


def test_no_rows_are_no_statement() -> None:
    cursor = Listener()
    Insert(MARK).run(cursor, "sqlite", [])
    assert cursor.heard == []
