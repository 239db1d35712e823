"""Whatever the keyboard can come to has a name for a screen reader, at every station."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QWidget
from pytestqt.qtbot import QtBot

from tests.desktop.rig import Rig


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[Rig]:
    made = Rig(qtbot, tmp_path)
    yield made
    made.close()


def _spoken(widget: QWidget) -> str:
    text = widget.text() if isinstance(widget, QAbstractButton) else ""
    return widget.accessibleName() or text


def test_every_stop_of_the_keyboard_has_a_name(rig: Rig) -> None:
    silent = []
    for key in rig.window.stations:
        rig.window.open_station(key)
        rig.settle()
        stops = [
            widget
            for widget in rig.window.findChildren(QWidget)
            if widget.isVisible() and widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        ]
        assert stops
        silent += [f"{key}: {type(one).__name__}" for one in stops if not _spoken(one).strip()]
    assert silent == []
