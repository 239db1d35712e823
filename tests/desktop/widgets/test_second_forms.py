"""A station's smaller forms in the place of its first one."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.asked import Ask, FormSpec
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.buttons import Button, Kind
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.second_forms import SecondForms
from honeyledger.ledger.verbs.quality import PutOnHold
from tests.desktop.rig import DeskRig

HOLD = FormSpec(
    "hold",
    "Hold",
    "Scan what is held.",
    "Hold it",
    ((Ask("target", "Held: scan it"),), (Ask("reason", "Why"),)),
    lambda typed, _reading: [PutOnHold(typed.text("target"), typed.text("reason"))],
    lambda typed, _done, _reading: f"{typed.text('target')} is held.",
    scan="target",
)


class Shown:
    """The forms of a desk, shown by themselves."""

    def __init__(self, qtbot: QtBot, rig: DeskRig) -> None:
        self.rig = rig
        self.first = Panel("First")
        words = ("More", "What happened")
        self.forms = SecondForms(
            rig.desk, "second", [HOLD], self.first, words, {"hold": "D"}, Density.DESK
        )
        self.button = Button("", Kind.PLAIN)
        self.forms.use_button(self.button, "More…", "Back")
        self.forms.show_page(object(), "ledger-1", date(2026, 7, 24))
        qtbot.addWidget(self.forms.leaves)
        qtbot.addWidget(self.button)
        self.forms.leaves.show()
        self.settle()

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
    rig.settle(made.forms.asking.pause)
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
