"""Blending in the terminal: parts with plans, heat, supplies, and what a trace says of them."""

import pytest

from tests.support.terminal import Terminal

TANK = "Tank 1"


@pytest.fixture
def house(terminal: Terminal) -> Terminal:
    for name in ("Tank 2", "Blend tank"):
        terminal.do("register", "vessel", "add", name)
    terminal.do("register", "supplier", "add", "Spice Trade")
    return terminal


def _drums(house: Terminal) -> tuple[str, str]:
    house.do("load", house.pallet(gross="500"), "Extractor")
    return house.drum(net="150"), house.drum(net="150")


def test_a_blend_with_its_plan(house: Terminal) -> None:
    first, second = _drums(house)
    said = house.do(
        *("blend", "Blend tank", f"{first}=120,5", f"{second}=all"),
        *("--plan", f"{first}=100", "--purpose", "standardise", "--note", "lot 7"),
    )
    assert f"Note: Of {first} 120.5 kg went in, and 100.0 kg was planned" in said
    (sheet,) = house.json("blends", "Blend tank")["blends"]
    assert [(part["planned_g"], part["net_g"]) for part in sheet["parts"]] == [
        (100_000, 120_500),
        (None, 150_000),
    ]
    shown = house.do("blends", "Blend tank", "--last", "1")
    assert "standardise, 270.5 kg, lot 7" in shown
    assert "100.0 kg" in shown
    assert f"120.5 kg from drum {first} to Blend tank; 100.0 kg planned." in house.do("lot", first)
    assert house.do("blends", "Tank 2") == "Nothing was blended in Tank 2 yet.\n"


def test_seed_is_named_among_the_parts(house: Terminal) -> None:
    first, second = _drums(house)
    words = ("blend", "Blend tank", f"{first}=50", f"{second}=5", "--purpose", "cream")
    house.do(*words, "--seed", second)
    parts = house.json("blends", "Blend tank")["blends"][0]["parts"]
    assert [part["seed"] for part in parts] == [False, True]
    assert "seed" in house.do("blends", "Blend tank")


def test_what_is_added_stands_apart_in_a_trace(house: Terminal) -> None:
    first, _ = _drums(house)
    spice = house.given(
        "A", "supply", "Spice Trade", "Cinnamon", "--net", "5", "--supplier-lot", "C 9"
    )
    jars = house.given("A", "supply", "Spice Trade", "Jars 500 g", "--count", "500")
    house.do("blend", "Blend tank", f"{first}=98", f"{spice}=2")
    drum = house.drum(source="Blend tank", net="100")
    trace = house.json("trace", drum)
    assert [(row["share"], row["grams"]) for row in trace["yards"]] == [(1.0, 98_000)]
    assert trace["ingredients"] == [
        {
            "code": spice,
            "name": "Cinnamon",
            "supplier": "Spice Trade",
            "supplier_lot": "C 9",
            "share": 0.02,
            "grams": 2_000,
        }
    ]
    assert trace["packaging"] == []
    said = house.do("trace", drum)
    assert f"With 2.0 % Cinnamon ({spice}) of Spice Trade, their lot C 9." in said
    assert {row["code"] for row in house.json("trace", "Spice Trade", "--forward")["lots"]} == {
        *(spice, jars, drum),
        *(row["code"] for row in trace["lots"] if row["kind"] == "T" and row["share"] == 1.0),
    }
    rows = house.json("stock", "--place", "store")
    assert [(row["code"], row["grams"], row["pieces"]) for row in rows] == [
        (spice, 3_000, 0),
        (jars, 0, 500),
    ]


def test_heat_is_logged_and_shown(house: Terminal) -> None:
    first, _ = _drums(house)
    house.do("warm", first, "--temperature", "113 F", "--hours", "6", "--minutes", "30")
    assert "390 min, up to 45.0 °C." in house.do("lot", first)
    assert house.json("lot", first)["heated"] == [first]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (
            ("blend", "Blend tank", "Tank 1"),
            f"Say how much of {TANK}: {TANK}=120.5, or {TANK}=all where all of it goes.",
        ),
        (("blend", "Blend tank", "=5"), "Say how much of"),
        (
            ("blend", "Blend tank", "Tank 1=5", "--seed", "Tank 2"),
            "Tank 2 is no part of this blend. Name it as it is named among the parts.",
        ),
        (("blend", "Blend tank", "Tank 1=5", "--plan", "Tank 2=5"), "Tank 2 is no part"),
        (("blend", "Blend tank", "Tank 1=some"), "some is not a weight"),
        (("warm", "Tank 1", "--temperature", "45"), "Say how long it was warm"),
        (("supply", "Spice Trade", "Jars"), "Count the Jars"),
        (("supply", "Glass Works", "Jars", "--count", "5"), "Glass Works"),
    ],
)
def test_what_cannot_be_is_refused(house: Terminal, words: tuple[str, ...], said: str) -> None:
    assert said in house.refused(*words)


@pytest.mark.parametrize("words", ["blend", "blends", "warm", "supply"])
def test_the_help_has_an_example_and_says_how_to_undo(bare: Terminal, words: str) -> None:
    shown = bare.do(words, "--help")
    assert f"Example: honeyledger {words} " in shown
    assert words == "blends" or "Undo: reverse the entry" in shown
