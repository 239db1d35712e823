"""From a code to its label: the right kind, in its folder, on record, or a sentence."""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from pypdfium2 import PdfDocument
from pytestqt.qtbot import QtBot

from honeyledger.desktop import drawing, sending
from honeyledger.desktop.desk import LabelsAsked, LabelsWanted, Seen
from honeyledger.desktop.jobs import Outcome, Report
from honeyledger.desktop.label_print import print_label, print_labels, see_label
from honeyledger.desktop.printing import Paper
from honeyledger.desktop.seen import SeenPaper
from honeyledger.desktop.sending import NOT_SENT, Sheets
from honeyledger.desktop.widgets.paper_look import picture
from honeyledger.documents.printers import (
    ASK_EACH_TIME,
    TAGS,
    StationPapers,
    Way,
    write_printers,
)
from honeyledger.documents.stock import plain_printer
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.bottling import ChangeOver
from honeyledger.ledger.verbs.printing import prints_of, serials_printed
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.papers import Serials
from tests.desktop.rig import DeskRig, desk_with_a_pallet
from tests.support.printing import page_sizes_mm, placed_bars, text_boxes


def _words(data: bytes) -> str:
    page = PdfDocument(data)[0]
    return str(page.get_textpage().get_text_bounded())


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    yield from desk_with_a_pallet(qtbot, tmp_path)


def test_a_label_is_written_among_the_papers(rig: DeskRig) -> None:
    outcomes: list[Outcome[Paper]] = []
    print_label(rig.desk, "g26-0001-3", outcomes.append)
    rig.settle()
    assert outcomes[0].value == Paper(rig.folder / "papers" / "G26-0001-3.pdf")
    assert [file.name for file in (rig.folder / "papers").iterdir()] == ["G26-0001-3.pdf"]


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


def _jars(rig: DeskRig) -> str:
    rig.house.record(Register("vessel", {"name": "Tank 1"}))
    rig.house.record(Register("product", {"name": "Clover 500 g", "net_g": 500}))
    return rig.house.record(ChangeOver(product="Clover 500 g", feed="Tank 1")).given[0]


def test_the_first_free_label_of_a_sheet_is_asked_for_and_remembered(rig: DeskRig) -> None:
    code = _jars(rig)
    asked: list[LabelsAsked] = []
    answers = [7, 13]

    def ask(sheet: LabelsAsked, then: Callable[[LabelsWanted | None], None]) -> None:
        asked.append(sheet)
        then(LabelsWanted(answers.pop(0)))

    rig.desk.ask_labels = ask
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
    rig.desk.ask_labels = lambda _sheet, then: then(None)
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
    refusal = outcomes[1].refusal
    assert refusal is not None
    assert refusal.text.startswith("This computer has no printer called No such printer:")
    assert _times(rig, "pallet tag", "G26-0001-3") == 1, "the PDF is there, and on record"
    written = (rig.folder / "papers" / "G26-0001-3.pdf").read_bytes()
    assert page_sizes_mm(written) == [pytest.approx((110, 160), abs=0.01)]


def test_where_the_system_is_to_ask_its_dialog_gets_the_same_pages(rig: DeskRig) -> None:
    rig.desk.printers = rig.folder / "printers.toml"
    write_printers(StationPapers({}, {TAGS: Way(ASK_EACH_TIME)}), rig.desk.printers)
    asked: list[Any] = []
    rig.desk.ask_printer = lambda sheets, then: (
        asked.append(sheets),
        then(lambda _report: "Office"),
    )
    outcomes: list[Outcome[Paper]] = []
    print_label(rig.desk, "G26-0001-3", outcomes.append)
    rig.settle()
    file = rig.folder / "papers" / "G26-0001-3.pdf"
    written, sent = (outcome.value for outcome in outcomes)
    assert written is not None
    assert (written.file, written.printer) == (file, "")
    assert sent == Paper(file, "Office")
    assert [(one.title, one.page_mm, one.pdf) for one in asked] == [
        ("G26-0001-3", (100, 150), file.read_bytes())
    ]


def test_a_dialog_whose_printer_takes_nothing_says_so_after_the_paper(rig: DeskRig) -> None:
    rig.desk.printers = rig.folder / "printers.toml"
    write_printers(StationPapers({}, {TAGS: Way(ASK_EACH_TIME)}), rig.desk.printers)

    def fail(_report: Report) -> str:
        raise Refusal(NOT_SENT, field="printer", printer="Office")

    rig.desk.ask_printer = lambda _sheets, then: then(fail)
    outcomes: list[Outcome[Paper]] = []
    print_label(rig.desk, "G26-0001-3", outcomes.append)
    rig.settle()
    refusal = outcomes[-1].refusal
    assert refusal is not None
    assert refusal.text.startswith("Printer Office did not take the paper")


def _times(rig: DeskRig, label: str, code: str) -> int:
    return rig.house.ask(lambda view: prints_of(view, label, code))


def test_what_was_printed_is_on_record_and_the_next_print_says_so(rig: DeskRig) -> None:
    outcomes: list[Outcome[Paper]] = []
    for _ in range(2):
        print_label(rig.desk, "G26-0001-3", outcomes.append)
        rig.settle()
    first, second = (one.value for one in outcomes)
    assert first is not None
    assert second is not None
    assert first.notes == ()
    assert second.notes == ("It was printed before: this is reprint 1.",)
    assert "Reprint 1" in _words(second.file.read_bytes())
    assert _times(rig, "pallet tag", "G26-0001-3") == 2
    rig.desk.is_visit = True
    print_label(rig.desk, "G26-0001-3", outcomes.append)
    rig.settle()
    assert _times(rig, "pallet tag", "G26-0001-3") == 2, "a visit records nothing"


def test_a_tag_on_a_roll_is_seen_first_where_that_is_wanted(rig: DeskRig) -> None:
    asked: list[LabelsAsked] = []

    def ask(labels: LabelsAsked, then: Callable[[LabelsWanted | None], None]) -> None:
        asked.append(labels)
        then(LabelsWanted(copies=3))

    rig.desk.ask_labels = ask
    outcomes: list[Outcome[Paper]] = []
    print_labels(rig.desk, ["G26-0001-3"], outcomes.append)
    rig.settle()
    assert asked == [], "a roll is printed without a question"
    rig.desk.looks_first = True
    print_labels(rig.desk, ["G26-0001-3"], outcomes.append)
    rig.desk.looks_first = False
    rig.settle()
    (one,) = asked
    assert (one.stock.cells, one.labels, one.forms) == (1, 1, ())
    assert one.notes(1) == ("It was printed before: this is reprint 1.",)
    paper = outcomes[1].value
    assert paper is not None
    assert len(page_sizes_mm(paper.file.read_bytes())) == 3


def test_a_jars_label_is_turned_into_its_front_whose_code_is_elsewhere(rig: DeskRig) -> None:
    code = _jars(rig)
    told: list[LabelsAsked] = []
    answers: list[Callable[[LabelsWanted | None], None]] = []
    rig.desk.ask_labels = lambda asked, then: (told.append(asked), answers.append(then))
    outcomes: list[Outcome[Paper]] = []
    print_label(rig.desk, code, outcomes.append, serials=Serials(1, 4), looks=True)
    rig.settle()
    (whole,) = told
    assert [form for form, _ in whole.forms] == [
        *("", "jar front", "jar back", "lid seal", "retail code")
    ]
    assert whole.other is not None
    whole.other("jar front", lambda what: told.append(what))  # type: ignore[arg-type]
    rig.settle()
    front = told[1]
    assert front.form == "jar front"
    assert front.notes(1)[0].startswith("The front has no code: it is on the back")
    answers[0](LabelsWanted(first=5))
    rig.settle()
    paper = outcomes[0].value
    assert paper is not None
    assert paper.file.name == f"{code} 1 to 4 jar front.pdf"
    printed = rig.house.ask(lambda view: serials_printed(view, "jar front", code))
    assert printed == [(1, 4)]
    assert rig.desk.free_labels == {front.stock.name: 9}


def test_a_jars_retail_code_is_printed_in_the_window_once_its_product_has_one(
    rig: DeskRig,
) -> None:
    code = _jars(rig)
    told: list[Any] = []
    answers: list[Callable[[LabelsWanted | None], None]] = []
    rig.desk.ask_labels = lambda asked, then: (told.append(asked), answers.append(then))
    outcomes: list[Outcome[Paper]] = []
    print_label(rig.desk, code, outcomes.append, serials=Serials(1, 4), looks=True)
    rig.settle()
    told[0].other("retail code", told.append)
    rig.settle()
    assert told[1].text.startswith("Clover 500 g has no GTIN on record")
    coded = {"name": "Clover 500 g", "net_g": 500, "gtin": "09521234543213"}
    rig.house.record(Register("product", coded, "clover-500-g"))
    told[0].other("retail code", told.append)
    rig.settle()
    sticker = told[2]
    assert (sticker.labels, sticker.form) == (4, "retail code")
    answers[0](LabelsWanted())
    rig.settle()
    paper = outcomes[0].value
    assert paper is not None
    assert len(placed_bars(paper.file.read_bytes())) == 4
    assert _times(rig, "retail code", "09521234543213") == 1


def test_a_label_there_is_not_leaves_the_one_there_was(rig: DeskRig) -> None:
    told: list[Any] = []
    rig.desk.ask_labels = lambda asked, _then: told.append(asked)
    print_label(rig.desk, "G26-0001-3", lambda _outcome: None, looks=True)
    rig.settle()
    told[0].other("drum sticker", told.append)
    rig.settle()
    assert isinstance(told[1], Refusal)
    assert told[1].text.startswith("G26-0001-3 has no drum sticker")


def test_a_front_that_is_seen_says_where_the_code_is(rig: DeskRig) -> None:
    code, seen = _jars(rig), list[Any]()
    for form in ("jar front", "jar back"):
        see_label(rig.desk, code, Serials(form=form), lambda outcome: seen.append(outcome.value))
        rig.settle()
    front, back = seen
    assert [len(one.notes) for one in (front, back)] == [1, 0]


def test_what_is_looked_at_are_the_bytes_that_are_written(
    rig: DeskRig, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each label of a sheet is seen as another reader of the file written sees it."""
    code, seen = _jars(rig), list[Seen]()
    drawn: list[int] = []
    once = drawing.label_pdf

    def counted(rows: Any, *more: Any) -> bytes:
        drawn.append(len(rows))
        return once(rows, *more)

    monkeypatch.setattr(drawing, "label_pdf", counted)
    wanted = LabelsWanted(first=20, copies=2)
    answers: list[Callable[[LabelsWanted | None], None]] = []

    def ask(asked: LabelsAsked, then: Callable[[LabelsWanted | None], None]) -> None:
        assert asked.see is not None
        asked.see(LabelsWanted(), seen.append, lambda _done, _of: None)
        asked.see(wanted, seen.append, lambda _done, _of: None)
        answers.append(then)

    rig.desk.ask_labels = ask
    outcomes: list[Outcome[Paper]] = []
    print_label(rig.desk, code, outcomes.append, serials=Serials(1, 4), looks=True)
    rig.settle()
    answers[0](wanted)
    rig.settle()
    assert drawn[-1] == 8
    assert len(drawn) <= 2, "it is not drawn again to be written"
    assert outcomes[0].value is not None
    written = outcomes[0].value.file.read_bytes()
    last = seen[-1]
    assert isinstance(last, SeenPaper)
    assert (last.pdf, last.count) == (written, 8)
    for number in (0, 7):
        page, box = last.look(number)
        assert (page, box is not None) == (number // 5, True)
        image = picture(last, page, box, 8.0)
        whole = PdfDocument(written)[page].render(scale=8.0 * 25.4 / 72).to_pil()
        assert box is not None
        left, top = round(box.left * 8), round(box.top * 8)
        here = [
            [image.pixelColor(x, y).lightness() > 127 for x in range(2, 558, 3)]
            for y in range(2, 294, 3)
        ]
        grey = whole.convert("L")
        there = [
            [grey.getpixel((left + x, top + y)) > 127 for x in range(2, 558, 3)]
            for y in range(2, 294, 3)
        ]
        off = sum(
            a != b
            for one, other in zip(here, there, strict=True)
            for a, b in zip(one, other, strict=True)
        )
        assert sum(not dot for row in here for dot in row) > 1000, "there is something on it"
        assert off / len(here) / len(here[0]) < 0.02


def test_a_label_is_on_record_before_its_printer_has_it(
    rig: DeskRig, monkeypatch: pytest.MonkeyPatch
) -> None:
    rig.desk.printers = rig.folder / "printers.toml"
    write_printers(StationPapers({}, {TAGS: Way("Tag printer 2")}), rig.desk.printers)
    known: list[int] = []

    def send(_sheets: Sheets, _report: Report) -> str:
        known.append(_times(rig, "pallet tag", "G26-0001-3"))
        return "Tag printer 2"

    monkeypatch.setattr(sending, "send", send)
    outcomes: list[Outcome[Paper]] = []
    print_label(rig.desk, "G26-0001-3", outcomes.append)
    rig.settle()
    assert known == [1]
    assert [one.value.printer for one in outcomes if one.value] == ["", "Tag printer 2"]
