"""The page without its widgets: a case taken in hand, the newest after it was opened."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.recalls.asks import OPEN
from honeyledger.desktop.stations.recalls.presenter import RecallsPresenter
from honeyledger.ledger.verbs.recalls import OpenRecall
from tests.desktop.held_jobs import HeldJobs
from tests.desktop.recalls_rig import Sent
from tests.desktop.rig import DeskRig


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    """A desk without a window."""
    rig = DeskRig(qtbot, tmp_path)
    yield rig
    rig.close()


def _opened(rig: DeskRig, presenter: RecallsPresenter, about: str, lot: str) -> str:
    presenter.asking.choose(OPEN)
    presenter.call_back(lot)
    typed = presenter.asking.now()
    assert lot in typed.codes("lots")
    presenter.asking.fill(typed.with_value("about", about))
    presenter.asking.record()
    rig.settle()
    assert presenter.page is not None
    assert presenter.page.case is not None
    return presenter.page.case.code


def test_the_case_just_opened_is_in_hand_and_another_can_be_taken(rig: DeskRig) -> None:
    sent = Sent(rig)
    rig.desk.operator = sent.badge
    presenter = RecallsPresenter(rig.desk)
    presenter.ask()
    rig.settle()
    assert presenter.page is not None
    assert presenter.page.case is None
    first = _opened(rig, presenter, "smoke", sent.sent)
    rig.now_ms += 60_000
    second = _opened(rig, presenter, "glass", sent.here)
    assert first != second
    presenter.take(first)
    rig.settle()
    assert presenter.page.case is not None
    assert presenter.page.case.code == first


def test_a_case_tells_what_is_in_it_while_the_rest_is_still_read(rig: DeskRig) -> None:
    """The rest is held back for as long as the test likes: scope and place are told already."""
    sent = Sent(rig)
    rig.house.record(OpenRecall("smoke", (sent.sent,)))
    rig.desk.jobs = jobs = HeldJobs()
    presenter = RecallsPresenter(rig.desk)
    jobs.holds = True
    presenter.ask()
    jobs.let_one_go()
    rig.settle()

    page = presenter.page
    assert page is not None
    assert page.case is None
    assert page.scope is not None
    assert (page.scope.about, page.scope.lots) == ("smoke", 1)
    assert (page.scope.here_g, page.scope.shipped_g) == (0, 60_000)
    assert page.heads[0].customers is None
    assert len(jobs.waiting) == 1
    jobs.let_one_go()
    rig.settle()
    whole = presenter.page
    assert whole is not None
    assert whole.case is not None
    assert whole.scope is None
    assert [one.name for one in whole.case.consignees] == ["Packer"]
    assert whole.heads[0].customers == 1
    # What is recorded meanwhile takes nothing off the page until it has come anew.
    presenter.ask()
    assert presenter.page is whole
    jobs.let_one_go()
    rig.settle()
    assert presenter.page is not whole
    assert presenter.page.case is not None
    assert not jobs.waiting
    jobs.close()


def test_the_rest_of_a_case_that_is_no_longer_meant_is_not_shown(rig: DeskRig) -> None:
    sent = Sent(rig)
    first = rig.house.record(OpenRecall("smoke", (sent.sent,))).given[0]
    rig.now_ms += 60_000
    rig.house.record(OpenRecall("glass", (sent.here,)))
    rig.desk.jobs = jobs = HeldJobs()
    presenter = RecallsPresenter(rig.desk)
    jobs.holds = True
    presenter.ask()
    jobs.let_one_go()
    rig.settle()
    presenter.take(first)
    jobs.let_one_go()  # the rest of the one that was in hand before
    rig.settle()
    page = presenter.page
    assert page is not None
    assert page.case is None
    jobs.let_one_go()
    rig.settle()
    assert presenter.page.scope is not None
    assert presenter.page.scope.code == first
    jobs.close()
