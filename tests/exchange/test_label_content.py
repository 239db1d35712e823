"""The markets shipped, and files with a slip in them."""

from pathlib import Path

import pytest

from honeyledger.domain.label_content import (
    FIGURES,
    ITEMS,
    TEXT,
    Market,
    Said,
    heights_of,
    lacking,
    least_height_mm,
)
from honeyledger.domain.refusals import Refusal
from honeyledger.exchange.label_content import read_market, shipped_markets
from tests.support.printing import RESOURCES

MARKETS = {one.key: one for one in shipped_markets(RESOURCES / "labels" / "content")}
SQUARE_INCH_MM2 = 25.4**2


def test_each_line_and_height_has_its_source_and_date() -> None:
    assert set(MARKETS) == {"canada", "eu", "own", "uk", "us"}
    for market in MARKETS.values():
        for one in (*market.lines, *market.heights):
            assert one.source
            assert one.as_of


@pytest.mark.parametrize(
    ("market", "items"),
    [
        # Regulation (EU) 1169/2011, article 9(1); Directive 2011/91/EU; Directive (EU) 2024/1438.
        ("eu", "name, net, party, address, origin, lot, best before"),
        # The same regulation as kept in UK law; origin and lot were seen at second hand only.
        ("uk", "name, net, party, address, best before"),
        # 21 U.S.C. 343(i)(1), 21 CFR 101.5.
        ("us", "name, party, address"),
        # Safe Food for Canadians Regulations, section 275(1)(a).
        ("canada", "net"),
        # Common practice, no source.
        ("own", "name, net, party, lot, caution"),
    ],
)
def test_an_empty_label_lacks_what_its_market_asks_for(market: str, items: str) -> None:
    missing = [one.line.item for one in lacking([MARKETS[market]], Said({}))]
    assert sorted(missing) == sorted(items.split(", "))
    assert not lacking([MARKETS[market]], Said(dict.fromkeys(ITEMS, "said")))


@pytest.mark.parametrize(
    ("market", "missing"), [("canada", ["colour class", "net", "style"]), ("us", ["origin"])]
)
def test_graded_honey_has_more_to_say(market: str, missing: list[str]) -> None:
    # Safe Food for Canadians Regulations, sections 275 and 324; 7 U.S.C. 1622(h)(6).
    said = Said({"grade": "No. 1", **dict.fromkeys(("name", "party", "address"), "said")})
    assert sorted(one.line.item for one in lacking([MARKETS[market]], said)) == missing


def _least(market: Market, of: str, area: float, net_g: int, *, verified: bool) -> float:
    return least_height_mm(heights_of([market]), of, area, net_g, verified=verified)


@pytest.mark.parametrize("market", ["eu", "uk"])
def test_small_letters_by_the_largest_face_in_europe(market: str) -> None:
    # Regulation (EU) 1169/2011, article 13(2) and (3): 1.2 mm, 0.9 mm below 80 cm2.
    found = [_least(MARKETS[market], TEXT, cm2 * 100, 500, verified=True) for cm2 in (79.9, 80)]
    assert found == [0.9, 1.2]


@pytest.mark.parametrize("market", ["eu", "uk"])
def test_figures_by_net_content_in_europe(market: str) -> None:
    # Directive 76/211/EEC, annex I, 3.1, at second hand: it asks, and blocks nothing.
    grams = (50, 51, 200, 201, 1000, 1001)
    asked = [_least(MARKETS[market], FIGURES, 1, g, verified=False) for g in grams]
    assert asked == [2, 3, 3, 4, 4, 6]
    assert [_least(MARKETS[market], FIGURES, 1, g, verified=True) for g in grams] == [0] * 6


def test_figures_by_the_display_surface_in_canada() -> None:
    # C.R.C., c. 417, section 14(2), seen as of 15 January 2019.
    areas = (32, 32.1, 258, 258.1, 645, 645.1, 2580, 2580.1)
    found = [_least(MARKETS["canada"], FIGURES, a * 100, 500, verified=True) for a in areas]
    assert found == [1.6, 3.2, 3.2, 6.4, 6.4, 9.5, 9.5, 12.7]


def test_type_by_the_panel_in_the_united_states() -> None:
    # 21 CFR 101.7(i), in sixteenths of an inch by square inches (values from memory).
    areas = (5, 5.1, 25, 25.1, 100, 100.1, 400, 400.1)
    us = MARKETS["us"]
    found = [_least(us, FIGURES, a * SQUARE_INCH_MM2, 500, verified=False) for a in areas]
    assert found == [1.59, 3.18, 3.18, 4.77, 4.77, 6.35, 6.35, 12.7]
    # 21 CFR 101.2(c), at second hand.
    assert _least(us, TEXT, 1, 500, verified=False) == 1.59


GOOD = """
names = ["Test"]
units = "metric"
[[lines]]
item = "name"
mark = "S"
source = "s"
as_of = "a"
[[heights]]
of = "text"
by = "panel"
steps = [[100, 1.0], [2.0]]
mark = "M"
source = "s"
as_of = "a"
"""


def test_a_good_file_is_read(tmp_path: Path) -> None:
    file = tmp_path / "test.toml"
    file.write_text(GOOD)
    market = read_market(file)
    assert (market.key, market.name, len(market.lines)) == ("test", "Test", 1)
    assert market.heights[0].steps == ((100, 1.0), (None, 2.0))


@pytest.mark.parametrize(
    ("right", "wrong", "why"),
    [
        ('names = ["Test"]', "names = []", "its head: names has to be a list of what the market"),
        ('"metric"', '"stones"', "its head: units has to be one of metric, us first"),
        ('"name"', '"colour"', "line 1: item has to be one of name, net"),
        ('mark = "S"', 'mark = "own"', "line 1: mark has to be one of S, S2, C, M"),
        ('item = "name"', 'item = "look"', "line 1: text has to be a text in quotation marks"),
        ('item = "name"', 'item = "name"\nshares = 1', "line 1: shares has to be true or false"),
        ('by = "panel"', 'by = "panel"\nwho = 1', "height 1: who has to be one of as_of"),
        ("[[100, 1.0], [2.0]]", "[[100, 1.0]]", "height 1: steps has to be a list such as"),
        (
            "[[100, 1.0], [2.0]]",
            "[[100, 1.0], [50, 2.0], [3.0]]",
            "height 1: steps has to be in rising order",
        ),
    ],
)
def test_a_slip_is_refused_with_its_place(
    tmp_path: Path, right: str, wrong: str, why: str
) -> None:
    file = tmp_path / "test.toml"
    file.write_text(GOOD.replace(right, wrong))
    with pytest.raises(Refusal) as refused:
        read_market(file)
    assert f"In test.toml, {why}" in refused.value.text


def test_a_file_that_is_not_there_or_no_toml_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Refusal) as refused:
        read_market(tmp_path / "none.toml")
    assert refused.value.key == "no-rules-file"
    (tmp_path / "bad.toml").write_text("names = ")
    with pytest.raises(Refusal) as refused:
        read_market(tmp_path / "bad.toml")
    assert refused.value.key == "rules-not-toml"
