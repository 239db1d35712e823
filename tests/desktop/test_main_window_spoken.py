"""For those who work by keyboard or by ear: a round that does not follow the work is found.

The stations' own rounds are walked where the tour comes to them.
"""

from pathlib import Path

from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop.widgets.panel import Panel
from tests.desktop.tour_round import disorder


def test_a_round_that_jumps_is_found(qtbot: QtBot, tmp_path: Path) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    column = QVBoxLayout(window)
    panel, other = Panel("Load"), Panel("Log")
    body = QWidget()
    row = QVBoxLayout(body)
    first, second = QPushButton("one"), QPushButton("two")
    row.addWidget(first)
    row.addWidget(second)
    panel.set_body(body)
    record = panel.add_bar().add_primary("Record")
    away = QPushButton("away")
    other.set_body(away)
    column.addWidget(panel)
    column.addWidget(other)
    with qtbot.waitExposed(window):
        window.show()
    assert disorder([first, second, record, away], window) == []
    assert disorder([second, record, away, first], window) == [], "a round has no beginning"
    assert disorder([second, first, record, away], window) == ["from “Record” back to “two”"]
    jumping = [first, away, second, window, record]
    assert disorder(jumping, window) == ["comes 2 times to “Load”"]
