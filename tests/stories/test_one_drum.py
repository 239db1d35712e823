"""One drum from two runs, topped up, sampled, blended, bottled, scraped back and sold.

A reader who knows the trade follows it in the entries' own sentences, as `lot CODE` prints them.
"""

from pathlib import Path

import pytest

from tests.support.terminal import Terminal


@pytest.fixture
def terminal(tmp_path: Path) -> Terminal:
    """A house to type into."""
    return Terminal(tmp_path).begin()


def _told(terminal: Terminal, code: str) -> list[str]:
    """The sentences of a lot's history, without their times and numbers."""
    lines = terminal.do("lot", code).split("\n\n")[1].splitlines()
    return [line.partition("  ")[2].rpartition(" [entry")[0] for line in lines]


def _run(terminal: Terminal, yard: str, *fill: str) -> tuple[str, str]:
    run = terminal.given("R", "run", "open", "Extractor")
    tag = terminal.given("G", "receive", yard, "20", "--gross", "430", "--tare", "15")
    terminal.do("load", tag, "Extractor", "--run", run)
    return run, terminal.given("D", "fill", "Tank 1", "--container", "Drum 7", *fill, "--run", run)


def test_a_drum_is_followed_from_two_runs_to_the_shop(terminal: Terminal) -> None:
    terminal.do("register", "vessel", "add", "Bottling tank")
    terminal.do(
        *("register", "drum", "add", "Drum 7"),
        *("--tare", "18", "--usual", "290", "--limit", "305"),
    )
    terminal.do("register", "product", "add", "Clover 500", "--net", "500")
    run, first = _run(terminal, "Mill Lane", "--gross", "258")
    terminal.do("run", "close", run, "--operator", "Ann Reed")
    run, drum = _run(terminal, "Long Field", "--net", "45", "--top-up")
    terminal.do("measure", drum, "--moisture", "17.4", "--colour", "32")
    sample = terminal.given("X", "draw-sample", drum, "--net", "0.25", "--kept-at", "shelf 2")
    terminal.do("blend", "Bottling tank", f"{drum}=180", "--plan", f"{drum}=175")
    jars = terminal.given("J", "change-over", "--product", "Clover 500", "--feed", "Bottling tank")
    terminal.do("bottle", jars, "300", "--rejects", "2")
    terminal.do("fill", jars, "--into", "Bottling tank", "--jars", "24")
    terminal.do("label", jars, "276", "--torn", "2")
    case, *_, last = terminal.json("pack", jars, "--jars", "12", "--cases", "20")["codes"]
    terminal.do("dispatch", "Corner Shop", case)
    terminal.do("dispatch", "Corner Shop", drum)
    assert _told(terminal, first) == [
        f"Filled: 240.0 kg of {_fill(terminal, first)}; in drum Drum 7.",
        f"Filled: 240.0 kg into {drum}; its label is void.",
    ]
    assert _told(terminal, drum) == [
        f"Filled: 285.0 kg of {first}, {_fill(terminal, drum)}; in drum Drum 7.",
        "Measured: moisture 17.4 %; colour 32 mm.",
        f"Sampled: 250 g into {sample}.",
        "Blended: 180.0 kg from drum Drum 7 to Bottling tank; 175.0 kg planned.",
        f"Bottled: 180.0 kg into {_fill(terminal, jars)}.",
        "Dispatched: 104.8 kg from drum Drum 7 to Corner Shop; on dispatch note N26-0002-P.",
    ]
    assert _told(terminal, jars) == [
        f"Bottled: 150.0 kg of {_fill(terminal, jars)}; in jar store; 300 jars.",
        "Scraped back: 12.0 kg from jar store to Bottling tank.",
        "Labelled: 276 jars as Clover 500, 2 labels torn.",
        f"Packed: 240 jars in {case} to {last}.",
        "Dispatched: 6.0 kg from jar store to Corner Shop; 12 jars; on dispatch note N26-0001-R.",
    ]
    assert [row["name"] for row in terminal.json("trace", jars)["yards"]] == [
        "Mill Lane",
        "Long Field",
    ]
    assert all(row["holds"] for row in terminal.json("audit")["invariants"])


def _fill(terminal: Terminal, code: str) -> str:
    """The tank fill a lot was made of, by its trace."""
    parents = [row["code"] for row in terminal.json("trace", code)["lots"] if row["kind"] == "T"]
    return max(parents)
