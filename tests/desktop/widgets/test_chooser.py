"""What to look at: buttons where they have room, else one field."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.chooser import Chooser

CHOICES = [Choice("pace", "Pace"), Choice("yield", "Yards"), Choice("losses", "Losses")]


@pytest.fixture
def page(qtbot: QtBot) -> QWidget:
    made = QWidget()
    qtbot.addWidget(made)
    return made


@pytest.fixture
def shown(qtbot: QtBot, page: QWidget) -> Chooser:
    made = Chooser(CHOICES)
    made.setParent(page)
    made.resize(900, 44)
    made.set_key("pace")
    with qtbot.waitExposed(page):
        page.show()
    return made


def test_arrows_choose_among_the_buttons(shown: Chooser) -> None:
    told: list[str] = []
    shown.chosen.connect(told.append)
    shown.take_focus()
    QTest.keyClick(shown.buttons.buttons()[0], Qt.Key.Key_Right)
    assert told == ["yield"]
    assert shown.buttons.key() == "yield"


def test_without_room_it_is_one_field(shown: Chooser) -> None:
    told: list[str] = []
    shown.chosen.connect(told.append)
    shown.resize(240, 44)
    assert shown.buttons.isHidden()
    assert not shown.field.isHidden()
    assert shown.field.key() == "pace"
    shown.take_focus()
    shown.field.editor.selectAll()
    QTest.keyClicks(shown.field.editor, "Loss")
    QTest.keyClick(shown.field.editor, Qt.Key.Key_Return)
    assert told[-1] == "losses"
    shown.resize(900, 44)
    assert not shown.buttons.isHidden()
    assert not shown.is_wide() or shown.field.isHidden()


def test_it_forces_nobody_to_be_wide(shown: Chooser) -> None:
    assert shown.minimumSizeHint().width() <= 160
    assert shown.field.editor.accessibleName().startswith("Look at")


def test_a_choice_within_stands_beside_the_field_where_it_is_narrow(shown: Chooser) -> None:
    parts = [Choice("yards", "Yards"), Choice("crews", "Crews")]
    shown.offer_second(parts, "crews")
    assert not shown.second.isVisible()
    shown.resize(200, 44)
    assert shown.second.isVisible()
    assert shown.second.key() == "crews"
    told: list[str] = []
    shown.second_chosen.connect(told.append)
    shown.second.editor.setFocus()
    shown.second.editor.selectAll()
    QTest.keyClicks(shown.second.editor, "Yar")
    QTest.keyClick(shown.second.editor, Qt.Key.Key_Return)
    assert told[-1] == "yards"
    shown.offer_second([], "")
    assert not shown.second.isVisible()


def test_all_of_it_is_printed_beside_where_it_is_narrow_and_there_are_several(
    shown: Chooser,
) -> None:
    shown.offer_all(all_of_it=True)
    assert not shown.print_all.isVisible()
    shown.resize(120, 44)
    assert shown.print_all.isVisible()
    shown.offer_all(all_of_it=False)
    assert not shown.print_all.isVisible()
