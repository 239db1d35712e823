"""What is printed of a trace: the answer, the river, all rows, and the head it was asked at."""

from honeyledger.desktop.models.rows import Total
from honeyledger.desktop.stations.trace.columns import YardRow, yard_columns
from honeyledger.desktop.stations.trace.paper import paper_of
from honeyledger.desktop.stations.trace.presenter import Timed
from honeyledger.desktop.stations.trace.river_rows import river_of
from honeyledger.domain.moments import moment_at
from honeyledger.services.trace_page import trace_page
from tests.support.houses import START_MS, BuiltHouse

ROW = YardRow("Y26-0001-P", "direct", False, "Mill Lane", "", "", "", "100.0", 1.0, "280 000")


def test_it_carries_the_house_the_head_and_the_time() -> None:
    built = BuiltHouse()
    tank = built.vessel("Tank 1")
    built.load(built.yard("Mill Lane"), 300_000, tank)
    drum = built.drum(tank, 280_000)
    page = built.house.ask(lambda view: trace_page(view, drum))
    timed = Timed(page, 0.001, river_of(page))
    totals = {"share": Total("100.0", "%")}
    heading, table = ("Where it comes from", "1 yard."), (yard_columns(), [ROW])
    paper = paper_of(timed, heading, table, "1 yard", totals, moment_at(START_MS, "UTC"))
    assert paper.heading == heading
    assert paper.river is timed.river
    assert [cell.text for cell in paper.rows[0]][:3] == ["Y26-0001-P", "direct", "Mill Lane"]
    assert (paper.lead, paper.totals) == ("1 yard", tuple(totals.items()))
    head = built.house.ask(lambda view: view.head())
    assert f"head {head.entry} {head.digest[:12].upper()} · printed 24 Jul 2026" in paper.foot


def test_nothing_to_draw_leaves_the_table_alone() -> None:
    built = BuiltHouse()
    pull = built.load(built.yard("Mill Lane"), 300_000, built.vessel("Tank 1"))
    page = built.house.ask(lambda view: trace_page(view, pull))
    timed = Timed(page, 0.001, None)
    paper = paper_of(timed, (), (yard_columns(), []), "", {}, moment_at(START_MS, "UTC"))
    assert paper.river is None
    assert paper.rows == ()
