"""Papers into files and to printers; what is said of them."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.printing import (
    NOT_WRITTEN,
    Paper,
    into_file,
    paper_message,
    print_pad,
    shown_path,
)
from honeyledger.documents.printers import (
    ASK_EACH_TIME,
    SHEETS,
    StationPapers,
    Way,
    write_printers,
)
from honeyledger.domain.phrases import phrase
from honeyledger.domain.refusals import Refusal
from tests.desktop.rig import DeskRig, desk_with_a_pallet
from tests.support.printing import page_sizes_mm


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    yield from desk_with_a_pallet(qtbot, tmp_path)


def test_a_paper_that_cannot_be_written_leaves_nothing_behind(tmp_path: Path) -> None:
    (tmp_path / "trace.pdf").mkdir()
    with pytest.raises(Refusal) as refused:
        into_file(tmp_path / "trace.pdf", b"paper")
    assert refused.value.text == (
        f"{tmp_path / 'trace.pdf'} cannot be written (Is a directory). Make room or allow writing "
        "there, then print again."
    )
    assert [file.name for file in tmp_path.iterdir()] == ["trace.pdf"]


def test_a_path_is_told_from_the_home_folder_on(tmp_path: Path) -> None:
    assert shown_path(Path.home() / "Documents" / "tag.pdf") == "~/Documents/tag.pdf"
    outside = Path(tmp_path.anchor) / "papers" / "tag.pdf"
    assert shown_path(outside) == str(outside)


def test_a_paper_is_said_where_it_is_or_why_it_is_not(tmp_path: Path) -> None:
    file = tmp_path / "G26-0001-6.pdf"
    said = paper_message(file, "The tag {code}", "No tag printed.")
    assert said == Message(Mark.READY, "The tag G26-0001-6", f"is in {file}; Ctrl+P opens it.")
    other = paper_message(file, "The labels", "", "are in {file}.")
    assert other.text == f"are in {file}."
    sent = paper_message(Paper(file, "Tag printer 2"), "The tag {code}", "No tag printed.")
    assert sent.text == f"is in {file}; Ctrl+P opens it. Sent to Tag printer 2."
    refusal = Refusal(NOT_WRITTEN, file="x", why="no room")
    assert paper_message(refusal, "", "No tag printed.") == Message(
        Mark.WARNING, "No tag printed.", refusal.text
    )


def test_what_is_worth_knowing_of_a_paper_is_said_with_it(tmp_path: Path) -> None:
    note = phrase("The bars are {high} mm high.", high="18")
    said = paper_message(Paper(tmp_path / "C26-0001-T.pdf", notes=(note,)), "The label {code}", "")
    assert said.mark is Mark.WARNING
    assert said.lead == "The label C26-0001-T"
    assert said.text.endswith("; Ctrl+P opens it. The bars are 18 mm high.")


def test_a_note_or_list_goes_to_its_printer_with_the_pdf_kept(rig: DeskRig) -> None:
    rig.desk.printers = rig.folder / "printers.toml"
    write_printers(StationPapers({}, {SHEETS: Way("No such printer")}), rig.desk.printers)
    outcomes: list[Outcome[Paper]] = []
    print_pad(rig.desk, outcomes.append)
    rig.settle()
    refusal = outcomes[1].refusal
    assert refusal is not None
    assert refusal.text.startswith("This computer has no printer called No such printer:")
    assert page_sizes_mm((rig.folder / "papers" / "Paper pad.pdf").read_bytes())


def test_where_notes_and_lists_are_asked_for_each_time_the_dialog_gets_them(rig: DeskRig) -> None:
    rig.desk.printers = rig.folder / "printers.toml"
    write_printers(StationPapers({}, {SHEETS: Way(ASK_EACH_TIME)}), rig.desk.printers)
    asked: list[Any] = []
    rig.desk.ask_printer = lambda sheets, then: (
        asked.append(sheets),
        then(lambda _report: "Office"),
    )
    outcomes: list[Outcome[Paper]] = []
    print_pad(rig.desk, outcomes.append)
    rig.settle()
    assert [one.value.printer for one in outcomes if one.value] == ["", "Office"]
    assert [one.title for one in asked] == ["Paper pad"]
    assert asked[0].pdf == (rig.folder / "papers" / "Paper pad.pdf").read_bytes()
