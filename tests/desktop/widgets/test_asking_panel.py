"""The panel of a station's small forms: what is shown, where Enter and the arrows go."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.asked import Ask, FormSpec, FormTyped, Typing
from honeyledger.desktop.models.asking import Asking
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.asking_panel import AskingPanel, in_rows
from honeyledger.desktop.widgets.buttons import Kind
from honeyledger.desktop.widgets.choices import Choice, ChoiceField
from honeyledger.desktop.widgets.fields import MassField
from honeyledger.domain.refusals import Refusal, Sentence
from tests.desktop.rig import DeskRig

NO = Sentence("no", "Not so.")
SPECS = (
    FormSpec(
        *("move", "Move", "Scan it.", "Keep it"),
        rows=(
            (Ask("what", "What", Typing.FREE, offers="drums"), Ask("net", "Net", Typing.MASS)),
            (Ask("note", "Note", shown=lambda typed, _reading: bool(typed.text("what"))),),
        ),
        facts=lambda _typed, _reading: [],
        done=lambda _typed, _done, _reading: "done",
        scan="what",
        fields={"net_g": "net"},
    ),
    FormSpec(
        *("read", "Read", "Scan them.", "Keep them"),
        rows=((Ask("lot", "Next", Typing.FREE, offers="drums"),),),
        facts=lambda _typed, _reading: [],
        done=lambda _typed, _done, _reading: "done",
        scan="lot",
        line=(Ask("moisture", "moisture", unit="%"), Ask("gross", "Gross", Typing.MASS)),
        grave=True,
    ),
)


class Shown:
    """The panel, shown, on a desk."""

    def __init__(self, rig: DeskRig, qtbot: QtBot) -> None:
        self.rig = rig
        self.asking = Asking(rig.desk, "test", SPECS)
        self.panel = AskingPanel(self.asking, "Things", "What is done", Density.DESK)
        self.asking.show_page(object(), "ledger-1", self.asking.reading().today)
        self.asking.pause.setInterval(0)
        qtbot.addWidget(self.panel.panel)
        self.panel.panel.resize(520, 700)
        with qtbot.waitExposed(self.panel.panel):
            self.panel.panel.show()
        self.panel.panel.activateWindow()
        qtbot.waitUntil(self.panel.panel.isActiveWindow)
        self.settle()

    def settle(self) -> None:
        """Go on until nothing is asked any more."""
        self.rig.settle(self.asking.pause)

    def field(self, kind: str, key: str) -> ChoiceField:
        """A field that chooses."""
        found = self.panel.fields[kind][key]
        assert isinstance(found, ChoiceField)
        return found

    def press(self, key: Qt.Key) -> None:
        """A key where the keyboard is."""
        focused = self.panel.panel.focusWidget()
        assert focused is not None
        QTest.keyClick(focused, key)
        self.settle()

    def name(self) -> str:
        """What the keyboard is in."""
        focused = self.panel.panel.focusWidget()
        return focused.accessibleName() if focused is not None else ""


@pytest.fixture
def shown(qtbot: QtBot, tmp_path: Path) -> Iterator[Shown]:
    rig = DeskRig(qtbot, tmp_path)
    yield Shown(rig, qtbot)
    rig.close()


def test_the_buttons_stand_in_as_many_rows_as_their_words_need(qtbot: QtBot) -> None:
    short = [Choice(key, key) for key in ("Read", "Weigh", "Move", "Hold", "Free")]
    assert [len(row) for row in in_rows(short, Density.DESK)] == [4, 1]
    long = [Choice(key, key) for key in ("Walk a row", "Found drum", "From before", "Warm")]
    assert [len(row) for row in in_rows(long, Density.DESK)] == [2, 2]
    assert [len(row) for row in in_rows([Choice("a", "a" * 90)], Density.DESK)] == [1]


def test_only_the_fields_of_the_form_in_hand_are_shown(shown: Shown) -> None:
    fields = shown.panel.fields
    assert fields["move"]["what"].isVisible()
    assert not fields["move"]["note"].isVisible()
    assert not fields["read"]["lot"].isVisible()
    shown.asking.scan("D26-0001-C")
    shown.settle()
    assert fields["move"]["note"].isVisible(), "asked, now that it matters"
    shown.panel.choose("read")
    assert fields["read"]["lot"].isVisible()
    assert not fields["move"]["what"].isVisible()
    assert shown.panel.record.text() == "Keep them"
    assert shown.panel.record.kind is Kind.GRAVE
    assert shown.panel.slot.sentence() == "Scan them."
    shown.panel.choose("move")
    assert shown.field("move", "what").text() == "D26-0001-C", "what was typed is still there"


def test_the_arrows_go_from_form_to_form_and_a_press_goes_into_the_fields(shown: Shown) -> None:
    shown.panel.kinds[0].take_focus()
    shown.press(Qt.Key.Key_Right)
    assert shown.asking.kind == "read"
    assert shown.name() == "What is done: Read"
    first = shown.panel.kinds[0].buttons()[0]
    QTest.mouseClick(first, Qt.MouseButton.LeftButton)
    assert shown.name() == "What"


def test_enter_behind_a_code_makes_a_line_and_in_the_empty_field_goes_on(shown: Shown) -> None:
    shown.panel.choose("read")
    for code in ("A", "B"):
        QTest.keyClicks(shown.panel.panel.focusWidget(), code)
        shown.press(Qt.Key.Key_Return)
        assert shown.name() == "Next"
    assert [line.code for line in shown.asking.now().lines] == ["A", "B"]
    shown.press(Qt.Key.Key_Return)
    assert shown.name() == "A, moisture"
    shown.press(Qt.Key.Key_Down)
    assert shown.name() == "B, moisture"
    shown.press(Qt.Key.Key_Down)
    assert shown.name() == "B, moisture", "there is no further one"
    QTest.keyClicks(shown.panel.panel.focusWidget(), "17")
    shown.settle()
    assert dict(shown.asking.now().lines[1].values) == {"moisture": "17"}
    shown.panel.off.click()
    shown.settle()
    assert [line.code for line in shown.asking.now().lines] == ["A"]
    shown.panel.off.click()
    assert not shown.panel.off.isVisible()


def test_lists_and_units_are_given_to_every_field_that_has_them(shown: Shown) -> None:
    shown.panel.choose("read")
    shown.asking.scan("A")
    shown.panel.offer("drums", [Choice("A", "A Drum 7")])
    shown.panel.set_unit("lb")
    assert [one.key for one in shown.field("move", "what").choices()] == ["A"]
    net, gross = shown.panel.fields["move"]["net"], shown.panel.line_field("gross", "A")
    assert isinstance(net, MassField)
    assert isinstance(gross, MassField)
    assert (net.tail.unit, gross.tail.unit) == ("lb", "lb")


def test_the_fields_of_a_form_are_made_when_it_is_first_in_hand(shown: Shown) -> None:
    before = len(shown.panel.form.fields())
    shown.panel.offer("drums", [Choice("A", "A Drum 7")])
    shown.panel.choose("read")
    assert len(shown.panel.form.fields()) == before + 1
    assert [one.key for one in shown.field("read", "lot").choices()] == ["A"], "offered before"
    assert shown.name() == "Next"
    shown.press(Qt.Key.Key_Tab)
    assert shown.panel.panel.focusWidget() is shown.panel.record, "Tab comes to the button, too"


def test_a_refusal_stands_at_the_top_and_the_keyboard_is_where_it_is_about(shown: Shown) -> None:
    shown.panel.show_refusal(Refusal(NO, field="net_g"))
    assert shown.panel.slot.sentence() == "Not recorded. Not so."
    assert shown.name() == "Net, kg"
    shown.panel.show_refusal(Refusal(NO, field="nowhere"))
    assert shown.name() == "Net, kg"
    shown.panel.choose("read")
    shown.asking.scan("A")
    shown.panel.show_refusal(Refusal(NO, field="gross@A"))
    assert shown.name() == "A, Gross"
    shown.panel.say(Message(Mark.NOTE, "Well."))
    assert shown.panel.slot.sentence() == "Well."


def test_what_is_typed_is_read_from_the_fields(shown: Shown) -> None:
    shown.panel.begin()
    QTest.keyClicks(shown.panel.panel.focusWidget(), "Drum 7")
    shown.settle()
    assert shown.asking.now() == FormTyped({"what": "Drum 7"})
    assert shown.panel.read() == FormTyped({"what": "Drum 7"})
