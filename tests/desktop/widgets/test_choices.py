"""A yard, a crew, a day: typed, narrowed, chosen."""

from datetime import date

import pytest
from PySide6.QtCore import QModelIndex, QSize, Qt
from pytestqt.modeltest import ModelTester
from pytestqt.qtbot import QtBot

from honeyledger.desktop.widgets import choices
from honeyledger.desktop.widgets.choices import Choice, ChoiceField, ChoicesModel, DateField

YARDS = (
    Choice("Y14", "Coulee Bend", "56 colonies"),
    Choice("Y09", "Tamarack Rise", "64 colonies"),
    Choice("Y22", "Osier Ford"),
)
TODAY = date(2026, 7, 24)


@pytest.fixture
def field(qtbot: QtBot) -> ChoiceField:
    made = ChoiceField("Yard", YARDS)
    qtbot.addWidget(made)
    made.resize(480, 84)
    with qtbot.waitExposed(made):
        made.show()
    made.activateWindow()
    made.take_focus()
    qtbot.waitUntil(made.editor.hasFocus)
    return made


def test_the_choices_are_a_model_by_qts_rules(qtmodeltester: ModelTester) -> None:
    model = ChoicesModel()
    qtmodeltester.check(model)
    model.show(YARDS)
    qtmodeltester.check(model)
    role = Qt.ItemDataRole.AccessibleTextRole
    assert model.data(model.index(0), role) == "Coulee Bend, 56 colonies"
    assert model.data(model.index(2), role) == "Osier Ford"


def test_typing_narrows_and_enter_chooses_and_moves_on(qtbot: QtBot, field: ChoiceField) -> None:
    chosen: list[str] = []
    moved: list[bool] = []
    field.chosen.connect(chosen.append)
    field.submitted.connect(lambda: moved.append(True))
    qtbot.keyClicks(field.editor, "rise")
    qtbot.waitUntil(field.popup.isVisible)
    assert field.popup.model().rowCount() == 1
    qtbot.keyClick(field.popup, Qt.Key.Key_Down)
    qtbot.keyClick(field.popup, Qt.Key.Key_Return)
    assert chosen == ["Y09"]
    assert moved == [True]
    assert field.key() == "Y09"
    assert field.text() == "Tamarack Rise"
    assert field.tail.unit == "64 colonies"


def test_enter_takes_the_only_match_without_going_to_it(qtbot: QtBot, field: ChoiceField) -> None:
    moved: list[str] = []
    field.submitted.connect(lambda: moved.append(field.key()))
    qtbot.keyClicks(field.editor, "osier")
    qtbot.waitUntil(field.popup.isVisible)
    qtbot.keyClick(field.popup, Qt.Key.Key_Return)
    assert moved == ["Y22"]
    assert not field.popup.isVisible()


def test_enter_with_several_matches_keeps_what_was_typed(qtbot: QtBot, field: ChoiceField) -> None:
    moved: list[str] = []
    field.submitted.connect(lambda: moved.append(field.text()))
    qtbot.keyClicks(field.editor, "r")
    qtbot.waitUntil(field.popup.isVisible)
    qtbot.keyClick(field.popup, Qt.Key.Key_Return)
    assert moved == ["r"]


def test_down_opens_the_whole_list(qtbot: QtBot, field: ChoiceField) -> None:
    field.set_key("Y14")
    qtbot.keyClick(field.editor, Qt.Key.Key_Down)
    qtbot.waitUntil(field.popup.isVisible)
    assert field.popup.model().rowCount() == 3
    assert field.popup.sizeHintForRow(0) >= 48
    field.popup.grab()
    field.popup.hide()


def test_not_each_of_many_choices_is_asked_how_high_it_is(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[int] = []

    def size(_rows: object, _option: object, index: QModelIndex) -> QSize:
        asked.append(index.row())
        return QSize(120, 48)

    monkeypatch.setattr(choices._ChoiceRows, "sizeHint", size)
    made = ChoiceField("Drum", [Choice(str(at), f"Drum {at}") for at in range(500)])
    qtbot.addWidget(made)
    with qtbot.waitExposed(made):
        made.show()
    made.activateWindow()
    made.take_focus()
    qtbot.waitUntil(made.editor.hasFocus)
    qtbot.keyClicks(made.editor, "d")
    qtbot.waitUntil(made.popup.isVisible)
    assert made.popup.model().rowCount() == 500
    assert 0 < len(asked) < 100
    made.popup.hide()


def test_a_name_typed_in_full_is_the_choice_whatever_its_case(field: ChoiceField) -> None:
    field.set_text("OSIER FORD")
    assert field.key() == "Y22"


def test_what_matches_nothing_stays_for_the_parser(qtbot: QtBot, field: ChoiceField) -> None:
    field.set_key("Y14")
    field.editor.selectAll()
    qtbot.keyClicks(field.editor, "nowhere")
    assert field.text() == "nowhere"
    assert field.key() == ""
    assert field.tail.unit == "", "the note of the last choice is gone"


def test_an_unknown_key_empties_the_field(field: ChoiceField) -> None:
    field.set_key("Y14")
    field.set_key("Y99")
    assert field.text() == ""
    assert field.choices() == YARDS


def test_choices_of_the_same_name_are_told_apart_by_their_key(qtbot: QtBot) -> None:
    field = ChoiceField("Yard", [Choice("Y1", "Home"), Choice("Y2", "Home")])
    qtbot.addWidget(field)
    field.set_key("Y2")
    assert field.key() == "Y2"
    field.editor.selectAll()
    qtbot.keyClicks(field.editor, "home")
    assert field.key() == "", "typed, it may be either, and is for the ledger to ask about"


def test_a_day_is_typed_stepped_and_tidied(qtbot: QtBot) -> None:
    field = DateField("Pulled", TODAY)
    qtbot.addWidget(field)
    field.set_text("22 jul")
    assert field.day() == date(2026, 7, 22)
    qtbot.keyClick(field.editor, Qt.Key.Key_Up)
    assert field.text() == "23 Jul 2026"
    qtbot.keyClick(field.editor, Qt.Key.Key_Up)
    qtbot.keyClick(field.editor, Qt.Key.Key_Up)
    assert field.day() == TODAY, "no day after today"
    qtbot.keyClick(field.editor, Qt.Key.Key_Down)
    assert field.day() == date(2026, 7, 23)
    field.set_text("20 jul")
    field.editor.editingFinished.emit()
    assert field.text() == "20 Jul 2026"
    field.set_text("4/7")
    assert field.day() is None


def test_the_last_fortnight_can_be_chosen(qtbot: QtBot) -> None:
    field = DateField("Pulled", TODAY)
    qtbot.addWidget(field)
    assert len(field.choices()) == 14
    assert field.choices()[1] == Choice("2026-07-23", "23 Jul 2026", "yesterday")
    field.set_today(date(2026, 7, 25))
    assert field.choices()[0].text == "25 Jul 2026"
