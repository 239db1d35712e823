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


def _register(terminal: Terminal) -> None:
    terminal.do("register", "vessel", "add", "Bottling tank")
    terminal.do(
        *("register", "drum", "add", "Drum 7"),
        *("--tare", "18", "--usual", "290", "--limit", "305"),
    )
    terminal.do("register", "product", "add", "Clover 500", "--net", "500")
    terminal.do("register", "customer", "add", "Packer")


def _run(terminal: Terminal, yard: str, *fill: str) -> str:
    run = terminal.given("R", "run", "open", "Extractor")
    tag = terminal.given("G", "receive", yard, "20", "--gross", "430", "--tare", "15")
    terminal.do("load", tag, "Extractor", "--run", run)
    terminal.do("fill", "Tank 1", "--container", "Drum 7", *fill, "--open", "--run", run)
    terminal.do("run", "close", run, "--operator", "Ann Reed")
    return run


def test_a_drum_is_followed_from_two_runs_to_the_shop(terminal: Terminal) -> None:
    _register(terminal)
    run = _run(terminal, "Mill Lane", "--gross", "168")
    second = _run(terminal, "Long Field", "--net", "90")
    first = terminal.given("D", "bung", "Drum 7")
    drum = terminal.given(
        "D", "fill", "Tank 1", "--container", "Drum 7", "--net", "45", "--top-up"
    )
    terminal.do("measure", drum, "--moisture", "17.4", "--colour", "32")
    sample = terminal.given("X", "draw-sample", drum, "--net", "0.25", "--customer", "Packer")
    terminal.do("approve", sample, "--reference", "LR 12")
    terminal.do("warm", drum, "--temperature", "42", "--hours", "24", "--why", "liquefying")
    terminal.do("blend", "Bottling tank", f"{drum}=180", "--plan", f"{drum}=175")
    jars = terminal.given("J", "change-over", "--product", "Clover 500", "--feed", "Bottling tank")
    terminal.do("bottle", jars, "300", "--rejects", "2")
    terminal.do("fill", jars, "--into", "Bottling tank", "--jars", "24")
    terminal.do(
        *("label", jars, "276", "--torn", "1", "--roll", "1000", "1276"),
        *("--seals", "S0001", "S0276"),
    )
    case, *_, last = terminal.json("pack", jars, "--jars", "12", "--cases", "20")["codes"]
    terminal.do("dispatch", "Corner Shop", case)
    terminal.do("complaint", jars, "tastes of smoke", "--who", "Mrs. Pike", "--day", "23 Jul")
    terminal.do(
        *("dispatch", "Packer", drum, "--carrier", "Hill Haulage", "--vehicle", "HH 12"),
        *("--contract", "C 77", "--reference", "PO 8", "--freight-container", "flexi 4"),
        *("--seal", "S 1", "--seal", "S 2"),
    )
    terminal.do("buyers-weight", drum, "--net", "104.5", "--reference", "W 9")
    fills = _fills(terminal, first)[1::2]  # the line has fills of its own
    assert _told(terminal, first) == [
        f"Filled: 150.0 kg of {fills[0]} into Drum 7, which stayed open; in run {run}.",
        f"Filled: 90.0 kg of {fills[1]} into Drum 7, which stayed open; in run {second}.",
        f"Closed: 240.0 kg of {fills[0]} (150.0 kg) and {fills[1]} (90.0 kg) into Drum 7.",
        f"Filled: 240.0 kg into {drum}; its label is void.",
    ]
    assert _told(terminal, drum) == [
        f"Filled: 285.0 kg of {fills[1]} (45.0 kg) and {first} (240.0 kg) into Drum 7.",
        "Measured: moisture 17.4 %; colour 32 mm.",
        f"Sampled: 250 g into {sample}; sample {sample} is for Packer.",
        f"Judged: Packer approved sample {sample}.",
        "Warmed: 24 h, up to 42.0 °C (liquefying).",
        "Blended: 180.0 kg from Drum 7 to Bottling tank; 175.0 kg planned.",
        f"Bottled: 180.0 kg into {_fills(terminal, jars)[-1]}.",
        "Dispatched: 104.8 kg from Drum 7 to Packer; on dispatch note N26-0002-P, carried by Hill "
        "Haulage, vehicle HH 12, freight container flexi 4, seals S 1 and S 2, contract C 77, "
        "their order PO 8.",
        "Weighed by the buyer: 250 g less with Packer than the books saw; 104.5 kg on the buyer's "
        "scale (W 9).",
    ]
    assert _told(terminal, jars) == [
        f"Bottled: 150.0 kg of {_fills(terminal, jars)[-1]} into the jar store; 300 jars.",
        "Scraped back: 24 jars, 12.0 kg from the jar store to Bottling tank.",
        "Labelled: 276 jars as Clover 500, roll 1000 to 1276, 1 label torn, lid seals S0001 to "
        "S0276.",
        f"Packed: 240 jars in {case} to {last}.",
        "Dispatched: 12 jars, 6.0 kg from the jar store to Corner Shop; on dispatch note "
        "N26-0001-R.",
        "Complaint: tastes of smoke, said by Mrs. Pike, on 23 Jul 2026.",
    ]
    assert [row["name"] for row in terminal.json("trace", jars)["yards"]] == [
        "Mill Lane",
        "Long Field",
    ]
    assert all(row["holds"] for row in terminal.json("audit")["invariants"])


def _fills(terminal: Terminal, code: str) -> list[str]:
    """The tank fills a lot was made of, by its trace, oldest first."""
    rows = [row["code"] for row in terminal.json("trace", code)["lots"] if row["kind"] == "T"]
    return sorted(rows)
