"""The list at the right of the set-up, and what stands there while a table is put right."""

from pytestqt.qtbot import QtBot

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.setup.records import RecordRow
from honeyledger.desktop.stations.setup.records_view import RecordsPanel
from honeyledger.desktop.tokens import Density


def test_problems_take_the_place_of_the_rows_until_there_are_none(qtbot: QtBot) -> None:
    panel = RecordsPanel(Density.DESK)
    qtbot.addWidget(panel)
    panel.show_rows("Boxes", [RecordRow("deep", "deep", "frames 9")])
    cell = panel.records.model.cell(0, 0)
    assert (panel.heading.text(), cell.text, cell.note) == ("Boxes", "deep", "frames 9")
    panel.show_problems([Message(Mark.REFUSED, "Row 2 is wrong.")])
    assert panel.bodies.currentWidget() is panel.notes
    assert panel.notes.sentences() == ["Row 2 is wrong."]
    panel.show_problems([])
    assert panel.bodies.currentWidget() is panel.records
    with qtbot.waitSignal(panel.opened) as opened:
        panel.records.opened.emit("deep")
    assert opened.args == ["deep"]
