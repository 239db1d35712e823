"""The stock of drums by colour class."""

import pytest

from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.services.season_drums import ColourStock, drum_stock
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    made = BuiltHouse()
    made.yard("Ash")
    made.vessel("Tank")
    made.load("Ash", 900_000, "Tank")
    return made


def test_classes_from_light_to_dark_and_those_not_read_last(house: BuiltHouse) -> None:
    white, white_too, dark, unread = (
        house.drum("Tank", grams) for grams in (290_000, 280_000, 100_000, 50_000)
    )
    house.do(Measure(white, moisture=17_50, colour=340))
    house.do(Measure(white_too, moisture=18_90, colour=171))
    house.do(Measure(dark, colour=1_200))
    house.do(PutOnHold(dark, "treatment record"))
    assert house.house.ask(drum_stock) == (
        ColourStock("W", 2, 570_000, 0, 0, wet=1, unread=0, wettest=18_90),
        ColourStock("DA", 1, 100_000, 1, 100_000, wet=0, unread=1, wettest=None),
        ColourStock("", 1, 50_000, 0, 0, wet=0, unread=1, wettest=None),
    )
    assert unread


def test_an_empty_house_has_none() -> None:
    assert BuiltHouse().house.ask(drum_stock) == ()
