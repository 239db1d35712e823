"""Measuring: readings and results, instruments calibrated, and those found off."""

import pytest

from tests.support.terminal import Terminal


@pytest.fixture
def drum(terminal: Terminal) -> tuple[Terminal, str]:
    """A drum of 150 kg; 191 kg stay in the tank."""
    terminal.do("load", terminal.pallet(), "Extractor")
    return terminal, terminal.drum()


def test_readings_stand_on_the_card(drum: tuple[Terminal, str]) -> None:
    terminal, code = drum
    terminal.do("measure", code, "--moisture", "17,4", "--colour", "34", "--temperature", "24.5")
    card = terminal.json("lot", code)
    assert (card["moisture"], card["colour"], card["temperature"]) == (1740, 340, 245)
    shown = terminal.do("lot", code)
    assert "moisture: 17.4 %" in shown
    assert "Measured: moisture 17.4 %; colour 34 mm; temperature 24.5 °C." in shown


def test_an_instrument_found_off_lists_its_readings_with_corrected_values(
    drum: tuple[Terminal, str],
) -> None:
    terminal, code = drum
    terminal.do("register", "equipment", "add", "Refractometer 2", "--sort", "refractometer")
    off = ("in-doubt", "Refractometer 2", "--known", "18.0", "--read", "17.6")
    assert terminal.do(*off) == (
        "No reading with Refractometer 2 is in doubt.\n"
        "Refractometer 2 was never found right before.\n"
    )
    terminal.do("measure", code, "--moisture", "17.4", "--instrument", "Refractometer 2")
    terminal.do("measure", code, "--moisture", "17.3")
    answer = terminal.json(*off)
    assert [(row["code"], row["value"], row["corrected"]) for row in answer["readings"]] == [
        (code, 1_740, 1_780)
    ]
    assert (answer["since"], answer["unnamed"]) == (None, 1)
    shown = terminal.do(*off)
    assert f"{code}  " in shown
    assert "17.8 %" in shown
    assert shown.endswith("Readings of that time that name no instrument: 1.\n")
    terminal.now_ms += 60_000
    terminal.do("check", "Refractometer 2", "oil 18.0")
    after = terminal.json(*off)
    assert (after["readings"], after["unnamed"]) == ([], 0)
    assert "Refractometer 2 was last found right on " in terminal.do(*off)


def test_a_refractometers_figure_becomes_a_moisture(drum: tuple[Terminal, str]) -> None:
    terminal, code = drum
    shown = terminal.do("measure", code, "--shown", "1.4900", "--read-at", "25")
    assert "That is 18.14 % of water." in shown
    assert terminal.json("lot", code)["moisture"] == 1_814
    terminal.do("measure", code, "--shown", "81.4", "--scale", "honey", "--corrected")
    assert terminal.json("lot", code)["moisture"] == 1_860


def test_results_of_a_laboratory_are_kept_as_reported(drum: tuple[Terminal, str]) -> None:
    terminal, code = drum
    said = ("--laboratory", "Prairie Bench", "--report", "26-118", "--sampled", "today")
    terminal.do("measure", code, "hmf=<5", "diastase = 18,4", "yeast=1 200", *said)
    assert terminal.refused("measure", code, "hmf") == (
        "hmf is no result: write what was measured and the result, as hmf=<5."
    )
    assert terminal.refused("measure", code, "hmf=some") == (
        "some is no result: type a figure such as 12.4, <5, >30, or not detected."
    )


def test_calibrations_on_record_list_what_is_in_doubt(drum: tuple[Terminal, str]) -> None:
    terminal, code = drum
    assert terminal.do("in-doubt") == "No instrument was found off.\n"
    terminal.do("register", "equipment", "add", "Colour meter")
    meter = ("Colour meter", "--of", "colour", "--known", "34")
    terminal.do("calibrate", *meter, "--read", "34")
    terminal.now_ms += 60_000
    terminal.do("measure", code, "--colour", "36", "--instrument", "colour meter")
    terminal.now_ms += 60_000
    off = terminal.do("calibrate", *meter, "--read", "38", "--against", "glass 34")
    assert "is shown with its corrected value." in off
    (found,) = terminal.json("in-doubt", "Colour meter")["instruments"]
    assert (found["of"], [(row["code"], row["corrected"]) for row in found["readings"]]) == (
        "colour",
        [(code, 320)],
    )
    shown = terminal.do("in-doubt")
    assert "36 mm" in shown
    assert "32 mm" in shown
    assert terminal.refused("in-doubt", "Colour meter", "--known", "34") == (
        "Say the instrument, what it should read and what it reads, or none of it."
    )
