"""The page without its widgets: asked when it is seen, and what goes with one code."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.exposure.presenter import ExposurePresenter
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.exposure import Called
from honeyledger.services.store import Answer, Store, View
from tests.desktop.recalls_rig import Sent
from tests.desktop.rig import DeskRig, LanesOnlyStore


class Wanted(LanesOnlyStore):
    """A store that remembers how it was told whether an answer is still wanted."""

    def __init__(self, store: Store) -> None:
        super().__init__(store)
        self.asked: list[Callable[[], bool]] = []

    def beside(self, question: Callable[[View], Answer], is_wanted: Callable[[], bool]) -> Answer:
        self.asked.append(is_wanted)
        return super().beside(question, is_wanted)


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    """A desk without a window."""
    rig = DeskRig(qtbot, tmp_path)
    yield rig
    rig.close()


def test_it_is_asked_for_anew_only_while_somebody_looks(rig: DeskRig) -> None:
    sent = Sent(rig)
    presenter = ExposurePresenter(rig.desk)
    heard: list[Called] = []
    presenter.called.connect(heard.append)
    presenter.open()
    presenter.name(f" {sent.here} ")
    rig.settle()
    first = presenter.page
    assert first is not None
    assert [row.name for row in first.whole.sources] == ["Creek"]
    assert [(one.code, one.grams) for one in heard] == [(sent.here, 60_000)]

    presenter.is_seen = lambda: False
    rig.told(Register("yard", {"name": "Hill"}))
    rig.settle()
    assert presenter.page is first
    presenter.open()
    rig.settle()
    assert presenter.page is not first
    assert len(heard) == 2


def test_a_code_that_is_none_is_refused(rig: DeskRig) -> None:
    Sent(rig)
    presenter = ExposurePresenter(rig.desk)
    refused: list[object] = []
    presenter.refused.connect(refused.append)
    presenter.name("nothing of this name")
    rig.settle()
    assert len(refused) == 1


def test_an_answer_is_wanted_until_it_is_asked_anew_or_the_window_closes(rig: DeskRig) -> None:
    store = Wanted(rig.desk.house.store)
    rig.desk.house.store = store
    presenter = ExposurePresenter(rig.desk)
    presenter.open()
    rig.settle()
    (first,) = store.asked
    assert first()
    rig.told(Register("yard", {"name": "Hill"}))
    rig.settle()
    assert [wanted() for wanted in store.asked] == [False, True]
    rig.desk.jobs.close()
    assert not any(wanted() for wanted in store.asked)
