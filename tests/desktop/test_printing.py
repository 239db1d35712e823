"""From a code to its label: the right kind, in its folder, or a sentence."""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from pypdfium2 import PdfDocument
from pytestqt.qtbot import QtBot

from honeyledger.desktop.desk import PartUsed
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.printing import (
    NOT_WRITTEN,
    Paper,
    into_file,
    paper_message,
    print_label,
    print_pad,
    shown_path,
)
from honeyledger.desktop.sending import NOT_SENT
from honeyledger.documents.printers import (
    ASK_EACH_TIME,
    SHEETS,
    TAGS,
    StationPapers,
    Way,
    write_printers,
)
from honeyledger.documents.stock import plain_printer
from honeyledger.domain.phrases import phrase
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import ChangeOver
from honeyledger.ledger.verbs.bought_in import Purchase
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.papers import Serials
from tests.desktop.rig import DeskRig
from tests.support.printing import page_sizes_mm, text_boxes


def _words(data: bytes) -> str:
    page = PdfDocument(data)[0]
    return str(page.get_textpage().get_text_bounded())


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    made = DeskRig(qtbot, tmp_path)
    made.house.record(Register("yard", {"name": "Mill Lane"}))
    made.house.record(Receive((Line("Mill Lane", 12),)))
    yield made
    made.close()


def test_a_label_is_written_among_the_papers(rig: DeskRig) -> None:
    outcomes: list[Outcome[Paper]] = []
    print_label(rig.desk, "g26-0001-3", outcomes.append)
    rig.settle()
    assert outcomes[0].value == Paper(rig.folder / "papers" / "G26-0001-3.pdf")
    assert [file.name for file in (rig.folder / "papers").iterdir()] == ["G26-0001-3.pdf"]


def test_a_dispatch_note_is_written_on_a_page_of_its_own(rig: DeskRig) -> None:
    rig.house.record(Register("supplier", {"name": "S9"}))
    bought = Purchase("S9", Weight(net_g=145_000), "7", "AR", certificate="C 31")
    drum = rig.house.record(bought).codes[0]
    note = rig.house.record(Dispatch("gate", (DispatchLine(drum),))).given[0]
    outcomes: list[Outcome[Paper]] = []
    print_label(rig.desk, note, outcomes.append)
    rig.settle()
    paper = outcomes[0].value
    assert paper is not None
    file = paper.file
    assert file == rig.folder / "papers" / f"{note}.pdf"
    assert "Dispatch note" in _words(file.read_bytes())


def test_an_unknown_code_is_refused(rig: DeskRig) -> None:
    outcomes: list[Outcome[Paper]] = []
    print_label(rig.desk, "G26-0009-9", outcomes.append)
    rig.settle()
    assert outcomes[0].refusal is not None
    assert not (rig.folder / "papers").exists()


def test_some_jars_of_a_bottling_still_open_have_a_file_of_their_own(rig: DeskRig) -> None:
    rig.house.record(Register("vessel", {"name": "Tank 1"}))
    rig.house.record(Register("product", {"name": "Clover 500 g", "net_g": 500}))
    done = rig.house.record(ChangeOver(product="Clover 500 g", feed="Tank 1"))
    outcomes: list[Outcome[Paper]] = []
    print_label(rig.desk, done.given[0], outcomes.append, serials=Serials(25, 60))
    rig.settle()
    paper = outcomes[0].value
    assert paper is not None
    file = paper.file
    assert file == rig.folder / "papers" / f"{done.given[0]} 25 to 60.pdf"
    codes = _words(file.read_bytes())
    assert "00025-" in codes
    assert "00024-" not in codes


def test_a_folder_that_cannot_be_written_is_named(rig: DeskRig) -> None:
    (rig.folder / "papers").write_text("in the way")
    outcomes: list[Outcome[Paper]] = []
    print_label(rig.desk, "G26-0001-3", outcomes.append)
    rig.settle()
    refusal = outcomes[0].refusal
    assert refusal is not None
    assert refusal.text.startswith("The label cannot be written to ")
    assert refusal.text.endswith("Make room or allow writing there, then print again.")


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


def _jars(rig: DeskRig) -> str:
    rig.house.record(Register("vessel", {"name": "Tank 1"}))
    rig.house.record(Register("product", {"name": "Clover 500 g", "net_g": 500}))
    return rig.house.record(ChangeOver(product="Clover 500 g", feed="Tank 1")).given[0]


def test_what_is_worth_knowing_of_a_paper_is_said_with_it(tmp_path: Path) -> None:
    note = phrase("The bars are {high} mm high.", high="18")
    said = paper_message(Paper(tmp_path / "C26-0001-T.pdf", note=note), "The label {code}", "")
    assert said.mark is Mark.WARNING
    assert said.lead == "The label C26-0001-T"
    assert said.text.endswith("; Ctrl+P opens it. The bars are 18 mm high.")


def test_the_first_free_label_of_a_sheet_is_asked_for_and_remembered(rig: DeskRig) -> None:
    code = _jars(rig)
    asked: list[PartUsed] = []
    answers = [7, 13]

    def ask(sheet: PartUsed, then: Callable[[int], None]) -> None:
        asked.append(sheet)
        then(answers.pop(0))

    rig.desk.ask_first = ask
    outcomes: list[Outcome[Paper]] = []
    for last in (6, 1):
        print_label(rig.desk, code, outcomes.append, serials=Serials(1, last))
        rig.settle()
    assert [(sheet.stock.cells, sheet.labels, sheet.first) for sheet in asked] == [
        (24, 6, 1),
        (24, 1, 13),
    ]
    assert rig.desk.free_labels == {asked[0].stock.name: 14}
    whole = outcomes[1].value
    assert whole is not None
    corner = asked[0].stock.corner_mm(12, plain_printer(asked[0].stock))
    left, _, _, top = text_boxes(whole.file.read_bytes())[0]
    assert left / 72 * 25.4 > corner[0]
    assert 297 - top / 72 * 25.4 > corner[1]


def test_a_print_thought_better_of_says_so_and_writes_nothing(rig: DeskRig) -> None:
    code = _jars(rig)
    rig.desk.ask_first = lambda _sheet, then: then(0)
    outcomes: list[Outcome[Paper]] = []
    print_label(rig.desk, code, outcomes.append, serials=Serials(1, 6))
    rig.settle()
    refusal = outcomes[0].refusal
    assert refusal is not None
    assert refusal.text == ("Nothing was printed. Print again when the sheet is in the printer.")
    assert not (rig.folder / "papers").exists()


def test_a_houses_own_stock_is_printed_on_where_this_station_says_so(rig: DeskRig) -> None:
    sizes = {"paper": "roll", "width_um": 110_000, "height_um": 160_000}
    rig.house.record(Register("stock", {"name": "Tag roll", **sizes}))
    rig.desk.printers = rig.folder / "printers.toml"
    papers = StationPapers({}, {TAGS: Way("No such printer", "Tag roll")})
    write_printers(papers, rig.desk.printers)
    outcomes: list[Outcome[Paper]] = []
    print_label(rig.desk, "G26-0001-3", outcomes.append)
    rig.settle()
    refusal = outcomes[0].refusal
    assert refusal is not None
    assert refusal.text.startswith("This computer has no printer called No such printer:")
    written = (rig.folder / "papers" / "G26-0001-3.pdf").read_bytes()
    assert page_sizes_mm(written) == [pytest.approx((110, 160), abs=0.01)]


def test_where_the_system_is_to_ask_its_dialog_gets_the_same_pages(rig: DeskRig) -> None:
    rig.desk.printers = rig.folder / "printers.toml"
    write_printers(StationPapers({}, {TAGS: Way(ASK_EACH_TIME)}), rig.desk.printers)
    asked: list[Any] = []
    rig.desk.ask_printer = lambda sheets, then: (asked.append(sheets), then("Office"))
    outcomes: list[Outcome[Paper]] = []
    print_label(rig.desk, "G26-0001-3", outcomes.append)
    rig.settle()
    file = rig.folder / "papers" / "G26-0001-3.pdf"
    written, sent = (outcome.value for outcome in outcomes)
    assert written is not None
    assert (written.file, written.printer) == (file, "")
    assert sent == Paper(file, "Office")
    assert [(one.title, one.page_mm, len(one.pages)) for one in asked] == [
        ("G26-0001-3", (100, 150), 1)
    ]


def test_a_note_or_list_goes_to_its_printer_with_the_pdf_kept(rig: DeskRig) -> None:
    rig.desk.printers = rig.folder / "printers.toml"
    write_printers(StationPapers({}, {SHEETS: Way("No such printer")}), rig.desk.printers)
    outcomes: list[Outcome[Paper]] = []
    print_pad(rig.desk, outcomes.append)
    rig.settle()
    refusal = outcomes[0].refusal
    assert refusal is not None
    assert refusal.text.startswith("This computer has no printer called No such printer:")
    assert page_sizes_mm((rig.folder / "papers" / "Paper pad.pdf").read_bytes())


def test_where_notes_and_lists_are_asked_for_each_time_the_dialog_gets_them(rig: DeskRig) -> None:
    rig.desk.printers = rig.folder / "printers.toml"
    write_printers(StationPapers({}, {SHEETS: Way(ASK_EACH_TIME)}), rig.desk.printers)
    asked: list[Any] = []
    rig.desk.ask_printer = lambda sheets, then: (asked.append(sheets), then("Office"))
    outcomes: list[Outcome[Paper]] = []
    print_pad(rig.desk, outcomes.append)
    rig.settle()
    assert [one.value.printer for one in outcomes if one.value] == ["", "Office"]
    assert [one.title for one in asked] == ["Paper pad"]
    assert asked[0].pages


def test_a_dialog_whose_printer_takes_nothing_says_so_after_the_paper(rig: DeskRig) -> None:
    rig.desk.printers = rig.folder / "printers.toml"
    write_printers(StationPapers({}, {TAGS: Way(ASK_EACH_TIME)}), rig.desk.printers)
    rig.desk.ask_printer = lambda _sheets, then: then(
        Refusal(NOT_SENT, field="printer", printer="Office")
    )
    outcomes: list[Outcome[Paper]] = []
    print_label(rig.desk, "G26-0001-3", outcomes.append)
    rig.settle()
    refusal = outcomes[-1].refusal
    assert refusal is not None
    assert refusal.text.startswith("Printer Office did not take the paper")
