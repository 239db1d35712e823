from typing import Any

import pytest
from sqlalchemy import select

from honeyledger.domain.refusals import BrokenRule
from honeyledger.ledger.state import Mark
from honeyledger.persistence.reader import Reader
from honeyledger.persistence.statements import Statement, the
from honeyledger.persistence.store import SqlStore
from honeyledger.persistence.tables import LONG, MARK, ONLY_OF_SUBJECT
from tests.support.entries import MINUTE_MS, START_MS, Hand, write_season


def test_the_latest_mark_that_counts(store: SqlStore) -> None:
    write_season(store)
    with store.reading() as view:
        mark = view.mark("D26-0001-D", "moisture")
        assert mark is not None
        assert (mark.value, mark.entry) == (1780, 6), "entry 7 is reversed"
        assert view.mark("D26-0001-D", "colour") is None


def test_of_two_marks_in_one_entry_the_later_counts(store: SqlStore) -> None:
    Hand(store).write("note", marks=[["house", "name", "A"], ["house", "name", "B"]])
    with store.reading() as view:
        mark = view.mark("house", "name")
    assert mark is not None
    assert mark.value == "B"


def test_marks_of_a_subject_and_subjects_of_a_mark(store: SqlStore) -> None:
    hand = Hand(store)
    hand.write("register", marks=[["yard/B", "record", {"name": "B"}], ["yard/A", "record", "a"]])
    hand.write("register", marks=[["yard/A", "record", "A"], ["yardage", "record", 1]])
    hand.write("note", marks=[["yard/A", "owner", "O26-0001-X"]])
    with store.reading() as view:
        assert [(mark.name, mark.value) for mark in view.marks("yard/A")] == [
            ("owner", "O26-0001-X"),
            ("record", "A"),
        ]
        assert [mark.subject for mark in view.marked("record", "yard/")] == ["yard/A", "yard/B"]
        assert [mark.subject for mark in view.marked("record")] == ["yard/A", "yard/B", "yardage"]
        assert view.marked("record", "drum/") == []


def test_marks_of_many_subjects_are_read_at_once(
    store: SqlStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    hand = Hand(store)
    hand.write("register", marks=[["yard/B", "record", {"name": "B"}], ["yard/A", "record", "a"]])
    hand.write("note", marks=[["yard/A", "treated/1", "x"], ["yard/A", "record", "A"]])
    wrong = hand.write("note", marks=[["yard/B", "owner", "O26-0001-X"]])
    hand.write("reverse", reverses=wrong.id)
    subjects = ["yard/A", "yard/B", "yard/C", "yard/A"]
    with store.reading() as view:
        one_by_one = {subject: view.marks(subject) for subject in subjects}
    with store.reading() as view:
        view.read_marks(subjects)
        for name in ("_all", "_one"):  # what follows asks nothing more
            monkeypatch.delattr(Reader, name)
        view.read_marks(subjects[:2])
        view.read_marks([])
        assert {subject: view.marks(subject) for subject in subjects} == one_by_one
        assert [mark.name for mark in view.marks("yard/A")] == ["record", "treated/1"]
        record = view.mark("yard/A", "record")
        assert record is not None
        assert record.value == "A"
        assert (view.mark("yard/B", "owner"), view.mark("yard/C", "record")) == (None, None)


def test_the_latest_mark_of_a_name_on_many_subjects(store: SqlStore) -> None:
    hand = Hand(store)
    hand.write("note", marks=[["A", "stands", 1], ["B", "stands", 2], ["C", "stands", 3]])
    hand.write("note", marks=[["A", "stands", 4], ["A", "pending", 1], ["B", "other", 5]])
    wrong = hand.write("note", marks=[["B", "stands", 6]])
    hand.write("reverse", reverses=wrong.id)
    with store.reading() as view:
        on = view.marked_on("stands", {"A", "B", "D"})
        assert {subject: mark.value for subject, mark in on.items()} == {"A": 4, "B": 2}
        assert view.marked_on("stands", []) == {}


def test_records_of_many_subjects_are_read_at_once_and_followed(
    store: SqlStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    hand = Hand(store)
    hand.write("register", marks=[["yard/A", "record", "a"], ["yard/B", "record", "b"]])
    hand.write("register", marks=[["yard/A", "record", "A"]])
    wrong = hand.write("register", marks=[["yard/B", "record", "B"]])
    subjects = {"yard/A", "yard/B", "yard/C"}
    with store.writing() as unit:
        on = unit.marked_on("record", subjects)
    assert {subject: mark.value for subject, mark in on.items()} == {"yard/A": "A", "yard/B": "B"}
    hand.write("reverse", reverses=wrong.id)
    hand.write("register", marks=[["yard/C", "record", "c"]])
    with store.writing() as unit:
        on = unit.marked_on("record", subjects)
        for name in ("_all", "_one"):  # what follows asks nothing more
            monkeypatch.delattr(Reader, name)
        records = {subject: unit.mark(subject, "record") for subject in subjects}
        assert unit.marked_on("record", ["yard/A"]) == {"yard/A": on["yard/A"]}
    assert records == on
    assert {mark.value for mark in on.values()} == {"A", "b", "c"}


def test_marks_made_in_a_time_are_the_latest_that_were(store: SqlStore) -> None:
    hand = Hand(store)
    one = hand.write("open run", marks=[["run/R26-0001-X", "opened", 1]])
    hand.write("open run", marks=[["run/R26-0002-X", "opened", 2], ["rune/A", "opened", 3]])
    hand.write("note", marks=[["run/R26-0002-X", "opened", 4], ["run/R26-0001-X", "closed", 5]])
    wrong = hand.write("note", marks=[["run/R26-0001-X", "opened", 6]])
    hand.write("reverse", reverses=wrong.id)
    at_ms, end_ms = one.act.happened.at_ms, wrong.act.happened.at_ms

    def between(since_ms: int, before_ms: int) -> list[Any]:
        with store.reading() as view:
            return [m.value for m in view.marked_between("opened", "run/", since_ms, before_ms)]

    assert between(at_ms, end_ms) == [1, 4]
    assert between(at_ms, at_ms + 1) == [1]
    assert between(at_ms + 1, end_ms) == [4]
    assert between(at_ms - 1, at_ms) == between(end_ms, end_ms + 1) == []


def test_what_was_begun_and_not_ended_is_kept_and_followed(store: SqlStore) -> None:
    """By one station, by another, when the end is taken back, and from what is kept."""
    hand = Hand(store)

    def begun() -> list[str]:
        with store.writing() as unit:
            kept = [mark.subject for mark in unit.marked_without("opened", "closed", "run/")]
        with store.reading() as view:
            assert [m.subject for m in view.marked_without("opened", "closed", "run/")] == kept
        return kept

    assert begun() == []
    first = hand.write("open run", marks=[["run/A", "opened", {"line": "L"}]])
    hand.write("open run", marks=[["run/B", "opened", {"line": "L"}], ["runs/C", "opened", 1]])
    assert begun() == ["run/A", "run/B"]
    hand.write("note", marks=[["bottling/A", "closed", 1], ["run/B", "colour", 12]])
    assert begun() == ["run/A", "run/B"]
    closed = hand.write("close run", marks=[["run/A", "closed", {"by": ""}]])
    assert begun() == ["run/B"]
    hand.write("reverse", reverses=closed.id)
    assert begun() == ["run/A", "run/B"]
    hand.write("reverse", reverses=first.id)
    assert begun() == ["run/B"]


def test_codes_once_given_stay_given(store: SqlStore) -> None:
    hand = write_season(store)
    hand.write("register", codes=[["Y26-0014-K"], ["HL-R26-0123-X"], ["sticker 7"]])
    hand.write("reverse", reverses=11)
    with store.reading() as view:
        for code in ("Y26-0014-K", "sticker 7", "D26-0001-D"):
            assert view.is_given(code)
        assert not view.is_given("Y26-0015-K")
        assert view.last_number("Y", 26) == 14
        assert view.last_number("R", 26) == 123, "the house's letters before it do not matter"
        assert view.last_number("S", 26) == 2
        assert view.last_number("S", 27) == 0


def test_one_of_many_marks_of_a_subject_is_not_asked_for_by_name(store: SqlStore) -> None:
    """No index has them: there are many a code, and they grow with every year."""
    for name in ("note/N26-0001-X", *ONLY_OF_SUBJECT):
        with store.reading() as view, pytest.raises(BrokenRule, match=name):
            view.marked(name)


LONGEST = "x" * (LONG - 2)  # with its quotes


def _stored(store: SqlStore, name: str) -> list[str]:
    with store.reading() as view:
        values = Statement(select(MARK.c.value).where(MARK.c.name == the("name")), "name")
        return [row[0] for row in view._all(values, name)]


def test_a_long_value_stands_in_its_entrys_facts_only(store: SqlStore) -> None:
    hand, long, at_ms = Hand(store), {"told": [LONGEST, "Größe"]}, START_MS + 2 * MINUTE_MS
    hand.write("tell", marks=[["D1", "said", long], ["D1", "said/1", "x"], ["D2", "said", long]])
    hand.write("tell", marks=[["D1", "said", LONGEST], ["D2", "said", LONGEST + "y"]])
    assert sorted(_stored(store, "said")) == ["", "", "", f'"{LONGEST}"']
    with store.reading() as view:
        assert view.mark("D1", "said") == Mark("D1", "said", LONGEST, at_ms, 2)
        latest = Mark("D2", "said", LONGEST + "y", at_ms, 2)
        assert view.mark("D2", "said") == latest
        view.read_marks(["D2"])
        assert list(view.marks("D2")) == [latest]
        assert view.marked("said")[1] == latest
        assert view.marked_on("said", ["D2"]) == {"D2": latest}
        assert view.marked_without("said", "over", "D")[1] == latest
    hand.write("reverse", reverses=2)
    with store.reading() as view:
        assert [mark.value for mark in view.marked("said")] == [long, long]
    assert all(finding.holds for finding in store.audit())


def test_of_two_long_values_an_entry_gives_the_later_counts(store: SqlStore) -> None:
    rows = [["D1", "said", LONGEST + word] for word in ("one", "two")]
    Hand(store).write("tell", marks=rows)
    with store.reading() as view:
        assert view.marks("D1")[0].value == LONGEST + "two"


def test_a_record_is_kept_however_long_it_is(store: SqlStore) -> None:
    """Names are read of many at once, without their entries."""
    Hand(store).write("register", marks=[["yard/A", "record", {"name": LONGEST + "y"}]])
    assert _stored(store, "record") != [""]
    with store.reading() as view:
        assert view.names_of(["yard/A"]) == {"yard/A": LONGEST + "y"}
