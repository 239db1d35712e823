"""The drums say what is there, and name commands that exist."""

import pytest

from honeyledger.desktop.stations.meanwhile.outgoing import drums_page
from honeyledger.desktop.stations.meanwhile.page import Page
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.services.standing_now import drums_now
from tests.desktop.command_words import assert_is_a_command
from tests.support.houses import BuiltHouse

PAGES = (drums_page,)


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


@pytest.fixture
def house() -> BuiltHouse:
    made = BuiltHouse()
    made.vessel("Tank 1")
    made.load(made.yard("Mill Lane"), 900_000, "Tank 1")
    return made


def test_the_drums_say_what_needs_a_person(house: BuiltHouse) -> None:
    house.drum("Tank 1", 300_000)
    house.do(PutOnHold(house.drum("Tank 1", 250_000), "sample"))
    rows = house.house.ask(drums_now)
    words = "2 drums, 550 kg, 1 on hold, 1 without readings."
    assert drums_page().answer(rows, "kg") == words
    assert drums_page().totals(rows, "kg")["grams"].text == "550.0"
    colour = next(column for column in drums_page().columns("kg") if column.key == "colour")
    assert colour.cell(rows[0]).pfund_mm is None
