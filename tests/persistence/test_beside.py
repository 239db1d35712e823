"""The other process of an audit: killed, failing, ahead of the head, or not to be had."""

import subprocess
import sys

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.persistence import beside
from honeyledger.persistence.beside import begun, pays_off
from honeyledger.persistence.engine import locate
from honeyledger.persistence.store import SqlStore
from tests.support.entries import Hand, write_season
from tests.support.started import Started


@pytest.fixture
def in_two(monkeypatch: pytest.MonkeyPatch) -> None:
    """An audit of however few entries takes two processes."""
    monkeypatch.setattr(beside, "FROM_ENTRIES", 0)
    monkeypatch.setattr(beside, "CORES", 2)


@pytest.mark.usefixtures("in_two")
def test_a_killed_process_is_said_to_be_and_nothing_holds(
    shared: SqlStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_season(shared)
    started = Started(monkeypatch, subprocess.Popen.kill)
    with pytest.raises(Refusal) as refused:
        shared.audit()
    assert refused.value.text == (
        "The audit was ended from outside before it was done, so nothing is known yet. Run it "
        "again; close other programs first if the computer is short of memory."
    )
    assert started.all[0].poll() is not None
    # Nothing of it is left behind: the next one holds.
    monkeypatch.undo()
    assert all(finding.holds for finding in shared.audit())


@pytest.mark.usefixtures("in_two")
def test_one_that_cannot_do_it_leaves_it_to_this_process(
    shared: SqlStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_season(shared)
    monkeypatch.setattr(beside, "_START", "raise SystemExit(1)")
    started = Started(monkeypatch)
    assert all(finding.holds for finding in shared.audit())
    assert [process.returncode for process in started.all] == [1]
    monkeypatch.setattr(sys, "executable", "/there/is/no/python")
    assert all(finding.holds for finding in shared.audit())


@pytest.mark.usefixtures("in_two")
def test_a_sound_house_holds_and_the_other_process_has_ended(
    shared: SqlStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_season(shared)
    started = Started(monkeypatch)
    told: list[tuple[int, int]] = []
    assert all(finding.holds for finding in shared.audit(lambda done, of: told.append((done, of))))
    assert [process.poll() is not None for process in started.all] == [True]
    assert told[-1] == (10, 10)
    assert told == sorted(told)


def test_what_is_written_meanwhile_is_for_the_next_audit(shared: SqlStore, url: str) -> None:
    hand = Hand(shared)
    write_season(shared)
    with shared.reading() as view:
        head = view.head()
    with shared.writing() as unit:
        unit.append(hand.build(11, unit.next_lot, "note", [], []))
    with begun(locate(url), head, [(10, head.digest[:12])]) as other:
        found = other.found(lambda _: None)
    assert found
    rows, is_sound = found
    assert is_sound
    assert all(finding.holds for finding in rows.findings())


def test_it_pays_off_over_many_entries_in_a_file_with_a_core_for_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    file, memory = locate("north.house"), locate(":memory:")
    monkeypatch.setattr(beside, "CORES", 2)
    assert pays_off(file, beside.FROM_ENTRIES)
    assert not pays_off(file, beside.FROM_ENTRIES - 1)
    assert not pays_off(memory, beside.FROM_ENTRIES)
    monkeypatch.setattr(beside, "CORES", 1)
    assert not pays_off(file, beside.FROM_ENTRIES)
    monkeypatch.setattr(beside, "CORES", 2)
    monkeypatch.setattr(sys, "frozen", True, raising=False)
    assert not pays_off(file, beside.FROM_ENTRIES), "there is no Python of its own to start"
