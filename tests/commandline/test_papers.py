"""Labels to a PDF: one kind a file, jar serials as asked, the caution on every jar."""

from pathlib import Path

import pypdfium2
import pytest

from honeyledger.commandline import papers
from honeyledger.documents.printers import StationPapers, write_printers
from honeyledger.documents.stock import Printer
from tests.support.printing import page_sizes_mm, text_boxes
from tests.support.terminal import Terminal


@pytest.fixture
def house(terminal: Terminal) -> tuple[Terminal, str, str, str]:
    """A pallet that waits, a drum, and a jar lot of 240."""
    terminal.do("load", terminal.pallet(), "Extractor")
    drum = terminal.drum()
    lot = terminal.given("J", "change-over", "--product", "Summer 500", "--feed", drum)
    terminal.do("bottle", lot, "240")
    return terminal, terminal.pallet(), drum, lot


def _text(file: Path) -> str:
    with pypdfium2.PdfDocument(file) as document:
        lines = [page.get_textpage().get_text_bounded() for page in document]
        return "\n".join(lines).replace("-\r\n", "-")


def test_each_kind_has_its_code_in_type(house: tuple[Terminal, str, str, str]) -> None:
    terminal, tag, drum, lot = house
    file = terminal.folder / "labels.pdf"
    for code, kind in ((tag, "pallet tag"), (drum, "drum label"), ("Y26-0001-P", "yard")):
        answer = terminal.json("labels", code, "-o", str(file))
        assert answer["kind"].startswith(kind)
        assert answer["labels"] == 1
        assert code in _text(file)
    answer = terminal.json("labels", lot, "--from", "5", "--to", "28", "-o", str(file))
    assert (answer["kind"], answer["labels"]) == ("jar label", 24)
    text = _text(file)
    assert f"{lot[:-2]}-00005" in text
    assert f"{lot[:-2]}-00028" in text
    assert f"{lot[:-2]}-00029" not in text
    assert "infants" in text


def test_what_was_printed_is_said(house: tuple[Terminal, str, str, str]) -> None:
    terminal, _, drum, _ = house
    file = terminal.folder / "labels.pdf"
    said = terminal.do("labels", drum, "-o", str(file), "--stock", "roll-100x150", "--dpi", "203")
    assert said == f"1 drum label on roll-100x150: {file}\n"


def test_a_dispatch_note_is_printed_by_its_code(house: tuple[Terminal, str, str, str]) -> None:
    terminal, tag, _, lot = house
    file = terminal.folder / "note.pdf"
    note = terminal.given("N", "dispatch", "Corner Shop", f"{lot}=24", "--carrier", "Own van")
    assert terminal.do("labels", note, "-o", str(file)) == f"1 dispatch note on a4: {file}\n"
    text = _text(file)
    assert "Dispatch note" in text
    assert "Own van" in text
    assert "Not for infants under one year of age." in text
    answer = terminal.json("labels", note, "-o", str(file), "--paper", "letter")
    assert (answer["kind"], answer["labels"], answer["stock"]) == ("dispatch note", 1, "letter")
    assert answer["reprint"] == 1
    assert "reprint 1" in _text(file)
    assert terminal.refused("labels", note, "-o", str(file), "--paper", "roll") == (
        "A dispatch note is printed on a4 or letter, not on roll: choose one of the two."
    )
    assert terminal.refused("labels", note, tag, "-o", str(file)).startswith(
        "One file holds one kind of label: print the dispatch notes and the pallet tags apart"
    )


def test_what_labels_refuse(house: tuple[Terminal, str, str, str]) -> None:
    terminal, tag, drum, lot = house
    file = terminal.folder / "labels.pdf"
    o = ("-o", str(file))
    assert terminal.refused("labels", drum, tag, *o) == (
        "One file holds one kind of label: print the drum labels and the pallet tags apart, each "
        "into its own file."
    )
    assert terminal.refused("labels", lot, "--from", "200", "--to", "300", *o) == (
        f"{lot} has serials 1 to 240, not 200 to 300. Choose serials it has."
    )
    assert "There is no label stock wide" in terminal.refused(
        "labels", drum, "--stock", "wide", *o
    )
    assert "choose 203, 300 or 600" in terminal.refused("labels", drum, "--dpi", "72", *o)
    assert "There is no label for S26-" in terminal.refused("labels", "S26-0001-G", *o)
    assert not file.exists()
    nowhere = str(terminal.folder / "none" / "labels.pdf")
    assert terminal.refused("labels", drum, "-o", nowhere) == (
        f"Nothing can be written to {nowhere} (No such file or directory). Choose another file or "
        "folder."
    )


@pytest.mark.sqlite("the file in the way is the house's own")
def test_only_a_pdf_is_written_over(house: tuple[Terminal, str, str, str]) -> None:
    terminal, _, drum, _ = house
    file = Path(terminal.where)
    before = file.read_bytes()
    assert terminal.refused("labels", drum, "-o", str(file)) == (
        f"{file} is there already and is no PDF, so it is not written over. Choose another name."
    )
    assert file.read_bytes() == before


def test_labels_are_moved_as_a_printer_measured_here_needs(
    house: tuple[Terminal, str, str, str], monkeypatch: pytest.MonkeyPatch
) -> None:
    terminal, _, drum, _ = house
    kept = terminal.folder / "printers.toml"
    monkeypatch.setattr(papers, "printers_file", lambda: kept)
    write_printers(StationPapers().with_printer(Printer("Roll", "roll", 203, 1.5)), kept)
    plain, moved = terminal.folder / "plain.pdf", terminal.folder / "moved.pdf"
    terminal.do("labels", drum, "-o", str(plain))
    terminal.do("labels", drum, "-o", str(moved), "--printer", "Roll")
    lefts = [min(box[0] for box in text_boxes(file.read_bytes())) for file in (plain, moved)]
    assert lefts[1] - lefts[0] == pytest.approx(1.5 / 25.4 * 72, abs=0.01)
    assert terminal.refused("labels", drum, "-o", str(moved), "--printer", "Office") == (
        "Office was not measured on this computer (there are: Roll). Measure it in Setup, under "
        "Printers, or leave --printer out."
    )


def test_a_houses_own_stock_is_printed_on_by_its_name(
    house: tuple[Terminal, str, str, str],
) -> None:
    terminal, _, drum, _ = house
    sizes = ("--paper", "roll", "--width", "105", "--height", "148")
    terminal.do("register", "stock", "add", "Drum roll", *sizes)
    file = terminal.folder / "own.pdf"
    said = terminal.do("labels", drum, "-o", str(file), "--stock", "Drum roll")
    assert said == f"1 drum label on Drum roll: {file}\n"
    assert page_sizes_mm(file.read_bytes()) == [pytest.approx((105, 148), abs=0.01)]


def test_a_persons_badge_is_printed_by_its_code(house: tuple[Terminal, str, str, str]) -> None:
    terminal = house[0]
    badge = terminal.given("O", "register", "operator", "add", "Cy Marsh", "--role", "drives")
    file = terminal.folder / "badge.pdf"
    assert terminal.json("labels", badge, "-o", str(file))["kind"] == "badge"
    assert "Cy Marsh" in _text(file)


def test_a_case_has_a_label_and_low_bars_are_told_of(
    house: tuple[Terminal, str, str, str],
) -> None:
    terminal, _, _, lot = house
    terminal.do("register", "house", "change", "--gs1-prefix", "9521234")
    case = terminal.given("C", "pack", lot, "--jars", "6")
    file = terminal.folder / "case.pdf"
    said = terminal.do("labels", case, "-o", str(file), "--stock", "roll-100x150")
    assert said == f"1 case or pallet label on roll-100x150: {file}\n"
    assert "(00) 0952123400000" in _text(file)
    stock = "a4-8-99.1x67.7"
    answer = terminal.json("labels", case, "-o", str(file), "--stock", stock)
    assert answer["note"].startswith(f"The bars are 18 mm high on label stock {stock}")


def test_a_second_print_of_a_tag_says_so_and_a_jars_label_never_does(
    house: tuple[Terminal, str, str, str],
) -> None:
    terminal, tag, drum, lot = house
    file = terminal.folder / "again.pdf"
    for code, form in ((tag, ()), (drum, ()), (drum, ("--as", "drum sticker"))):
        terminal.do("labels", code, "-o", str(file), *form)
        assert "Reprint" not in _text(file)
        again = terminal.json("labels", code, "-o", str(file), *form, "--copies", "2")
        assert (again["labels"], again["note"]) == (
            2,
            "It was printed before: this is reprint 1.",
        )
        assert _text(file).count("Reprint 1") == 2
    serials = ("--from", "1", "--to", "12")
    terminal.do("labels", lot, "-o", str(file), *serials)
    said = terminal.do("labels", lot, "-o", str(file), "--from", "10", "--to", "14")
    assert said.endswith(
        "Printed before: serials 10–12. No two jars may carry one code, so throw the older labels "
        "away.\n"
    )
    assert "Reprint" not in _text(file)
    fronts = ("--as", "jar front")
    note = terminal.json("labels", lot, "-o", str(file), *fronts, *serials)["note"]
    assert note == "The front has no code: it is on the back or on the lid seal."
    twice = terminal.json("labels", lot, "-o", str(file), "--from", "60", "--copies", "2")["note"]
    assert twice == "Each jar's own code comes 2 times: put one on a jar."
    last = terminal.json("entries", "--last", "1")
    assert "printed" in str(last).lower()
