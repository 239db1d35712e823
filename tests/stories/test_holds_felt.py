"""A hold on a yard is felt wherever its honey is worked on, with the way by which it comes."""

from pathlib import Path

import pytest

from tests.support.terminal import Terminal

BY_NAME = ("--despite-hold", "kept apart", "--operator", "Ann Reed")
ASKED = "It can go on only if a named person says why."


@pytest.fixture
def held(tmp_path: Path) -> tuple[Terminal, str]:
    """A drum of Mill Lane's honey, more of it in the tank and at the door; then it is held."""
    terminal = Terminal(tmp_path).begin()
    terminal.do("register", "vessel", "add", "Blender", "--sort", "tank")
    terminal.do("load", terminal.pallet(), "Extractor")
    drum = terminal.drum()
    terminal.do("hold", "Mill Lane", "--reason", "residue test")
    return terminal, drum


def test_at_loading_filling_blending_bottling_and_dispatch(held: tuple[Terminal, str]) -> None:
    terminal, drum = held
    pallet = terminal.pallet()
    start = ("change-over", "--product", "Summer 500", "--feed", drum)
    # What is worked on, the words, and the way: the pull itself has none but its yard.
    for words, way in (
        (("load", pallet, "Extractor"), ""),
        (("fill", "Tank 1", "--net", "20"), "S26-"),
        (("blend", "Blender", f"{drum}=20"), "S26-"),
        (start, "S26-"),
    ):
        said = terminal.refused(*words)
        assert " is on hold through Mill Lane" in said, words
        assert said.endswith(f": residue test. {ASKED}"), words
        assert (f", by way of {way}" in said) is bool(way), words
        terminal.do(*words, *BY_NAME)
    said = terminal.refused("dispatch", "Corner Shop", drum)
    assert said.startswith(f"{drum} is on hold through Mill Lane, by way of S26-")
    assert said.endswith(": residue test. Put it aside, or have it cleared by name.")
