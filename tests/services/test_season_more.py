"""What the season's page asks besides."""

from honeyledger.ledger.verbs.yards import SupersOn
from honeyledger.optimisation.routes import SolverRouter
from honeyledger.services.season_more import with_pulls, with_sheet
from honeyledger.services.season_page import season_page
from tests.support.houses import BuiltHouse

YEAR_MIN = 365 * 24 * 60


def test_pulls_and_the_days_work_are_asked_for_this_season() -> None:
    house = BuiltHouse()
    house.yard("Ash", colonies=10)
    _, tag = house.pull("Ash", 100_000)
    house.do(SupersOn("Ash", 30, "2026-07-01"))
    page = house.house.ask(lambda view: season_page(view, house.now_ms))
    assert (page.pulling, page.today_sheet) == (None, None)

    def asked(season: int = 0) -> None:
        here = house.house.ask(lambda view: season_page(view, house.now_ms, season))
        pulls = house.house.ask(
            lambda view: with_pulls(view, here, SolverRouter(), house.now_ms)
        ).pulling
        sheet = house.house.ask(lambda view: with_sheet(view, here, (), house.now_ms)).today_sheet
        assert sheet is not None
        if season:
            assert pulls is None
            assert sheet.rows[0].codes == (tag,)
        else:
            assert pulls is not None
            assert [stop.supers for stop in pulls.trips[0].stops] == [20]

    asked()
    house.wait(YEAR_MIN)
    asked(2026)
