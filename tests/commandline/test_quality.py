"""Quality: readings, samples, holds with what they reach, clearing and releasing by name."""

import pytest

from tests.support.terminal import Terminal

KINDS = ("vessel", "drum")


@pytest.fixture
def drum(terminal: Terminal) -> tuple[Terminal, str]:
    """A drum of 150 kg; 191 kg stay in the tank."""
    terminal.do("load", terminal.pallet(), "Extractor")
    return terminal, terminal.drum()


def test_a_sample_leaves_the_drum(drum: tuple[Terminal, str]) -> None:
    terminal, code = drum
    sample = terminal.given("X", "draw-sample", code, "--net", "0,25", "--kept-at", "shelf 2")
    assert terminal.json("mass-balance", code)["later"] == [
        {"code": sample, "name": "", "grams": 250, "pieces": 0}
    ]


def test_a_hold_reaches_what_was_made_and_is_cleared_and_released(
    drum: tuple[Terminal, str],
) -> None:
    terminal, code = drum
    terminal.do("hold", "Mill Lane", "--reason", "residue [test]", "--from", "1 Jul")
    (row,) = terminal.json("holds")["holds"]
    assert (row["name"], row["from"], row["grams"]) == ("Mill Lane", "2026-07-01", 341_000)
    assert code in row["lots"]
    assert "residue [test]" in terminal.do("holds")
    assert {one["held"] for one in terminal.json("stock")} == {True}
    ann = ("--operator", "Ann Reed")
    terminal.do("clear", code, "--hold", "Mill Lane", "--result", "nothing found", *ann)
    held = {one["code"]: one["held"] for one in terminal.json("stock")}
    assert held[code] is False
    assert any(held.values())
    terminal.do("release", row["hold"], "--reason", "laboratory says no", *ann)
    assert terminal.do("holds") == "Nothing is on hold.\n"


def test_a_name_that_a_yard_a_vessel_and_a_drum_have_is_asked_about(terminal: Terminal) -> None:
    yard = terminal.given("Y", "register", "yard", "add", "North")
    vessel, drum = (terminal.given("E", "register", one, "add", "North") for one in KINDS)
    assert terminal.refused("hold", "north", "--reason", "smell") == (
        f"north is a yard ({yard}), a vessel ({vessel}) and a container ({drum}): "
        "say by its code which is meant."
    )
    assert terminal.refused("fill", "North", "--net", "100") == (
        f"North is a vessel ({vessel}) and a container ({drum}): say by its code which is meant."
    )
    terminal.do("hold", yard, "--reason", "smell")
    (row,) = terminal.json("holds")["holds"]
    assert row["target"] == yard


def test_only_a_named_person_clears_and_releases(drum: tuple[Terminal, str]) -> None:
    terminal, code = drum
    terminal.do("hold", code, "--reason", "smell")
    said = "Say who signs: scan a badge, or name a person who works here."
    assert terminal.refused("release", code, "--reason", "fine") == said
    assert terminal.refused("clear", code, "--hold", code, "--result", "fine") == said


def test_where_two_people_free_a_hold_the_second_is_named(drum: tuple[Terminal, str]) -> None:
    terminal, code = drum
    terminal.do("register", "operator", "add", "Bo Lind")
    terminal.do("register", "house", "change", "--two-free", "yes")
    terminal.do("hold", "Mill Lane", "--reason", "smell")
    ann, bo = ("--operator", "Ann Reed"), ("--second", "Bo Lind")
    for words in (
        ("clear", code, "--hold", "Mill Lane", "--result", "fine", *ann),
        ("release", "Mill Lane", "--reason", "fine", *ann),
    ):
        assert terminal.refused(*words) == (
            "In this house two people free what is on hold: name the second one, who agrees."
        )
        assert terminal.refused(*words, "--second", "Ann Reed") == (
            "Ann Reed signs already: the second person has to be somebody else."
        )
        terminal.do(*words, *bo)
    assert terminal.do("holds") == "Nothing is on hold.\n"


def test_held_honey_goes_on_only_with_a_name_and_a_reason(drum: tuple[Terminal, str]) -> None:
    terminal, code = drum
    terminal.do("hold", code, "--reason", "smell")
    words = ("fill", code, "--into", "Tank 1", "--whole")
    assert "It can go on only if a named person says why." in terminal.refused(*words)
    done = terminal.json(*words, "--despite-hold", "to be melted", "--operator", "Ann Reed")
    assert "went-on-despite-hold" in [note["key"] for note in done["notes"]]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "Type at least one reading: moisture, colour, temperature."),
        (("--moisture", "174"), "174 cannot be a moisture: type a figure from 0 to 100 %."),
        (("--moisture", "60"), "A moisture of 60.0 % cannot be right for honey. Read it again."),
        (("--colour", "amber"), "amber is not a Pfund reading"),
    ],
)
def test_a_reading_that_cannot_be(
    drum: tuple[Terminal, str], words: tuple[str, ...], said: str
) -> None:
    terminal, code = drum
    assert said in terminal.refused("measure", code, *words)
