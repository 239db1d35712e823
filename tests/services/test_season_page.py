"""The season's page: this season, an earlier one, and a house that has just begun."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.services.season_page import SeasonPage, season_page
from tests.support.houses import BuiltHouse


def _page(house: BuiltHouse, season: int = 0) -> SeasonPage:
    return house.house.ask(lambda view: season_page(view, house.now_ms, season))


def test_an_empty_house_has_a_page() -> None:
    page = _page(BuiltHouse())
    assert (page.season, page.seasons, page.is_now) == (2026, (2026,), True)
    assert (page.house, page.unit, page.zone) == ("Test House", "kg", "UTC")
    assert page.yields.yards == ()
    assert page.days == page.stock == page.losses.runs == page.moisture.readings == ()
    assert page.outlook is not None
    assert page.outlook.left == 0


def test_an_earlier_season_is_over() -> None:
    house = BuiltHouse()
    ash = house.yard("Ash", colonies=10)
    house.pull(ash, 150_000)
    house.wait(365 * 24 * 60)
    house.pull(ash, 250_000)
    before, now = _page(house, 2026), _page(house)
    assert now.seasons == before.seasons == (2027, 2026)
    assert (before.season, before.is_now, before.outlook) == (2026, False, None)
    assert [day.received_g for day in before.days] == [150_000]
    assert [day.received_g for day in now.days] == [250_000]
    head = house.house.ask(lambda view: view.head())
    assert (now.entries, now.digest) == (head.entry, head.digest)


@pytest.mark.parametrize("year", [1999, 2028, 10_000])
def test_a_year_without_a_pull_is_refused(year: int) -> None:
    house = BuiltHouse()
    house.pull(house.yard("Ash"), 150_000)
    with pytest.raises(Refusal) as refused:
        _page(house, year)
    words = "as far as this ledger knows. It has 2026."
    assert refused.value.text == f"Nothing was pulled in {year}, {words}"
