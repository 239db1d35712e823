"""What the panel of the form says: one thing at a time, the ledger's notes after the rest."""

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.setup.panel_view import DOCK, FormPanel
from honeyledger.desktop.tokens import Density
from honeyledger.domain.refusals import Refusal, Sentence

TWO_LINES = Sentence("two-lines-here", "This is wrong.\nAnd this, too.")


@pytest.fixture
def panel(qtbot: QtBot) -> FormPanel:
    made = FormPanel(Density.DESK)
    qtbot.addWidget(made)
    return made


def test_a_refusal_is_said_in_its_first_line(panel: FormPanel) -> None:
    panel.say_refusal(Refusal(TWO_LINES))
    assert panel.said.sentence() == "Not saved. This is wrong."


def test_the_dock_is_offered_when_all_is_there(panel: FormPanel) -> None:
    panel.say_complete()
    shown = panel.said.shown()
    assert shown is not None
    assert (shown.action, shown.about) == ("Receive a pallet", DOCK)


def test_notes_wait_for_what_is_said_already(panel: FormPanel) -> None:
    note = Message(Mark.NOTE, "Follow your local code.")
    panel.say_known()
    panel.say_notes([note])
    assert panel.said.sentence().startswith("This one is registered.")
    panel.said.clear()
    panel.say_notes([note])
    assert panel.said.sentence() == "Follow your local code."
