"""Vessels as a house works them, typed in the terminal: what goes where, what stays in reach."""

from pathlib import Path

import pytest

from tests.support.terminal import Terminal


@pytest.fixture
def house(tmp_path: Path) -> Terminal:
    """A line that runs into a sump that runs into Tank 1; two tanks more, a tote and a drum."""
    terminal = Terminal(tmp_path)
    terminal.do("new", "--name", "Test House", "--zone", "UTC")
    terminal.do("register", "house", "change", "--reach-margin", "0")
    for yard in ("Creek", "Hill", "Ridge"):
        terminal.do("register", "yard", "add", yard)
    terminal.do("register", "vessel", "add", "Line", "--sort", "line")
    terminal.do("register", "vessel", "add", "Sump", "--fed-by", "Line")
    terminal.do("register", "vessel", "add", "Tank 1", "--fed-by", "Sump")
    terminal.do("register", "box", "change", "medium", "--tare", "6")
    for name in ("Tank 2", "Tank 3"):
        terminal.do("register", "vessel", "add", name)
    for name, usual, limit in (("Tote 1", "1395", "1450"), ("Drum 1", "290", "320")):
        terminal.do("register", "drum", "add", name, "--usual", usual, "--limit", limit)
    return terminal


def _load(house: Terminal, yard: str, vessel: str, honey_kg: int = 300) -> None:
    """10 supers of a yard go in: pallet and lid are 15 kg, an empty super is 6 kg."""
    tag = house.given("G", "receive", yard, "10", "--gross", str(honey_kg + 15 + 60))
    house.do("load", tag, vessel)


def _shares(house: Terminal, code: str) -> dict[str, float]:
    return {row["name"]: row["share"] for row in house.json("trace", code)["yards"]}


def _sound(house: Terminal) -> None:
    assert "All 9 invariants hold." in house.do("audit")


def test_vessels_in_series_are_never_said(house: Terminal) -> None:
    """What is loaded into the line is drawn from the tank; the sump between is not told of."""
    _load(house, "Creek", "Line")
    drum = house.drum(net="200")
    _load(house, "Hill", "Line")
    mixed = house.drum(net="300")
    assert _shares(house, drum) == {"Creek": 1.0}
    # 100 kg of Creek stood in the tank, 300 kg of Hill came over.
    assert _shares(house, mixed) == pytest.approx({"Creek": 0.25, "Hill": 0.75})
    _sound(house)


def test_several_are_washed_at_once_and_each_is_asked_of(house: Terminal) -> None:
    _load(house, "Creek", "Line")
    house.drum(net="298")
    said = house.refused("wash", "Line", "Sump", "Tank 1")
    assert said == (
        "The books still see 2.0 kg in Tank 1. Say what became of it: left as rinse, discarded, "
        "or never there."
    )
    house.do("wash", "Line", "Sump", "Tank 1", "--remains", "rinse")
    _load(house, "Hill", "Line")
    assert _shares(house, house.drum(net="290")) == {"Hill": 1.0}
    _sound(house)


def test_one_vessel_not_washed_keeps_the_chain(house: Terminal) -> None:
    _load(house, "Creek", "Line")
    house.drum(net="300")
    house.do("wash", "Line", "Sump")
    _load(house, "Hill", "Line")
    assert _shares(house, house.drum(net="290")) == {"Hill": 1.0, "Creek": 0.0}


def test_a_transfer_moves_the_fill_itself(house: Terminal) -> None:
    _load(house, "Creek", "Line")
    _load(house, "Hill", "Line", 100)
    house.do("fill", "Tank 1", "--into", "Tank 2", "--net", "200")
    (row,) = [one for one in house.json("stock", "--place", "vessel") if one["where"] == "Tank 2"]
    assert (row["kind"], row["grams"]) == ("T", 200_000)
    (first,) = [
        one for one in house.json("stock", "--place", "vessel") if one["where"] == "Tank 1"
    ]
    assert first["code"] == row["code"]
    _load(house, "Ridge", "Tank 2", 200)
    drum = house.drum(source="Tank 2", net="290")
    assert _shares(house, drum) == pytest.approx({"Creek": 0.375, "Hill": 0.125, "Ridge": 0.5})
    _sound(house)


def test_what_is_transferred_on_and_on_is_asked_of_nobody_twice(house: Terminal) -> None:
    _load(house, "Creek", "Line")
    for source, into in (("Tank 1", "Tank 2"), ("Tank 2", "Tank 3"), ("Tank 3", "Tank 1")):
        house.do("fill", source, "--into", into, "--whole")
    drum = house.drum(net="290")
    assert _shares(house, drum) == {"Creek": 1.0}
    _sound(house)


def test_a_part_drum_waits_for_the_next_run(house: Terminal) -> None:
    _load(house, "Creek", "Line", 120)
    house.do("fill", "Tank 1", "--net", "120", "--container", "Drum 1", "--open")
    house.do("wash", "Line", "Sump", "Tank 1")
    _load(house, "Hill", "Line")
    drum = house.given("D", "fill", "Tank 1", "--net", "180", "--container", "Drum 1")
    assert house.json("lot", drum)["made_g"] == 300_000
    assert _shares(house, drum) == {"Creek": 0.4, "Hill": 0.6}
    _sound(house)


def test_a_part_drum_is_bunged_as_it_is(house: Terminal) -> None:
    _load(house, "Creek", "Line", 120)
    house.do("fill", "Tank 1", "--net", "120", "--container", "Drum 1", "--open")
    drum = house.given("D", "bung", "Drum 1")
    assert house.json("lot", drum)["made_g"] == 120_000


def test_a_tote_refilled_unwashed_keeps_its_last_lot(house: Terminal) -> None:
    _load(house, "Creek", "Line")
    tote = house.given("D", "fill", "Tank 1", "--net", "300", "--container", "Tote 1")
    house.do("fill", tote, "--into", "Tank 2", "--whole")
    house.do("wash", "Line", "Sump", "Tank 1")
    _load(house, "Hill", "Line")
    words = ("fill", "Tank 1", "--net", "290", "--container", "Tote 1")
    assert house.refused(*words) == (
        f"Tote 1 held {tote} before. Say whether it was washed since; if not, {tote} stays in "
        "reach."
    )
    again = house.given("D", *words, "--not-washed")
    assert _shares(house, again) == {"Hill": 1.0, "Creek": 0.0}
    assert [row["code"] for row in house.json("lot", again)["in_reach_only"]] == [tote]
    _sound(house)


def test_a_tote_washed_starts_anew(house: Terminal) -> None:
    _load(house, "Creek", "Line")
    tote = house.given("D", "fill", "Tank 1", "--net", "300", "--container", "Tote 1")
    house.do("fill", tote, "--into", "Tank 2", "--whole")
    house.do("wash", "Line", "Sump", "Tank 1")
    _load(house, "Hill", "Line")
    words = ("fill", "Tank 1", "--net", "290", "--container", "Tote 1", "--washed")
    assert _shares(house, house.given("D", *words)) == {"Hill": 1.0}
    _sound(house)
