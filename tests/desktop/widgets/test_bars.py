"""Bars that are read: names, values, lengths in proportion."""

from pytestqt.qtbot import QtBot

from honeyledger.desktop import look
from honeyledger.desktop.widgets.bars import BAR, PITCH, BarRow, Bars

ROWS = [BarRow("This season", "40.0 kg", 40), BarRow("All yards", "20.0 kg", 20)]


def long(bars: Bars, at: int) -> int:
    """How many pixels of a row's middle are its bar's."""
    shot = bars.grab().toImage()
    colour = look.colour("act" if at == 0 else "ink2")
    y = 28 + at * PITCH + PITCH // 2 - BAR // 2 + 1
    return sum(shot.pixelColor(x, y) == colour for x in range(shot.width()))


def test_bars_are_in_proportion_and_said_in_words(qtbot: QtBot) -> None:
    bars = Bars()
    qtbot.addWidget(bars)
    bars.show_bars("Ash: a colony", ROWS)
    bars.resize(600, bars.sizeHint().height())
    assert bars.accessibleName() == "Ash: a colony"
    assert bars.accessibleDescription() == "This season: 40.0 kg, All yards: 20.0 kg"
    first, second = long(bars, 0), long(bars, 1)
    assert first > 200
    assert abs(first - 2 * second) <= 4
    assert bars.rows() == tuple(ROWS)


def test_without_bars_the_heading_stands_alone(qtbot: QtBot) -> None:
    bars = Bars()
    qtbot.addWidget(bars)
    high = bars.sizeHint().height()
    bars.show_bars("Ash: say how many colonies", [])
    assert bars.sizeHint().height() == high
    assert not bars.grab().isNull()
    bars.show_bars("Nothing yet", [BarRow("This season", "nothing yet", 0)])
    assert bars.minimumSizeHint().height() == high + PITCH
    assert not bars.grab().isNull()
