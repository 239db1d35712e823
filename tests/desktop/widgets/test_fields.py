"""Fields give back what was typed, and say when a scale typed it."""

from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QHBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.fields import CodeField, Field, MassField, TextField


def test_a_field_gives_back_the_text_as_typed(qtbot: QtBot) -> None:
    field = TextField("Moisture", unit="%")
    qtbot.addWidget(field)
    heard: list[str] = []
    field.edited.connect(heard.append)
    qtbot.keyClicks(field.editor, "12,5")
    assert field.text() == "12,5"
    assert heard[-1] == "12,5"


def test_setting_a_field_is_not_editing_it(qtbot: QtBot) -> None:
    field = TextField("Moisture")
    qtbot.addWidget(field)
    heard: list[str] = []
    field.edited.connect(heard.append)
    field.set_text("18.4")
    field.clear()
    assert heard == []


def test_enter_submits(qtbot: QtBot) -> None:
    field = TextField("Reason")
    qtbot.addWidget(field)
    with qtbot.waitSignal(field.submitted):
        qtbot.keyClick(field.editor, Qt.Key.Key_Return)


def test_a_field_is_as_high_as_the_form_expects(qtbot: QtBot) -> None:
    for density, high in ((Density.FLOOR, 84), (Density.DESK, 72)):
        field = TextField("Gross", density=density)
        qtbot.addWidget(field)
        assert field.sizeHint().height() == high


def test_a_screen_reader_hears_label_source_and_unit(qtbot: QtBot) -> None:
    field = MassField("Gross")
    qtbot.addWidget(field)
    assert field.editor.accessibleName() == "Gross, kg"
    field.show_scale("874.5")
    assert field.editor.accessibleName() == "Gross, scale, kg"
    field.set_label("Gross of the pallet")
    assert field.editor.accessibleName().startswith("Gross of the pallet")


def test_typing_over_a_scale_takes_its_dot_away(qtbot: QtBot) -> None:
    field = MassField("Gross")
    qtbot.addWidget(field)
    heard: list[str] = []
    field.edited.connect(heard.append)
    field.show_scale("874.5")
    assert field.is_from_scale()
    assert heard == ["874.5"], "a reading is news to whoever parses it"
    field.resize(240, 84)
    with_dot = field.grab().toImage()
    field.take_focus()
    qtbot.keyClicks(field.editor, "9")
    assert field.text() == "9"
    assert not field.is_from_scale()
    field.set_text("874.5")
    assert field.grab().toImage() != with_dot


def test_a_refused_field_is_marked_until_it_is_typed_in(qtbot: QtBot) -> None:
    field = TextField("Gross")
    qtbot.addWidget(field)
    field.resize(240, 84)
    plain = field.grab().toImage()
    field.set_refused(True)
    assert field.grab().toImage() != plain
    qtbot.keyClicks(field.editor, "1")
    assert not field.box.refused


def test_a_read_only_field_takes_no_keys(qtbot: QtBot) -> None:
    field = TextField("Tare")
    qtbot.addWidget(field)
    field.set_text("17.6")
    field.set_read_only(True)
    qtbot.keyClicks(field.editor, "9")
    assert field.text() == "17.6"
    field.grab()


def test_the_keyboard_comes_with_the_text_selected(qtbot: QtBot) -> None:
    field = Field("Crew")
    qtbot.addWidget(field)
    field.set_text("North truck")
    field.set_hint("who pulled it")
    field.set_unit("4 people")
    with qtbot.waitExposed(field):
        field.show()
    field.take_focus()
    assert field.editor.selectedText() == "North truck"
    assert field.editor.placeholderText() == "who pulled it"


def test_a_code_is_typed_in_capitals_whatever_the_keyboard_says(qtbot: QtBot) -> None:
    field = CodeField("Drum")
    qtbot.addWidget(field)
    heard: list[str] = []
    field.edited.connect(heard.append)
    qtbot.keyClicks(field.editor, "d26-0611-y")
    assert field.editor.text() == "D26-0611-Y"
    assert heard[-1] == "D26-0611-Y"
    field.set_text("d26-0612-w ")
    assert field.text() == "D26-0612-W"


def test_a_long_text_shows_how_it_begins_once_it_is_left_and_is_whole_in_its_tip(
    qtbot: QtBot,
) -> None:
    page = QWidget()
    qtbot.addWidget(page)
    field, other = TextField("Goes"), TextField("Jars")
    row = QHBoxLayout(page)
    row.addWidget(field)
    row.addWidget(other)
    page.resize(260, 90)
    with qtbot.waitExposed(page):
        page.show()
    page.activateWindow()
    field.editor.setFocus()
    qtbot.waitUntil(field.editor.hasFocus)
    long = "J26-0003-H Field blend 250 g"
    field.set_text(long)
    assert field.editor.cursorPosition() == len(long)
    other.editor.setFocus()
    assert field.editor.cursorPosition() == 0
    assert field.editor.tip_at(QPoint(5, 5)) == long
    field.editor.setFocus(Qt.FocusReason.OtherFocusReason)
    assert field.editor.cursorPosition() == len(long), "typing goes on where it was"
    field.set_text("29")
    assert field.editor.tip_at(QPoint(5, 5)) == ""
