"""Every paper of the office and what is drawn beside labels, of small houses with a fixed clock.

They are what `golden` keeps; no two runs draw them otherwise.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from functools import partial
from typing import Any

from honeyledger.assets import resource
from honeyledger.documents.dispatch_note import dispatch_notes
from honeyledger.documents.drum_list import drum_list_pdf
from honeyledger.documents.floor_pad import floor_pad
from honeyledger.documents.inspection_paper import inspection_pdf
from honeyledger.documents.labels import alignment_page
from honeyledger.documents.list_paper import list_pdf
from honeyledger.documents.recall_papers import recall_letters, recall_report
from honeyledger.documents.report_paper import report_pdf
from honeyledger.documents.run_sheet import run_sheet_pdf
from honeyledger.documents.standing_list import standing_list_pdf
from honeyledger.documents.stock import plain_printer
from honeyledger.exchange.checks import shipped_checks
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.checks import Check
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import CloseRun
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.yards import Treat
from honeyledger.optimisation.season_runs import HouseSimulator
from honeyledger.services.day_sheet import day_sheet
from honeyledger.services.day_tables import day_report
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
from honeyledger.services.pulling_tables import truck_sheet
from honeyledger.services.recall_rows import RecallPaper
from honeyledger.services.report_tables import Report
from honeyledger.services.season_forecast import forecast
from honeyledger.services.season_page import season_page
from honeyledger.services.season_plan_report import plan_report
from honeyledger.services.season_tables import loss_report, yield_report
from honeyledger.services.season_work_tables import work_report
from honeyledger.services.store import View
from tests.documents.test_list_paper import _paper
from tests.documents.test_recall_papers import case_of, smoked
from tests.services.test_pulling_tables import TRIP, _plan
from tests.services.test_season_plan_report import DEFAULTS, FRAME, PLAN
from tests.support import printing
from tests.support.houses import BuiltHouse
from tests.support.run_house import house_with_a_run

BY = "O26-0001-A"
OFFICE = (*KINDS, "dispatch-note", "drum-list", "run-sheet", "standing-list")
OFFICE += ("inspectors-pack", "recall-report", "recall-letters", "floor-pad")
SEASON = ("yields", "losses", "pace", "day-sheet", "truck-sheet", "season-plan")
_BY_HAND = ("alignment-page", "list-of-pages", "list-with-a-river", "pull-sheet-of-a-treated-yard")
NAMES = (*OFFICE, *SEASON, *_BY_HAND)
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


def office_papers() -> Iterator[tuple[str, bytes]]:
    """Each paper by its name, as it is printed now."""
    built = paper_house()
    for paper in OFFICE:
        yield paper, _drawn(paper, *built)
    for name, report in zip(SEASON, _of_the_season(built[0]), strict=True):
        mark = partial(as_printed, what=report, kind=name, of="", now_ms=built[0].now_ms)
        yield (
            name,
            report_pdf(built[0].house.ask(partial(mark, operator=BY)), printing.typefaces()),
        )
    yield from zip(_BY_HAND, _set_by_hand(), strict=True)


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


def _of_the_season(house: BuiltHouse) -> Iterator[Report]:
    page = house.house.ask(lambda view: season_page(view, house.now_ms))
    checks = shipped_checks(resource("checks"))
    today = house.house.ask(lambda view: day_sheet(view, house.now_ms, checks))
    planned = forecast(PLAN, HouseSimulator(1), lambda _done, _of: True, count=2)
    yield yield_report(page)
    yield loss_report(page)
    yield work_report(page)
    yield day_report(today)
    yield truck_sheet(_plan(TRIP))
    yield plan_report(planned, DEFAULTS, FRAME)


def _set_by_hand() -> Iterator[bytes]:
    """What no kind of paper has all of: many pages, a river, a reprint, a treated yard."""
    stock = printing.stocks().named("a4-24-70x37")
    yield alignment_page(stock, plain_printer(stock), printing.typefaces())
    yield list_pdf(_paper(40), printing.typefaces())
    report = replace(
        _paper(3),
        printed="Printed 24 Jul 2026 08:40 by Ann Reed",
        again=1,
        anchors=True,
        bands=(("Long Field", 0.7), ("Creek", 0.3)),
    )
    yield list_pdf(report, printing.typefaces())
    house = BuiltHouse()
    house.do(Register("yard", {"name": "Creek", "colonies": 30, "place": "NE 4"}))
    house.do(Treat("Creek", "Strips", "", "2026-07-01", "2026-07-10", "2026-07-31"))
    sheet = house.house.ask(lambda view: paper_of(view, house.now_ms, "pull-sheet", "Creek"))
    yield report_pdf(sheet, printing.typefaces())
