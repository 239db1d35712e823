"""What the page asks of the ledger, and what it does to it, without a widget."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.entries.amends import AmendTyped
from honeyledger.desktop.stations.entries.presenter import EntriesPresenter, Previewed
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.journal import USUAL_COUNT, Wanted
from tests.desktop.rig import DeskRig


class Alone:
    """The presenter on a house with a loaded pallet."""

    def __init__(self, rig: DeskRig) -> None:
        self.rig = rig
        self.yard = rig.house.record(Register("yard", {"name": "Creek"})).given[0]
        rig.house.record(Register("vessel", {"name": "Tank 1"}))
        done = rig.house.record(Receive((Line("Creek", 20),)))
        self.pull, self.received = done.codes[0], done.entries[0].id
        tag = next(code for code in done.given if code[0] == "G")
        self.loaded = rig.house.record(Load(tag, "Tank 1")).entries[0].id
        self.presenter = EntriesPresenter(rig.desk)
        self.presenter.is_seen = True
        self.previewed: list[Previewed] = []
        self.refused: list[Refusal] = []
        self.done: list[Message] = []
        self.presenter.previewed.connect(self.previewed.append)
        self.presenter.refused.connect(self.refused.append)
        self.presenter.done.connect(self.done.append)

    def settle(self) -> None:
        self.rig.settle(self.presenter.pause)


@pytest.fixture
def alone(qtbot: QtBot, tmp_path: Path) -> Iterator[Alone]:
    rig = DeskRig(qtbot, tmp_path)
    yield Alone(rig)
    rig.close()


def test_a_page_has_entries_stations_choices_and_how_the_house_is_kept(alone: Alone) -> None:
    alone.rig.keep_here()
    alone.presenter.ask()
    alone.settle()
    page = alone.presenter.page
    assert page is not None
    assert page.rows[0].entry == alone.loaded == page.head.entry
    assert not page.more
    assert page.unit == "kg"
    assert [row.name for row in page.registers["yard"]] == ["Creek"]
    assert page.stake is not None
    assert (page.stake.kept, page.stake.entries) == (None, alone.loaded)
    assert page.warnings == ()


def test_older_ones_are_listed_as_far_as_wanted(alone: Alone) -> None:
    alone.presenter.want(Wanted(count=3))
    alone.settle()
    page = alone.presenter.page
    assert page is not None
    assert (len(page.rows), page.more) == (3, True)
    alone.presenter.show_older()
    alone.settle()
    assert alone.presenter.wanted.count == 3 + USUAL_COUNT
    page = alone.presenter.page
    assert page is not None
    assert (len(page.rows), page.more) == (alone.loaded, False)
    assert alone.presenter.row(alone.received) is not None
    assert alone.presenter.row(999) is None


def test_what_is_typed_is_waited_for(alone: Alone) -> None:
    alone.presenter.want(Wanted(code=alone.pull))
    assert alone.presenter.page is None
    assert alone.presenter.pause.isActive()
    alone.settle()
    page = alone.presenter.page
    assert page is not None
    assert [row.entry for row in page.rows] == [alone.loaded, alone.received]


def test_an_entry_that_is_not_there_is_refused(alone: Alone) -> None:
    alone.presenter.undo(999)
    alone.settle()
    assert alone.refused[0].text == "There is no entry 999. Look it up in the lot's history."


def test_one_that_cannot_be_reversed_says_why_before(alone: Alone) -> None:
    alone.presenter.undo(1)
    alone.settle()
    (preview,) = alone.previewed
    assert preview.refusal is not None
    assert preview.refusal.key == "in-use"


def test_a_preview_follows_what_is_recorded_meanwhile(alone: Alone) -> None:
    alone.presenter.undo(alone.loaded)
    alone.settle()
    alone.rig.told(Receive((Line("Creek", 2),)))
    assert len(alone.previewed) == 2
    alone.presenter.leave()
    alone.rig.told(Receive((Line("Creek", 2),)))
    assert len(alone.previewed) == 2


def test_nothing_is_reversed_that_was_not_seen(alone: Alone) -> None:
    head = alone.rig.head()
    alone.presenter.reverse("why not")
    alone.settle()
    assert alone.rig.head() == head


def test_a_chain_is_recorded_as_one_command_and_told_once(alone: Alone) -> None:
    alone.presenter.undo(alone.received)
    alone.settle()
    alone.presenter.reverse("never came")
    alone.settle()
    (message,) = alone.done
    first = alone.loaded + 1
    assert message.lead == f"2 entries are reversed, by entries {first} to {first + 1}."
    entries = alone.rig.house.ask(lambda view: view.entries(last=2))
    assert len({entry.act.command for entry in entries}) == 1
    assert alone.presenter.preview is None


def test_a_refusal_leaves_the_preview_to_be_tried_again(alone: Alone) -> None:
    alone.presenter.undo(alone.loaded)
    alone.settle()
    working: list[bool] = []
    alone.presenter.working.connect(working.append)
    alone.presenter.reverse(" ")
    alone.settle()
    assert alone.refused[0].text == "Give the reason in a word or two."
    assert alone.presenter.preview is not None
    assert working == [True, False]


def test_an_amendment_tells_what_the_ledger_noted(alone: Alone) -> None:
    alone.rig.house.record(Register("yard", {"name": "Hill"}))
    typed = AmendTyped("yard", alone.pull, "Hill", reason="misread")
    alone.presenter.amend(typed)
    alone.settle()
    (message,) = alone.done
    assert message.lead.startswith("Amended: old and new are both in reach.")
    assert message.about == alone.rig.head()[0]
    alone.presenter.amend(replace(typed, happened="sometime"))
    alone.settle()
    assert alone.refused[0].field == "happened"
