"""Every key of the table of actions stands on the page of keys; a scanner is tried there."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

import honeyledger.desktop
from honeyledger.desktop import language
from honeyledger.desktop.actions import ACTIONS
from honeyledger.desktop.stations.keys.view import KeysView, key_text, own_keys
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import DeskRig, Rig


@pytest.fixture
def view(qtbot: QtBot, tmp_path: Path) -> Iterator[KeysView]:
    rig = DeskRig(qtbot, tmp_path)
    made = KeysView(rig.desk)
    qtbot.addWidget(made.widget)
    yield made
    rig.close()


def test_every_action_is_listed_with_its_key(view: KeysView) -> None:
    rows = view.table.model.rows()
    assert rows[: len(ACTIONS)] == ACTIONS
    assert rows[len(ACTIONS) :] == own_keys()
    assert all(key_text(spec) for spec in rows)


def test_keys_are_called_in_spanish_as_the_sentences_call_them(light: QApplication) -> None:
    language.wear(light, "es")
    named = [QKeySequence(keys) for keys in ("Ctrl+Shift+P", "Return", "Ctrl+Up", "Del", "PgDown")]
    assert [one.toString(QKeySequence.SequenceFormat.NativeText) for one in named] == [
        "Ctrl+Mayús+P",
        "Intro",
        "Ctrl+Arriba",
        "Supr",
        "AvPág",
    ]
    language.wear(light, language.ENGLISH)


def test_no_key_is_listed_twice() -> None:
    keys = [spec.keys for spec in (*ACTIONS, *own_keys())]
    assert len(set(keys)) == len(keys)
    assert all(not QKeySequence(key).isEmpty() for key in keys)


# By which word of the list a key is named, where it is not its own.
NAMED = {"Enter": "Return", "Escape": "Esc", "Right": "Right", "PageDown": "PgDown"}
NAMED |= {"PageUp": "PgUp", "Delete": "Del", "Plus": "+", "Equal": "+", "Minus": "-"}
# Keys that are held, not pressed.
HELD = {"Shift", "CapsLock", "Control", "Alt", "AltGr", "NumLock"}


def test_every_key_that_anything_in_the_window_listens_to_is_listed() -> None:
    listened: dict[str, str] = {}
    for file in Path(honeyledger.desktop.__path__[0]).rglob("*.py"):
        for name in re.findall(r"Key\.Key_(\w+)", file.read_text(encoding="utf-8")):
            listened[name] = file.name
    rows = (*ACTIONS, *own_keys())
    words = {word for spec in rows for word in re.split(r"[\s,;:.]+", f"{spec.keys} {spec.tip}")}
    missing = {
        name for name in listened if name not in HELD and NAMED.get(name, name) not in words
    }
    assert not missing, {name: listened[name] for name in missing}


def test_a_row_that_opens_a_place_opens_it(view: KeysView) -> None:
    asked: list[str] = []
    view.asks.open.connect(asked.append)
    view.table.opened.emit("open-dock")
    view.table.opened.emit("theme")
    view.table.opened.emit("own-tab")
    assert asked == ["dock"]


def test_no_key_means_anything_of_its_own_there(view: KeysView) -> None:
    view.begin()
    assert not view.handle("print")


def test_a_scan_is_told_of_and_does_nothing_else(qtbot: QtBot, tmp_path: Path) -> None:
    rig = Rig(qtbot, tmp_path)
    rig.told(Register("yard", {"name": "Mill Lane"}))
    done = rig.told(Receive((Line("Mill Lane", 12),)))
    tag = next(code for code in done.given if code[0] == "G")
    head = rig.head()
    rig.keys("Ctrl+K")
    rig.scan(f"]Q1{tag.lower()}")
    found = rig.window.stations["keys"]
    assert isinstance(found, KeysView)
    came, how, read = found.notes.sentences()
    assert came == f"It came as ]Q1{tag.lower()}."
    assert how == "8 ms between its keys, ended by Enter."
    assert read == f"It is read as {tag}, pallet tag."
    assert not rig.window.shell.is_aside_shown()
    rig.keys("F2")
    rig.type(tag)
    assert "It was typed" in found.notes.sentences()[1]
    assert rig.head() == head
    rig.close()
