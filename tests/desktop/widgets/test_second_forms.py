"""A station's smaller forms in the place of its first one."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QHBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.asked import Ask, FormSpec, Typing
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.buttons import Button, Kind
from honeyledger.desktop.widgets.choices import Choice, ChoiceField
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.second_forms import SecondForms
from honeyledger.ledger.verbs.quality import PutOnHold
from tests.desktop.rig import DeskRig

WHYS = "whys"
HOLD = FormSpec(
    "hold",
    "Hold",
    "Scan what is held.",
    "Hold it",
    ((Ask("target", "Held: scan it"),), (Ask("reason", "Why", Typing.FREE, offers=WHYS),)),
    lambda typed, _reading: [PutOnHold(typed.text("target"), typed.text("reason"))],
    lambda typed, _done, _reading: f"{typed.text('target')} is held.",
    scan="target",
)


class Shown:
    """The forms of a desk, shown by themselves."""

    def __init__(self, qtbot: QtBot, rig: DeskRig) -> None:
        self.rig = rig
        self.first = Panel("First")
        self.made = 0
        words = ("More", "What happened")
        self.forms = SecondForms(
            rig.desk, "second", self.specs, self.first, words, {"hold": "D"}, Density.DESK
        )
        self.button = Button("", Kind.PLAIN)
        self.forms.use_button(self.button, "More…", "Back")
        self.forms.show_page(object(), "ledger-1", date(2026, 7, 24))
        qtbot.addWidget(self.forms.leaves)
        qtbot.addWidget(self.button)
        self.forms.leaves.show()
        self.rig.settle()

    def specs(self) -> list[FormSpec]:
        """The forms, and how often they were made."""
        self.made += 1
        return [HOLD]

    def settle(self) -> None:
        """Go on until every question is answered."""
        self.rig.settle(self.forms.asking.pause)

    def scan(self, code: str) -> bool:
        """A code was scanned."""
        taken = self.forms.take_code(code)
        self.settle()
        return taken


@pytest.fixture
def shown(qtbot: QtBot, tmp_path: Path) -> Iterator[Shown]:
    rig = DeskRig(qtbot, tmp_path)
    made = Shown(qtbot, rig)
    yield made
    made.settle()
    rig.close()


def test_a_button_turns_there_and_back_and_says_where_it_leads(shown: Shown, qtbot: QtBot) -> None:
    assert (shown.forms.is_shown(), shown.button.text()) == (False, "More…")
    with qtbot.waitSignal(shown.forms.turned):
        shown.button.click()
    assert (shown.forms.is_shown(), shown.button.text()) == (True, "Back")
    shown.forms.show_first()
    assert (shown.forms.is_shown(), shown.button.text()) == (False, "More…")
    shown.forms.show_first()
    assert not shown.forms.is_shown()
    shown.settle()


def test_a_scan_goes_into_the_form_in_hand_where_it_takes_that_kind(shown: Shown) -> None:
    assert not shown.scan("D26-0001-C"), "the first form is in hand"
    shown.forms.turn()
    shown.settle()
    assert shown.scan("d260001c")
    assert shown.forms.asking.now().text("target") == "D26-0001-C"
    assert not shown.scan("G26-0001-7")
    assert not shown.scan("no code at all")
    used: list[str] = []
    assert shown.forms.take_code("D26-0002-A", lambda code: not used.append(code))
    assert used == ["D26-0002-A"]
    assert shown.forms.asking.now().text("target") == "D26-0001-C"


def test_clear_is_only_for_what_is_in_hand(shown: Shown) -> None:
    assert not shown.forms.clear()
    shown.forms.turn()
    shown.scan("D26-0001-C")
    assert shown.forms.clear()
    shown.settle()
    assert shown.forms.asking.now().text("target") == ""


def test_a_refusal_stands_in_the_form_and_is_told(shown: Shown, qtbot: QtBot) -> None:
    shown.forms.turn()
    shown.scan("D26-0001-C")
    with qtbot.waitSignal(shown.forms.refused) as heard:
        shown.forms.asking.record()
        shown.settle()
    assert heard.args[0].text in shown.forms.form.slot.sentence()


def test_the_forms_are_made_when_they_are_turned_to_and_once(shown: Shown) -> None:
    shown.forms.clear()
    shown.forms.show_first()
    assert not shown.forms.take_code("D26-0001-C")
    shown.forms.show_page(object(), "ledger-1", date(2026, 7, 24))
    assert shown.made == 0
    shown.forms.turn()
    shown.forms.turn()
    shown.forms.turn()
    shown.settle()
    assert shown.made == 1


def test_what_was_offered_before_they_were_made_is_there(shown: Shown) -> None:
    shown.forms.leaves.set_narrow(True)
    shown.forms.offer_choices(WHYS, [Choice("smell", "Smell")])
    shown.forms.turn()
    why = shown.forms.form.fields["hold"]["reason"]
    shown.settle()
    assert isinstance(why, ChoiceField)
    assert [one.text for one in why.choices()] == ["Smell"]
    shown.forms.offer_choices(WHYS, [Choice("leak", "Leak")])
    assert [one.text for one in why.choices()] == ["Leak"]


def test_what_was_left_half_typed_comes_with_them_and_the_keyboard_goes_on_behind_it(
    qtbot: QtBot, tmp_path: Path
) -> None:
    rig = DeskRig(qtbot, tmp_path)
    before = Shown(qtbot, rig)
    before.forms.turn()
    before.scan("D26-0001-C")
    before.settle()
    after = Shown(qtbot, rig)
    after.forms.leaves.activateWindow()
    after.forms.turn()
    after.forms.form.begin()
    after.settle()
    assert after.forms.asking.now().text("target") == "D26-0001-C"
    assert after.forms.form.fields["hold"]["reason"].editor.hasFocus()
    rig.close()


def test_tab_comes_to_them_between_the_first_panel_and_what_stands_behind_it(
    qtbot: QtBot, shown: Shown
) -> None:
    page = QWidget()
    row = QHBoxLayout(page)
    inside, behind = Button("Inside"), Button("Behind")
    shown.first.set_body(inside)
    row.addWidget(shown.forms.leaves)
    row.addWidget(behind)
    qtbot.addWidget(page)
    page.show()
    shown.forms.turn()
    shown.settle()
    page.activateWindow()
    shown.forms.form.record.setFocus()
    QTest.keyClick(shown.forms.form.record, Qt.Key.Key_Tab)
    assert behind.hasFocus()
    QTest.keyClick(behind, Qt.Key.Key_Tab, Qt.KeyboardModifier.ShiftModifier)
    assert shown.forms.form.record.hasFocus()
    row.removeWidget(shown.forms.leaves)
    shown.forms.leaves.setParent(None)
