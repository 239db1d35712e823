"""The lines of a small form by themselves: shown, read, hidden, and used again."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.asked import Ask, FormSpec, FormTyped, LineTyped, Typing
from honeyledger.desktop.models.asking import Asking
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.asked_lines import AskedLines
from honeyledger.desktop.widgets.fields import Field
from honeyledger.desktop.widgets.form import Form
from tests.desktop.rig import DeskRig

SPEC = FormSpec(
    *("read", "Read", "Scan them.", "Keep them"),
    rows=(),
    facts=lambda _typed, _reading: [],
    done=lambda _typed, _done, _reading: "done",
    line=(Ask("moisture", "moisture"), Ask("gross", "Gross", Typing.MASS)),
)


class Lines:
    """Lines in a form that is shown."""

    def __init__(self, rig: DeskRig, qtbot: QtBot) -> None:
        self.asking = Asking(rig.desk, "test", [SPEC])
        self.form = Form()
        self.lines = AskedLines(
            self.asking, self.form, Density.DESK, lambda at, code: f"{at} {code}"
        )
        qtbot.addWidget(self.form)
        with qtbot.waitExposed(self.form):
            self.form.show()
        self.form.activateWindow()
        qtbot.waitUntil(self.form.isActiveWindow)

    def show(self, *lines: LineTyped) -> bool:
        """Show these and no others; answers whether fields were made."""
        self.asking.typed["read"] = FormTyped({}, lines)
        made = self.lines.show_lines(SPEC, lines)
        self.lines.show_only("read", len(lines))
        return made

    def field(self, code: str, name: str = "moisture") -> Field:
        """A lot's field."""
        found = self.lines.field("read", name, code)
        assert isinstance(found, Field)
        return found


@pytest.fixture
def lines(qtbot: QtBot, tmp_path: Path) -> Iterator[Lines]:
    rig = DeskRig(qtbot, tmp_path)
    yield Lines(rig, qtbot)
    rig.close()


def test_fields_are_made_once_and_used_again(lines: Lines) -> None:
    a, b = LineTyped("A", {"moisture": "17"}), LineTyped("B")
    assert lines.show(a, b)
    field = lines.field("A")
    assert (field.text(), field.label.text()) == ("17", "1 A: moisture")
    assert field.editor.accessibleName() == "A, moisture"
    assert not lines.show(b)
    assert lines.field("B") is field
    assert field.text() == ""
    assert lines.lines.field("read", "moisture", "A") is None
    assert len([one for one in lines.form.fields() if one.isVisible()]) == 2


def test_what_is_typed_is_read_by_lot(lines: Lines, qtbot: QtBot) -> None:
    lines.show(LineTyped("A"), LineTyped("B"))
    lines.field("B").take_focus()
    assert lines.lines.last == "B"
    with qtbot.waitSignal(lines.lines.edited) as told:
        QTest.keyClicks(lines.field("B").editor, "1")
    assert told.args == ["moisture"]
    found = lines.lines.read("read", lines.asking.now().lines)
    assert found == (LineTyped("A"), LineTyped("B", {"moisture": "1"}))


def test_the_arrows_stay_in_a_column(lines: Lines) -> None:
    lines.show(LineTyped("A"), LineTyped("B"))
    lines.field("A", "gross").take_focus()
    QTest.keyClick(lines.field("A", "gross").editor, Qt.Key.Key_Down)
    assert lines.field("B", "gross").editor.hasFocus()
    QTest.keyClick(lines.field("B", "gross").editor, Qt.Key.Key_Up)
    QTest.keyClick(lines.field("A", "gross").editor, Qt.Key.Key_Up)
    assert lines.field("A", "gross").editor.hasFocus()


def test_masses_are_in_the_unit_of_the_house(lines: Lines) -> None:
    lines.show(LineTyped("A"))
    lines.lines.set_unit("lb")
    assert lines.field("A", "gross").tail.unit == "lb"
