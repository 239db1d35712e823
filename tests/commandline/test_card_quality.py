"""A lot's quality on its card in the terminal."""

import pytest

from tests.support.terminal import Terminal


@pytest.fixture
def drum(terminal: Terminal) -> tuple[Terminal, str]:
    """A drum of 150 kg; 191 kg stay in the tank."""
    terminal.do("load", terminal.pallet(), "Extractor")
    return terminal, terminal.drum()


def test_a_card_tells_readings_keeping_heat_and_rules(drum: tuple[Terminal, str]) -> None:
    terminal, code = drum
    terminal.do("register", "equipment", "add", "Refractometer 2")
    with_it = ("--instrument", "Refractometer 2")
    for moisture in ("18.4", "18.4", "18.5", "18.3", "18.4", "20.1"):
        terminal.do("measure", code, "--moisture", moisture, *with_it)
        terminal.now_ms += 60_000
    terminal.do("calibrate", "Refractometer 2", "--known", "18.0", "--read", "17.6")
    report = ("--laboratory", "Prairie Bench", "--report", "26-118", "--sampled", "today")
    terminal.do("measure", code, "hmf=<5", "diastase=7", "yeast=11", "--colour", "34", *report)
    terminal.now_ms += 60_000
    terminal.do("warm", code, "--temperature", "50", "--minutes", "2880")
    shown = terminal.do("lot", code)
    for line in (
        "moisture: 20.1 % (Refractometer 2, ",
        "in doubt: Refractometer 2 was found off; it would be 20.5 % (in-doubt)",
        "6 readings: mean 18.68 %, spread 0.7 %",
        "20.1 % does not belong; without it 18.4 %",
        "HMF: <5 mg/kg (Prairie Bench, report 26-118, sampled ",
        "keeping: ferments, 11 /g of yeast: may ferment (by a table seen at second hand",
        "colour class: White",
        "air: in balance at 63 %",
        "heat: HMF now 6.0 to 20.0 mg/kg, diastase 5.",
        "(a band for choosing what to have measured; it certifies nothing)",
        "Composition of honey, European Union: ",
    ):
        assert line in shown, line
    quality = terminal.json("lot", code)["quality"]
    assert [row["result"] for row in quality["readings"] if row["what"] == "hmf"] == ["<5"]
    assert quality["readings"][0]["corrected"] == 1_880
    assert quality["keeps"] == {"class": "ferments", "a_year": False}
    assert quality["heat"]["hmf"] == [6.0, 20.0]
    assert {row["name"] for row in quality["limits"]} >= {"eu", "codex"}


def test_a_card_of_what_nobody_has_read_says_nothing_of_it(drum: tuple[Terminal, str]) -> None:
    terminal, code = drum
    assert "quality" not in terminal.do("lot", code)
    quality = terminal.json("lot", code)["quality"]
    assert (quality["readings"], quality["heat"], quality["limits"]) == ([], None, [])
