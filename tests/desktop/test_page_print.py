"""A page of the window on paper says by whom and which print it is; a visitor records none."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.models.paper import Paper
from honeyledger.desktop.page_print import PagesOnPaper, picture_page, print_pages
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.printing import prints_of
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.printed import TRACE_RIVER
from tests.desktop.rig import DeskRig
from tests.support.printing import text_of

PAPER = Paper(("Where it comes from", "2 yards."), None, (), (), foot="House · printed today")
PAGES = PagesOnPaper("trace", TRACE_RIVER, "D26-0001-7", [PAPER, PAPER])


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    rig = DeskRig(qtbot, tmp_path)
    yield rig
    rig.close()


def _printed(rig: DeskRig, what: PagesOnPaper = PAGES) -> Path | Refusal:
    told: list[Outcome[Path]] = []
    print_pages(rig.desk, what, told.append)
    rig.settle()
    (outcome,) = told
    answer = outcome.value or outcome.refusal
    assert answer is not None
    return answer


def _foot(rig: DeskRig) -> str:
    file = _printed(rig)
    assert isinstance(file, Path)
    text = text_of(file.read_bytes())
    assert "page 2 of 2" in text
    return text.partition("printed today")[2].partition("page")[0].strip()


def _times(rig: DeskRig) -> int:
    return rig.house.ask(lambda view: prints_of(view, TRACE_RIVER, "D26-0001-7"))


def test_the_second_print_says_that_it_is_one_and_by_whom(rig: DeskRig) -> None:
    made = rig.house.record(Register("operator", {"name": "Ann Reed"}))
    assert _foot(rig) == ""
    rig.desk.operator = made.given[-1]
    assert _foot(rig) == "· by Ann Reed · reprint 1"
    assert _times(rig) == 2


def test_a_visitor_prints_and_nothing_is_recorded(rig: DeskRig) -> None:
    rig.desk.is_visit = True
    assert _foot(rig) == ""
    assert _times(rig) == 0


def test_what_cannot_be_written_is_on_no_record(rig: DeskRig) -> None:
    rig.desk.papers.write_text("a file stands where the folder would")
    assert isinstance(_printed(rig), Refusal)
    assert _times(rig) == 0


def test_a_picture_is_no_print(rig: DeskRig) -> None:
    told: list[Outcome[Path]] = []
    picture_page(rig.desk, "trace", PAPER, told.append)
    rig.settle()
    assert told[0].value == rig.desk.papers / "trace.png"
    assert _times(rig) == 0
