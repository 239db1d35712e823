"""What a station keeps of its printers: written, read back, and refused in words."""

from pathlib import Path

import pytest

from honeyledger.documents.printers import (
    ASK_EACH_TIME,
    LABELS,
    SHEETS,
    TAGS,
    StationPapers,
    Way,
    read_printers,
    write_printers,
)
from honeyledger.documents.stock import Printer
from honeyledger.domain.refusals import Refusal
from tests.support import printing

ROLL = Printer('Label "roll" ø', "roll", 203, 0.3, -0.2, 100.0, 99.7)


def test_what_was_measured_is_kept_and_read_back(tmp_path: Path) -> None:
    papers = StationPapers().with_printer(ROLL)
    papers = papers.with_ways({TAGS: Way(ROLL.name, "roll-100x150"), LABELS: Way()})
    file = tmp_path / "deep" / "printers.toml"
    write_printers(papers, file)
    assert read_printers(file) == papers
    assert [one.name for one in file.parent.iterdir()] == ["printers.toml"]
    assert read_printers(tmp_path / "none.toml") == StationPapers()


def test_each_kind_goes_where_its_sort_does() -> None:
    ways = {TAGS: Way(ROLL.name, "roll-101.6x152.4"), LABELS: Way("", "roll-70x40")}
    papers = StationPapers({ROLL.name: ROLL}, ways)
    stocks = printing.stocks()
    tag = papers.stock_for("drum label", stocks)
    assert (tag.name, papers.printer_for("drum label", tag)) == ("roll-101.6x152.4", ROLL)
    jar = papers.stock_for("jar label", stocks)
    assert (jar.name, papers.printer_for("jar label", jar).name) == ("roll-70x40", "not measured")
    assert papers.stock_for("badge", stocks) == stocks.chosen("badge")
    assert papers.way_of("dispatch note") == Way()


def test_notes_and_lists_go_to_a_printer_are_asked_about_or_a_pdf_only() -> None:
    assert StationPapers().sheets_go_to() == ""
    assert StationPapers({}, {SHEETS: Way("Office")}).sheets_go_to() == "Office"
    assert StationPapers({}, {SHEETS: Way(ASK_EACH_TIME)}).sheets_go_to() == ASK_EACH_TIME


def test_a_stock_of_the_tags_that_is_too_small_for_one_of_them_leaves_it_the_usual() -> None:
    papers = StationPapers({}, {TAGS: Way("", "roll-100x60")})
    stocks = printing.stocks()
    assert papers.stock_for("yard sheet code", stocks).name == "roll-100x60"
    assert papers.stock_for("drum label", stocks) == stocks.chosen("drum label")


def test_a_stock_that_is_no_more_is_refused_with_those_there_are() -> None:
    papers = StationPapers({}, {LABELS: Way("", "Old roll")})
    with pytest.raises(Refusal) as refused:
        papers.stock_for("jar label", printing.stocks())
    assert refused.value.text.startswith("There is no label stock Old roll: choose one of roll-")


@pytest.mark.parametrize(
    "text", ["[printers", "[papers.tags]\nthe_printer = 1", '[printers.A]\npaper = "roll"']
)
def test_a_file_that_cannot_be_read_is_named(tmp_path: Path, text: str) -> None:
    file = tmp_path / "printers.toml"
    file.write_text(text, "utf-8")
    with pytest.raises(Refusal) as refused:
        read_printers(file)
    said = refused.value.text
    begins = f"What is kept of this station's printers cannot be read in {file} ("
    assert said.startswith(begins)
    assert said.endswith("): mend it, or delete it and set the printers again.")


def test_what_cannot_be_kept_is_said(tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("", "utf-8")
    file = tmp_path / "taken" / "printers.toml"
    with pytest.raises(Refusal) as refused:
        write_printers(StationPapers(), file)
    assert refused.value.text == (
        f"What this station's printers do cannot be kept in {file} (File exists): make room or "
        "allow writing there, then keep it again."
    )
