"""Dispatch: whole lots, some jars or a weight; what comes back; what is thrown away."""

import pytest

from tests.support.terminal import Terminal


@pytest.fixture
def drum(terminal: Terminal) -> tuple[Terminal, str]:
    """A drum of 150 kg."""
    terminal.do("load", terminal.pallet(), "Extractor")
    return terminal, terminal.drum()


@pytest.fixture
def jars(drum: tuple[Terminal, str]) -> tuple[Terminal, str]:
    """A jar lot of 240 jars of 500 g."""
    terminal, code = drum
    lot = terminal.given("J", "change-over", "--product", "Summer 500", "--feed", code)
    terminal.do("bottle", lot, "240")
    return terminal, lot


def test_a_drum_and_some_jars_go_out_on_one_note(jars: tuple[Terminal, str]) -> None:
    terminal, lot = jars
    drum = terminal.drum()
    words = ("dispatch", "Corner Shop", drum, f"{lot}=100", "--carrier", "Own van")
    assert terminal.json(*words)["codes"][0][0] == "N"
    forward = terminal.json("trace", "Mill Lane", "--forward")
    (customer,) = forward["customers"]
    assert (customer["name"], customer["grams"], customer["jars"]) == (
        "Corner Shop",
        200_000,
        100,
    )
    assert sorted(customer["lots"]) == sorted([drum, lot])
    assert forward["on_hand_g"] == 341_000 - 200_000


def test_comb_goes_by_the_piece(terminal: Terminal) -> None:
    terminal.do("register", "product", "add", "Cut comb", "--net", "340g")
    tag = terminal.given("G", "receive", "Mill Lane", "10", "--gross", "230", "--tare", "15")
    comb = terminal.given("K", "cut", tag, "240", "--net", "81.6", "--product", "Cut comb")
    terminal.do("dispatch", "Corner Shop", f"{comb}=10")
    terminal.do("discard", f"{comb}=5", "--reason", "crushed")
    terminal.do("take-back", "Corner Shop", f"{comb}=2", "--reason", "leaks")
    places = {row["where"]: row["pieces"] for row in terminal.json("lot", comb)["places"]}
    assert places == {"Corner Shop": 8, "discarded": 5, "jar store": 227}
    assert terminal.refused("discard", comb, "--net", "3", "--reason", "crushed") == (
        f"{comb} is counted in pieces: say how many pieces."
    )


def test_part_of_a_drum_goes_by_weight(drum: tuple[Terminal, str]) -> None:
    terminal, code = drum
    terminal.do("dispatch", "gate", f"{code}=12,5")
    rows = terminal.json("mass-balance", code)["places"]
    assert {row["name"]: row["grams"] for row in rows} == {
        f"drum {code}": 137_500,
        "farm gate, 24 Jul 2026": 12_500,
    }


def test_what_comes_back_and_what_is_thrown_away(jars: tuple[Terminal, str]) -> None:
    terminal, lot = jars
    terminal.do("dispatch", "Corner Shop", f"{lot}=100")
    words = ("take-back", "Corner Shop", lot, "--jars", "10", "--reason", "dented lids")
    assert f"  {lot}  5.0 kg came back in 10 jars" in terminal.do(*words).splitlines()
    terminal.do("discard", lot, "--jars", "10", "--reason", "dented lids")
    rows = terminal.json("mass-balance", lot)["places"]
    assert {row["name"]: row["pieces"] for row in rows} == {
        "Corner Shop": 90,
        "jar store": 140,
        "discarded": 10,
    }


def test_all_that_a_customer_had_comes_back(drum: tuple[Terminal, str]) -> None:
    terminal, code = drum
    terminal.do("dispatch", "Corner Shop", code)
    words = ("take-back", "Corner Shop", code, "--reason", "leaked")
    done = terminal.json(*words)
    assert done["came_back"] == [{"code": code, "grams": 150_000, "jars": 0}]


def test_jars_by_the_case(jars: tuple[Terminal, str]) -> None:
    terminal, lot = jars
    terminal.do("dispatch", "Corner Shop", f"{lot}=10x12")
    terminal.do("take-back", "Corner Shop", lot, "--jars", "2 x 12", "--reason", "unsold")
    rows = terminal.json("mass-balance", lot)["places"]
    assert {row["name"]: row["pieces"] for row in rows} == {"Corner Shop": 96, "jar store": 144}
    assert terminal.refused("dispatch", "Corner Shop", f"{lot}=1,5") == (
        "1,5 is not a whole number: type a number of jars, such as 24."
    )


def test_more_jars_than_there_are(jars: tuple[Terminal, str]) -> None:
    terminal, lot = jars
    assert terminal.refused("dispatch", "Corner Shop", f"{lot}=241") == (
        f"There are 240 jars of {lot} here, not 241. Count again."
    )


def test_nothing_held_goes_out(drum: tuple[Terminal, str]) -> None:
    terminal, code = drum
    terminal.do("hold", "Mill Lane", "--reason", "residue test")
    said = terminal.refused("dispatch", "Corner Shop", code)
    assert said.startswith(f"{code} is on hold through Mill Lane, by way of S26-")


def test_it_takes_a_reason_and_a_customer_who_had_it(drum: tuple[Terminal, str]) -> None:
    terminal, code = drum
    assert terminal.refused("discard", code) == "Give the reason in a word or two."
    said = terminal.refused("take-back", "Corner Shop", code, "--reason", "x")
    assert said.startswith(f"Corner Shop has nothing of {code}")


def test_a_trucks_papers_and_a_load_that_comes_back(jars: tuple[Terminal, str]) -> None:
    terminal, lot = jars
    drum = terminal.drum(net="100")
    words = ("dispatch", "Corner Shop", drum, f"{lot}=100", "--contract", "C 4", "--seal", "1")
    note = terminal.given("N", *words, "--seal", "2", "--title-to", "Corner Shop")
    assert terminal.json("lot", drum)["facts"]["owner"].startswith("Corner Shop, since")
    assert terminal.refused("take-back", "Corner Shop", drum, lot, "--jars", "5") == (
        "Of several lots put each amount behind its code, such as J26-0001-X=120."
    )
    back = ("take-back", "Corner Shop", drum, f"{lot}=30", "--reason", "wet")
    assert terminal.json(*back)["came_back"] == [
        {"code": drum, "grams": 100_000, "jars": 0},
        {"code": lot, "grams": 15_000, "jars": 30},
    ]
    rest = terminal.json("take-back", "Corner Shop", note, "--reason", "all of it")
    assert rest["came_back"] == [{"code": lot, "grams": 35_000, "jars": 70}]


def test_what_is_thrown_away_is_said_behind_its_code_or_by_an_option(terminal: Terminal) -> None:
    terminal.do("load", terminal.pallet(gross="500"), "Extractor")
    drum = terminal.drum(net="300")
    terminal.do("discard", f"{drum}=50", "--reason", "spilt")
    terminal.do("discard", drum, "--net", "20", "--reason", "spilt")
    assert [row["grams"] for row in terminal.json("stock") if row["code"] == drum] == [230_000]
    assert terminal.refused("discard", f"{drum}=50", "--net", "50", "--reason", "spilt") == (
        f"How much of {drum} is said twice: write it once, behind the code."
    )
