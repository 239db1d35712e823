"""The page of checks without its widgets: the time offered, and what a row that is opened does."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.asked import FormTyped
from honeyledger.desktop.stations.checks.asks import HOLD, MADE, last_right
from honeyledger.desktop.stations.checks.presenter import ChecksPresenter
from honeyledger.ledger.verbs.checks import Check
from tests.desktop.checks_rig import Looked
from tests.desktop.rig import DeskRig


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    """A desk without a window."""
    made = DeskRig(qtbot, tmp_path)
    yield made
    made.close()


def test_the_time_offered_goes_and_comes_with_the_answer(rig: DeskRig) -> None:
    looked = Looked(rig)
    presenter = ChecksPresenter(rig.desk)
    presenter.ask()
    rig.settle()
    row = presenter.row(looked.key)
    asking = presenter.asking
    asking.fill(FormTyped({"check": looked.key, "result": "off"}))
    assert asking.now().text("since") == last_right(row) != ""
    asking.fill(asking.now().with_value("result", "ok"))
    assert asking.now().text("since") == ""
    asking.fill(FormTyped({"check": looked.key, "result": "off", "since": "yesterday 08:00"}))
    assert asking.now().text("since") == "yesterday 08:00"


def test_a_row_that_is_off_is_taken_to_be_held(rig: DeskRig) -> None:
    looked = Looked(rig)
    rig.house.record(Check("Sieve", "Sieve whole", "off", listed="sieve"))
    presenter = ChecksPresenter(rig.desk)
    presenter.ask()
    rig.settle()
    presenter.take("pests")
    assert presenter.asking.kind == MADE
    presenter.take(looked.key)
    assert presenter.asking.kind == HOLD
    assert presenter.asking.now().text("check") == looked.key
    used = presenter.used(looked.key)
    assert used is not None
    assert looked.drum in [row.code for row in used.rows]
    presenter.take("nothing such")
    assert presenter.asking.now().text("check") == looked.key
