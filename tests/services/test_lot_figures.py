"""What a lot brings to a sum."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.services.lot_figures import LotFigures, lot_figures
from tests.support.houses import BuiltHouse


def test_a_lot_s_grams_in_the_house_and_its_latest_readings() -> None:
    house = BuiltHouse()
    house.vessel("Tank")
    house.load(house.yard("Creek"), 200_000, "Tank")
    drum = house.drum("Tank", 150_000)
    unread = house.drum("Tank", 40_000)
    house.do(Measure(drum, 1_740, 320))
    assert house.house.ask(lambda view: lot_figures(view, drum.lower())) == LotFigures(
        drum, 150_000, 1_740, 320
    )
    assert house.house.ask(lambda view: lot_figures(view, unread)) == LotFigures(
        unread, 40_000, None, None
    )
    with pytest.raises(Refusal, match="is not a code of this house"):
        house.house.ask(lambda view: lot_figures(view, "D26-9999-0"))
