"""A residue reckoned without widgets: asked in the read lane, refused at its field."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.trace.residue_presenter import Feared, ResiduePresenter
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.residues import ResidueSpread, residue_spread
from tests.desktop.recalls_rig import Sent
from tests.desktop.rig import DeskRig


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    """A desk without a window."""
    rig = DeskRig(qtbot, tmp_path)
    Sent(rig)
    yield rig
    rig.close()


def test_it_is_the_service_s_answer_and_follows_what_is_recorded(rig: DeskRig) -> None:
    presenter = ResiduePresenter(rig.desk)
    heard: list[ResidueSpread] = []
    presenter.shown.connect(heard.append)
    presenter.reckon(Feared(" Creek ", "40", "12.5"))
    rig.settle()
    with rig.desk.house.store._store.reading() as view:  # type: ignore[attr-defined]
        assert heard == [residue_spread(view, "Creek", 40_000, 12_500)]
    assert presenter.unit == "kg"
    presenter.reckon(Feared("Creek", "40", "12.5", first_day="1 Jul 1999", last_day="2 Jul 1999"))
    rig.settle()
    assert heard.pop().lots == (), "no pull of those days"
    presenter.reckon(Feared("Creek", "40", "12.5"))
    rig.settle()
    assert heard.pop() == heard[0]
    rig.told(Register("yard", {"name": "Hill"}))
    rig.settle()
    assert len(heard) == 2
    presenter.is_seen = lambda: False
    rig.told(Register("yard", {"name": "Moor"}))
    rig.settle()
    assert len(heard) == 2
    presenter.open()
    rig.settle()
    presenter.open()
    rig.settle()
    assert len(heard) == 3


@pytest.mark.parametrize(
    ("feared", "field", "said"),
    [
        (Feared("Creek", ""), "level", ""),
        (
            Feared("Creek", "much"),
            "level",
            "much is not a level: type it in digits, such as 12.5.",
        ),
        (Feared("Creek", "0"), "level", "Say the level: a figure above 0, in µg/kg."),
        (Feared("Creek", "40", "little"), "limit", ""),
        (Feared("No such yard", "40"), "code", ""),
        (Feared("Creek", "40", last_day="soon"), "last_day", ""),
        (
            Feared("Creek", "40", first_day="2 Jul 2026", last_day="1 Jul 2026"),
            "last_day",
            "The days from 2026-07-02 to 2026-07-01 run backwards.",
        ),
    ],
)
def test_what_cannot_be_is_refused_at_its_field(
    rig: DeskRig, feared: Feared, field: str, said: str
) -> None:
    presenter = ResiduePresenter(rig.desk)
    refused: list[Refusal] = []
    presenter.refused.connect(refused.append)
    presenter.reckon(feared)
    rig.settle()
    assert [one.field for one in refused] == [field]
    assert said in str(refused[0])
    assert presenter.found is None
