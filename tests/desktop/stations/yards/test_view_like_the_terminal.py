"""The same facts of yards in the window and in a terminal give the same digests."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from tests.desktop.rig import Rig
from tests.desktop.yards_rig import Station
from tests.support.terminal import Terminal


class Both:
    """One house with yards, twice: in a window and in a terminal."""

    def __init__(self, qtbot: QtBot, folder: Path) -> None:
        (folder / "window").mkdir()
        (folder / "terminal").mkdir()
        self.window = Rig(qtbot, folder / "window")
        self.station = Station(self.window)
        self.land = self.station.land
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
        """Keep the form, and say the same in the terminal at its moment, by its person and id."""
        self.station.view.form.record.click()
        self.window.settle()
        self.terminal.now_ms = self.window.now_ms - 60_000
        self.terminal.do(
            *words,
            *("--operator", self.land.badge, "--station", "dock"),
            *("--command", self.land.last().act.command),
        )
        assert self.terminal.head() == self.window.head()


@pytest.fixture
def both(qtbot: QtBot, tmp_path: Path) -> Iterator[Both]:
    made = Both(qtbot, tmp_path)
    yield made
    made.window.close()


def test_a_new_yard_is_the_same_entry_from_both_faces(both: Both) -> None:
    both.window.type("Hill Top")
    both.window.type("")
    both.window.type("24")
    both.window.type("clover")
    both.window.type("NE 10")
    both.window.type("49.5")
    both.window.type("98,8 W")
    both.again(
        *("register", "yard", "add", "Hill Top", "--colonies", "24", "--forage", "clover"),
        *("--place", "NE 10", "--latitude", "49.5", "--longitude", "98.8 W"),
    )


def test_a_changed_record_is_the_same_entry_from_both_faces(both: Both) -> None:
    both.window.scan(both.land.mill)
    form = both.station.view.form
    form.form.take_focus(form.fields["record"]["colonies"])
    both.window.type("28", enter=False)
    both.again("register", "yard", "change", both.land.mill, "--colonies", "28")


def test_a_treatment_is_the_same_entry_from_both_faces(both: Both) -> None:
    both.station.choose("treat")
    both.window.scan(both.land.bank)
    both.window.type("Formic pads")
    both.window.type("formic acid")
    both.window.type("20 Jul 2026")
    both.window.type("")
    both.window.type("20 Aug 2026")
    both.again(
        *("treat", both.land.bank, "Formic pads", "--active", "formic acid"),
        *("--in", "20 Jul 2026", "--clear", "20 Aug 2026"),
    )


def test_supers_put_on_are_the_same_entry_from_both_faces(both: Both) -> None:
    both.station.choose("supers")
    both.window.scan(both.land.bank)
    both.window.type("60")
    both.window.type("medium")
    both.again("supers-on", both.land.bank, "60", "--box", "medium")
