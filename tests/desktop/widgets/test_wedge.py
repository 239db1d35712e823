"""The wedge tells a colour by position, and says what is no grade."""

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop import look
from honeyledger.desktop.widgets.wedge import WIDTH, Wedge, position


def test_position_goes_by_millimetres_and_stays_on_the_wedge() -> None:
    assert position(0) == 0
    assert position(70) == pytest.approx(WIDTH / 2)
    assert position(500) == WIDTH
    assert position(-5) == 0


def test_a_reading_a_mean_and_none_are_said_in_words(qtbot: QtBot) -> None:
    wedge = Wedge(44)
    qtbot.addWidget(wedge)
    assert wedge.words() == "44 mm XLA"
    wedge.show_reading(44, mean=True)
    assert wedge.words() == "≈\u00a044 mm XLA"
    assert wedge.accessibleName() == "colour about 44 mm XLA"
    wedge.show_reading(None)
    assert wedge.words() == "not read"


def test_the_tick_stands_at_the_reading(qtbot: QtBot) -> None:
    wedge = Wedge(70)
    qtbot.addWidget(wedge)
    size = wedge.sizeHint()
    wedge.resize(size)
    ink = look.colour("ink").name()
    row = [wedge.grab().toImage().pixelColor(x, 3).name() for x in range(size.width())]
    inked = [x for x, name in enumerate(row) if name == ink]
    assert inked
    middle = (size.width() - WIDTH) / 2 + position(70)
    assert abs(sum(inked) / len(inked) + 0.5 - middle) <= 1


def test_an_unread_wedge_has_no_tick(qtbot: QtBot) -> None:
    wedge = Wedge(None)
    qtbot.addWidget(wedge)
    wedge.resize(wedge.sizeHint())
    image = wedge.grab().toImage()
    ink = look.colour("ink").name()
    assert all(image.pixelColor(x, 3).name() != ink for x in range(image.width()))
