"""Labels and stickers of drums, printed by keys from the drum room."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.widgets.labels_ask import LabelsAsk, ask_labels
from tests.desktop.drums_rig import Station
from tests.desktop.rig import SOON, Rig
from tests.support.printing import placed_symbols


@pytest.fixture
def station(qtbot: QtBot, tmp_path: Path) -> Iterator[Station]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Station(rig)
    rig.close()


def test_a_sticker_for_the_lid_is_printed_and_opened_by_keys(station: Station) -> None:
    rig = station.rig
    station.view.sticker.click()
    assert station.says() == "Choose a drum first: the sticker for its lid is printed then."
    code = station.cellar.first
    station.view.table.select(code)
    station.view.sticker.click()
    rig.settle()
    file = rig.folder / "papers" / f"{code} drum sticker.pdf"
    assert station.says() == f"The sticker is in {file}; Ctrl+P opens it."
    rig.keys("Ctrl+P")
    assert rig.opened == [file]
    station.view.label.click()
    rig.settle()
    rig.keys("Ctrl+P")
    assert rig.opened == [file, rig.folder / "papers" / f"{code}.pdf"]


def test_a_label_is_seen_first_and_turned_into_stickers_by_keys(station: Station) -> None:
    rig, code = station.rig, station.cellar.first
    dialogs: list[LabelsAsk] = []
    rig.desk.ask_labels = lambda asked, then: dialogs.append(ask_labels(asked, then))
    rig.scan(code)
    rig.keys("Ctrl+Shift+L")
    (dialog,) = dialogs
    copies = dialog.copies.editor
    QTest.keyClick(copies, Qt.Key.Key_Tab, Qt.KeyboardModifier.ShiftModifier)
    QTest.keyClick(dialog.forms.buttons()[0], Qt.Key.Key_Right)
    rig.settle()
    assert dialog.panel.heading.text() == "a4-24-70x37", "the lid's sticker is on a sheet"
    QTest.keyClick(copies, Qt.Key.Key_Up)
    QTest.keyClick(dialog.look, Qt.Key.Key_Down)
    QTest.keyClick(copies, Qt.Key.Key_Return)
    rig.settle()
    file = rig.folder / "papers" / f"{code} drum sticker.pdf"
    assert len(placed_symbols(file.read_bytes())) == 2
    assert rig.desk.free_labels == {"a4-24-70x37": 6}
    entry = rig.house.ask(lambda view: view.entries(last=1))[-1]
    assert (entry.kind, entry.facts["said"]) == (
        "printed",
        {"paper": "drum sticker", "of": code, "copies": 2, "first": 0, "last": 0},
    )


def test_a_label_is_printed_and_opened_by_keys(station: Station) -> None:
    rig, cellar = station.rig, station.cellar
    station.view.label.click()
    assert station.says() == "Choose a drum first: its label is printed then."
    rig.scan(cellar.first)
    rig.keys("Ctrl+P")
    file = rig.folder / "papers" / f"{cellar.first}.pdf"
    assert file.read_bytes().startswith(b"%PDF")
    rig.keys("Ctrl+P")
    assert rig.opened == [file]
    rig.keys("Ctrl+T")
    assert rig.window.shell.open_key() == "trace"
