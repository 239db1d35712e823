"""Labels and papers of the sample season as pictures, and what is wrong with them.

They stand beside the window's in the tour: every kind of label on the stock usual for it, a second
print of a tag, and every kind of paper, drawn as the window draws them.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from pathlib import Path
from typing import Any

import pypdfium2

from honeyledger.assets import resource
from honeyledger.desktop.drawing import label_pdf, pad_pdf, paper_rows
from honeyledger.desktop.sheet_drawing import sheet_pdf
from honeyledger.documents.labels import PACK_LABEL, RETAIL_CODE, alignment_page
from honeyledger.documents.stock import plain_printer
from honeyledger.domain.refusals import Refusal
from honeyledger.exchange.checks import shipped_checks
from honeyledger.ledger.verbs.printing import Printed
from honeyledger.ledger.verbs.recalls import DRILL
from honeyledger.optimisation.routes import SolverRouter
from honeyledger.optimisation.season_runs import HouseSimulator
from honeyledger.services.day_sheet import day_sheet
from honeyledger.services.day_tables import day_report
from honeyledger.services.dispatch_paper import note_paper
from honeyledger.services.drum_list import drum_list
from honeyledger.services.floor_papers import run_paper, standing_paper
from honeyledger.services.house import House, Said
from honeyledger.services.inspection import inspection
from honeyledger.services.label_forms import FORMS
from honeyledger.services.paper_kinds import KINDS, paper_of
from honeyledger.services.papers import Serials
from honeyledger.services.printed import (
    DAY_SHEET,
    LOSS_REPORT,
    PACE_REPORT,
    RECALL_LETTERS,
    RECALL_REPORT,
    SEASON_PLAN,
    TRUCK_SHEET,
    YIELD_REPORT,
    as_printed,
)
from honeyledger.services.pulling import Asked, pulling_plan
from honeyledger.services.pulling_tables import truck_sheet
from honeyledger.services.recall_rows import RecallPaper
from honeyledger.services.recalls import case_heads, recall_case
from honeyledger.services.report_tables import Report as ReportRows
from honeyledger.services.season_defaults import plan_defaults
from honeyledger.services.season_forecast import forecast
from honeyledger.services.season_page import season_page
from honeyledger.services.season_plan_report import plan_frame, plan_report
from honeyledger.services.season_tables import loss_report, yield_report
from honeyledger.services.season_work_tables import work_report
from honeyledger.services.store import View
from tests.support import printing
from tests.support.reading import READ
from tests.support.stress import overlapping

Draw = Callable[[], bytes]
PAPER = "paper-"
DOTS = 100
MOST_PAGES = 2
_REGISTERS = ("yard/", "operator/", "vessel/", "equipment/")
_EDGE = 2.0  # points: nothing is printed nearer to the edge of a page


def papers(house: House) -> Iterator[tuple[str, Draw]]:
    """Each paper by its name, and what draws its PDF."""
    with house.store.reading() as view:
        codes = _codes(view)
    yield from _labels(house, codes)
    now_ms = house.clock()
    for kind, one in KINDS.items():
        about = (_last(codes, one.letters) or [""])[0]
        ask = partial(paper_of, now_ms=now_ms, kind=kind, text=about)
        yield _named(kind), partial(_sheet, house, ask)
    (run,), (note,) = (_last(codes, letter) for letter in "RN")
    jars = _last(codes, "J", 5)
    jar = next(one for one in jars if house.ask(partial(_is_bottled, code=one)))
    asked: dict[str, Callable[[View], object]] = {
        "run sheet": partial(run_paper, code=run, now_ms=now_ms),
        "standing list": partial(standing_paper, room="Drum store", row="", now_ms=now_ms),
        "inspectors pack": partial(inspection, now_ms=now_ms, text=jar),
        "dispatch note": partial(note_paper, text=note),
        "drum list": drum_list,
        **_of_recalls(house),
        **_of_the_season(now_ms),
    }
    for name, asks in asked.items():
        yield _named(name), partial(_sheet, house, asks)
    yield _named("floor pad"), partial(pad_pdf, "Hill House", resource(), "kg")
    stock = printing.stocks().named("a4-24-70x37")
    page = partial(alignment_page, stock, plain_printer(stock), printing.typefaces())
    yield _named("calibration page"), page


def _of_recalls(house: House) -> dict[str, Callable[[View], object]]:
    """Report and letters of a recall, and the report of a drill, which tells nobody."""
    now_ms = house.clock()
    heads = house.ask(case_heads)

    def paper(code: str, view: View, *, letters: bool = False) -> RecallPaper:
        kind = RECALL_LETTERS if letters else RECALL_REPORT
        made = RecallPaper(recall_case(view, now_ms, code), letters)
        return as_printed(view, made, kind, code, now_ms)

    called = next(one.code for one in heads if one.sort != DRILL)
    drill = next(one.code for one in heads if one.sort == DRILL)
    return {
        "recall report": partial(paper, called),
        "recall letters": partial(paper, called, letters=True),
        "drill report": partial(paper, drill),
    }


def _of_the_season(now_ms: int) -> dict[str, Callable[[View], object]]:
    """What a season is printed as, of figures alone."""

    def day(view: View) -> ReportRows:
        return day_report(day_sheet(view, now_ms, shipped_checks(resource("checks"))))

    def truck(view: View) -> ReportRows:
        return truck_sheet(pulling_plan(view, Asked(), SolverRouter(), now_ms))

    def plan(view: View) -> ReportRows:
        defaults = plan_defaults(view, now_ms, None)
        made = forecast(defaults.plan, HouseSimulator(1), lambda _done, _of: True, count=2)
        return plan_report(made, defaults, plan_frame(view))

    made: dict[str, Callable[[View], ReportRows]] = {
        DAY_SHEET: day,
        TRUCK_SHEET: truck,
        SEASON_PLAN: plan,
        YIELD_REPORT: lambda view: yield_report(season_page(view, now_ms)),
        LOSS_REPORT: lambda view: loss_report(season_page(view, now_ms)),
        PACE_REPORT: lambda view: work_report(season_page(view, now_ms)),
    }

    def printed(kind: str, view: View) -> ReportRows:
        return as_printed(view, made[kind](view), kind, "", now_ms)

    return {kind: partial(printed, kind) for kind in made}


def _sheet(house: House, ask: Callable[[View], object]) -> bytes:
    return sheet_pdf(house.ask(ask), resource(), "kg")  # type: ignore[arg-type]


def _is_bottled(view: View, code: str) -> bool:
    return view.lot_by_code(code) is not None


def _codes(view: View) -> list[str]:
    """Codes of every letter there is something of, oldest first."""
    records = [mark for register in _REGISTERS for mark in view.marked("record", register)]
    found = [mark.subject.rpartition("/")[2] for mark in records]
    for entry in view.entries():
        found += [lot.code for lot in entry.lots]
        places = [one.place.partition("/") for one in entry.postings]
        found += [code for kind, _, code in places if kind == "pallet"]
        found += [entry.act.run]
        effects = entry.facts.get("effects", {})
        given = effects.get("codes", ()) if isinstance(effects, Mapping) else ()
        found += [str(one[0]) for one in given if isinstance(one, list)]  # type: ignore[union-attr]
    return [code for code in dict.fromkeys(found) if code]


def _last(codes: Sequence[str], letters: str, most: int = 1) -> list[str]:
    return [code for code in reversed(codes) if code[:1] in letters][:most]


def _ends(codes: Sequence[str], letter: str) -> list[str]:
    """The newest of a letter, and the oldest, such as vessels among equipment."""
    return [*_last(codes, letter, 12), *_last(codes[::-1], letter, 12)]


def _labels(house: House, codes: Sequence[str]) -> Iterator[tuple[str, Draw]]:
    """A label of every kind there is something of, and a drum's a second time."""
    done: set[str] = set()
    for letter in "GDPJXEYO":
        for code in _ends(codes, letter):
            for form in ("", *FORMS):
                try:
                    rows = house.ask(lambda view, c=code, f=form: _rows(view, c, f))  # type: ignore[misc]
                except Refusal:  # of that code there is no such label
                    continue
                if rows[0].label not in done:
                    done.add(rows[0].label)
                    yield _named(rows[0].label), partial(label_pdf, rows, resource(), "kg")
    drum = _last(codes, "D")[0]
    house.record(Printed("drum label", drum), Said())
    again = house.ask(lambda view: _rows(view, drum, ""))
    yield _named("drum label again"), partial(label_pdf, again, resource(), "kg")
    for kind in (PACK_LABEL, RETAIL_CODE):  # of which the season has none
        draw, row = READ[kind]
        stock = printing.stocks().chosen(kind)
        yield _named(kind), partial(draw, [row], stock, plain_printer(stock), printing.typefaces())


def _named(kind: str) -> str:
    return f"{PAPER}{kind.replace(' ', '-')}"


def _rows(view: View, code: str, form: str) -> list[Any]:
    return list(paper_rows(view, code, Serials(1, 1, form)))


def faults_of(pdf: bytes) -> list[str]:
    """What is wrong with a paper: words over the edge of a page, or over each other."""
    found: list[str] = []
    with pypdfium2.PdfDocument(pdf) as document:
        for number, page in enumerate(document, 1):
            wide, high = page.get_size()
            text = page.get_textpage()
            boxes = [text.get_rect(at) for at in range(text.count_rects())]
            for left, bottom, right, top in boxes:
                if min(left, bottom, wide - right, high - top) < _EDGE:
                    words = text.get_text_bounded(left, bottom, right, top)
                    found.append(f"page {number}: over the edge: {words}")
            met = (f"{one[0]:.0f}, {one[1]:.0f}" for one, _ in overlapping(boxes))
            found += [f"page {number}: words meet at {at}" for at in met]
    return found


def write(
    house: House, folder: Path, wanted: Sequence[str] = ()
) -> Iterator[tuple[str, list[str]]]:
    """Write the first pages of each paper as pictures; its name and what is wrong with it."""
    for name, draw in papers(house):
        if wanted and name not in wanted:
            continue
        pdf = draw()
        with pypdfium2.PdfDocument(pdf) as document:
            for number in range(min(len(document), MOST_PAGES)):
                picture = document[number].render(scale=DOTS / 72).to_pil()
                picture.save(folder / f"{name}-{number + 1}.png")
        yield name, faults_of(pdf)
