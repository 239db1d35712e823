"""Every paper of the office at its limits: long names, other scripts, no weight and the most.

Nothing may leave its page or lie on other words, and a sign that cannot be printed is refused by
its name.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from typing import Any

import pytest

from honeyledger.documents.dispatch_note import dispatch_notes
from honeyledger.documents.drum_list import drum_list_pdf
from honeyledger.documents.floor_pad import floor_pad
from honeyledger.documents.inspection_paper import inspection_pdf
from honeyledger.documents.recall_papers import recall_letters, recall_report
from honeyledger.documents.report_paper import report_pdf
from honeyledger.documents.run_sheet import run_sheet_pdf
from honeyledger.documents.standing_list import standing_list_pdf
from honeyledger.domain.refusals import Refusal
from honeyledger.exchange.season import SAMPLE_NOW_MS
from honeyledger.services.dispatch_paper import note_paper
from honeyledger.services.drum_list import drum_list
from honeyledger.services.floor_papers import run_paper, standing_paper
from honeyledger.services.inspection import inspection
from honeyledger.services.report_tables import Report, ReportTable, figure
from honeyledger.services.report_tables import code as code_column
from honeyledger.services.report_tables import name as name_column
from tests.documents.test_recall_papers import case_of, smoked
from tests.support import printing
from tests.support.sample import code, sample_house
from tests.support.stress import (
    EMOJI,
    LEAST_G,
    MOST_G,
    NAMES,
    emptied,
    overlapping,
    weighing,
    worded,
)
from tests.support.tiers import first_plain

MARGIN = 10 * 72 / 25.4
Draw = Callable[[Any], bytes]
Rows = Mapping[str, Any]


def _faces(draw: Callable[..., bytes], **more: Any) -> Draw:
    return lambda row: draw(row, printing.typefaces(), **more)


DRAWN: Mapping[str, Draw] = {
    "dispatch note": lambda row: dispatch_notes([row], printing.typefaces(), unit="kg"),
    "drum list": _faces(drum_list_pdf, unit="kg"),
    "run sheet": _faces(run_sheet_pdf),
    "standing list": _faces(standing_list_pdf),
    "inspector's pack": _faces(inspection_pdf),
    "floor pad": lambda row: floor_pad(row.house, printing.typefaces(), paper="a4", unit="kg"),
    "report": _faces(report_pdf),
    "recall report": _faces(recall_report),
    "recall letters": lambda row: recall_letters(row, row.consignees, printing.typefaces()),
}


REPORT = Report(
    "Yards this season",
    printing.HOUSE,
    "1317 84EDABD03458",
    (("Season", "from May on"), ("Crew", "Jory and Petra")),
    ("What every yard gave, the best first.",),
    (
        ReportTable(
            "yards",
            "Yards",
            (code_column("Code"), name_column("Yard"), figure("Honey, kg"), figure("A colony")),
            tuple(
                (printing.code("Y", at), "Long Meadow", "99 999.999", "1 234.5")
                for at in range(1, 60)
            ),
            ("In all", "", "99 999 999.9", ""),
        ),
    ),
    ticks=True,
    sign=("Read by", "Day and time"),
)


@pytest.fixture(scope="module")
def rows(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Rows]:
    """What each paper says of the sample season."""
    house = sample_house(tmp_path_factory.mktemp("papers"))
    now = SAMPLE_NOW_MS
    built, recall, _sent, _here = smoked("recall")
    case = case_of(built, recall)
    standing = house.ask(lambda view: standing_paper(view, "Drum store", "", now))
    yield {
        "dispatch note": house.ask(lambda view: note_paper(view, code("note 1"))),
        "drum list": house.ask(drum_list),
        "run sheet": house.ask(lambda view: run_paper(view, code("run 1"), now)),
        "standing list": standing,
        "floor pad": standing,
        "report": REPORT,
        "inspector's pack": house.ask(lambda view: inspection(view, now, code("bottling 1"))),
        "recall report": case,
        "recall letters": case,
    }
    house.store.close()


def _check(pdf: bytes) -> None:
    """All words of every page within its margins, and clear of one another."""
    for page, (wide_mm, high_mm) in enumerate(printing.page_sizes_mm(pdf)):
        wide, high = wide_mm * 72 / 25.4, high_mm * 72 / 25.4
        boxes = printing.text_boxes(pdf, page)
        assert boxes
        for box in boxes:
            assert MARGIN < box[0] < box[2] < wide - MARGIN, (page, box)
            assert MARGIN / 2 < box[1] < box[3] < high - MARGIN, (page, box)
        assert overlapping(boxes) == [], page


@pytest.mark.parametrize("kind", DRAWN)
def test_a_paper_as_it_is_has_all_its_words_on_the_page(kind: str, rows: Rows) -> None:
    _check(DRAWN[kind](rows[kind]))


@pytest.mark.parametrize("words", first_plain(NAMES, 2))
@pytest.mark.parametrize("kind", DRAWN)
def test_words_of_any_length_and_script_stay_on_the_page(
    kind: str, words: str, rows: Rows
) -> None:
    pdf = DRAWN[kind](worded(rows[kind], NAMES[words]))
    _check(pdf)
    said = printing.text_of(pdf).replace("- ", "-")
    assert NAMES[words][:12] in said


@pytest.mark.parametrize("grams", [LEAST_G, MOST_G])
@pytest.mark.parametrize("kind", DRAWN)
def test_no_weight_and_the_most_have_room(kind: str, grams: int, rows: Rows) -> None:
    _check(DRAWN[kind](weighing(rows[kind], grams)))


@pytest.mark.parametrize("kind", DRAWN)
def test_what_nobody_said_leaves_a_paper_that_is_whole(kind: str, rows: Rows) -> None:
    pdf = DRAWN[kind](emptied(rows[kind]))
    _check(pdf)
    # "None." is a word of papers: there are none.
    assert re.search(r"\bNone\b(?!\.)", printing.text_of(pdf)) is None


@pytest.mark.parametrize("kind", DRAWN)
def test_a_sign_that_cannot_be_printed_is_refused_by_its_name(kind: str, rows: Rows) -> None:
    with pytest.raises(Refusal) as refused:
        DRAWN[kind](worded(rows[kind], EMOJI))
    assert '"🐝" (honeybee, U+1F41D)' in refused.value.text
