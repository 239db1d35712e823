"""A panel: heading, slot, body, and a bar pinned to its foot."""

from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop.widgets.buttons import IconButton
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.text import body


def test_the_parts_stand_where_the_design_has_them(qtbot: QtBot) -> None:
    panel = Panel("Receive supers")
    slot = panel.add_slot("Scan the pull sheet of the first yard.")
    middle = QWidget()
    panel.set_body(middle)
    bar = panel.add_bar()
    qtbot.addWidget(panel)
    panel.resize(504, 528)
    panel.show()
    assert (slot.y(), slot.height()) == (48, 48)
    assert middle.mapTo(panel, middle.rect().topLeft()).y() == 96
    assert middle.height() == 528 - 96 - 72
    assert bar.geometry().bottom() == 526, "one pixel is the outline"
    assert 528 - bar.y() == 72
    panel.grab()


def test_in_a_low_window_what_is_between_slot_and_bar_scrolls(qtbot: QtBot) -> None:
    panel = Panel("Closing")
    panel.add_slot("Sign, then print the run sheet.")
    tall = QWidget()
    tall.setMinimumHeight(700)
    panel.set_body(tall)
    bar = panel.add_bar()
    qtbot.addWidget(panel)
    panel.resize(504, 400)
    panel.show()
    assert tall.height() == 700
    assert bar.geometry().bottom() == 398
    top = tall.mapTo(panel, tall.rect().topLeft()).y()
    assert top == 96


def test_a_heading_gives_its_room_to_a_tab_in_a_narrow_window(qtbot: QtBot) -> None:
    panel = Panel("Arrivals")
    panel.add_to_heading(IconButton("find", "Find"))
    panel.add_part(body("Nothing received today."), padded=True)
    bar = panel.add_bar()
    qtbot.addWidget(panel)
    panel.show()
    assert panel.heading.isVisible()
    panel.set_narrow(True)
    assert not panel.heading.isVisible()
    assert bar.height() == 63
    panel.set_narrow(False)
    panel.set_heading("166 of 206 supers are in")
    assert panel.accessibleName() == panel.heading.text() == "166 of 206 supers are in"


def test_a_part_further_down_can_be_brought_into_view(qtbot: QtBot) -> None:
    panel = Panel("Reverse")
    tall, last = QWidget(), QWidget()
    tall.setMinimumHeight(700)
    last.setFixedHeight(60)
    panel.set_body(tall)
    panel.add_part(last)
    bar = panel.add_bar()
    qtbot.addWidget(panel)
    panel.resize(504, 400)
    panel.show()
    assert last.mapTo(panel, last.rect().topLeft()).y() > bar.y()
    panel.keep_in_view(last)
    assert last.mapTo(panel, last.rect().bottomLeft()).y() < bar.y()


def test_several_bodies_share_the_height_as_they_are_told(qtbot: QtBot) -> None:
    panel, first, second, small = Panel(), QWidget(), QWidget(), QWidget()
    qtbot.addWidget(panel)
    small.setFixedHeight(30)
    panel.set_bodies((first, 3), (small, 0), (second, 1))
    panel.resize(400, 432)
    panel.show()
    assert (first.height(), small.height(), second.height()) == (300, 30, 100)
