"""The four tables by themselves, up to a head: what stands after it is for the next audit."""

from honeyledger.persistence.broken import Broken
from honeyledger.persistence.sealed import all_stored, beyond, check_rows, follow_chain
from honeyledger.persistence.store import SqlStore
from honeyledger.services.store import Head
from tests.support.entries import write_season


def _head_at(store: SqlStore, entry: int) -> Head:
    with store.reading() as view:
        (told,) = view.entry_heads([entry])
        return Head(view.head().ledger_id, entry, 0, told.digest)


def test_the_chain_can_be_followed_alone(store: SqlStore) -> None:
    write_season(store)
    lines = Broken()
    with store.reading() as view:
        follow_chain(view, lines)
    assert all(finding.holds for finding in lines.findings())


def test_rows_are_looked_at_up_to_the_head_and_no_further(store: SqlStore) -> None:
    write_season(store)
    for entry in range(1, 11):
        head = _head_at(store, entry)
        told: list[int] = []
        with store.reading() as view:
            assert [one.id for one in all_stored(view, entry, Broken())] == list(
                range(1, entry + 1)
            )
            broken, is_sound = check_rows(view, head, (), told.append)
        assert all(finding.holds for finding in broken.findings())
        assert is_sound
        assert told == [entry]


def test_what_stands_after_the_head_is_named(store: SqlStore) -> None:
    write_season(store)
    earlier = _head_at(store, 8)
    with store.reading() as view:
        assert list(beyond(view, view.head())) == []
        assert list(beyond(view, earlier)) == [
            "entry 9, entry: it stands after the head, 8",
            "entry 10, entry: it stands after the head, 8",
            "entry 10, posting: it stands after the head, 8",
        ]
