"""Beside the form: what there is of each kind, and what can be printed of it."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.setup.view import SetupView
from tests.desktop.rig import Rig


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[Rig]:
    made = Rig(qtbot, tmp_path)
    made.keys("Ctrl+0")
    yield made
    made.close()


def test_only_people_have_badges_and_only_stock_is_drawn(rig: Rig) -> None:
    view = rig.window.stations["setup"]
    assert isinstance(view, SetupView)
    for kind in ("operator", "stock", "box"):
        view.presenter.turn(kind)
        assert not view.there.badges.isVisible()  # nobody is registered yet
        assert view.there.sheet.isVisible() is False
    form = view.by_kind["stock"]
    view.presenter.turn("stock")
    form.fill(form.values() | {"paper": "roll", "width_um": "70", "height_um": "40"})
    form.changed.emit()
    assert view.there.sheet.isVisible()
    assert view.there.sheet.words() == "A roll, each label 70 × 40 mm"
    assert view.there.heading.text() == "Label stock"
    assert view.handle("print") is False
