"""What narrows a list says what it is for above itself, or inside where the window is low."""

from PySide6.QtWidgets import QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.find_field import FindField


def test_in_a_low_window_its_label_stands_in_it_and_gives_its_room(qtbot: QtBot) -> None:
    window, field = QWidget(), FindField("Find: code, yard", density=Density.DESK)
    qtbot.addWidget(window)
    QVBoxLayout(window).addWidget(field)
    window.resize(640, 800)
    window.show()
    high = field.sizeHint().height()
    assert field.label.isVisible()
    assert field.editor.placeholderText() == ""
    window.resize(600, 400)
    assert not field.label.isVisible()
    assert field.editor.placeholderText() == "Find: code, yard"
    assert field.editor.accessibleName() == "Find: code, yard"
    assert field.sizeHint().height() < high
