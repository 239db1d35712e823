"""The bottling station's page: what is in hand, and what the jars will hold."""

import pytest

from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.bottling import feed_of
from honeyledger.services.bottling_page import BottlingPage, Wanted, bottling_page
from tests.support.houses import BuiltHouse

NOTHING = Wanted()


class Bottled:
    """Two drums, each of one yard, and a product."""

    def __init__(self) -> None:
        self.house = BuiltHouse()
        self.house.vessel("Tank 1")
        self.house.do(Register("product", {"name": "Clover 500 g", "net_g": 500}))
        self.drums = [
            self._drum(name, kg) for name, kg in (("Mill Lane", 300), ("Long Field", 100))
        ]

    def _drum(self, name: str, kg: int) -> str:
        self.house.load(self.house.yard(name), kg * 1000, "Tank 1")
        drum = self.house.drum("Tank 1", kg * 1000)
        self.house.wash("Tank 1")
        return drum

    def start(self, feed: str) -> str:
        return self.house.do(ChangeOver(product="clover-500-g", feed=feed)).given[0]

    def page(self, wanted: Wanted = NOTHING) -> BottlingPage:
        return self.house.house.ask(lambda view: bottling_page(view, wanted))


@pytest.fixture
def bottled() -> Bottled:
    return Bottled()


def _shares(page: BottlingPage) -> list[tuple[str, float]]:
    return [(row.name, row.share) for row in page.makeup.sources] if page.makeup else []


def test_a_house_with_nothing_in_it() -> None:
    house = BuiltHouse()
    page = house.house.ask(lambda view: bottling_page(view, Wanted()))
    assert (page.products, page.feeds, page.bottlings, page.jars) == ((), (), (), ())
    assert (page.sheet, page.makeup, page.holds) == (None, None, ())
    assert (page.ledger, page.unit, page.zone, page.jar_margin) == ("ledger-1", "kg", "UTC", 24)


def test_before_a_bottling_is_begun_its_make_up_is_that_of_the_feeds_in_order(
    bottled: Bottled,
) -> None:
    assert bottled.page().makeup is None
    page = bottled.page(Wanted(order=(bottled.drums[0], bottled.drums[1], "D26-0099-X")))
    assert _shares(page) == [("Mill Lane", 0.75), ("Long Field", 0.25)]
    assert page.makeup is not None
    assert page.makeup.grams == 400_000


def test_an_open_bottling_is_in_hand_with_its_jars_its_feed_and_those_to_come(
    bottled: Bottled,
) -> None:
    first, second = bottled.drums
    code = bottled.start(first)
    page = bottled.page()
    assert page.sheet is not None
    assert page.sheet.bottling.code == code
    assert _shares(page) == [("Mill Lane", 1.0)]
    page = bottled.page(Wanted(code, order=(second,)))
    assert _shares(page) == [("Mill Lane", 0.75), ("Long Field", 0.25)]
    bottled.house.do(ChangeOver(code, feed=second, jars=200))
    assert _shares(bottled.page()) == [("Mill Lane", 0.5), ("Long Field", 0.5)]


def test_the_one_named_is_in_hand_else_the_oldest_and_none_while_another_begins(
    bottled: Bottled,
) -> None:
    codes = [bottled.start(drum) for drum in bottled.drums]

    def in_hand(wanted: Wanted) -> str:
        sheet = bottled.page(wanted).sheet
        return sheet.bottling.code if sheet else ""

    assert [row.code for row in bottled.page().bottlings] == codes
    assert in_hand(Wanted()) == codes[0]
    assert in_hand(Wanted(codes[1])) == codes[1]
    assert in_hand(Wanted(codes[1], is_starting=True)) == ""
    bottled.house.do(Bottle(codes[1], 100))
    assert in_hand(Wanted(codes[1])) == codes[0]


def test_holds_on_what_runs_are_told(bottled: Bottled) -> None:
    first, second = bottled.drums
    bottled.start(first)
    bottled.house.do(PutOnHold(second, "taste"))
    assert bottled.page().holds == ()
    assert bottled.page(Wanted(order=(second,))).holds == (f"{second}: taste",)
    house = bottled.house
    lots = {row.kind: row.code for row in house.back(second).lots if row.share > 0.5}
    house.do(PutOnHold(lots["S"], "smoke"))
    words = f"{lots['S']}, by way of {lots['T']}: smoke"
    assert words in bottled.page(Wanted(order=(second,))).holds


def test_a_feed_is_found_by_any_of_its_codes_and_by_its_name(bottled: Bottled) -> None:
    bottled.house.load(bottled.house.yard("Top"), 50_000, "Tank 1")
    feeds = bottled.page().feeds
    assert feed_of(feeds, bottled.drums[0].lower()) == feeds[1]
    assert feed_of(feeds, " tank 1 ") == feeds[0]
    assert feed_of(feeds, "Tank 2") is None
    assert feed_of(feeds, "") is None
