"""Five marks of a sight glass, each a button a glove can press."""

from pytestqt.qtbot import QtBot

from honeyledger.desktop import tokens
from honeyledger.desktop.widgets.sight_glass import MARKS, SightGlass

AMOUNTS = [f"{kg} kg" for kg in (200, 400, 600, 800, 1000)]


def _glass(qtbot: QtBot) -> SightGlass:
    glass = SightGlass("On the sight glass")
    qtbot.addWidget(glass)
    glass.resize(500, 90)
    glass.show_amounts(AMOUNTS)
    glass.show()
    return glass


def test_each_mark_says_what_it_is_to_eyes_and_to_a_screen_reader(qtbot: QtBot) -> None:
    glass = _glass(qtbot)
    assert [button.text() for button in glass.buttons()] == AMOUNTS
    assert len(glass.buttons()) == MARKS
    assert glass.buttons()[1].accessibleName() == "On the sight glass: mark 2 of 5, 400 kg"
    assert all(button.height() >= tokens.TARGET_LEAST for button in glass.buttons())


def test_the_mark_chosen_stays_when_the_amounts_change(qtbot: QtBot) -> None:
    glass = _glass(qtbot)
    glass.set_key("3")
    glass.show_amounts([amount.replace("kg", "lb") for amount in AMOUNTS])
    assert glass.key() == "3"
    assert glass.buttons()[2].text() == "600 lb"


def test_the_glass_is_filled_up_to_its_mark(qtbot: QtBot) -> None:
    glass = _glass(qtbot)

    def filled(number: int) -> int:
        image = glass.buttons()[number].grab().toImage()
        column = [image.pixelColor(10, y).lightness() for y in range(10, image.height() - 10)]
        return sum(light < 160 for light in column)

    levels = [filled(number) for number in range(MARKS)]
    assert levels == sorted(levels)
    assert levels[0] < levels[-1]
