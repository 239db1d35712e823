"""One table of actions: no key does two things, each says what it does, each has its handler."""

from collections import Counter

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop.actions import ACTIONS, action_text, action_tip, attach


def test_no_key_and_no_name_is_given_twice() -> None:
    keys = Counter(QKeySequence(spec.keys).toString() for spec in ACTIONS)
    assert [key for key, count in keys.items() if count > 1] == []
    names = Counter(spec.key for spec in ACTIONS)
    assert [name for name, count in names.items() if count > 1] == []


@pytest.mark.parametrize("spec", ACTIONS, ids=lambda spec: spec.key)
def test_every_action_has_a_key_that_qt_knows_and_a_sentence(spec) -> None:  # type: ignore[no-untyped-def]
    assert QKeySequence(spec.keys).toString() == spec.keys
    assert action_text(spec)
    assert action_tip(spec).endswith(".")


def test_control_and_a_figure_open_the_ten_places_in_the_order_of_the_line() -> None:
    opens = {spec.keys: spec.opens for spec in ACTIONS if spec.opens}
    line = ("yards", "dock", "hot_room", "extraction", "drums", "bottling", "dispatch")
    tools = ("trace", "season", "setup")
    expected = {f"Ctrl+{number}": key for number, key in enumerate(line, 1)}
    expected |= dict(zip(("Ctrl+8", "Ctrl+9", "Ctrl+0"), tools, strict=True))
    expected["Ctrl+E"] = "entries"
    expected |= {"Ctrl+Shift+C": "checks", "Ctrl+Shift+R": "calculator"}
    expected |= {"Ctrl+Shift+K": "recalls", "Ctrl+Shift+E": "exposure"}
    expected |= {"F1": "guide", "Ctrl+K": "keys"}
    assert opens == expected


def test_a_key_calls_its_handler(qtbot: QtBot) -> None:
    window, done = QWidget(), []
    qtbot.addWidget(window)
    made = attach(window, {spec.key: lambda key=spec.key: done.append(key) for spec in ACTIONS})
    with qtbot.waitExposed(window):
        window.show()
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    qtbot.keyClick(window, Qt.Key.Key_F2)
    qtbot.keyClick(window, Qt.Key.Key_2, Qt.KeyboardModifier.ControlModifier)
    assert done == ["scan", "open-dock"]
    assert made["scan"].toolTip().startswith("Goes to the scan box")


def test_an_action_without_a_handler_is_a_mistake_of_ours() -> None:
    handlers = {spec.key: (lambda: None) for spec in ACTIONS if spec.key != "print"}
    with pytest.raises(ValueError, match=r"print"):
        attach(QWidget(), handlers)
    with pytest.raises(ValueError, match=r"no-such"):
        attach(QWidget(), {**handlers, "print": lambda: None, "no-such": lambda: None})
