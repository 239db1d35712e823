"""How a station comes to be shown: made piece by piece, then shown, no key lost between."""

from collections.abc import Iterator
from functools import partial
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QApplication, QLineEdit
from pytestqt.qtbot import QtBot

from honeyledger.desktop.desk import StationView
from honeyledger.desktop.opening import Stations
from honeyledger.desktop.stations.keys.view import KeysView
from honeyledger.desktop.turns import Making
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import Rig


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[Rig]:
    made = Rig(qtbot, tmp_path)
    yield made
    made.close()


def keys_page(rig: Rig, qtbot: QtBot, told: list[str]) -> Making[StationView]:
    """A page in two pieces."""
    told.append("begun")
    yield
    page = KeysView(rig.desk)
    qtbot.addWidget(page.widget)
    return page


def test_a_station_is_made_when_it_is_first_asked_for(rig: Rig, qtbot: QtBot) -> None:
    made: list[tuple[str, StationView]] = []
    make = partial(keys_page, rig, qtbot, [])
    stations = Stations({"keys": make, "help": make}, lambda *station: made.append(station))
    assert list(stations) == ["keys", "help"]
    assert (len(stations), made) == (2, [])
    view = stations["help"]
    assert stations["help"] is view
    assert made == [("help", view)]
    assert stations.is_made("help")
    assert not stations.is_made("keys")


def test_a_station_is_made_piece_by_piece_and_asked_for_meanwhile_at_once(
    rig: Rig, qtbot: QtBot
) -> None:
    told: list[str] = []
    stations = Stations(
        {key: partial(keys_page, rig, qtbot, told) for key in ("keys", "help")},
        lambda key, _view: told.append(key),
    )
    assert not stations.go_on("keys")
    assert (told, stations.is_made("keys")) == (["begun"], False)
    assert not stations.go_on("keys"), "it is taken over in a turn of its own"
    assert stations.go_on("keys")
    assert stations.go_on("keys"), "and it stays made"
    assert told == ["begun", "keys"]
    assert not stations.go_on("help")
    assert isinstance(stations["help"], KeysView)
    assert told == ["begun", "keys", "begun", "help"], "what was begun is gone on with"


def test_a_station_that_failed_half_made_is_begun_anew(rig: Rig, qtbot: QtBot) -> None:
    told: list[str] = []

    def make() -> Making[StationView]:
        page = yield from keys_page(rig, qtbot, told)
        if told == ["begun"]:
            raise OSError("no paper")
        return page

    stations = Stations({"keys": make}, lambda key, _view: told.append(key))
    with pytest.raises(OSError, match="no paper"):
        stations["keys"]
    assert isinstance(stations["keys"], KeysView)
    assert told == ["begun", "begun", "keys"]


def test_a_new_page_is_shown_when_it_is_made_and_the_next_time_at_once(rig: Rig) -> None:
    told: list[str] = []
    rig.window.open_station("yards", lambda: told.append(rig.window.shell.open_key()))
    assert not rig.window.stations.is_made("yards")
    assert (rig.window.shell.open_key(), told) == ("dock", [])
    rig.settle()
    assert (rig.window.shell.open_key(), told) == ("yards", ["yards"])
    rig.window.open_station("dock")
    rig.window.open_station("yards", lambda: told.append("again"))
    assert (rig.window.shell.open_key(), told) == ("yards", ["yards", "again"])


def test_a_window_that_closed_takes_no_key_from_another(
    qtbot: QtBot, tmp_path: Path, rig: Rig
) -> None:
    (tmp_path / "other").mkdir()
    gone = Rig(qtbot, tmp_path / "other")
    gone.window.open_station("yards")
    with gone.window.scanner.resting():
        gone.close()
    QCoreApplication.processEvents()
    rig.window.close()
    assert gone.window.shell.open_key() == "dock"
    field = QLineEdit()
    qtbot.addWidget(field)
    field.show()
    field.setFocus()
    qtbot.keyClicks(field, "north")
    assert field.text() == "north"


def test_what_is_typed_while_a_page_is_being_made_stands_in_its_first_field(rig: Rig) -> None:
    rig.told(Register("yard", {"name": "Mill Lane"}))
    rig.keys("Ctrl+2")
    before = QApplication.focusWidget()
    assert isinstance(before, QLineEdit)
    rig.window.open_station("yards")
    rig.press("m", "i", "l")
    rig.window.scanner.give_back()
    after = QApplication.focusWidget()
    assert isinstance(after, QLineEdit)
    assert rig.window.shell.open_key() == "yards"
    assert (before.text(), after.text()) == ("", "mil")
    rig.settle()
    assert QApplication.focusWidget() is after, "nothing takes the keyboard away afterwards"


def test_who_thinks_better_of_it_stays_where_they_went_last(rig: Rig) -> None:
    rig.keys("Ctrl+1", "Ctrl+2")
    rig.window.open_station("drums")
    rig.window.open_station("yards")
    rig.settle()
    assert rig.window.shell.open_key() == "yards"
    rig.window.open_station("bottling")
    rig.window.open_station("dock")
    rig.settle()
    assert rig.window.shell.open_key() == "dock"
