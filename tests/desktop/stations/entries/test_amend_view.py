"""The form of an amendment shows what its kind asks, and says what is typed."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.entries.amend_view import AmendPanel
from honeyledger.desktop.stations.entries.amends import AmendTyped, amend_kinds
from honeyledger.desktop.stations.entries.presenter import EntriesPresenter
from honeyledger.desktop.tokens import Density
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.signing import NO_REASON
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.journal import Amendable
from tests.desktop.rig import DeskRig

WAYS = (Amendable("container", "D26-0001-X", "Drum 7"), Amendable("filled_on", "D26-0001-X", ""))


class Amending:
    """The form on a house with two yards."""

    def __init__(self, rig: DeskRig) -> None:
        self.rig = rig
        self.hill = rig.house.record(Register("yard", {"name": "Hill"})).given[0]
        self.presenter = EntriesPresenter(rig.desk)
        self.panel = AmendPanel(self.presenter, Density.DESK)
        rig.bot.addWidget(self.panel.panel)
        self.panel.panel.resize(520, 600)
        with rig.bot.waitExposed(self.panel.panel):
            self.panel.panel.show()
        self.panel.panel.activateWindow()
        self.presenter.shown.connect(self.panel.show_page)
        self.presenter.ask()
        rig.settle(self.presenter.pause)

    def turn(self, key: str) -> None:
        """Choose what was wrong."""
        self.panel.what.set_key(key)
        self.panel.what.chosen.emit(key)


@pytest.fixture
def amending(qtbot: QtBot, tmp_path: Path) -> Iterator[Amending]:
    rig = DeskRig(qtbot, tmp_path)
    yield Amending(rig)
    rig.close()


def test_it_begins_with_what_can_be_wrong_with_the_entry(amending: Amending) -> None:
    panel = amending.panel
    panel.show_ways(WAYS)
    assert [choice.key for choice in panel.what.choices()][:2] == ["container", "filled_on"]
    assert len(panel.what.choices()) == len(amend_kinds())
    assert panel.about.text() == "D26-0001-X"
    assert panel.slot.sentence() == "The books say: Drum 7."
    panel.begin()
    assert panel.right.editor.hasFocus()


@pytest.mark.parametrize("key", [kind.key for kind in amend_kinds()])
def test_each_kind_shows_its_own_fields(amending: Amending, key: str) -> None:
    panel = amending.panel
    amending.turn(key)
    kind = panel.kinds[key]
    assert panel.about.label.text() == kind.about
    assert panel.code.isVisible() == (key in ("pallet", "run", "entry"))
    assert panel.right.isVisible() != panel.code.isVisible()
    assert panel.happened.isVisible() == (key == "pallet")


def test_what_is_chosen_goes_by_its_key(amending: Amending) -> None:
    panel = amending.panel
    amending.turn("yard")
    panel.about.set_text("S26-0001-4")
    panel.right.set_text("hill")
    panel.reason.set_text("misread")
    assert panel.typed() == AmendTyped("yard", "S26-0001-4", amending.hill, "", "misread")
    panel.right.set_text("nowhere")
    assert panel.typed().right == "nowhere", "for the ledger to refuse in words"


def test_a_scanned_label_is_what_is_amended(amending: Amending) -> None:
    panel = amending.panel
    assert not panel.take_code("S26-0001-4", "S"), "nothing was chosen yet"
    amending.turn("pallet")
    assert panel.take_code("S26-0001-4", "S")
    assert panel.take_code("G26-0001-3", "G")
    assert (panel.about.text(), panel.code.text()) == ("S26-0001-4", "G26-0001-3")
    amending.turn("run")
    assert panel.take_code("R26-0001-X", "R")
    assert panel.code.text() == "R26-0001-X"
    amending.turn("load")
    assert not panel.take_code("S26-0001-4", "S"), "a load goes by its number"


def test_without_a_kind_it_asks_for_one(amending: Amending) -> None:
    panel = amending.panel
    panel.show_ways(())
    panel.submit()
    assert panel.slot.sentence() == "Not amended. Choose what was wrong."
    assert panel.what.box.refused


def test_a_refusal_marks_the_field_it_is_about(amending: Amending) -> None:
    panel = amending.panel
    amending.turn("pallet")
    for field, widget in (("reason", panel.reason), ("pallet", panel.code), ("lot", panel.about)):
        panel.show_refusal(Refusal(NO_REASON, field=field))
        assert widget.box.refused
        assert panel.slot.sentence().startswith("Not amended. ")
