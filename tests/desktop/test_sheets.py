"""Papers of the floor from the window: what cannot be printed is said."""

import sys
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.desk import CopiesAsked, Seen
from honeyledger.desktop.jobs import Outcome, Report
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.printing import Paper
from honeyledger.desktop.seen import SeenPaper
from honeyledger.desktop.sheets import Sheets
from honeyledger.documents.raster import NO_READER
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import DeskRig
from tests.support import printing


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    made = DeskRig(qtbot, tmp_path)
    yield made
    made.close()


def test_a_file_is_made_anew_once_something_was_recorded(rig: DeskRig) -> None:
    said: list[Message] = []
    sheets = Sheets(rig.desk, said.append)
    rig.told(Register("room", {"name": "Drums: a/b"}))
    assert not sheets.open_printed()
    sheets.print_standing("Drums: a/b", "")
    rig.settle()
    (file,) = (rig.folder / "papers").iterdir()
    assert file.name == "Standing Drums- a-b.pdf"
    assert sheets.open_printed()
    assert rig.opened == [file]
    rig.told(Register("room", {"name": "Jars"}))
    assert not sheets.open_printed()
    assert len(said) == 1


def test_what_is_not_there_is_said(rig: DeskRig) -> None:
    said: list[Message] = []
    sheets = Sheets(rig.desk, said.append)
    sheets.print_run("R26-0001-X")
    rig.settle()
    (message,) = said
    assert message.lead == "Nothing printed."
    assert message.text == "R26-0001-X is not a run of this house. Open a run first."


def test_a_kind_is_printed_recorded_opened_again_and_marked_as_a_reprint(rig: DeskRig) -> None:
    said: list[Message] = []
    sheets = Sheets(rig.desk, said.append)
    sheets.print_kind("checks-log")
    rig.settle()
    (file,) = (rig.folder / "papers").iterdir()
    assert file.name == "Checks log.pdf"
    assert "reprint" not in printing.text_of(file.read_bytes())
    sheets.print_kind("checks-log")
    assert rig.opened == [file]
    rig.told(Register("room", {"name": "Jars"}))
    sheets.print_kind("checks-log")
    rig.settle()
    assert "reprint 1" in printing.text_of(file.read_bytes())
    entries = rig.house.ask(lambda view: view.entries(("printed",)))
    assert len(entries) == len(said) == 2


def test_what_a_kind_cannot_be_of_is_said_and_not_recorded(rig: DeskRig) -> None:
    said: list[Message] = []
    sheets = Sheets(rig.desk, said.append)
    sheets.print_kind("lot-history", "D26-0001-X")
    rig.settle()
    (message,) = said
    assert message.lead == "Nothing printed."
    assert not rig.house.ask(lambda view: view.entries(("printed",)))


def test_each_paper_of_a_drum_room_is_on_record_by_what_it_is_of(rig: DeskRig) -> None:
    sheets = Sheets(rig.desk, lambda _message: None)
    rig.told(Register("room", {"name": "Drum room"}))
    sheets.print_standing("drum room", "")
    rig.settle()
    entries = rig.house.ask(lambda view: view.entries(("printed",)))
    (told,) = [entry.facts["said"] for entry in entries]
    assert isinstance(told, Mapping)
    assert (told["paper"], told["of"]) == ("standing-list", "Drum room")
    rig.told(Register("room", {"name": "Jars"}))
    sheets.print_standing("Drum room", "")
    rig.settle()
    file = rig.folder / "papers" / "Standing Drum room.pdf"
    assert "reprint 1" in printing.text_of(file.read_bytes())


def test_looked_at_first_it_is_asked_how_many(rig: DeskRig) -> None:
    heard: list[CopiesAsked] = []
    said: list[Message] = []
    answers = [3, 0]

    def ask(asked: CopiesAsked, then: Callable[[int], None]) -> None:
        heard.append(asked)
        then(answers.pop(0))

    rig.desk.ask_copies = ask
    sheets = Sheets(rig.desk, said.append)
    for _ in range(2):
        rig.desk.look_first(lambda: sheets.print_kind("checks-log"))
        rig.settle()
    (file,) = (rig.folder / "papers").iterdir()
    words = printing.text_of(file.read_bytes())
    assert words.count("Page 1 of ") == 3
    assert [(one.title, one.again) for one in heard] == [("Checks log", 0), ("Checks log", 1)]
    assert said[-1].text == "Nothing was printed."
    (entry,) = rig.house.ask(lambda view: view.entries(("printed",)))
    told = entry.facts["said"]
    assert isinstance(told, Mapping)
    assert (told["paper"], told["copies"]) == ("checks-log", 3)


def test_while_a_long_paper_is_drawn_it_is_said_which_page(
    rig: DeskRig, monkeypatch: pytest.MonkeyPatch
) -> None:
    said: list[Message] = []
    sheets = Sheets(rig.desk, said.append)

    def at_once(
        task: Callable[[Report], Paper],
        then: Callable[[Outcome[Paper]], None],
        *,
        progress: Report,
    ) -> None:
        then(Outcome(task(progress)))

    monkeypatch.setattr(rig.desk.jobs, "work", at_once)
    sheets.print_kind("season-book")
    rig.settle()
    assert [f"{one.lead} {one.text}" for one in said[:-1]] == [
        "Season book by yard is drawn: page 1 of 1."
    ]
    assert said[0].mark is Mark.WORKING
    assert "is in" in said[-1].text


def _seen_then_printed(rig: DeskRig, copies: int) -> list[Seen]:
    """What is seen of the log of checks before so many are printed."""
    seen: list[Seen] = []
    answers: list[Callable[[int], None]] = []

    def ask(asked: CopiesAsked, then: Callable[[int], None]) -> None:
        assert asked.see is not None
        asked.see(copies, seen.append, lambda _page, _of: None)
        answers.append(then)

    rig.desk.ask_copies = ask
    sheets = Sheets(rig.desk, lambda _message: None)
    rig.desk.look_first(lambda: sheets.print_kind("checks-log"))
    rig.settle()
    answers[0](copies)
    rig.settle()
    return seen


def test_what_is_looked_at_are_the_bytes_that_are_written(rig: DeskRig) -> None:
    seen = _seen_then_printed(rig, 2)
    (file,) = (rig.folder / "papers").iterdir()
    (paper,) = seen
    assert isinstance(paper, SeenPaper)
    assert (paper.pdf, paper.count) == (file.read_bytes(), 2)
    assert paper.size_mm == pytest.approx((210, 297), abs=0.1)
    assert paper.look(1) == (1, None)


def test_without_a_reader_of_pdfs_it_is_said_and_written_all_the_same(
    rig: DeskRig, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "pypdfium2", None)
    seen = _seen_then_printed(rig, 1)
    (refusal,) = seen
    assert isinstance(refusal, Refusal)
    assert refusal.sentence is NO_READER
    (file,) = (rig.folder / "papers").iterdir()
    assert file.read_bytes().startswith(b"%PDF")
