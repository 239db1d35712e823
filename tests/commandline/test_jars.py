"""Cases, labels put on later and complaints, in the terminal."""

import pytest

from tests.support.terminal import Terminal


@pytest.fixture
def jars(terminal: Terminal) -> tuple[Terminal, str]:
    """100 jars of one lot."""
    terminal.do("load", terminal.pallet(), "Extractor")
    terminal.do("register", "product", "add", "Clover 500", "--net", "500")
    code = terminal.given("J", "change-over", "--product", "Clover 500", "--feed", "Tank 1")
    terminal.do("bottle", code, "100")
    return terminal, code


def test_cases_are_packed_unpacked_and_sent(jars: tuple[Terminal, str]) -> None:
    terminal, code = jars
    terminal.do("register", "customer", "add", "Shop")
    first, second = terminal.json("pack", code, "--jars", "12", "--cases", "2")["codes"]
    terminal.do("unpack", second, "--reason", "one was broken")
    pallet = terminal.given("L", "pack", first)
    terminal.do("dispatch", "Shop", pallet)
    forward = terminal.json("trace", code, "--forward")
    assert [(row["name"], row["jars"]) for row in forward["customers"]] == [("Shop", 12)]


def test_labels_are_put_on_later(jars: tuple[Terminal, str]) -> None:
    terminal, code = jars
    said = terminal.do(
        *("label", code, "60", "--torn", "2", "--roll", "1", "65", "--seals", "7", "66"),
    )
    assert "3 too many" in said
    assert "40 are left without a label" in terminal.refused("label", code, "41")


def test_a_complaint_shows_the_trace_of_its_jar(jars: tuple[Terminal, str]) -> None:
    terminal, code = jars
    assert terminal.do("complaints") == "There are no complaints.\n"
    taken = terminal.json("complaint", code, "not full [x]", "--who", "Orla")["entries"][0]
    (row,) = terminal.json("complaints", code)["complaints"]
    assert (row["number"], row["lot"], row["what"]) == (taken, code, "not full [x]")
    assert [one["name"] for one in row["trace"]] == ["Mill Lane"]
    terminal.do("complaint", code, "not full", "--answer", "replaced", "--completes", str(taken))
    shown = terminal.do("complaints")
    assert "replaced" in shown
    assert "Mill Lane 100.0 %" in shown
