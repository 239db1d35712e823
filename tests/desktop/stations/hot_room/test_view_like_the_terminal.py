"""The same facts in the hot room and in a terminal give the same digests and refusals."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from tests.desktop.asking_rig import BothFaces
from tests.desktop.hot_room_rig import Station

Both = BothFaces[Station]


@pytest.fixture
def both(qtbot: QtBot, tmp_path: Path) -> Iterator[Both]:
    made = BothFaces(qtbot, tmp_path, Station)
    yield made
    made.window.close()


def test_the_air_is_the_same_entry_from_both_faces(both: Both) -> None:
    both.window.type("Hot room")
    both.window.type("34,5")
    both.window.type("45")
    both.window.type("")
    both.again("room", "log", "Hot room", "--temperature", "34.5", "--humidity", "45")


def test_drying_is_the_same_entry_from_both_faces(both: Both) -> None:
    both.station.choose("dry")
    both.window.scan(both.station.waiting.wet)
    both.window.type("19.3")
    both.window.type("17.8")
    both.window.type("")
    both.window.type("")
    both.window.type("40")
    both.again(
        "dry", both.station.waiting.wet, "--before", "19.3", "--after", "17.8", "--hours", "40"
    )


def test_supers_set_aside_are_the_same_entry_from_both_faces(both: Both) -> None:
    both.station.choose("aside")
    both.window.scan(both.station.waiting.new)
    both.window.type("2")
    both.window.type("")
    both.window.type("green")
    both.window.type("")
    both.window.type("")
    both.again("set-aside", both.station.waiting.new, "--supers", "2", "--why", "green")


@pytest.mark.parametrize("after", ["19.3", "abc", "45"])
def test_both_faces_refuse_a_drying_in_the_same_words(both: Both, after: str) -> None:
    both.station.choose("dry")
    both.window.scan(both.station.waiting.wet)
    both.window.type("")
    both.window.type(after)
    both.both_refuse("dry", both.station.waiting.wet, "--after", after)
