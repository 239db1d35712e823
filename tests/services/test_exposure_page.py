"""The page of exposure: the house, and the runs that are open with what they tie now."""

from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.floor import Load, OpenRun
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.exposure_page import exposure_page
from tests.support.houses import BuiltHouse


def test_an_open_run_says_what_would_go_with_it_before_it_is_signed() -> None:
    house = BuiltHouse()
    line = house.vessel("Line", sort="line")
    for yard in ("Creek", "Hill"):
        house.yard(yard)
    house.do(Register("customer", {"name": "Packer"}))
    empty = house.house.ask(lambda view: exposure_page(view, house.now_ms))
    assert empty.runs == ()
    assert empty.whole.sources == ()

    run = house.do(OpenRun(line)).given[0]
    for yard in ("Creek", "Hill"):
        house.do(Load(house.pull(yard, 100_000)[1], line), run=run)
    drum = house.drum(line, 60_000, run=run)
    house.do(Dispatch("Packer", (DispatchLine(drum),)))
    page = house.house.ask(lambda view: exposure_page(view, house.now_ms))
    (found,) = page.runs
    assert (found.code, found.name, found.sources) == (run, "Line", 2)
    assert (found.called.here_g, found.called.sent_g, found.called.customers) == (
        140_000,
        60_000,
        1,
    )
    assert {row.name for row in page.whole.sources} == {"Creek", "Hill"}
    assert (page.unit, page.zone) == ("kg", "UTC")
