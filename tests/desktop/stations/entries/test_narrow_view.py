"""A reach narrowed by keys and scan alone; the same entry as by terminal."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.entries.view import EntriesView
from honeyledger.ledger.verbs.corrections import Amend
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.faces import Faces
from tests.desktop.rig import SOON, Rig, entries_of


class Reach:
    """A pull that was amended from one yard to another; the page is open at the narrowing."""

    def __init__(self, rig: Rig, folder: Path) -> None:
        self.rig = rig
        self.faces = Faces(rig, folder)
        with rig.hearing_at_the_end():
            self.creek = rig.told(Register("yard", {"name": "Creek"})).given[0]
            rig.told(Register("yard", {"name": "Hill"}))
            self.pull = rig.told(Receive((Line("Creek", 20),))).codes[0]
            rig.told(Amend(self.pull, "misread", yard="Hill"))
        rig.keys("Ctrl+E")
        rig.settle(self.view.presenter.pause)
        self.view.amend_it.click()
        self.settle()
        self.view.amending.narrow.click()
        self.settle()

    @property
    def view(self) -> EntriesView:
        return entries_of(self.rig)

    def settle(self) -> None:
        self.rig.settle(self.view.narrowing.asking.pause)


@pytest.fixture
def reach(qtbot: QtBot, tmp_path: Path) -> Iterator[Reach]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Reach(rig, tmp_path)
    rig.close()


def test_what_a_pull_was_amended_from_leaves_its_reach_by_name_and_reason(reach: Reach) -> None:
    rig, narrowing = reach.rig, reach.view.narrowing
    narrowing.asking.clear()
    reach.settle()
    terminal = reach.faces.copy()
    rig.scan(reach.pull)
    reach.settle()
    assert narrowing.asking.now().text("lot") == reach.pull
    assert rig.focused() == "What is not in it"
    rig.type("creek")
    reach.settle()
    rig.type("")  # no reason
    reach.settle()
    assert narrowing.form.slot.sentence().startswith("Not recorded.")
    assert rig.focused() == "Why it cannot be in there"
    rig.type("the crew was there")
    reach.settle()
    assert rig.toast().lead == f"The reach of {reach.pull} is narrower."
    words = ("narrow", reach.pull, "--place", reach.creek, "--reason", "the crew was there")
    reach.faces.same(terminal, *words)


def test_nobody_signed_in_narrows_nothing(reach: Reach) -> None:
    rig, narrowing = reach.rig, reach.view.narrowing
    rig.desk.operator = ""
    narrowing.about(reach.pull)
    reach.settle()
    rig.type("creek")
    rig.type("the crew was there")
    reach.settle()
    assert narrowing.form.slot.sentence() == (
        "Not recorded. Say who signs: scan a badge, or name a person who works here."
    )


def test_half_a_form_is_there_again_and_left_by_its_button(
    reach: Reach, qtbot: QtBot, tmp_path: Path
) -> None:
    reach.view.narrowing.about(reach.pull)
    reach.settle()
    reach.rig.type("creek")
    reach.rig.type("the cr", enter=False)
    reach.settle()
    reach.view.narrowing.left.emit()
    assert reach.view.sides.currentWidget() is reach.view.entry
    reach.rig.close()
    again = Rig(qtbot, tmp_path, first=SOON)
    again.keys("Ctrl+E")
    view = entries_of(again)
    again.settle(view.narrowing.asking.pause)
    typed = view.narrowing.asking.typed["narrow"]
    assert (typed.text("lot"), typed.text("reason")) == (reach.pull, "the cr")
    again.close()
