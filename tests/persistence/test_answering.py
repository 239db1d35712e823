"""An answer of another process: the same as here, made here where it fails, ended if unwanted."""

import signal
import subprocess
import sys

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.persistence import answering, beside
from honeyledger.persistence.store import SqlStore
from honeyledger.services.exposure import exposure
from tests.support.entries import write_season
from tests.support.started import Started

CUT_SHORT = (
    "This was ended before all of it was worked out, so nothing is shown. Open the page again; "
    "close other programs first if the computer is short of memory."
)


@pytest.fixture
def season(shared: SqlStore, monkeypatch: pytest.MonkeyPatch) -> SqlStore:
    """A house of which however small an answer is made in another process."""
    write_season(shared)
    monkeypatch.setattr(beside, "FROM_ENTRIES", 0)
    monkeypatch.setattr(beside, "CORES", 2)
    return shared


def test_it_is_what_is_answered_here_and_the_process_has_ended(
    season: SqlStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    started = Started(monkeypatch)
    with season.reading() as view:
        here = exposure(view)
    assert here.sources
    assert season.beside(exposure, lambda: True) == here
    # Not by itself, in which case it would have been made here.
    assert [process.returncode in {0, -signal.SIGKILL} for process in started.all] == [True]


def test_one_that_fails_by_itself_leaves_it_to_this_process(
    season: SqlStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    with season.reading() as view:
        here = exposure(view)
    monkeypatch.setattr(answering, "_START", "raise SystemExit(1)")
    started = Started(monkeypatch)
    assert season.beside(exposure, lambda: True) == here
    assert [process.returncode for process in started.all] == [1]
    monkeypatch.setattr(sys, "executable", "/there/is/no/python")
    assert season.beside(exposure, lambda: True) == here


def test_one_ended_from_outside_is_said_to_be(
    season: SqlStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    Started(monkeypatch, subprocess.Popen.kill)
    with pytest.raises(Refusal) as refused:
        season.beside(exposure, lambda: True)
    assert refused.value.text == CUT_SHORT


def test_one_that_nobody_wants_any_more_is_ended(
    season: SqlStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(answering, "_START", "import threading; threading.Event().wait()")
    started = Started(monkeypatch)
    with pytest.raises(Refusal) as refused:
        season.beside(exposure, lambda: False)
    assert refused.value.text == CUT_SHORT
    assert started.all[0].poll() is not None


def test_a_small_house_is_asked_in_this_process(
    shared: SqlStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    started = Started(monkeypatch)
    write_season(shared)
    assert shared.beside(exposure, lambda: True).sources
    assert not started.all
