"""What narrows the list, and what is in hand."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.entries.list_view import KINDS, LOW, EntryList
from honeyledger.desktop.stations.entries.presenter import EntriesPresenter
from honeyledger.desktop.tokens import Density
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.table import VERBS
from honeyledger.services.journal import Wanted
from tests.desktop.rig import DeskRig


class Listed:
    """The list on a new house."""

    def __init__(self, rig: DeskRig) -> None:
        self.rig = rig
        self.code = rig.house.record(Register("yard", {"name": "Creek"})).given[0]
        self.presenter = EntriesPresenter(rig.desk)
        self.list = EntryList(self.presenter, Density.DESK)
        rig.bot.addWidget(self.list.panel)
        self.presenter.shown.connect(self.list.show_page)
        self.presenter.ask()
        self.settle()

    def settle(self) -> None:
        self.rig.settle(self.presenter.pause)


@pytest.fixture
def listed(qtbot: QtBot, tmp_path: Path) -> Iterator[Listed]:
    rig = DeskRig(qtbot, tmp_path)
    yield Listed(rig)
    rig.close()


def test_every_kind_that_is_offered_is_a_verb() -> None:
    assert set(KINDS) <= set(VERBS)
    assert len(set(KINDS)) == len(KINDS)


def test_the_newest_is_in_hand(listed: Listed) -> None:
    assert listed.list.in_hand() == listed.rig.head()[0]
    opened: list[str] = []
    listed.list.opened.connect(opened.append)
    listed.list.table.opened.emit(str(listed.list.in_hand()))
    assert opened == [listed.code]
    listed.list.table.opened.emit("1")
    assert opened == [listed.code], "the house's own record has no card"


def test_a_word_half_typed_narrows_nothing(listed: Listed) -> None:
    listed.list.kind.set_text("Regis")
    listed.list.kind.edited.emit("Regis")
    assert listed.presenter.wanted == Wanted()
    assert not listed.list.is_filtered()
    listed.list.kind.set_key("receive")
    listed.list.kind.edited.emit("Received")
    assert listed.presenter.wanted == Wanted(("receive",))
    assert listed.list.is_filtered()
    listed.settle()
    assert listed.list.in_hand() == 0


def test_all_are_shown_again(listed: Listed) -> None:
    listed.list.show_about(listed.code)
    listed.settle()
    assert listed.list.is_filtered()
    listed.list.show_all()
    listed.settle()
    assert not listed.list.is_filtered()
    assert listed.list.code.text() == ""
    assert listed.list.table.model.rowCount() == listed.rig.head()[0]


def test_in_a_low_window_the_entries_have_the_room(listed: Listed) -> None:
    panel = listed.list.panel
    panel.resize(640, LOW)
    with listed.rig.bot.waitExposed(panel):
        panel.show()
    assert listed.list.narrowing.isVisible()
    panel.resize(640, LOW - 100)
    assert not listed.list.narrowing.isVisible()
    listed.list.narrow_down()
    assert listed.list.narrowing.isVisible()
    listed.list.take_focus()
    assert not listed.list.narrowing.isVisible()


def test_more_than_usual_is_no_filter(listed: Listed) -> None:
    listed.presenter.show_older()
    assert not listed.list.is_filtered()
