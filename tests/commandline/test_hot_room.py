"""The hot room in the terminal: the air, drying, and supers that do not go through."""

import pytest

from tests.support.terminal import Terminal


@pytest.fixture
def hot(terminal: Terminal) -> Terminal:
    terminal.do("register", "room", "add", "Hot room", "--sort", "hot room")
    return terminal


def test_the_air_is_logged_and_shown_newest_first(hot: Terminal) -> None:
    assert hot.do("room", "show", "Hot room") == "Nothing was read in Hot room yet.\n"
    hot.do("room", "log", "Hot room", "--temperature", "94 F", "--humidity", "45")
    said = hot.do("room", "log", "Hot room", "--humidity", "61", "--note", "door open")
    assert "Note: At 61.0 % humidity the air in Hot room wets honey of 18 %" in said
    rows = hot.json("room", "show", "Hot room")["log"]
    assert [(row["temperature"], row["humidity"], row["note"]) for row in rows] == [
        (None, 6_100, "door open"),
        (344, 4_500, ""),
    ]
    shown = hot.do("room", "show", "hot-room").splitlines()
    assert shown[0].split() == ["when", "temperature", "humidity", "note", "by"]
    assert "34.4 °C" in shown[2]
    assert "45 %" in shown[2]


def test_a_pallet_dries(hot: Terminal) -> None:
    tag = hot.pallet(gross="500")
    words = ("--before", "19,3", "--after", "17.8", "--room", "Hot room", "--hours", "40")
    said = hot.do("dry", tag, *words)
    assert "of water went out" in said
    done = hot.json("dry", tag, "--gross", "490")
    assert done["notes"][0]["key"] == "water-out"
    pull = hot.json("stock", "--kind", "S")[0]["code"]
    assert "40 h in Hot room; moisture 17.8 %." in hot.do("lot", pull)
    evaporated = [
        row for row in hot.json("mass-balance", pull)["places"] if row["code"] == "evaporated"
    ]
    assert evaporated[0]["grams"] > 0
    assert hot.json("mass-balance", pull)["gap_g"] == 0


def test_supers_are_set_aside_for_bees(hot: Terminal) -> None:
    tag = hot.pallet(supers="24")
    words = ("--why", "brood", "--to", "bees", "--yard", "Long Field")
    said = hot.do("set-aside", tag, "--supers", "2", *words)
    assert "Note: Honey fed to bees can carry foulbrood" in said
    assert [row["pieces"] for row in hot.json("stock", "--kind", "S")] == [22]
    pull = hot.json("stock", "--kind", "S")[0]["code"]
    assert "2 supers, with brood, given to bees" in hot.do("lot", pull)
    hot.do("set-aside", tag, "--frames", "4", "--why", "set", "--to", "scrap")
    assert [row["name"] for row in hot.json("mass-balance", pull)["places"]][:1] == ["discarded"]


def test_supers_left_at_night_come_off_the_runs_load(hot: Terminal) -> None:
    tag = hot.pallet(supers="24")
    run = hot.given("R", "run", "open", "Extractor")
    hot.do("load", tag, "Extractor", "--run", run)
    hot.do("set-aside", tag, "--supers", "12", "--why", "left over")
    assert hot.json("run", "show", run)["balance"]["supers"] == 12


def test_water_out_of_a_tank_stands_in_the_runs_balance(hot: Terminal) -> None:
    tag = hot.pallet(supers="24", gross="600")
    run = hot.given("R", "run", "open", "Extractor")
    hot.do("load", tag, "Extractor", "--run", run)
    hot.do("dry", "Tank 1", "--before", "19", "--after", "18", "--run", run)
    balance = hot.json("run", "show", run)["balance"]
    assert balance["evaporated_g"] == balance["in_g"] - round(balance["in_g"] * 81 / 82)
    assert "water evaporated" in hot.do("run", "show", run)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("room", "log", "Attic", "--humidity", "45"), "There is no room called Attic"),
        (("room", "log", "Hot room"), "Read the temperature or the humidity of Hot room."),
        (("room", "log", "Hot room", "--humidity", "145"), "145 cannot be a humidity"),
        (("dry", "Tank 1", "--after", "17.8"), "The books see nothing in Tank 1."),
        (("dry", "Tank 1", "--after", "17.8", "--hours", "two"), "two is not"),
        (("set-aside", "G26-0009-X", "--supers", "2", "--why", "set"), "G26-0009-X"),
    ],
)
def test_what_cannot_be_is_refused(hot: Terminal, words: tuple[str, ...], said: str) -> None:
    assert said in hot.refused(*words)


@pytest.mark.parametrize("words", ["room log", "room show", "dry", "set-aside"])
def test_the_help_has_an_example_and_says_how_to_undo(bare: Terminal, words: str) -> None:
    shown = bare.do(*words.split(), "--help")
    assert f"Example: honeyledger {words} " in shown
    assert words == "room show" or "Undo: reverse the entry" in shown
