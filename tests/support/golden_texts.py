"""The words of every paper of the office, page by page, as they were last read through.

`python -m tests.support.golden_texts` renews them; read what changed before renewing. Two small
houses stand behind them, and no head: it is another in every ledger.
"""

import json
import re
from collections.abc import Callable, Iterator, Mapping
from functools import partial
from pathlib import Path
from typing import Any

import pypdfium2

from honeyledger.documents.dispatch_note import dispatch_notes
from honeyledger.documents.drum_list import drum_list_pdf
from honeyledger.documents.floor_pad import floor_pad
from honeyledger.documents.inspection_paper import inspection_pdf
from honeyledger.documents.recall_papers import recall_letters, recall_report
from honeyledger.documents.report_paper import report_pdf
from honeyledger.documents.run_sheet import run_sheet_pdf
from honeyledger.documents.standing_list import standing_list_pdf
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.checks import Check
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import CloseRun
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.dispatch_paper import note_paper
from honeyledger.services.drum_list import drum_list
from honeyledger.services.floor_papers import run_paper, standing_paper
from honeyledger.services.inspection import inspection
from honeyledger.services.paper_kinds import KINDS, paper_of
from honeyledger.services.printed import (
    DISPATCH_NOTE,
    DRUM_LIST,
    RECALL_LETTERS,
    RECALL_REPORT,
    as_printed,
)
from honeyledger.services.recall_rows import RecallPaper
from honeyledger.services.store import View
from tests.documents.test_recall_papers import case_of, smoked
from tests.support import printing
from tests.support.houses import BuiltHouse
from tests.support.run_house import house_with_a_run

FILE = Path(__file__).resolve().parents[1] / "data" / "golden_texts.json"
BY = "O26-0001-A"
PAPERS = (*KINDS, "dispatch-note", "drum-list", "run-sheet", "standing-list")
PAPERS += ("inspectors-pack", "recall-report", "recall-letters", "floor-pad")
_HEADS = ((r"\b\d+ [0-9A-F]{12}\b", "HEAD"), (r"\d+, [0-9A-F]{4} [0-9A-F]{4} [0-9A-F]{4}", "HEAD"))
_ABOUT = {"pull-sheet": "Mill Lane", "season-book": "2026", "dock-receipt": ""}


def paper_house() -> tuple[BuiltHouse, str, str]:
    """A run that is closed, a sealed drum that was sent: the house, the drum, its note."""
    house = house_with_a_run()
    sold = {"name": "Harbour Foods", "place": "9 Quay"}
    house.do(Register("customer", sold))
    house.do(Register("house", {"name": "Test House", "producer": "Ann Reed", "place": "Mill 3"}))
    sealed = Fill("Tank 1", Weight(net_g=60_000, tare_g=17_000), seal="A 104", washed=True)
    drum = house.do(sealed, run="R26-0001-X").codes[-1]
    house.do(CloseRun("R26-0001-X"), operator=BY)
    house.do(Check("Tank 1", "clean, no smell"))
    told = Dispatch("Harbour Foods", (DispatchLine(drum),), "Own van", "PO 7", vehicle="LX 55")
    return house, drum, house.do(told, operator=BY).given[0]


def drawn() -> dict[str, tuple[bytes, bytes]]:
    """Every paper as it is printed now, twice."""
    built = paper_house()
    return {paper: (_drawn(paper, *built), _drawn(paper, *built)) for paper in PAPERS}


def _drawn(paper: str, house: BuiltHouse, drum: str, note: str) -> bytes:
    faces, now_ms = printing.typefaces(), house.now_ms

    def ask(question: Callable[..., Any], *words: object) -> Any:
        return house.house.ask(lambda view: question(view, *words))

    def marked(kind: str, question: Callable[[View], Any], of: str) -> Any:
        return ask(lambda view: as_printed(view, question(view), kind, of, now_ms, BY))

    if paper in KINDS:
        about = _ABOUT.get(paper, drum if KINDS[paper].needed else "")
        return report_pdf(ask(paper_of, now_ms, paper, about, BY), faces)
    if paper.startswith("recall"):
        return _recall(letters=paper.endswith("letters"))
    made: Mapping[str, Callable[[], bytes]] = {
        "dispatch-note": lambda: dispatch_notes(
            [marked(DISPATCH_NOTE, partial(note_paper, text=note), note)], faces
        ),
        "drum-list": lambda: drum_list_pdf(marked(DRUM_LIST, _drums_of(note), note), faces),
        "run-sheet": lambda: run_sheet_pdf(ask(run_paper, "R26-0001-X", now_ms, BY), faces),
        "standing-list": lambda: standing_list_pdf(
            ask(standing_paper, "Drum room", "", now_ms, BY), faces
        ),
        "inspectors-pack": lambda: inspection_pdf(ask(inspection, now_ms, drum, BY), faces),
        "floor-pad": lambda: floor_pad("Test House", faces, paper="a4", unit="kg"),
    }
    return made[paper]()


def _drums_of(note: str) -> Callable[[View], Any]:
    return lambda view: drum_list(view, [note])


def _recall(*, letters: bool) -> bytes:
    house, code, _sent, _here = smoked("recall")
    case = case_of(house, code)
    kind = RECALL_LETTERS if letters else RECALL_REPORT
    mark = house.house.ask(
        lambda view: as_printed(view, RecallPaper(case, letters), kind, code, house.now_ms)
    )
    faces = printing.typefaces()
    if letters:
        return recall_letters(case, case.consignees, faces, mark=mark)
    return recall_report(case, faces, mark=mark)


def pages(pdf: bytes) -> Iterator[list[str]]:
    """The lines of each page, the head left out."""
    with pypdfium2.PdfDocument(pdf) as document:
        for page in document:
            text = page.get_textpage().get_text_range().replace("\ufffe", "-")
            for pattern, word in _HEADS:
                text = re.sub(pattern, word, text)
            text = re.sub("[\u00a0\u202f]", " ", text)
            yield [line.strip() for line in text.splitlines() if line.strip()]


def kept() -> Mapping[str, list[list[str]]]:
    """What was kept when the papers were last read."""
    found: Mapping[str, list[list[str]]] = json.loads(FILE.read_text("utf-8"))
    return found


def main() -> None:
    """Keep the words of all papers as they are now."""
    found = {paper: list(pages(pdf)) for paper, (pdf, _again) in drawn().items()}
    FILE.write_text(json.dumps(found, ensure_ascii=False, indent=1) + "\n", "utf-8")


if __name__ == "__main__":
    main()
