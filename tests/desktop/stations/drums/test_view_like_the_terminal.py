"""The same facts in the drum room and in a terminal give the same digests and refusals."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.ledger.verbs.quality import PutOnHold
from tests.desktop.drums_rig import Station
from tests.desktop.rig import Rig
from tests.support.terminal import Terminal


class Both:
    """One house with drums, twice: in a window and in a terminal."""

    def __init__(self, qtbot: QtBot, folder: Path) -> None:
        (folder / "window").mkdir()
        (folder / "terminal").mkdir()
        self.window = Rig(qtbot, folder / "window")
        self.station = Station(self.window)
        self.cellar = self.station.cellar
        self.window.told(PutOnHold(self.cellar.pull, "strips"))
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
        last = self.cellar.last()
        self.terminal.now_ms = self.window.now_ms - 60_000
        self.terminal.do(
            *words,
            *("--operator", self.cellar.badge, "--station", "dock"),
            *("--command", last.act.command),
        )
        assert self.terminal.head() == self.window.head()

    def refused(self, *words: str) -> str:
        """What the terminal says to the same."""
        self.terminal.now_ms = self.window.now_ms - 60_000
        return self.terminal.refused(*words, "--operator", self.cellar.badge)


@pytest.fixture
def both(qtbot: QtBot, tmp_path: Path) -> Iterator[Both]:
    made = Both(qtbot, tmp_path)
    yield made
    made.window.close()


def test_a_reading_is_the_same_entry_from_both_faces(both: Both) -> None:
    both.window.scan(both.cellar.second)
    both.window.type("")
    both.window.type("17,9")
    both.window.type("44")
    both.again("measure", both.cellar.second, "--moisture", "17.9", "--colour", "44")


def test_a_weighing_is_the_same_entry_from_both_faces(both: Both) -> None:
    both.station.choose("weigh")
    both.window.scan(both.cellar.first)
    both.window.type("319.5")
    both.window.type("17.5")
    both.window.type("")
    both.again("reweigh", both.cellar.first, "--gross", "319.5", "--tare", "17.5")


def test_a_sample_is_the_same_entry_from_both_faces(both: Both) -> None:
    both.station.choose("sample")
    both.window.scan(both.cellar.second)
    both.window.type("250")
    both.window.type("shelf 2")
    both.window.type("before shipment")
    both.again(
        *("draw-sample", both.cellar.second, "--net", "250 g", "--kept-at", "shelf 2"),
        *("--purpose", "before shipment"),
    )


def test_a_move_is_the_same_entry_from_both_faces(both: Both) -> None:
    both.station.choose("move")
    both.window.scan(both.cellar.second)
    both.window.type("Drum room")
    both.window.type("B3")
    both.again("move", "Drum room", both.cellar.second, "--row", "B3")


def test_a_hold_and_its_end_are_the_same_entries_from_both_faces(both: Both) -> None:
    both.station.choose("hold")
    both.window.scan(both.cellar.third)
    both.window.keys("Right")
    both.window.type("")
    both.again("hold", both.cellar.third, "--reason", "wet")
    both.station.choose("free")
    both.window.type(f"{both.cellar.third}: wet")
    both.window.type("")
    both.window.type("blended down")
    number = both.cellar.last().id - 1
    both.again("release", str(number), "--reason", "blended down")


def test_one_drum_freed_is_the_same_entry_from_both_faces(both: Both) -> None:
    both.station.choose("free")
    number = both.station.view.presenter.page.holds[0].number  # type: ignore[union-attr]
    both.window.type(f"{both.cellar.pull}: strips")
    both.window.keys("Right")
    both.window.scan(both.cellar.second)
    both.window.type("none found")
    both.window.type("")
    both.again("clear", both.cellar.second, "--hold", number, "--result", "none found")


def test_a_blend_is_the_same_entry_from_both_faces(both: Both) -> None:
    both.station.choose("blend")
    both.window.scan(both.cellar.third)
    both.window.type("Blender")
    both.window.type("")
    both.window.type("")
    both.window.type("blended down")
    both.window.type("")
    both.window.type("100")
    both.window.type("101.5")
    both.again(
        *("blend", both.cellar.blender, f"{both.cellar.third}=101.5"),
        *("--plan", f"{both.cellar.third}=100", "--despite-hold", "blended down"),
    )


@pytest.mark.parametrize(("gross", "tare"), [("18", "18"), ("300.0.0", ""), ("", "")])
def test_both_faces_refuse_a_weighing_in_the_same_words(both: Both, gross: str, tare: str) -> None:
    both.station.choose("weigh")
    both.window.scan(both.cellar.first)
    both.window.type(gross)
    both.window.type(tare)
    both.window.type("")
    shown = both.station.view.form.slot.shown()
    assert shown is not None
    assert shown.lead == "Not recorded."
    words = ["reweigh", both.cellar.first]
    words += ["--gross", gross] if gross else []
    words += ["--tare", tare] if tare else []
    assert both.refused(*words) == shown.text
