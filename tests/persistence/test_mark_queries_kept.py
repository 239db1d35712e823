"""Records kept from one unit of work to the next are never older than the ledger."""

from collections.abc import Sequence

import pytest

from honeyledger.ledger.entry import Json
from honeyledger.ledger.state import Mark
from honeyledger.persistence.mark_queries import RECORD, Kept, Known
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
    kept = Kept()
    known = Known(records={(YARD, RECORD): None})
    kept.take_back("abc", known)
    assert kept.lend("abd") == Known()
    assert kept.lend("abc") == Known()
    kept.take_back("abc", known)
    assert kept.lend("abc") is known
    assert kept.lend("abc") == Known()


def test_marks_by_name_are_kept_until_one_of_them_is_written(store: SqlStore) -> None:
    hand = write_season(store)
    _register(hand, "Mill Lane")

    def marked() -> Sequence[Mark]:
        with store.writing() as unit:
            return unit.marked(RECORD, "yard/")

    def name() -> Json:
        return next(mark.value for mark in marked() if mark.subject == YARD)

    assert name() == {"name": "Mill Lane"}
    first = marked()
    hand.write("note", marks=[[YARD, "owner", "O26-0001-X"], ["yards/1", RECORD, {"name": "n"}]])
    assert marked() is first
    _register(hand, "Long Field")
    assert name() == {"name": "Long Field"}
    wrong = hand.write("note", marks=[[YARD, RECORD, {"name": "x"}]])
    assert name() == {"name": "x"}
    hand.write("reverse", reverses=wrong.id)
    assert name() == {"name": "Long Field"}


def test_the_number_a_code_has_got_to_is_kept_and_followed(store: SqlStore) -> None:
    hand = write_season(store)
    with store.writing() as unit:
        before = unit.last_number("G", 26)
    hand.write("receive", codes=[["G26-0099-1"], ["G26-0098-3"], ["D26-0300-1"]])
    with store.writing() as unit:
        assert (before, unit.last_number("G", 26)) == (0, 99)
        assert unit.last_number("D", 26) == 300
