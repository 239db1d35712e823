"""The card's questions: found, renewed, refused; its label; its history."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.lot_card import LotCardFacts
from honeyledger.desktop.stations.card.presenter import CardPresenter
from honeyledger.documents.printers import ASK_EACH_TIME, TAGS, StationPapers, Way, write_printers
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.measuring import Measure
from tests.desktop.rig import DeskRig, desk_with_a_pallet


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    yield from desk_with_a_pallet(qtbot, tmp_path)


def _heard(presenter: CardPresenter) -> dict[str, list[Any]]:
    heard: dict[str, list[Any]] = {"found": [], "renewed": [], "refused": [], "say": []}
    for name, rows in heard.items():
        getattr(presenter, name).connect(rows.append)
    return heard


def test_a_code_is_found_and_its_card_is_renewed_when_something_is_recorded(rig: DeskRig) -> None:
    presenter = CardPresenter(rig.desk)
    heard = _heard(presenter)
    presenter.show("s26-0001-g")
    rig.settle()
    found: LotCardFacts = heard["found"][0]
    assert presenter.code == found.code == "S26-0001-G"
    rig.told(Measure("S26-0001-G", moisture=1720))
    assert heard["renewed"][-1].figures[-1] == ("17.2 %", "moisture")
    presenter.put_away()
    renewed = len(heard["renewed"])
    rig.told(Measure("S26-0001-G", moisture=1730))
    assert len(heard["renewed"]) == renewed


def test_a_code_that_is_none_is_refused_and_the_card_stays(rig: DeskRig) -> None:
    presenter = CardPresenter(rig.desk)
    heard = _heard(presenter)
    presenter.show("S26-0001-G")
    rig.settle()
    presenter.show("S26-0001-H")
    rig.settle()
    refusal = heard["refused"][0]
    assert isinstance(refusal, Refusal)
    assert refusal.offers == ("S26-0001-G",)
    assert presenter.code == "S26-0001-G"


def test_its_label_is_written_and_shown(rig: DeskRig) -> None:
    presenter = CardPresenter(rig.desk)
    heard = _heard(presenter)
    presenter.print_label("G26-0001-3")
    rig.settle()
    file = rig.folder / "papers" / "G26-0001-3.pdf"
    assert rig.opened == [file]
    message: Message = heard["say"][0]
    assert message.sentence == f"The label of G26-0001-3 is in {file}."


def test_what_has_no_label_says_so(rig: DeskRig) -> None:
    presenter = CardPresenter(rig.desk)
    heard = _heard(presenter)
    presenter.print_label("S26-0001-G")
    rig.settle()
    message: Message = heard["say"][0]
    assert message.mark is Mark.REFUSED
    assert "There is no label for S26-0001-G" in message.text
    assert rig.opened == []


def test_an_entry_of_the_history_can_be_reversed(rig: DeskRig) -> None:
    presenter = CardPresenter(rig.desk)
    heard = _heard(presenter)
    presenter.offer_reversal(6)
    message: Message = heard["say"][0]
    assert (message.action, message.about) == ("Reverse", 6)


def test_a_label_that_a_printer_is_asked_for_is_not_shown_as_well(rig: DeskRig) -> None:
    rig.desk.printers = rig.folder / "printers.toml"
    write_printers(StationPapers({}, {TAGS: Way(ASK_EACH_TIME)}), rig.desk.printers)
    rig.desk.ask_printer = lambda _sheets, then: then(lambda _report: "Tag printer 2")
    presenter = CardPresenter(rig.desk)
    heard = _heard(presenter)
    presenter.print_label("G26-0001-3")
    rig.settle()
    file = rig.folder / "papers" / "G26-0001-3.pdf"
    message: Message = heard["say"][-1]
    assert message.sentence == f"The label of G26-0001-3 is in {file}. Sent to Tag printer 2."
    assert rig.opened == []
