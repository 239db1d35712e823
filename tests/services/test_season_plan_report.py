"""A plan as tables and sentences, for a plan that can be and for one that cannot."""

from dataclasses import replace
from datetime import date

from honeyledger.optimisation.season_runs import HouseSimulator
from honeyledger.services.season_defaults import Defaults
from honeyledger.services.season_forecast import forecast
from honeyledger.services.season_plan import CHANGES, LIMITS, HousePlan, PlanBox, PlanYard
from honeyledger.services.season_plan_report import PlanFrame, plan_frame, plan_report
from honeyledger.services.season_words import CHANGE_WORDS, PART_WORDS, WAIT_WORDS
from tests.support.houses import BuiltHouse

PLAN = HousePlan(
    date(2026, 7, 6),
    (PlanYard("All", 40),),
    (PlanBox("medium", 1_000, 9, 15_000),),
    places=6,
    empties=2,
)
DEFAULTS = Defaults(PLAN, frozenset({"colonies", "crew"}), is_rest=True, season=2026)
FRAME = PlanFrame("Test House", "7 ABC", "kg")


def _go_on(_done: int, _of: int) -> bool:
    return True


def test_every_part_change_and_wait_has_its_word() -> None:
    report = plan_report(forecast(PLAN, HouseSimulator(1), _go_on, count=8), DEFAULTS, FRAME)
    tables = {table.key: table for table in report.tables}
    assert [row[0] for row in tables["holds up"].rows] == list(PART_WORDS.values())
    assert {row[0] for row in tables["buys"].rows} == {CHANGE_WORDS[one] for one in CHANGES}
    assert [row[0] for row in tables["waits"].rows] == list(WAIT_WORDS.values())
    assert len(tables["planned with"].rows) == len(LIMITS)
    comes_to = {row[0]: row[1:] for row in tables["comes to"].rows}
    assert comes_to["Supers"] == ("104", "", "")
    assert comes_to["Frames"][0] == "936"
    assert all(comes_to["Days"])
    assert report.facts[0] == ("Begins", "6 Jul 2026")
    assert "It is the rest of the season that is going on." in report.says
    assert "3 drums are missing: 2 stand empty." in report.says
    assert any(said.startswith("Bands are where four of five of 8") for said in report.says)
    assert report.says[-1].startswith("A plan is no promise.")


def test_where_each_figure_is_from() -> None:
    made = forecast(replace(PLAN, crew=5), HouseSimulator(1), _go_on, count=2, changes=())
    report = plan_report(made, DEFAULTS, FRAME)
    rows = {row[0]: row[1:] for row in report.tables[-1].rows}
    assert rows["Colonies"] == ("40", "ledger")
    assert rows["People"] == ("5", "typed")
    assert rows["Minutes a spin"] == ("5 min", "usual")
    assert rows["Honey a super"] == ("15.0 kg", "usual")


def test_a_plan_that_cannot_be_says_what_and_tells_the_rest() -> None:
    wrong = replace(PLAN, frames_a_load=0)
    report = plan_report(forecast(wrong, HouseSimulator(1), _go_on), DEFAULTS, FRAME)
    assert report.says[0] == "Frames a load: 0 is too little to plan with. Say 1 or more."
    assert report.says[1] == "What does not rest on that is planned all the same."
    assert [table.key for table in report.tables] == ["comes to", "holds up", "planned with"]
    comes_to = {row[0]: row[1] for row in report.tables[0].rows}
    assert (comes_to["Frames"], comes_to["Drums"]) == ("936", "5")
    assert comes_to["Loads"] == comes_to["Days"] == "not to be told"
    assert dict(report.facts)["Ends, at the middle"] == "not to be told"


def test_several_yards_stand_by_themselves() -> None:
    yards = (PlanYard("Ash", 30), PlanYard("Birch", 10))
    made = forecast(replace(PLAN, yards=yards), HouseSimulator(1), _go_on, count=1, changes=())
    last = plan_report(made, DEFAULTS, FRAME).tables[-1]
    assert (last.title, last.rows) == ("By yard", (("Ash", "30", "78"), ("Birch", "10", "26")))


def test_the_frame_is_the_houses_own() -> None:
    house = BuiltHouse()
    frame = house.house.ask(plan_frame)
    assert frame.unit == "kg"
    assert frame.head.split()[0].isdigit()
