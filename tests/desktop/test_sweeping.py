"""Where garbage is looked for."""

import gc
import sys
import threading
import weakref
from collections.abc import Iterator

import pytest
from PySide6.QtCore import QObject, QTimer
from pytestqt.qtbot import QtBot

from honeyledger.desktop import sweeping
from honeyledger.desktop.app import application
from honeyledger.settings import Settings

FEW = 50


class Ring(QTimer):
    """A timer that holds itself: only who looks for garbage finds it."""

    def __init__(self) -> None:
        super().__init__()
        self.me = self


@pytest.fixture
def eager() -> Iterator[None]:
    """Garbage is looked for after a few objects."""
    before = gc.get_threshold()
    gc.collect()
    gc.set_threshold(FEW)
    yield
    gc.set_threshold(*before)


def _make_many() -> None:
    assert len([[number] for number in range(100 * FEW)]) > FEW


@pytest.mark.usefixtures("eager")
def test_a_lane_finds_none_and_the_windows_thread_does(qtbot: QtBot) -> None:
    place = QObject()
    sweeping.sweep_here(place)
    thread = threading.Thread(target=_make_many)
    gone = weakref.ref(Ring())
    thread.start()
    thread.join()
    assert gone() is not None
    qtbot.waitUntil(lambda: gone() is None)


@pytest.mark.usefixtures("eager")
def test_none_is_looked_for_where_hardly_anything_was_made() -> None:
    gc.disable()
    gone = weakref.ref(Ring())
    gc.set_threshold(1_000_000)
    sweeping.sweep()
    assert gone() is not None
    gc.set_threshold(1)
    _make_many()
    sweeping.sweep()
    assert gone() is None


@pytest.mark.usefixtures("eager")
def test_what_would_take_too_long_is_put_aside_until_there_is_no_window(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    gc.disable()
    monkeypatch.setattr(sweeping, "MOST", 20 * FEW)
    gone = weakref.ref(Ring())
    rows = [[number] for number in range(100 * FEW)]
    sweeping.sweep()
    assert gone() is not None
    assert gc.get_freeze_count() > len(rows)
    later = weakref.ref(Ring())
    rows += [[number] for number in range(2 * FEW)]
    sweeping.sweep()
    assert later() is None, "what comes after it is looked through"
    sweeping.sweep_whole()
    assert gone() is None
    gc.unfreeze()


@pytest.mark.usefixtures("eager")
def test_what_is_older_counts_where_it_would_be_looked_through(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    gc.disable()
    gc.freeze()
    rows = [[number] for number in range(100 * FEW)]
    gc.collect(0)
    monkeypatch.setattr(sweeping, "MOST", len(rows) // 2)
    gc.set_threshold(FEW, 0)
    sweeping.sweep()
    assert gc.get_objects(1) == [], "they are put aside, not looked through"
    gc.unfreeze()


@pytest.mark.usefixtures("eager")
def test_what_was_let_go_meanwhile_does_not_make_the_new_look_few(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    gc.disable()
    gc.freeze()
    monkeypatch.setattr(sweeping, "MOST", 20 * FEW)
    before = [[number] for number in range(100 * FEW)]
    gc.collect(0)
    rows = [[number] for number in range(100 * FEW)]
    del before
    assert gc.get_count()[0] < sweeping.MOST
    aside = gc.get_freeze_count()
    more = [[number] for number in range(2 * FEW)]
    sweeping.sweep()
    now_aside = gc.get_freeze_count() - aside
    assert now_aside >= len(rows) + len(more), "they are put aside, not looked through"
    gc.unfreeze()


def test_a_lane_goes_on_unharmed_while_objects_are_counted() -> None:
    gc.disable()
    failed: list[SystemError] = []
    is_over = threading.Event()

    def lane() -> None:
        while not (is_over.is_set() or failed):
            try:
                tuple([number] for number in range(FEW))
            except SystemError as error:
                failed.append(error)

    before = sys.getswitchinterval()
    sys.setswitchinterval(1e-6)
    lanes = [threading.Thread(target=lane) for _ in range(2)]
    for one in lanes:
        one.start()
    for _ in range(300):
        sweeping._how_many(0)
    is_over.set()
    for one in lanes:
        one.join()
    sys.setswitchinterval(before)
    assert failed == []


def test_the_application_has_one_sweeper_however_often_it_is_dressed() -> None:
    app = application(Settings())
    application(Settings())
    assert len(app.findChildren(sweeping.Sweeper)) == 1
    assert not gc.isenabled()
    sweeper = app.findChild(sweeping.Sweeper)
    assert sweeper is not None
    sweeper.setParent(None)
