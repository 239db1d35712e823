"""Papers of the floor from the window: what cannot be printed is said."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.messages import Message
from honeyledger.desktop.sheets import Sheets
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import DeskRig
from tests.support import printing


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    made = DeskRig(qtbot, tmp_path)
    yield made
    made.close()


def test_a_file_is_made_anew_once_something_was_recorded(rig: DeskRig) -> None:
    said: list[Message] = []
    sheets = Sheets(rig.desk, said.append)
    rig.told(Register("room", {"name": "Drums: a/b"}))
    assert not sheets.open_printed()
    sheets.print_standing("Drums: a/b", "")
    rig.settle()
    (file,) = (rig.folder / "papers").iterdir()
    assert file.name == "Standing Drums- a-b.pdf"
    assert sheets.open_printed()
    assert rig.opened == [file]
    rig.told(Register("room", {"name": "Jars"}))
    assert not sheets.open_printed()
    assert len(said) == 1


def test_what_is_not_there_is_said(rig: DeskRig) -> None:
    said: list[Message] = []
    sheets = Sheets(rig.desk, said.append)
    sheets.print_run("R26-0001-X")
    rig.settle()
    (message,) = said
    assert message.lead == "Nothing printed."
    assert message.text == "R26-0001-X is not a run of this house. Open a run first."


def test_a_kind_is_printed_recorded_opened_again_and_marked_as_a_reprint(rig: DeskRig) -> None:
    said: list[Message] = []
    sheets = Sheets(rig.desk, said.append)
    sheets.print_kind("checks-log")
    rig.settle()
    (file,) = (rig.folder / "papers").iterdir()
    assert file.name == "Checks log.pdf"
    assert "reprint" not in printing.text_of(file.read_bytes())
    sheets.print_kind("checks-log")
    assert rig.opened == [file]
    rig.told(Register("room", {"name": "Jars"}))
    sheets.print_kind("checks-log")
    rig.settle()
    assert "reprint 1" in printing.text_of(file.read_bytes())
    entries = rig.house.ask(lambda view: view.entries(("printed",)))
    assert len(entries) == len(said) == 2


def test_what_a_kind_cannot_be_of_is_said_and_not_recorded(rig: DeskRig) -> None:
    said: list[Message] = []
    sheets = Sheets(rig.desk, said.append)
    sheets.print_kind("lot-history", "D26-0001-X")
    rig.settle()
    (message,) = said
    assert message.lead == "Nothing printed."
    assert not rig.house.ask(lambda view: view.entries(("printed",)))
