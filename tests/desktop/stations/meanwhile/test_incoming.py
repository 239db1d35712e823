"""The season says what is there, and names commands that exist."""

import pytest

from honeyledger.desktop.stations.meanwhile.incoming import season_page
from honeyledger.desktop.stations.meanwhile.page import Page
from honeyledger.services.standing_now import days_now
from tests.desktop.command_words import assert_is_a_command
from tests.support.houses import MINUTE_MS, BuiltHouse

PAGES = (season_page,)


@pytest.mark.parametrize("page", [make() for make in PAGES], ids=lambda page: page.title)
def test_every_command_named_is_one(page: Page) -> None:
    for command in page.commands:
        assert_is_a_command(command.typed(""))


@pytest.mark.parametrize("page", [make() for make in PAGES], ids=lambda page: page.title)
def test_a_page_with_nothing_on_it_says_so(page: Page) -> None:
    assert page.answer([], "kg").endswith(".")
    assert page.empty
    assert page.will.startswith("This page will ")
    assert len({column.key for column in page.columns("kg")}) == len(page.columns("kg"))


def test_the_season_adds_its_days_up() -> None:
    house = BuiltHouse()
    tank = house.vessel("Tank 1")
    house.load(house.yard("Mill Lane"), 400_000, tank)
    house.now_ms += 24 * 60 * MINUTE_MS
    house.drum(tank, 300_000)
    rows = house.house.ask(lambda view: days_now(view, house.now_ms))
    words = "300 kg went into drums in the last fortnight, from 10 supers received."
    assert season_page().answer(rows, "kg") == words
    assert season_page().totals(rows, "kg")["drummed"].text == "300"
    assert season_page().columns("kg")[0].text(rows[0]) == "25 Jul 2026"
