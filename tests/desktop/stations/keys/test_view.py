"""Every key stands on the page of keys."""

from pytestqt.qtbot import QtBot

from honeyledger.desktop.actions import ACTIONS
from honeyledger.desktop.stations.keys.view import KeysView, key_text


def test_every_action_is_listed_with_its_key(qtbot: QtBot) -> None:
    view = KeysView()
    qtbot.addWidget(view.widget)
    assert view.table.model.rows() == ACTIONS
    assert all(key_text(spec) for spec in ACTIONS)


def test_a_row_that_opens_a_place_opens_it(qtbot: QtBot) -> None:
    view = KeysView()
    qtbot.addWidget(view.widget)
    asked: list[str] = []
    view.asks.open.connect(asked.append)
    view.table.opened.emit("open-dock")
    view.table.opened.emit("theme")
    assert asked == ["dock"]


def test_it_takes_no_code_and_no_key(qtbot: QtBot) -> None:
    view = KeysView()
    qtbot.addWidget(view.widget)
    view.begin()
    assert not view.take_code("D26-0001-X")
    assert not view.handle("print")
