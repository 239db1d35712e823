"""Rooms and rows in the terminal: carried there, listed, walked, and drums found."""

import pytest

from tests.support.terminal import Terminal


@pytest.fixture
def house(terminal: Terminal) -> tuple[Terminal, list[str]]:
    """Three drums of 100 kg, two of them in row B of the drum room."""
    terminal.do("load", terminal.pallet(), "Extractor")
    terminal.do("register", "room", "add", "Drum room")
    drums = [terminal.drum(net="100") for _ in range(3)]
    terminal.do("move", "Drum room", *drums[:2], "--row", "B")
    return terminal, drums


def test_what_should_stand_there(house: tuple[Terminal, list[str]]) -> None:
    terminal, drums = house
    rows = terminal.json("standing", "Drum room", "--row", "b")["standing"]
    assert [(row["code"], row["row"], row["grams"]) for row in rows] == [
        (drums[0], "B", 100_000),
        (drums[1], "B", 100_000),
    ]
    shown = terminal.do("standing", "Drum room")
    assert f"{drums[0]}  drum" in shown
    assert terminal.do("standing", "Drum room", "--row", "Z") == "Nothing should stand there.\n"


def test_a_row_is_walked(house: tuple[Terminal, list[str]]) -> None:
    terminal, drums = house
    words = ("stocktake", "Drum room", "--row", "B", drums[0], drums[2], "--found", "95")
    answer = terminal.json(*words)
    found = next(code for code in answer["codes"] if code[0] == "D")
    assert answer["walked"] == {
        "missing": [drums[1]],
        "misplaced": [],
        "new": [drums[2]],
        "gone": [],
        "found": [found],
        "there": [drums[0]],
    }
    assert len(answer["entries"]) == 1
    lines = terminal.do("stocktake", "Drum room", "--row", "B", drums[0]).splitlines()
    assert f"  missing: {drums[1]}, {drums[2]}, {found}" in lines
    assert "  where it should be: 1" in lines
    assert "missing" in terminal.do("standing", "Drum room", "--row", "B")


def test_a_drum_is_found(house: tuple[Terminal, list[str]]) -> None:
    terminal, _ = house
    words = ("found-drum", "--gross", "313", "--tare", "18", "--written", "no lid")
    answer = terminal.json(*words, "--room", "Drum room", "--row", "C")
    drum, source = answer["codes"]
    assert "on hold" in answer["notes"][0]["text"]
    (row,) = terminal.json("standing", "Drum room", "--row", "C")["standing"]
    assert (row["code"], row["grams"], row["held"]) == (drum, 295_000, True)
    terminal.do("amend", source, "--yard", "Mill Lane", "--reason", "the crew knew it")
    assert terminal.json("lot", drum)["yards"][0]["name"] == "Mill Lane"


def test_a_found_drum_is_amended_to_its_run(house: tuple[Terminal, list[str]]) -> None:
    terminal, _ = house
    run = terminal.given("R", "run", "open", "Extractor")
    terminal.do("load", terminal.pallet("Long Field"), "Extractor", "--run", run)
    drum = terminal.given("D", "found-drum", "--net", "100")
    terminal.do("amend", drum, "--of-run", run, "--reason", "its lid lay there")
    assert terminal.json("lot", drum)["yards"][0]["name"] == "Long Field"
