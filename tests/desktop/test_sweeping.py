"""Where garbage is looked for."""

import gc
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


def test_the_application_has_one_sweeper_however_often_it_is_dressed() -> None:
    app = application(Settings())
    application(Settings())
    assert len(app.findChildren(sweeping.Sweeper)) == 1
    assert not gc.isenabled()
    sweeper = app.findChild(sweeping.Sweeper)
    assert sweeper is not None
    sweeper.setParent(None)
