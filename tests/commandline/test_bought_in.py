"""Honey from outside in the terminal: bought in with its papers, sent back, opening stock."""

import pytest

from tests.support.terminal import Terminal


@pytest.fixture
def house(terminal: Terminal) -> Terminal:
    """A supplier."""
    terminal.do("register", "supplier", "add", "Far Hills")
    return terminal


def _buy(house: Terminal, *more: str) -> str:
    return house.given("P", "purchase", "Far Hills", "--net", "290", *more)


def test_a_drum_with_its_papers(house: Terminal) -> None:
    words = ("--lot", "FH-9", "--country", "Argentina", "--certificate", "C 31")
    bought = house.json("purchase", "Far Hills", "--gross", "308", "--tare", "18", *words)
    assert bought["notes"] == []
    facts = house.json("lot", bought["codes"][0])["facts"]
    assert (facts["country"], facts["certificate"]) == ("Argentina", "C 31")


def test_a_floral_kind_is_stated(house: Terminal) -> None:
    code = _buy(house, "--floral", "acacia")
    assert house.json("lot", code)["facts"]["floral"] == "acacia"
    claims = {row["claim"]: row for row in house.json("claims", code)["now"]["claims"]}
    assert (claims["floral"]["ruling"], claims["floral"]["says"]) == ("allowed", ["acacia"])


def test_a_blend_of_countries(house: Terminal) -> None:
    shares = ("--country", "Argentina=62,5", "--country", "Uruguay = 37.5 %")
    assert house.json("lot", _buy(house, *shares))["facts"]["country"] == (
        "Argentina 62.5 %, Uruguay 37.5 %"
    )
    said = house.refused("purchase", "Far Hills", "--net", "1", "--country", "A=33.33")
    assert said == "33.33 is too fine: shares go by tenths of a percent. Round it."
    said = house.refused("purchase", "Far Hills", "--net", "1", "--country", "A=60")
    assert said.startswith("The shares of A add up to 60.0 %")


def test_papers_that_come_later_release_it(house: Terminal) -> None:
    bought = _buy(house, "--lot", "FH-9")
    assert house.refused("release", bought).startswith("Say who signs")
    words = ("release", bought, "--reason", "by post", "--operator", "Ann Reed")
    assert house.refused(*words).startswith(f"{bought} came without the country and a certificate")
    house.do(*words, "--certificate", "C 31", "--country", "AR")
    assert house.do("holds") == "Nothing is on hold.\n"


def test_drums_go_back(house: Terminal) -> None:
    first, second = _buy(house), _buy(house)
    house.do("send-back", first, second, "--reason", "20.4 % moisture", "--reference", "RN 4")
    assert house.json("stock", "--kind", "P") == []
    assert "Sent back: 290.0 kg" in house.do("lot", first)


def test_an_opening_stock(house: Terminal) -> None:
    words = ("opening-stock", "2025", "--net", "290", "--moisture", "17,4", "--colour", "34")
    more = ("--yard", "Mill Lane=60", "--yard", "Long Field=40", "--written", "14/25")
    drum = house.given("D", *words, *more, "--filled-on", "2025-08-02")
    assert drum.startswith("D25-")
    card = house.json("lot", drum)
    assert (card["moisture"], card["colour"]) == (1740, 340)
    assert {row["name"]: row["share"] for row in card["yards"]} == {
        "Mill Lane": 0.6,
        "Long Field": 0.4,
    }
    said = house.do("opening-stock", "2024", "--net", "290")
    assert "Note: Nobody has said where" in said
    assert house.refused("opening-stock", "25", "--net", "290").startswith("The season 25 cannot")
