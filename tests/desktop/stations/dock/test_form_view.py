"""The dock's form: its fields in the order of the work, and where the keyboard goes."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.dock.form_view import DockForm
from honeyledger.desktop.stations.dock.presenter import DockPresenter
from honeyledger.desktop.stations.dock.typed import LineTyped, Typed
from honeyledger.desktop.tokens import Density
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import DeskRig


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    made = DeskRig(qtbot, tmp_path)
    made.house.record(Register("yard", {"name": "Mill Lane", "colonies": 40}))
    yield made
    made.close()


def _form(rig: DeskRig, density: Density = Density.FLOOR) -> DockForm:
    presenter = DockPresenter(rig.desk)
    presenter.pause.setInterval(0)
    made = DockForm(presenter, density)
    rig.bot.addWidget(made.panel)
    made.panel.resize(504, 528)
    made.panel.show()
    presenter.shown.connect(made.show_page)
    presenter.ask()
    rig.settle(presenter.pause)
    return made


def test_at_528_high_the_form_needs_no_scrolling(rig: DeskRig) -> None:
    form = _form(rig)
    assert form.form.verticalScrollBar().maximum() == 0
    last = form.moisture.mapTo(form.panel, form.moisture.rect().bottomLeft())
    bar = form.panel.bar
    assert bar is not None
    assert last.y() <= bar.y()


def test_the_fields_stand_in_the_order_of_the_work(rig: DeskRig) -> None:
    form = _form(rig)
    names = [form.field(name) for name in ("yard", "sheet", "pulled", "crew", "supers", "box")]
    names += [form.field(name) for name in ("gross", "condition", "moisture")]
    assert list(form.form.fields()) == names


def test_what_is_filled_in_is_what_is_said(rig: DeskRig) -> None:
    form = _form(rig)
    code = form.yard.choices()[0].key
    typed = Typed(
        LineTyped(code, "40", "24 Jul 2026", "North truck", "36", "medium"),
        gross="812,5",
        condition="mixed",
        moisture="17.2",
    )
    form.fill(typed)
    assert form.typed() == typed
    assert form.yard.text() == "Mill Lane"
    assert form.yard.tail.unit == "40 colonies"


def test_a_yard_that_is_none_stays_as_it_was_typed(rig: DeskRig) -> None:
    form = _form(rig)
    form.fill(Typed(LineTyped("Mill Road")))
    assert form.typed().line.yard == "Mill Road"


@pytest.mark.parametrize(("width", "height"), [(504, 528), (490, 460)])
def test_no_text_of_a_usual_pallet_is_cut(rig: DeskRig, width: int, height: int) -> None:
    """At 1280 by 728, and at 1024 by 700 where the fields scroll."""
    form = _form(rig)
    form.panel.resize(width, height)
    typed = Typed(
        LineTyped("", "40", "24 Sep 2026", "North truck", "36", "medium"), gross="1012,5"
    )
    form.fill(typed)
    for field in (form.sheet, form.pulled, form.crew, form.supers, form.box, form.gross):
        editor = field.editor
        # Qt keeps two pixels free at each side of a line that is typed into.
        room = editor.width() - 4
        wide = editor.fontMetrics().horizontalAdvance(editor.text())
        assert wide <= room, f"{field.label.text()}: {wide} of {room}"
    for button in form.condition.buttons():
        assert button.width() >= button.sizeHint().width() - 8


def test_at_a_desk_the_form_is_smaller(rig: DeskRig) -> None:
    assert _form(rig, Density.DESK).yard.box.height() == 44
