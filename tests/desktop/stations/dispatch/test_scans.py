"""Scans are looked up one after another, in the order they came, and wait while a note is kept."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.dispatch.scans import Scans
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.dispatch import DispatchLine
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.services.dispatching import Pick
from tests.desktop.dispatch_rig import Goods
from tests.desktop.rig import DeskRig


@pytest.fixture
def goods(qtbot: QtBot, tmp_path: Path) -> Iterator[Goods]:
    rig = DeskRig(qtbot, tmp_path)
    yield Goods(rig)
    rig.close()


class Heard:
    """Everything the scans came to."""

    def __init__(self, goods: Goods) -> None:
        self.found: list[str] = []
        self.refused: list[str] = []
        self.scans = Scans(goods.rig.desk, self._found, self._refused)

    def _found(self, pick: Pick) -> None:
        self.found.append(f"{pick.row.code} {pick.serial}")

    def _refused(self, refusal: Refusal) -> None:
        self.refused.append(refusal.text)


def test_a_burst_of_scans_comes_in_order(goods: Goods) -> None:
    heard = Heard(goods)
    jar = goods.jar(goods.old, 7)
    for code in (goods.drum, jar, goods.container, goods.other_drum):
        heard.scans.add(code)
    goods.rig.settle()
    assert heard.found == [
        f"{goods.drum} 0",
        f"{goods.old} 7",
        f"{goods.drum} 0",
        f"{goods.other_drum} 0",
    ]
    assert heard.refused == []


def test_of_several_sent_together_all_that_stay_are_named_at_the_end(goods: Goods) -> None:
    """One alone is refused in its own words; what may go is on the note whatever stays."""
    heard = Heard(goods)
    goods.rig.told(PutOnHold(goods.drum, "leaks"))
    heard.scans.add_all([goods.drum, goods.other_drum])
    goods.rig.settle()
    why = (
        f"{goods.drum} is on hold through {goods.drum}: leaks. Put it aside, or have the hold "
        "released or this lot cleared by name."
    )
    assert heard.refused == [why]
    heard.refused.clear()
    heard.scans.add_all([goods.drum, "D26-0099-Z", goods.other_drum])
    goods.rig.settle()
    assert heard.refused == [
        f"2 of 3 are not on the note: {goods.drum}, D26-0099-Z. The first of them: {why}"
    ]
    assert heard.found == [f"{goods.other_drum} 0"] * 2


def test_what_may_not_go_is_refused_as_the_ledger_does(goods: Goods) -> None:
    heard = Heard(goods)
    goods.sent("Packer", DispatchLine(goods.other_drum))
    goods.rig.told(PutOnHold(goods.drum, "leaks"))
    for code in (goods.other_drum, goods.drum, goods.tag, "D26-0001-X"):
        heard.scans.add(code)
    goods.rig.settle()
    assert heard.refused[:3] == [
        f"{goods.other_drum} is no longer in the house: nothing of it is left.",
        f"{goods.drum} is on hold through {goods.drum}: leaks. Put it aside, or have the hold "
        "released or this lot cleared by name.",
        f"{goods.tag} is a pallet tag, but a drum, jar lot, drum bought in, comb honey, barrel of "
        "cappings or wax, tank fill or added ingredient is needed here. Scan that code instead.",
    ]
    assert heard.refused[3].startswith("D26-0001-X ")
    assert heard.found == []


def test_scans_wait_while_a_note_is_recorded(goods: Goods) -> None:
    heard = Heard(goods)
    heard.scans.hold(True)
    heard.scans.add(goods.drum)
    goods.rig.settle()
    assert heard.found == []
    heard.scans.hold(False)
    goods.rig.settle()
    assert heard.found == [f"{goods.drum} 0"]
