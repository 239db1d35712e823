"""What the dock knows, without a window: questions, refusals, drafts, one record a pallet."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.messages import Message
from honeyledger.desktop.printing import Paper
from honeyledger.desktop.stations.dock.presenter import DockPresenter
from honeyledger.desktop.stations.dock.rows import Received
from honeyledger.desktop.stations.dock.typed import LineTyped, Typed
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import DeskRig


class Heard:
    """Everything a presenter has said, by signal."""

    def __init__(self, presenter: DockPresenter) -> None:
        self.filled: list[Typed] = []
        self.warned: list[list[Message]] = []
        self.refused: list[Refusal] = []
        self.received: list[Received] = []
        self.printed: list[Any] = []
        presenter.filled.connect(self.filled.append)
        presenter.warned.connect(self.warned.append)
        presenter.refused.connect(self.refused.append)
        presenter.received.connect(self.received.append)
        presenter.printed.connect(self.printed.append)


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    made = DeskRig(qtbot, tmp_path)
    made.house.record(Register("yard", {"name": "Mill Lane"}))
    yield made
    made.close()


def _presenter(rig: DeskRig) -> tuple[DockPresenter, Heard]:
    made = DockPresenter(rig.desk)
    made.pause.setInterval(0)
    heard = Heard(made)
    made.ask()
    rig.settle(made.pause)
    return made, heard


def _type(rig: DeskRig, presenter: DockPresenter, typed: Typed, at: str = "") -> None:
    presenter.type(typed, at)
    rig.settle(presenter.pause)


PALLET = Typed(LineTyped("Mill Lane", supers="36", box="medium"))


def test_the_first_answer_fills_what_repeats(rig: DeskRig) -> None:
    _, heard = _presenter(rig)
    assert heard.filled[-1] == Typed(LineTyped(pulled="24 Jul 2026", box="medium"))


def test_what_is_just_being_typed_is_not_complained_of(rig: DeskRig) -> None:
    presenter, heard = _presenter(rig)
    weighed = Typed(PALLET.line, gross="8")
    _type(rig, presenter, weighed, "gross")
    assert not any("tare" in one.sentence for one in heard.warned[-1])
    _type(rig, presenter, weighed)
    assert any("not above the tare" in one.sentence for one in heard.warned[-1])


def test_a_pallet_is_recorded_once_and_its_tag_written(rig: DeskRig) -> None:
    presenter, heard = _presenter(rig)
    _type(rig, presenter, PALLET)
    presenter.receive()
    rig.settle(presenter.pause)
    assert [one.tag for one in heard.received] == ["G26-0001-3"]
    assert heard.printed == [Paper(rig.folder / "papers" / "G26-0001-3.pdf")]
    assert heard.filled[-1].line == LineTyped(pulled="", crew="", box="medium")
    assert heard.received[0].message.about == 6
    assert rig.desk.newest == 7, "the tag is on record"


def test_a_refusal_is_kept_in_sight_until_something_is_typed(rig: DeskRig) -> None:
    presenter, heard = _presenter(rig)
    _type(rig, presenter, Typed(LineTyped("Mill Lane", supers="0")))
    presenter.receive()
    rig.settle(presenter.pause)
    assert [one.key for one in heard.refused] == ["no-supers"]
    told = len(heard.warned)
    presenter.type(presenter.typed, "")
    rig.settle(presenter.pause)
    assert len(heard.warned) == told
    _type(rig, presenter, PALLET)
    assert len(heard.warned) > told


def test_a_ledger_that_cannot_be_written_keeps_the_form(rig: DeskRig) -> None:
    presenter, heard = _presenter(rig)
    _type(rig, presenter, PALLET)
    rig.desk.jobs.close()
    presenter.receive()
    rig.bot.waitUntil(lambda: bool(heard.refused))
    assert heard.refused[0].text == (
        "Nothing more is recorded in this window. Run honeyledger audit in a terminal, then start "
        "the window again."
    )
    assert presenter.typed == PALLET


def test_repeat_says_the_last_pallet_again_without_its_weight(rig: DeskRig) -> None:
    presenter, heard = _presenter(rig)
    _type(rig, presenter, Typed(PALLET.line, gross="700"))
    presenter.receive()
    rig.settle(presenter.pause)
    presenter.repeat()
    rig.settle(presenter.pause)
    assert heard.filled[-1] == PALLET
    assert presenter.repeats()


def test_another_yard_scanned_over_a_weighed_pallet_is_refused(rig: DeskRig) -> None:
    yard = rig.house.record(Register("yard", {"name": "Long Field"})).given[0]
    presenter, heard = _presenter(rig)
    _type(rig, presenter, Typed(PALLET.line, gross="700"))
    assert not presenter.scan_yard(yard)
    assert heard.refused[0].text == (
        "This pallet has its weight already: record it with Enter, or clear the form with "
        "Ctrl+Backspace, then scan Long Field again."
    )
    assert presenter.typed.line.yard == "Mill Lane"


def test_yards_are_known_by_code_and_by_name(rig: DeskRig) -> None:
    presenter, _ = _presenter(rig)
    by_name = presenter.yard_of("mill lane")
    assert by_name is not None
    assert presenter.yard_of(by_name.code) == by_name
    assert presenter.yard_of("") is None
    assert presenter.yard_of("Mill") is None


def test_a_closed_window_keeps_the_draft_and_asks_nothing_more(rig: DeskRig) -> None:
    presenter, _ = _presenter(rig)
    presenter.type(PALLET, "supers")
    rig.desk.refresh.broadcast({"closing"})
    assert not presenter.pause.isActive()
    assert [file.name for file in rig.folder.glob("drafts/*.json")] == ["dock-ledger-1.json"]
    presenter.type(Typed(), "")
    assert not presenter.pause.isActive()


def test_a_second_enter_while_it_is_recorded_does_nothing(rig: DeskRig) -> None:
    presenter, heard = _presenter(rig)
    _type(rig, presenter, PALLET)
    presenter.receive()
    presenter.receive()
    rig.settle(presenter.pause)
    assert len(heard.received) == 1
    assert rig.head()[0] == 6 + 1
