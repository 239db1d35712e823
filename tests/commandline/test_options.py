"""Options of every command: before it or behind it, and what stands behind counts."""

import json

import pytest

from tests.support.engines import SITE
from tests.support.terminal import Terminal


def test_options_may_stand_before_the_command(terminal: Terminal) -> None:
    done = terminal.type("--json", "--unit", "lb", "receive", "Mill Lane", "1", "--gross", "100")
    assert json.loads(done.out)["lots"][0]["made_g"] == 45_359 - 15_000 - 6_000


def test_what_stands_behind_counts(terminal: Terminal) -> None:
    done = terminal.type("--station", "a", "receive", "Mill Lane", "2", "--station", "b")
    assert done.code == 0
    assert terminal.json("entries", "--last", "1")["entries"][0]["station"] == "b"


def test_a_house_may_be_named(terminal: Terminal) -> None:
    other = SITE.address(terminal.folder / "other.honeyledger")
    terminal.do("new", "--house", other, "--name", "Other")
    assert terminal.json("register", "house", "list", "--house", other)["houses"][0]["name"] == (
        "Other"
    )
    assert terminal.json("--house", other, "stock") == []


def test_help_names_the_shared_options_apart(terminal: Terminal) -> None:
    shown = terminal.do("receive", "--help")
    own, shared = shown.split("For every command:")
    assert "--gross WEIGHT" in own
    assert "--operator WHO" in shared
    assert "--operator" not in terminal.do("stock", "--help")


def test_a_figure_below_zero_is_no_option(terminal: Terminal) -> None:
    assert "below zero" in terminal.refused("skim", "Tank 1", "-2,5")
    done = terminal.type("skim", "Tank 1", "--quick")
    assert (done.code, done.out) == (2, "")
    assert done.err.startswith("No such option '--quick'")


@pytest.mark.sqlite("a server's house is in no folder")
def test_every_recording_command_warns_once_of_a_bad_place(bare: Terminal) -> None:
    (bare.folder / ".stfolder").mkdir()
    begun = bare.type("new", "--zone", "UTC")
    assert begun.err.count("Note: The house is in") == 1
    for words in (
        ("register", "yard", "add", "Mill Lane"),
        ("receive", "Mill Lane", "10", "--json"),
        ("upkeep", "rebuild"),
    ):
        done = bare.type(*words)
        assert (done.code, done.err) == (0, begun.err)
    assert bare.type("stock").err == ""


def test_a_time_that_is_none_is_refused_by_a_question_too(terminal: Terminal) -> None:
    assert "nonsense" in terminal.refused("--at", "nonsense", "stock")
    assert terminal.json("--at", "24 Jul 2026 08:00", "stock") == []
