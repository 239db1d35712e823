"""By-products in the terminal: from cappings to wax, from supers to comb and chunk honey."""

import pytest

from tests.support.terminal import Terminal


@pytest.fixture
def house(terminal: Terminal) -> Terminal:
    for name in ("Drainer", "Melter"):
        terminal.do("register", "vessel", "add", name)
    terminal.do("register", "product", "add", "Cut comb", "--net", "340")
    terminal.do("register", "product", "add", "Chunk", "--net", "450")
    return terminal


def _melted(house: Terminal) -> dict[str, str]:
    """What a barrel of cappings was melted into: codes by what they are."""
    house.do("load", house.pallet(gross="500"), "Extractor")
    barrel = house.given("W", "cappings", "Extractor", "40")
    house.do("fill", barrel, "--into", "Melter", "--whole")
    house.do("melt", "Melter", "--wax", "11", "--honey", "28", "--temperature", "72")
    rows = house.json("stock", "--kind", "W")
    return {house.json("lot", row["code"])["facts"]["sort"]: row["code"] for row in rows}


def test_wax_and_melter_honey(house: Terminal) -> None:
    made = _melted(house)
    assert set(made) == {"wax", "melter honey"}
    honey = made["melter honey"]
    house.do("fill", honey, "--into", "Drainer", "--whole")
    drum = house.drum(source="Drainer", net="28")
    assert house.json("lot", drum)["heated"] == [honey]
    assert f"heated: {honey}" in house.do("lot", drum)
    shown = house.do("lot", made["wax"])
    assert f"{made['wax']}, wax, 11.0 kg made" in shown
    assert "  melter: Melter\n  sort: wax\n  temperature: 72.0 °C\n" in shown
    assert "heated: itself" in shown
    assert "Heated: " + honey in house.do("trace", drum)
    assert house.json("trace", drum)["heated"] == [honey]


def test_comb_is_cut_and_chunk_honey_made(house: Terminal) -> None:
    tag = house.pallet(supers="10", gross="175")
    comb = house.given(
        *("K", "cut", tag, "240", "--net", "81.6", "--product", "Cut comb", "--drained", "10"),
        *("--into", "Drainer", "--trimmings", "6", "--rejects", "1"),
    )
    assert "240 pieces" in house.do("lot", comb)
    assert [row["where"] for row in house.json("stock", "--kind", "K")] == ["jar store"]
    chunk = house.given(
        "K", "chunk", "Chunk", "20", "--comb", comb, "--pieces", "10", "--from", "Drainer"
    )
    assert house.json("lot", chunk)["made_g"] == 9_000
    assert "20 jars" in house.do("lot", chunk)
    assert house.json("mass-balance", comb)["gap_g"] == 0
    said = house.do("dispatch", "Corner Shop", f"{comb}=30")
    assert comb in house.do("trace", comb, "--forward")
    assert said


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("melt", "Melter"), "Weigh what came out of the melter: wax, honey or residue."),
        (("melt", "Pot", "--wax", "3"), "There is no vessel called Pot"),
        (("cut", "G26-0009-X", "240", "--net", "80"), "G26-0009-X"),
        (("cut", "G26-0009-X", "some", "--net", "80"), "some is not a whole number"),
        (
            ("chunk", "Chunk", "20", "--comb", "K26-0001-3", "--pieces", "9", "--from", "Tank 1"),
            "K26-0001-3",
        ),
    ],
)
def test_what_cannot_be_is_refused(house: Terminal, words: tuple[str, ...], said: str) -> None:
    assert said in house.refused(*words)


@pytest.mark.parametrize("words", ["melt", "cut", "chunk"])
def test_the_help_has_an_example_and_says_how_to_undo(bare: Terminal, words: str) -> None:
    shown = bare.do(words, "--help")
    assert f"Example: honeyledger {words} " in shown
    assert "Undo: reverse the entry" in shown


def test_melting_warns_of_fire_in_its_help(bare: Terminal) -> None:
    assert "never over an open flame" in " ".join(bare.do("melt", "--help").split())
