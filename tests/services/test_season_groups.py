"""Yields by crew, by forage and by season."""

from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.services.season_groups import CrewYield, Groups, crew_name, groups
from honeyledger.services.season_pulls import pulls_of, yard_records
from honeyledger.services.season_yields import Gave, yields
from honeyledger.services.store import View
from tests.support.houses import BuiltHouse

YEAR_MIN = 365 * 24 * 60


def _groups(view: View, season: int) -> Groups:
    pulls = pulls_of(view, list(yard_records(view)))
    return groups(yields(view, season, pulls), pulls)


def test_crews_forages_and_seasons_with_earlier_ones() -> None:
    house = BuiltHouse()
    house.yard("Ash", colonies=10, forage="clover")
    house.yard("Birch", colonies=20, forage="clover")
    house.yard("Cedar", colonies=5)
    house.yard("Dogwood", colonies=9, forage="clover")

    def come(yard: str, crew: str, supers: int, honey_g: int, at_min: int) -> None:
        gross = 15_000 + supers * 6_000 + honey_g
        day = "2026-07-24" if at_min < YEAR_MIN else "2027-07-24"
        house.do(Receive((Line(yard, supers, "medium", day, crew),), gross), at_min)

    come("Ash", "Jo, Al", 10, 150_000, 1)
    come("Birch", "Jo", 20, 400_000, 2)
    come("Ash", "Al, Jo", 12, 240_000, YEAR_MIN + 1)
    come("Birch", "Jo; Al", 8, 160_000, YEAR_MIN + 2)
    come("Cedar", "", 4, 40_000, YEAR_MIN + 3)
    found = house.house.ask(lambda view: _groups(view, 2027))
    assert found.crews == (
        CrewYield("Al, Jo", 1, 2, 20, 400_000, ((2026, 15_000),)),
        CrewYield("", 1, 1, 4, 40_000, ()),
    )
    assert found.crews[0].a_super == 20_000
    assert CrewYield("", 1, 1, 0, 40_000).a_super is None
    clover, unsaid = found.forages
    assert (clover.forage, clover.yards) == ("clover", 2)
    assert clover.now == Gave(2027, 20, 400_000, 30)
    assert clover.earlier == (Gave(2026, 30, 550_000, 30),)
    assert (unsaid.forage, unsaid.now.a_colony, unsaid.earlier) == ("", 8_000, ())
    assert found.seasons == (Gave(2027, 24, 440_000, 35), Gave(2026, 30, 550_000, 30))
    early = house.house.ask(lambda view: _groups(view, 2026))
    assert [crew.name for crew in early.crews] == ["Jo", "Al, Jo"]


def test_a_crew_is_its_people_in_whatever_order() -> None:
    assert crew_name(" Wim;Cass , wim") == "Cass, Wim"
    assert crew_name("Petra, Cass, Petra") == "Cass, Petra"
    assert crew_name(" ,; ") == ""


def test_a_house_without_pulls_has_none() -> None:
    house = BuiltHouse()
    house.yard("Ash", colonies=10)
    assert house.house.ask(lambda view: _groups(view, 2026)) == Groups((), (), ())
