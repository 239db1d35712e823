"""The tour shows every kind of label and paper of the sample season; nothing is wrong there."""

from pathlib import Path

import pytest
from PIL import Image

from honeyledger.documents.fonts import TEXT
from honeyledger.documents.page import new_page
from honeyledger.documents.stock import LEAST_MM
from honeyledger.services import printed
from honeyledger.services.paper_kinds import KINDS
from honeyledger.services.printed import SEASON_CHARTS, TRACE_RIVER, WHO_HAS_IT
from tests.desktop import golden_painted, pictures, tour, tour_papers
from tests.support import printing
from tests.support.printing import text_of

PAINTED = {SEASON_CHARTS, TRACE_RIVER, WHO_HAS_IT}


@pytest.mark.full
def test_every_kind_of_label_and_paper_is_in_it_and_right(tmp_path: Path) -> None:
    house = pictures.sample_house(tmp_path)
    drawn = {name: draw() for name, draw in tour_papers.papers(house)}
    house.store.close()
    kinds = {name.removeprefix(tour_papers.PAPER).replace("-", " ") for name in drawn}
    words = {*KINDS, *_on_record()} - PAINTED
    assert {*LEAST_MM, *(kind.replace("-", " ") for kind in words)} <= kinds
    assert {
        name: found for name, pdf in drawn.items() if (found := tour_papers.faults_of(pdf))
    } == {}
    assert "Reprint 1" in text_of(drawn["paper-drum-label-again"])
    assert "Reprint" not in text_of(drawn["paper-drum-label"])


def _on_record() -> set[str]:
    """Every word a paper is on record under that is no kind of `paper_kinds`."""
    return {value for name, value in vars(printed).items() if name.isupper()}


def test_what_is_painted_is_kept_apart() -> None:
    assert {kind.removeprefix("painted/") for kind in golden_painted.KINDS} == PAINTED


def test_one_paper_is_written_by_its_name(tmp_path: Path) -> None:
    assert tour.main([str(tmp_path), "paper-badge"]) == 0
    (written,) = tmp_path.iterdir()
    assert written.name == "paper-badge-1.png"
    with Image.open(written) as picture:
        assert picture.width > picture.height / 2 > 100


def test_words_over_each_other_or_the_edge_are_found() -> None:
    page = new_page("Spoiled", (70.0, 40.0), printing.typefaces())
    page.begin_page()
    page.text(10, 10, "Clover honey", TEXT, 12)
    page.text(12, 10, "500 g", TEXT, 12)
    page.text(60, 30, "over the edge", TEXT, 12)
    over, met = tour_papers.faults_of(page.finish())
    assert over == "page 1: over the edge: over the edge"
    assert met.startswith("page 1: words meet at ")
