"""Where labels are printed, the first one wanted is seen as it will print."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.bottling.typed import LABELS
from honeyledger.ledger.verbs.bottling import Bottle
from tests.desktop.bottling_rig import Filler
from tests.desktop.rig import SOON, Rig


@pytest.fixture
def filler(qtbot: QtBot, tmp_path: Path) -> Iterator[Filler]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Filler(rig)
    rig.close()


def test_the_label_is_seen_and_follows_the_serial(filler: Filler) -> None:
    code = filler.started()
    filler.tell(Bottle(code, 100))
    filler.open()
    look = filler.view.form.look
    assert look.isHidden(), "nothing is printed yet"
    filler.presenter.choose(LABELS)
    filler.settle()
    filler.view.form.form.take_focus(filler.view.form.texts()["lot"])
    filler.type(code)
    assert look.words().startswith(f"{code.rpartition('-')[0]}-00001-")
    assert look.words().endswith(" as it will print, 70 × 37 mm")
    filler.type("42", enter=False)
    assert look.words().startswith(f"{code.rpartition('-')[0]}-00042-")
    assert not look.isHidden()
    filler.view.form.texts()["lot"].clear()
    filler.presenter.type(filler.view.form.typed())
    filler.view.label.ask()
    filler.settle()
    assert look.isHidden()


def test_what_is_no_lot_shows_nothing(filler: Filler) -> None:
    filler.presenter.choose(LABELS)
    filler.settle()
    filler.type("J26-0099-X")
    assert filler.view.form.look.isHidden()
