"""The same facts in the hot room and in a terminal give the same digests and refusals."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from tests.desktop.hot_room_rig import Station
from tests.desktop.rig import Rig
from tests.support.terminal import Terminal


class Both:
    """One house with pallets, twice: in a window and in a terminal."""

    def __init__(self, qtbot: QtBot, folder: Path) -> None:
        (folder / "window").mkdir()
        (folder / "terminal").mkdir()
        self.window = Rig(qtbot, folder / "window")
        self.station = Station(self.window)
        self.waiting = self.station.waiting
        copy = folder / "terminal" / "house.honeyledger"
        with self.window.house.store.reading():
            shutil.copyfile(self.window.file, copy)
            for beside in ("-wal", "-shm"):
                part = Path(f"{self.window.file}{beside}")
                if part.exists():
                    shutil.copyfile(part, f"{copy}{beside}")
        self.terminal = Terminal(folder / "terminal")
        assert self.terminal.head() == self.window.head()

    def again(self, *words: str) -> None:
        """The same command as the last in the window, at its moment, by its person and id."""
        self.terminal.now_ms = self.window.now_ms - 60_000
        self.terminal.do(
            *words,
            *("--operator", self.waiting.badge, "--station", "dock"),
            *("--command", self.waiting.last().act.command),
        )
        assert self.terminal.head() == self.window.head()


@pytest.fixture
def both(qtbot: QtBot, tmp_path: Path) -> Iterator[Both]:
    made = Both(qtbot, tmp_path)
    yield made
    made.window.close()


def test_the_air_is_the_same_entry_from_both_faces(both: Both) -> None:
    both.window.type("Hot room")
    both.window.type("34,5")
    both.window.type("45")
    both.window.type("")
    both.again("room", "log", "Hot room", "--temperature", "34.5", "--humidity", "45")


def test_drying_is_the_same_entry_from_both_faces(both: Both) -> None:
    both.station.choose("dry")
    both.window.scan(both.waiting.wet)
    both.window.type("19.3")
    both.window.type("17.8")
    both.window.type("")
    both.window.type("")
    both.window.type("40")
    both.again("dry", both.waiting.wet, "--before", "19.3", "--after", "17.8", "--hours", "40")


def test_supers_set_aside_are_the_same_entry_from_both_faces(both: Both) -> None:
    both.station.choose("aside")
    both.window.scan(both.waiting.new)
    both.window.type("2")
    both.window.type("")
    both.window.type("green")
    both.window.type("")
    both.window.type("")
    both.again("set-aside", both.waiting.new, "--supers", "2", "--why", "green")


@pytest.mark.parametrize("after", ["19.3", "abc", "45"])
def test_both_faces_refuse_a_drying_in_the_same_words(both: Both, after: str) -> None:
    both.station.choose("dry")
    both.window.scan(both.waiting.wet)
    both.window.type("")
    both.window.type(after)
    both.station.view.form.record.click()
    both.window.settle()
    shown = both.station.view.form.slot.shown()
    assert shown is not None
    assert shown.lead == "Not recorded."
    both.terminal.now_ms = both.window.now_ms - 60_000
    assert both.terminal.refused("dry", both.waiting.wet, "--after", after) == shown.text
