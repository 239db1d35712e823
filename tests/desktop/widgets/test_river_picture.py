"""The water as a picture: painted as it would be in the window, in the theme it is worn in."""

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QRect
from PySide6.QtGui import QImage, QPainter

from honeyledger.desktop import look, tokens
from honeyledger.desktop.models.river_walk import LaidRiver, RiverRoom, laid_river
from honeyledger.desktop.widgets.river_paint import paint_water, plate_measure
from honeyledger.desktop.widgets.river_picture import RiverPicture, at_once
from tests.desktop.gallery_trace import graph

WIDE, HIGH = 1200, 300
WHOLE = QRect(0, 0, WIDE, HIGH)
NOTHING: frozenset[str] = frozenset()


def _laid() -> LaidRiver:
    room = RiverRoom(float(WIDE), float(HIGH))
    return laid_river(graph(), room, plate_measure, ("{n} small ones", ""))


def _sheet() -> QImage:
    image = QImage(WIDE, HIGH, QImage.Format.Format_RGB32)
    image.fill(look.colour("sheet"))
    return image


def _drawn(picture: RiverPicture, laid: LaidRiver, seen: QRect = WHOLE) -> QImage:
    image = _sheet()
    painter = QPainter(image)
    picture.draw(painter, laid, NOTHING, seen, 1.0)
    painter.end()
    return image


def test_a_picture_is_what_would_be_painted() -> None:
    laid = _laid()
    painted = _sheet()
    painter = QPainter(painted)
    paint_water(painter, laid.geometry)
    painter.end()
    assert _drawn(RiverPicture(at_once), laid) == painted


def test_a_part_is_painted_as_it_is_in_the_whole() -> None:
    laid = _laid()
    whole = _drawn(RiverPicture(at_once), laid)
    seen = QRect(500, 100, 100, 60)
    part = _drawn(RiverPicture(at_once), laid, seen)
    assert part.copy(seen) == whole.copy(seen)
    assert part.copy(0, 0, 100, 60) == _sheet().copy(0, 0, 100, 60), "what is far off is not"


def test_it_is_painted_again_when_the_theme_the_part_or_the_river_changes() -> None:
    asked: list[str] = []

    def lane(about: str, task: Callable[[], Any], then: Callable[[Any], None]) -> None:
        asked.append(about)
        then(task())

    picture, laid = RiverPicture(lane), _laid()
    light = _drawn(picture, laid, QRect(0, 0, 100, 100))
    _drawn(picture, laid, QRect(20, 20, 100, 100))
    assert len(asked) == 1, "it was painted with as much again around it"
    _drawn(picture, laid, QRect(600, 0, 100, 100))
    assert len(asked) == 2
    with look.worn(tokens.DARK):
        dark = _drawn(picture, laid)
    assert len(asked) == 3
    assert dark != light
    _drawn(picture, _laid())
    assert len(asked) == 4


def test_until_another_trace_is_painted_there_is_nothing() -> None:
    waiting: list[Callable[[], None]] = []

    def lane(_about: str, task: Callable[[], Any], then: Callable[[Any], None]) -> None:
        waiting.append(lambda: then(task()))

    picture = RiverPicture(lane)
    changed: list[bool] = []
    picture.changed.connect(lambda: changed.append(True))
    assert _drawn(picture, _laid()) == _sheet()
    waiting.pop()()
    assert changed == [True]
