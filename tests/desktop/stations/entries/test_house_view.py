"""How the house is kept, with its backup at a press."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.entries.house_view import HousePanel
from honeyledger.ledger.verbs.printing import prints_of
from honeyledger.services.printed import FLOOR_PAD
from tests.desktop.rig import SOON, Rig, entries_of


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[Rig]:
    made = Rig(qtbot, tmp_path, first=SOON)
    made.keep_here()
    yield made
    made.close()


def _house(rig: Rig) -> HousePanel:
    rig.bot.mouseClick(rig.window.shell.foot, Qt.MouseButton.LeftButton)
    rig.settle()
    return entries_of(rig).house


def test_a_press_at_the_foot_shows_it_and_enter_backs_up(rig: Rig) -> None:
    house = _house(rig)
    assert house.panel.isVisible()
    assert house.notes.sentences()[0].startswith("Never backed up from here.")
    assert rig.focused() == "Back up now"
    rig.keys("Return")
    assert rig.backup is not None
    assert house.slot.sentence().startswith("Backed up. It is test-house-")
    assert house.notes.sentences()[0].startswith("Last backup just now.")


def test_a_folder_is_chosen_and_remembered(rig: Rig) -> None:
    house = _house(rig)
    assert house.slot.sentence().endswith("Backups.")
    house.folder.click()
    rig.settle()
    assert rig.kept == [], "nobody chose one"
    rig.folder_to_choose = rig.folder / "stick"
    house.folder.click()
    rig.settle()
    assert rig.kept[-1].backups == str(rig.folder / "stick")
    assert house.slot.sentence().endswith("stick.")
    house.back_up.click()
    rig.settle()
    assert house.slot.sentence().startswith("Not backed up. There is no folder ")


def test_how_far_it_is_stands_in_the_slot(rig: Rig) -> None:
    house = _house(rig)
    house._moved(1, 4)
    assert house.slot.sentence() == "Backing up: 25 % of the file."


def test_one_goes_back_to_the_entry(rig: Rig) -> None:
    house = _house(rig)
    house.entry.click()
    rig.settle()
    view = entries_of(rig)
    assert view.sides.currentWidget() is view.entry
    assert rig.focused() == "What was recorded"


def test_the_paper_pad_is_printed_and_opened(rig: Rig) -> None:
    house = _house(rig)
    house.pad.click()
    rig.settle()
    (file,) = rig.opened
    assert file.read_bytes().startswith(b"%PDF")
    assert house.slot.sentence().startswith("The paper pad: It is in ")
    assert rig.house.ask(lambda view: prints_of(view, FLOOR_PAD, "")) == 1
