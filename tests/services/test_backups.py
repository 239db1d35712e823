"""What would be lost with this computer, and since when."""

from dataclasses import replace

import pytest

from honeyledger.ledger.verbs.registers import Register
from honeyledger.persistence.store import open_store
from honeyledger.services.backups import OLD_MS, AtStake, Backup, at_stake
from tests.support.houses import START_MS, BuiltHouse


def _kept(house: BuiltHouse) -> Backup:
    head = house.house.ask(lambda view: view.head())
    return Backup("copy", START_MS, head.ledger_id, head.entry, head.digest)


def _stake(house: BuiltHouse, kept: Backup | None) -> AtStake:
    return house.house.ask(lambda view: at_stake(view, kept))


@pytest.fixture
def house() -> BuiltHouse:
    return BuiltHouse()


def test_just_after_a_backup_nothing_is_at_stake(house: BuiltHouse) -> None:
    house.yard("Creek")
    kept = _kept(house)
    stake = _stake(house, kept)
    assert stake == AtStake(kept, 0, 0)
    assert not stake.is_old(START_MS + 100 * OLD_MS), "nothing was recorded since"


def test_the_oldest_entry_without_a_copy_says_how_old_a_backup_is(house: BuiltHouse) -> None:
    house.yard("Creek")
    kept = _kept(house)
    house.yard("Hill")
    first = house.house.ask(lambda view: view.entry_heads([kept.entry + 1])[0].recorded_ms)
    house.do(Register("yard", {"name": "Moor"}), at_min=600)
    stake = _stake(house, kept)
    assert (stake.kept, stake.entries, stake.since_ms) == (kept, 2, first)
    assert not stake.is_old(first + OLD_MS)
    assert stake.is_old(first + OLD_MS + 1)


def test_without_a_backup_all_of_it_is_at_stake(house: BuiltHouse) -> None:
    house.yard("Creek")
    entries = house.house.ask(lambda view: view.head().entry)
    assert _stake(house, None).entries == entries
    assert _stake(house, None).kept is None


def test_a_copy_of_another_course_of_the_ledger_counts_for_nothing(house: BuiltHouse) -> None:
    """The house was put back to an older copy, and went on differently."""
    house.yard("Creek")
    kept = _kept(house)
    for other in (
        replace(kept, digest="0" * 64),
        replace(kept, ledger="another"),
        replace(kept, entry=kept.entry + 5),
    ):
        assert _stake(house, other).kept is None


def test_an_empty_ledger_has_nothing_to_lose() -> None:
    store = open_store(":memory:", create=True, new_id=lambda: "ledger-1")
    with store.reading() as view:
        assert at_stake(view, None) == AtStake(None, 0, 0)
    store.close()
