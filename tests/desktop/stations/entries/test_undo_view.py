"""The reversal as it is seen before it is done."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.entries.presenter import EntriesPresenter, Previewed
from honeyledger.desktop.stations.entries.undo_view import UndoPanel, reasons
from honeyledger.desktop.tokens import Density
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.signing import NO_REASON
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.journal import Amendable, Undoing, undoing
from tests.desktop.rig import DeskRig


class Undo:
    """The panel, before an entry that was recorded."""

    def __init__(self, rig: DeskRig) -> None:
        self.rig = rig
        self.panel = UndoPanel(EntriesPresenter(rig.desk), Density.DESK)
        rig.bot.addWidget(self.panel.panel)
        self.panel.panel.resize(520, 600)
        with rig.bot.waitExposed(self.panel.panel):
            self.panel.panel.show()
        self.panel.panel.activateWindow()
        entry = rig.house.record(Register("yard", {"name": "Creek"})).entries[0].id
        self.what = rig.house.ask(lambda view: undoing(view, entry))

    def show(self, rows: int, *, amends: bool = False, refusal: Refusal | None = None) -> None:
        ways = (Amendable("yard", "S26-0001-4", "Creek"),) if amends else ()
        what = Undoing(self.what.rows * rows, ways, has_left=False)
        self.panel.show_preview(Previewed(self.what.rows[0].entry, what, refusal))


@pytest.fixture
def undo(qtbot: QtBot, tmp_path: Path) -> Iterator[Undo]:
    rig = DeskRig(qtbot, tmp_path)
    yield Undo(rig)
    rig.close()


def test_one_has_a_plain_button_and_a_chain_the_grave_one(undo: Undo) -> None:
    panel = undo.panel
    undo.show(1)
    assert panel.reverse.isVisible()
    assert not panel.all.isVisible()
    assert not panel.amend.isVisible()
    assert panel.table.foot.words().startswith("1 entry")
    undo.show(3, amends=True)
    assert not panel.reverse.isVisible()
    assert panel.all.isVisible()
    assert panel.all.text() == "Reverse all 3"
    assert panel.amend.isVisible()


def test_what_cannot_be_reversed_has_no_reason_to_give(undo: Undo) -> None:
    panel = undo.panel
    undo.show(1, amends=True, refusal=Refusal(NO_REASON))
    assert not panel.form.isVisible()
    assert not panel.reverse.isVisible()
    panel.begin()
    assert panel.amend.hasFocus()
    undo.show(1, refusal=Refusal(NO_REASON))
    panel.begin()
    assert panel.back.hasFocus()


def test_in_a_low_window_the_reason_is_seen(undo: Undo) -> None:
    undo.panel.panel.resize(520, 260)
    undo.show(3)
    undo.panel.begin()
    panel, field = undo.panel.panel, undo.panel.reason.box
    undo.rig.bot.waitUntil(
        lambda: field.mapTo(panel, field.rect().bottomLeft()).y() <= panel.height() - 64
    )


def test_a_reason_is_chosen_or_typed(undo: Undo) -> None:
    undo.show(1)
    undo.panel.begin()
    assert undo.panel.reason.editor.hasFocus()
    assert [choice.text for choice in undo.panel.reason.choices()] == [
        choice.text for choice in reasons()
    ]
    assert undo.panel.reason.is_free
    undo.panel.reason.set_text("typed twice")
    undo.panel.clear()
    assert undo.panel.reason.text() == ""


def test_a_refusal_marks_the_reason_it_is_about(undo: Undo) -> None:
    undo.show(1)
    undo.panel.show_refusal(Refusal(NO_REASON, field="reason"))
    assert undo.panel.slot.sentence() == "Not reversed. Give the reason in a word or two."
    assert undo.panel.reason.box.refused
