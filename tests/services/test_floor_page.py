"""Everything the extraction station shows at once."""

from honeyledger.ledger.verbs.floor import CloseRun, Load, OpenRun
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.services.floor_page import FloorPage, floor_page
from tests.support.houses import MINUTE_MS, BuiltHouse


def _page(built: BuiltHouse, run: str = "") -> FloorPage:
    return built.house.ask(lambda view: floor_page(view, run, built.now_ms))


def _line(built: BuiltHouse) -> str:
    line = built.vessel("Line A", sort="line")
    built.vessel("Tank 1", fed_by=line)
    return line


def test_before_the_first_run_there_is_no_sheet() -> None:
    built = BuiltHouse()
    page = _page(built)
    assert (page.sheet, page.runs, page.queue) == (None, (), ())
    assert (page.unit, page.ledger) == ("kg", "ledger-1")


def test_only_lines_are_offered_to_open_a_run_on() -> None:
    built = BuiltHouse()
    line = _line(built)
    built.vessel("Creaming tank")
    page = _page(built)
    assert [row.code for row in page.lines] == [line]
    assert [row.name for row in page.sources] == ["Creaming tank", "Line A", "Tank 1"]


def test_a_house_of_tanks_alone_offers_them_all() -> None:
    built = BuiltHouse()
    built.vessel("Tank 1")
    assert [row.name for row in _page(built).lines] == ["Tank 1"]


def test_the_run_named_is_shown_while_it_is_open_then_the_newest_then_the_last() -> None:
    built = BuiltHouse()
    line = _line(built)
    first = built.do(OpenRun(line)).given[0]
    second = built.do(OpenRun(line)).given[0]

    def shown(run: str) -> str:
        sheet = _page(built, run).sheet
        return sheet.run.code if sheet else ""

    assert shown(first) == first
    assert shown("") == second
    built.do(CloseRun(second))
    assert shown(second) == first
    built.do(CloseRun(first))
    assert shown("") == second
    sheet = _page(built).sheet
    assert sheet is not None
    assert sheet.run.closed_ms is not None


def test_the_queue_says_what_waits_how_long_and_what_is_the_matter() -> None:
    built = BuiltHouse()
    line = _line(built)
    yard = built.yard("Mill Lane")
    tags = {}
    for name in ("loaded", "ready", "wet", "held"):
        pull, tags[name] = built.pull(yard, 200_000, count=20)
        if name == "wet":
            built.do(Measure(pull, moisture=2010))
        if name == "held":
            built.do(PutOnHold(pull, "lab result awaited"))
        built.wait(60)
    built.do(Load(tags["loaded"], line))
    built.do(Load(tags["ready"], line, 8))
    queue = _page(built).queue
    assert [(row.pallet, row.state) for row in queue] == [
        (tags["ready"], "ready"),
        (tags["wet"], "dry first"),
        (tags["held"], "hold"),
    ]
    ready, wet, _ = queue
    assert (ready.supers, ready.grams, ready.yards) == (12, 120_000, "Mill Lane")
    assert wet.moisture == 2010
    assert wet.since_ms - ready.since_ms >= 60 * MINUTE_MS


def test_drums_on_record_are_offered() -> None:
    built = BuiltHouse()
    drum = built.container("Drum 7", tare_g=18_000)
    assert [(row.code, row.name) for row in _page(built).containers] == [(drum, "Drum 7")]
