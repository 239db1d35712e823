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
    assert middle.y() == 96
    assert bar.geometry().bottom() == 526, "one pixel is the outline"
    assert 528 - bar.y() == 72
    panel.grab()


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
