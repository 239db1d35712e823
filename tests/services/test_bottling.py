"""The rows of the bottling: feeds, open bottlings, segments; on a real ledger."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.bottling import (
    Feed,
    Feeds,
    OpenBottling,
    Product,
    Segment,
    bottling_sheet,
    jars_in,
    open_bottlings,
    products,
)
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """A tank with 900 kg, fed by a line with nothing in it, and a product."""
    made = BuiltHouse()
    line = made.vessel("Line 1", sort="line")
    made.vessel("Tank 1", fed_by=line)
    made.load(made.yard("Mill Lane"), 900_000, "Tank 1")
    made.do(Register("product", {"name": "Clover 500 g", "net_g": 500, "origin": "Of here"}))
    return made


def _feeds(house: BuiltHouse) -> tuple[Feed, ...]:
    return house.house.ask(lambda view: Feeds(view).on_hand())


def _started(house: BuiltHouse, feed: str) -> str:
    return house.do(ChangeOver(product="clover-500-g", feed=feed)).given[0]


def _segments(house: BuiltHouse) -> tuple[Segment, ...]:
    return house.house.ask(
        lambda view: bottling_sheet(view, open_bottlings(view)[0], Feeds(view)).segments
    )


def test_jars_follow_from_the_mass() -> None:
    assert jars_in(290_000, 503_500) == 575
    assert jars_in(499, 500_000) == 0
    assert jars_in(-1, 500_000) == 0


def test_products_by_name(house: BuiltHouse) -> None:
    house.do(Register("product", {"name": "Amber 1 kg", "net_g": 1000}))
    assert house.house.ask(products) == (
        Product("amber-1-kg", "Amber 1 kg", 1000, ""),
        Product("clover-500-g", "Clover 500 g", 500, "Of here"),
    )


def test_feeds_are_tanks_and_drums_with_honey_those_ready_first_oldest_first(
    house: BuiltHouse,
) -> None:
    held = house.drum("Tank 1", 200_000)
    wet, ready = house.drum("Tank 1", 150_000), house.drum("Tank 1", 100_000)
    number = house.container("Drum 7", usual_g=100_000)
    house.do(Fill("Tank 1", container=number, pending=True))
    house.do(PutOnHold(held, "sample to the laboratory"))
    house.do(Measure(wet, moisture=1810, colour=440))
    house.do(Measure(ready, moisture=1720))
    rows = _feeds(house)
    told = [(row.name, row.state, row.grams) for row in rows]
    assert told == [
        ("Tank 1", "ready", 350_000),
        (wet, "above 18 %", 150_000),
        (ready, "ready", 100_000),
        ("Drum 7", "not weighed", 100_000),
        (held, "hold", 200_000),
    ]
    assert [row.is_drum for row in rows] == [False, True, True, True, True]
    assert (rows[1].moisture, rows[1].colour) == (1810, 440)
    assert rows[3].codes == (rows[3].code, number)
    assert rows[3].code.startswith("D26-")
    assert rows[4].reason == f"{held}: sample to the laboratory"


def test_a_tank_counts_what_its_line_still_holds_and_the_line_itself_is_no_feed(
    house: BuiltHouse,
) -> None:
    house.load(house.yard("Long Field"), 50_000, "Line 1")
    (tank,) = _feeds(house)
    assert (tank.name, tank.grams, tank.code) == ("Tank 1", 950_000, tank.place[len("vessel/") :])


def test_a_drum_with_several_lots_goes_by_its_container(house: BuiltHouse) -> None:
    number = house.container("Drum 7")
    half = Fill("Tank 1", Weight(net_g=100_000), container=number, bung=False)
    house.do(half)
    house.load(house.yard("Long Field"), 50_000, "Tank 1")
    house.do(half)
    drum = next(row for row in _feeds(house) if row.is_drum)
    assert (drum.code, drum.grams) == (number, 200_000)
    assert len(drum.codes) == 3


def test_an_open_bottling_and_its_segments(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 290_000)
    code = _started(house, drum)
    began_ms = house.now_ms
    (opened,) = house.house.ask(open_bottlings)
    clover = Product("clover-500-g", "Clover 500 g", 500, "Of here")
    assert opened == OpenBottling(code, clover, f"drum/{drum}", drum, 0, began_ms)
    assert _segments(house) == ()
    house.do(ChangeOver(code, feed="Tank 1", jars=570, mean_net_mg=502_400, empty=True))
    house.do(ChangeOver(code, feed="Tank 1", jars=800))
    fill = house.house.ask(lambda view: view.standing(opened.feed)[0].lot.code)
    first, second = _segments(house)
    assert fill == first.code == drum
    assert (first.first, first.last, first.name, first.grams) == (1, 570, drum, 286_368)
    assert (first.jars, first.mean_mg) == (570, 502_400)
    assert (second.first, second.last, second.name, second.mean_mg) == (
        571,
        800,
        "Tank 1",
        500_000,
    )
    (opened,) = house.house.ask(open_bottlings)
    assert (opened.jars, opened.feed_name, opened.started_ms) == (800, "Tank 1", began_ms)
    sheet = house.house.ask(lambda view: bottling_sheet(view, opened, Feeds(view)))
    assert (sheet.filled_g, sheet.feed.grams) == (401_368, 495_000)
    house.do(Bottle(code, 900))
    assert house.house.ask(open_bottlings) == ()


def test_the_declared_net_of_a_bottling_is_that_of_its_beginning(house: BuiltHouse) -> None:
    _started(house, "Tank 1")
    house.do(Register("product", {"name": "Clover 500 g", "net_g": 450}, "clover-500-g"))
    (opened,) = house.house.ask(open_bottlings)
    assert opened.product.net_g == 500


def test_a_segment_out_of_a_container_is_called_by_its_name(house: BuiltHouse) -> None:
    number = house.container("Drum 7")
    house.do(Fill("Tank 1", Weight(net_g=100_000), container=number))
    code = _started(house, number)
    house.do(ChangeOver(code, jars=100))
    assert [row.name for row in _segments(house)] == ["Drum 7"]


def test_an_emptied_feed_is_still_the_feed(house: BuiltHouse) -> None:
    drum = house.drum("Tank 1", 100_000)
    code = _started(house, drum)
    house.do(ChangeOver(code, jars=190, empty=True))
    sheet = house.house.ask(
        lambda view: bottling_sheet(view, open_bottlings(view)[0], Feeds(view))
    )
    assert (sheet.feed.code, sheet.feed.grams) == (drum, 0)
    assert drum not in [row.code for row in _feeds(house)]
