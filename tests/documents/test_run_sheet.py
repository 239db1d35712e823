"""What stands on a run's sheet, open and signed."""

import pytest

from honeyledger.documents.run_sheet import run_sheet_pdf
from honeyledger.ledger.verbs.floor import CloseRun, Heel
from honeyledger.services.floor_papers import RunPaper, run_paper
from tests.support import printing
from tests.support.houses import BuiltHouse
from tests.support.run_house import house_with_a_run


@pytest.fixture(scope="module")
def house() -> BuiltHouse:
    """A run that goes on."""
    return house_with_a_run()


def _run(house: BuiltHouse) -> RunPaper:
    return house.house.ask(lambda view: run_paper(view, "R26-0001-X", house.now_ms))


def _words(pdf: bytes) -> str:
    return " ".join(printing.text_of(pdf).replace("- ", "-").split())


def test_the_sheet_of_a_run_that_goes_on(house: BuiltHouse) -> None:
    words = _words(run_sheet_pdf(_run(house), printing.typefaces()))
    for said in (
        "Run sheet",
        "R26-0001-X",
        "still open",
        "Against the pull sheets: 20 of 20 supers.",
        "Mill Lane 10 ≈ 400",
        "heel in Tank 1 30.0",
        "In 20 ≈ 630",
        "17.5 34 280.0",
        "weight to follow ≈ 290.0",
        "In drums and barrels 601.0",
        "drums 570.0",
        "estimates less scales 29.0",
        "What went in, by estimate ≈ 630.0",
        "Long Field",
        "through a heel only",
        "Checked by",
        "Head of the ledger: entry ",
    ):
        assert said in words, said


def test_the_sheet_of_a_run_that_was_signed(house: BuiltHouse) -> None:
    tank = _run(house).sheet.vessels[-1].code
    house.do(CloseRun("R26-0001-X", (Heel(tank, 25_000, "dip"),)), operator="O26-0001-A")
    words = _words(run_sheet_pdf(_run(house), printing.typefaces()))
    assert "Signed by" in words
    assert "Ann Reed" in words
    assert "heel left 25.0" in words
    assert "still open" not in words
    assert "Checked by" not in words
    assert "Signature" in words


def test_the_head_on_the_sheet_is_read_by_a_scanner_and_by_a_person(house: BuiltHouse) -> None:
    run = _run(house)
    pdf = run_sheet_pdf(run, printing.typefaces())
    entry, _, digest = run.head.partition(" ")
    last = len(printing.page_sizes_mm(pdf)) - 1
    assert printing.read(printing.raster(pdf, 203, last)) == [f"{digest}:{entry}"]
    fours = " ".join(digest[at : at + 4] for at in range(0, 12, 4))
    assert f"Head of the ledger: entry {entry}, {fours}" in _words(pdf)
