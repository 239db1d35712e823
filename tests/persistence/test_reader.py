import pytest
from sqlalchemy import literal_column, select

from honeyledger.domain.refusals import Damage
from honeyledger.persistence.sealed import ENTRY_ROWS
from honeyledger.persistence.statements import Statement, the
from honeyledger.persistence.store import SqlStore
from tests.support.entries import Hand, write_season


def test_a_stream_gives_every_row_beside_other_questions(store: SqlStore) -> None:
    write_season(store)
    with store.reading() as view:
        ids = [(row[0], view.lot(1).id) for row in view.stream(ENTRY_ROWS, 10)]
        assert ids == [(number, 1) for number in range(1, 11)]
        first, second = view.stream(ENTRY_ROWS, 10), view.stream(ENTRY_ROWS, 10)
        assert next(first)[0] == next(second)[0] == 1
        first.close()
        second.close()


def test_ids_follow_the_head(store: SqlStore) -> None:
    hand = Hand(store)
    with store.writing() as unit:
        assert (unit.next_entry, unit.next_lot) == (1, 1)
        posts = [("S26-0001-A", "yard/Y", -10), ("S26-0001-A", "pallet/G", 10)]
        unit.append(hand.build(1, 1, "receive", [("S26-0001-A", 10)], posts))
        assert (unit.next_entry, unit.next_lot) == (2, 2)
    with store.reading() as view:
        assert (view.next_entry, view.next_lot) == (2, 2)


def test_a_house_without_a_head_is_damaged(store: SqlStore) -> None:
    with store._engine.begin() as connection:
        if connection.dialect.name == "sqlite":
            connection.exec_driver_sql("DROP TRIGGER head_delete_guard")
        else:
            connection.exec_driver_sql("ALTER TABLE head DISABLE TRIGGER ALL")
        connection.exec_driver_sql("DELETE FROM head")
    with store.reading() as view, pytest.raises(Damage, match="head: its row is missing"):
        view.head()


def test_several_questions_are_answered_in_their_order(store: SqlStore) -> None:
    question = Statement(select(literal_column("7") + the("more")), "more")
    with store.reading() as view:
        assert view._each((question, (1,)), (question, (2,))) == [[(8,)], [(9,)]]
        assert view._each() == []
