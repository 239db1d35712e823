"""What needs a person about the house is told, and a backup goes from any page."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.house_care import KeptMeant
from honeyledger.desktop.marks import Mark
from honeyledger.services.backups import OLD_MS
from tests.desktop.rig import Rig, entries_of


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[Rig]:
    made = Rig(qtbot, tmp_path)
    made.keep_here()
    yield made
    made.close()


def test_a_backup_by_key_from_any_page(rig: Rig) -> None:
    rig.keys("Ctrl+4", "Ctrl+B")
    assert rig.toast().mark is Mark.READY
    assert rig.toast().lead == "Backed up."
    assert rig.backup is not None
    assert Path(rig.backup.file).name in rig.toast().text
    assert rig.window.shell.open_key() == "extraction"
    assert "backup just now" in rig.window.shell.status.words()


def test_an_old_one_is_offered_and_taken_with_a_press(rig: Rig) -> None:
    rig.now_ms += 3 * OLD_MS
    rig.window.frame.ask()
    rig.settle()
    assert (rig.toast().mark, rig.toast().action) == (Mark.WARNING, "Back up now")
    rig.window.toast.act()
    rig.settle()
    assert rig.backup is not None
    assert "Not backed up" not in rig.window.shell.status.accessibleName()


def test_a_refusal_says_why(rig: Rig) -> None:
    (rig.folder / "papers").write_text("in the way")
    rig.keys("Ctrl+B")
    assert (rig.toast().mark, rig.toast().lead) == (Mark.REFUSED, "Not backed up.")


def test_while_it_is_written_its_share_is_told(rig: Rig) -> None:
    rig.window.care._moved(3, 4)
    assert rig.toast().sentence == "Backing up: 75 % of the file."
    assert rig.toast().mark is Mark.WORKING


def test_a_bad_place_is_told_with_a_way_to_the_page(qtbot: QtBot, tmp_path: Path) -> None:
    (tmp_path / ".stfolder").mkdir()
    rig = Rig(qtbot, tmp_path)
    assert rig.toast().mark is Mark.WARNING
    assert rig.toast().about == KeptMeant()
    rig.window.toast.act()
    rig.settle()
    assert rig.window.shell.open_key() == "entries"
    sentences = entries_of(rig).house.notes.sentences()
    assert any("sync program" in one for one in sentences), "and stays to be found"
    rig.close()
