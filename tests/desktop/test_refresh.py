"""What changed is told once, to whoever cares, but not back to who changed it."""

from collections.abc import Iterator

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.jobs import Jobs
from honeyledger.desktop.refresh import OtherStations, Refresh


@pytest.fixture
def jobs() -> Iterator[Jobs]:
    made = Jobs()
    yield made
    made.close()


def test_only_who_watches_a_kind_hears_of_it() -> None:
    refresh, heard = Refresh(), []
    refresh.watch(["drums"], lambda: heard.append("drums"))
    refresh.watch(["orders", "drums"], lambda: heard.append("either"))
    refresh.watch(["yards"], lambda: heard.append("yards"))
    refresh.broadcast(["drums", "holds"])
    assert heard == ["drums", "either"]


def test_the_one_who_changed_it_is_not_told() -> None:
    refresh, heard = Refresh(), []
    me, other = object(), object()
    refresh.watch(["drums"], lambda: heard.append("mine"), me=me)
    refresh.watch(["drums"], lambda: heard.append("other's"), me=other)
    refresh.broadcast({"drums"}, me)
    assert heard == ["other's"]


def test_nothing_is_said_of_nothing() -> None:
    refresh, heard = Refresh(), []
    refresh.changed.connect(lambda *_: heard.append("told"))
    refresh.broadcast([])
    assert heard == []


def test_another_stations_entries_are_broadcast_once(qtbot: QtBot, jobs: Jobs) -> None:
    refresh, heard = Refresh(), []
    refresh.changed.connect(lambda changes, _who: heard.append(sorted(changes)))
    asked: list[int] = []

    def ask(head: int) -> tuple[int, frozenset[str]]:
        asked.append(head)
        return 48_212, frozenset({"drums", "line"})

    others = OtherStations(jobs, refresh, ask, head=48_211, every_ms=60_000)
    others.look()
    qtbot.waitUntil(lambda: others.head == 48_212)
    others.look()
    qtbot.waitUntil(lambda: asked == [48_211, 48_212] and jobs.is_idle())
    assert heard == [["drums", "line"]]


def test_our_own_entries_are_not_told_of_again(qtbot: QtBot, jobs: Jobs) -> None:
    refresh, heard = Refresh(), []
    refresh.changed.connect(lambda *_: heard.append("told"))
    others = OtherStations(
        jobs, refresh, lambda _head: (50, frozenset({"drums"})), head=40, every_ms=60_000
    )
    others.skip_to(50)
    others.look()
    qtbot.waitUntil(jobs.is_idle)
    assert heard == []
