"""Records kept from one unit of work to the next are never older than the ledger."""

import pytest

from honeyledger.ledger.entry import Json
from honeyledger.persistence.mark_queries import RECORD, KeptRecords
from honeyledger.persistence.store import SqlStore, open_store
from tests.support.entries import Hand, write_season

YARD = "yard/Y26-0001-1"


def _name(store: SqlStore) -> Json:
    with store.writing() as unit:
        mark = unit.mark(YARD, RECORD)
    return mark.value["name"] if mark else ""  # type: ignore[call-overload, index]


def _register(hand: Hand, name: str) -> None:
    hand.write("register", marks=[[YARD, RECORD, {"name": name}]])


def test_a_record_is_read_once_while_nobody_else_writes(store: SqlStore) -> None:
    hand = write_season(store)
    _register(hand, "Mill Lane")
    assert _name(store) == "Mill Lane"
    with store.writing() as unit:
        assert unit.mark(YARD, RECORD) is unit.mark(YARD, RECORD)
        first = unit.mark(YARD, RECORD)
    with store.writing() as unit:
        assert unit.mark(YARD, RECORD) is first


def test_a_record_written_here_is_the_new_one_at_once(store: SqlStore) -> None:
    hand = write_season(store)
    for name in ("Mill Lane", "Long Field"):
        _register(hand, name)
        assert _name(store) == name


def test_a_record_reversed_is_the_one_before_it(store: SqlStore) -> None:
    hand = write_season(store)
    _register(hand, "Mill Lane")
    wrong = hand.write("register", marks=[[YARD, RECORD, {"name": "Long Field"}]])
    assert _name(store) == "Long Field"
    hand.write("reverse", reverses=wrong.id)
    assert _name(store) == "Mill Lane"


def test_a_record_written_by_another_program_is_seen(shared: SqlStore, url: str) -> None:
    hand = write_season(shared)
    _register(hand, "Mill Lane")
    assert _name(shared) == "Mill Lane"
    other = open_store(url)
    assert isinstance(other, SqlStore)
    assert _name(other) == "Mill Lane"
    _register(Hand(other), "Long Field")
    other.close()
    assert _name(shared) == "Long Field"


def test_a_record_of_a_unit_that_failed_is_not_kept(store: SqlStore) -> None:
    hand = write_season(store)
    _register(hand, "Mill Lane")
    assert _name(store) == "Mill Lane"

    class GoneWrongError(Exception):
        pass

    def goes_wrong() -> None:
        with store.writing() as unit:
            rows = [[YARD, RECORD, {"name": "Long Field"}]]
            unit.append(hand.build(unit.next_entry, unit.next_lot, "register", marks=rows))
            mark = unit.mark(YARD, RECORD)
            assert mark is not None
            assert mark.value == {"name": "Long Field"}
            raise GoneWrongError

    with pytest.raises(GoneWrongError):
        goes_wrong()
    assert _name(store) == "Mill Lane"


def test_what_is_kept_is_lent_at_its_own_end_of_the_chain_only_and_once() -> None:
    kept = KeptRecords()
    records = {(YARD, RECORD): None}
    kept.take_back("abc", records)
    assert kept.lend("abd") == {}
    assert kept.lend("abc") == {}
    kept.take_back("abc", records)
    assert kept.lend("abc") is records
    assert kept.lend("abc") == {}
