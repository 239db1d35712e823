"""Registers on the terminal: each can be added to, changed and listed."""

import pytest

from honeyledger.commandline.register_facts import FACTS
from tests.support.terminal import Terminal

ADDED = {
    "yard": (
        "--colonies",
        "28",
        "--latitude",
        "52.5163",
        "--longitude",
        "-2,25",
        "--forage",
        "lime",
        "--region",
        "Fen Edge",
        "--organic",
        "yes",
    ),
    "vessel": (
        *("--sort", "tank", "--fed-by", "Extractor", "--capacity", "1200"),
        *("--depth", "90"),
    ),
    "drum": ("--number", "7", "--tare", "18,2", "--usual", "290", "--limit", "300"),
    "product": ("--net", "340", "--us-dual", "yes", "--keeps", "24"),
    "customer": ("--place", "High Street"),
    "supplier": ("--country", "Argentina", "--organic", "no"),
    "box": ("--honey", "12.5", "--tare", "5,5", "--frames", "10"),
    "equipment": ("--sort", "sieve", "--number", "3", "--part-of", "Extractor"),
    "room": ("--sort", "hot room"),
    "limit": ("--property", "hmf", "--highest", "10", "--source", "our contract"),
    "check": ("--every", "2 weeks", "--look", "traps", "--left-out", "no"),
    "operator": ("--role", "extracts"),
    "wording": ("--market", "EU", "--item", "storage"),
    "shift": ("--begins", "6", "--ends", "14:30"),
    "order": ("--customer", "Corner shop", "--due", "30 Jul", "--goods", "12 drums"),
    "stock": ("--paper", "roll", "--width", "105", "--height", "148,5"),
}
WRITTEN = {
    "order": {"customer": "corner-shop", "due": "2026-07-30", "goods": "12 drums"},
    "yard": {
        "colonies": 28,
        "latitude": 525_163_000,
        "longitude": -22_500_000,
        "forage": "lime",
        "region": "Fen Edge",
        "organic": 1,
    },
    "vessel": {"sort": "tank", "fed_by": "E26-0001-W", "capacity_g": 1_200_000, "depth_cm": 90},
    "equipment": {"sort": "sieve", "number": "3"},
    "drum": {"number": "7", "tare_g": 18_200, "usual_g": 290_000, "limit_g": 300_000},
    "product": {"net_g": 340, "us_dual": 1, "keeps_months": 24},
    "customer": {"place": "High Street"},
    "supplier": {"country": "Argentina", "organic": 0},
    "box": {"honey_g": 12_500, "tare_g": 5_500, "frames": 10},
    "room": {"sort": "hot room"},
    "limit": {"property": "hmf", "highest": "10", "source": "our contract"},
    "check": {"every": "2 weeks", "look": "traps", "left_out": 0},
    "operator": {"role": "extracts"},
    "wording": {"market": "EU", "item": "storage"},
    "shift": {"begins": "06:00", "ends": "14:30"},
    "stock": {"paper": "roll", "width_um": 105_000, "height_um": 148_500},
}


def _plural(what: str) -> str:
    plurals = {"box": "boxes", "equipment": "equipment", "stock": "label stock"}
    return plurals.get(what, f"{what}s")


@pytest.mark.parametrize("what", ADDED)
def test_a_register_is_added_to_listed_and_changed(terminal: Terminal, what: str) -> None:
    terminal.do("register", what, "add", "New [one]", *ADDED[what])
    rows = terminal.json("register", what, "list")[_plural(what)]
    row = next(row for row in rows if row["name"] == "New [one]")
    assert {key: row[key] for key in WRITTEN[what]} == WRITTEN[what]
    shown = terminal.do("register", what, "list")
    assert "New [one]" in shown
    terminal.do("register", what, "change", "new [one]", "--name", "Other")
    rows = terminal.json("register", what, "list")[_plural(what)]
    changed = next(row for row in rows if row["name"] == "Other")
    assert changed == {**row, "name": "Other"}


def test_every_register_has_its_test() -> None:
    assert set(ADDED) | {"house"} == set(FACTS)


def test_the_house_is_changed_and_shown(terminal: Terminal) -> None:
    terminal.do("register", "house", "change", "--reach-margin", "45", "--zone", "Europe/Berlin")
    (house,) = terminal.json("register", "house", "list")["houses"]
    assert (house["margin_ms"], house["zone"], house["name"]) == (
        45 * 60_000,
        "Europe/Berlin",
        "Test House",
    )
    assert "45 min" in terminal.do("register", "house", "list")


def test_an_empty_register_says_so(terminal: Terminal) -> None:
    assert terminal.do("register", "supplier", "list") == "No supplier is registered yet.\n"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("yard", "add", "Mill Lane"), "Mill Lane is already the name of Y26-0001-P."),
        (("yard", "add", " "), "Give the yard a name"),
        (
            ("yard", "change", "Mill Lane"),
            "Say what is different about Mill Lane: name at least one of its facts.",
        ),
        (("yard", "change", "Nowhere", "--name", "X"), "Nowhere"),
        (("yard", "add", "X", "--latitude", "95"), "95 cannot be a latitude"),
        (("box", "add", "X", "--honey", "0"), "The usual honey of a box cannot be 0"),
        (("house", "change", "--zone", "Mars"), "Mars is not a time zone"),
        (("house", "change", "--prefix", "A1"), "A1 cannot begin a house's codes"),
        (
            ("product", "add", "X", "--us-dual", "perhaps"),
            "perhaps is neither yes nor no: say one of them for us-dual.",
        ),
    ],
)
def test_what_a_register_refuses(terminal: Terminal, words: tuple[str, ...], said: str) -> None:
    assert said in terminal.refused("register", *words)


def test_a_record_has_the_article_and_the_plural_its_noun_takes(terminal: Terminal) -> None:
    assert "Change an operator's record." in terminal.do(
        "register", "operator", "change", "--help"
    )
    assert "Change a yard's record." in terminal.do("register", "yard", "change", "--help")
    assert "Change the house's record." in terminal.do("register", "house", "change", "--help")
    assert "List the equipment." in terminal.do("register", "equipment", "list", "--help")
