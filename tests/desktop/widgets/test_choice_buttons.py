"""One of a few, as buttons side by side."""

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from honeyledger.desktop.widgets.choice_buttons import ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice
from tests.desktop.tour_checks import faults_of

CONDITIONS = (Choice("sealed", "Sealed"), Choice("mixed", "Mixed"), Choice("green", "Green"))


@pytest.fixture
def field(qtbot: QtBot) -> ChoiceButtons:
    made = ChoiceButtons("Condition", CONDITIONS)
    qtbot.addWidget(made)
    made.resize(480, 84)
    with qtbot.waitExposed(made):
        made.show()
    made.activateWindow()
    return made


def test_a_press_anywhere_on_a_button_chooses_it(qtbot: QtBot, field: ChoiceButtons) -> None:
    chosen: list[str] = []
    field.chosen.connect(chosen.append)
    button = field.buttons()[1]
    corner = button.rect().bottomRight()
    corner -= type(corner)(4, 4)
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton, pos=corner)
    assert chosen == ["mixed"]
    assert field.key() == "mixed"
    field.grab()


def test_arrows_move_and_enter_moves_on(qtbot: QtBot, field: ChoiceButtons) -> None:
    field.set_key("sealed")
    field.take_focus()
    qtbot.waitUntil(field.buttons()[0].hasFocus)
    qtbot.keyClick(field.buttons()[0], Qt.Key.Key_Right)
    assert field.key() == "mixed"
    with qtbot.waitSignal(field.submitted):
        qtbot.keyClick(field.buttons()[1], Qt.Key.Key_Return)


def test_it_knows_whether_a_choice_was_made_on_the_way_to_another(
    qtbot: QtBot, field: ChoiceButtons
) -> None:
    made: list[bool] = []
    field.chosen.connect(lambda _key: made.append(field.is_by_arrow))
    field.set_key("sealed")
    field.take_focus()
    qtbot.waitUntil(field.buttons()[0].hasFocus)
    qtbot.keyClick(field.buttons()[0], Qt.Key.Key_Right)
    qtbot.mouseClick(field.buttons()[2], Qt.MouseButton.LeftButton)
    assert made == [True, False]


def test_enter_on_a_button_that_is_not_chosen_chooses_it(
    qtbot: QtBot, field: ChoiceButtons
) -> None:
    field.buttons()[2].setFocus()
    qtbot.keyClick(field.buttons()[2], Qt.Key.Key_Return)
    assert field.key() == "green"


def test_none_may_be_chosen_and_names_say_the_label(field: ChoiceButtons) -> None:
    field.set_key("sealed")
    field.set_key("")
    assert field.key() == ""
    assert field.buttons()[0].accessibleName() == "Condition: Sealed"
    assert all(button.height() >= 40 for button in field.buttons())
    field.set_label("Combs")
    assert field.buttons()[0].accessibleName() == "Combs: Sealed"
    before = field.buttons()
    field.set_choices(CONDITIONS[:2])
    assert len(field.buttons()) == 2
    assert field.buttons() == before[:2], "those that are there are used again"
    assert field.key() == ""
    assert not before[2].isVisible(), "no old one is seen behind the new"


def test_many_buttons_stand_in_rows(qtbot: QtBot) -> None:
    choices = [Choice(str(at), f"button {at}") for at in range(5)]
    made = ChoiceButtons("Measured", choices, in_row=2)
    qtbot.addWidget(made)
    made.resize(400, made.sizeHint().height())
    with qtbot.waitExposed(made):
        made.show()
    tops = [one.y() for one in made.buttons()]
    assert tops[0] == tops[1] < tops[2] == tops[3] < tops[4]
    assert made.buttons()[0].x() == made.buttons()[4].x()


def test_where_room_is_short_no_text_is_cut(field: ChoiceButtons) -> None:
    field.set_key("green")
    field.resize(field.minimumSizeHint())
    assert faults_of(field) == []
    assert field.minimumSizeHint().width() < field.sizeHint().width()
