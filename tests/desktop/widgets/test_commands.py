"""Commands can be read whole, selected and copied."""

from PySide6.QtGui import QGuiApplication
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.command_lines import Command
from honeyledger.desktop.widgets.commands import CommandLine, Commands

HOLD = Command(
    "Put it on hold", 'honeyledger hold {code} --reason "sample to the laboratory"', "D"
)
RELEASE = Command("End a hold", "honeyledger release {code}", "D", "hold")


def test_a_line_is_copied_as_it_is_typed(qtbot: QtBot) -> None:
    line = CommandLine(HOLD)
    qtbot.addWidget(line)
    line.show_code("D26-0611-Y")
    wanted = 'honeyledger hold D26-0611-Y --reason "sample to the laboratory"'
    assert line.line.line() == wanted
    line.copying.click()
    assert QGuiApplication.clipboard().text() == wanted


def test_a_long_line_is_shown_whole_on_several_lines(qtbot: QtBot) -> None:
    line = CommandLine(HOLD)
    qtbot.addWidget(line)
    line.resize(300, 200)
    line.show()
    qtbot.waitExposed(line)
    high = line.line.document().size().height()
    assert line.line.height() >= high
    assert high > 2 * line.line.fontMetrics().height()
    line.resize(1400, 200)
    qtbot.waitUntil(lambda: line.line.document().size().height() < high)


def test_a_line_is_about_the_chosen_row_or_the_first_that_can_be_meant(qtbot: QtBot) -> None:
    commands = Commands("This page will show more.", "A note.", [HOLD, RELEASE])
    qtbot.addWidget(commands)
    rows = [("D26-0001-C", "ready"), ("D26-0002-A", "hold")]
    commands.show_rows(rows, "D26-0001-C")
    assert [line.line.line().split()[2] for line in commands.lines] == ["D26-0001-C", "D26-0002-A"]
    commands.show_rows([], "")
    assert commands.lines[1].line.line() == "honeyledger release D26-0001-C"
