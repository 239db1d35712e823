"""A drum list on the screen, as a table and on paper."""

import csv
from pathlib import Path

import pypdfium2
import pytest

from tests.support import printing
from tests.support.terminal import Terminal


@pytest.fixture
def note(terminal: Terminal) -> tuple[Terminal, str, list[str]]:
    """Two drums on a dispatch note, one still in the house."""
    terminal.do("load", terminal.pallet(), "Extractor")
    terminal.do("register", "drum", "add", "Blue 1", "--tare", "17", "--usual", "100")
    drums = [terminal.drum("--container", "Blue 1", net="100")]
    drums += [terminal.drum(net="100"), terminal.drum(net="100")]
    words = ("dispatch", "Corner Shop", *drums[:2], "--contract", "C 4", "--seal", "7")
    more = ("--seal", "8", "--vehicle", "KLR 114", "--freight-container", "CSQU3054383")
    code = terminal.given("N", *words, *more)
    return terminal, code, drums


def test_on_the_screen(note: tuple[Terminal, str, list[str]]) -> None:
    terminal, code, drums = note
    lines = terminal.do("drum-list", code).splitlines()
    assert lines[:6] == [
        f"Of: {code}",
        "To: Corner Shop",
        "Contract: C 4",
        "Vehicle: KLR 114",
        "Freight container: CSQU3054383",
        "Seals: 7, 8",
    ]
    assert lines[7].split() == f"{drums[0]} Blue 1 117.0 kg 17.0 kg 100.0 kg".split()
    assert lines[-1].split() == ["2", "in", "all", "200.0", "kg"]
    assert [row["code"] for row in terminal.json("drum-list")["drums"]] == [drums[2]]
    answer = terminal.json("drum-list", code)
    assert (answer["net_g"], answer["gross_g"], answer["told"]["Seals"]) == (200_000, None, "7, 8")


def test_a_weight_to_follow_is_not_added_up(terminal: Terminal) -> None:
    terminal.do("load", terminal.pallet(), "Extractor")
    terminal.do("fill", "Tank 1", "--to-follow")
    lines = terminal.do("drum-list").splitlines()
    assert "to follow" in lines[1]
    assert lines[2].split() == ["1", "in", "all", "some", "to", "follow"]


def test_into_files(note: tuple[Terminal, str, list[str]]) -> None:
    terminal, code, drums = note
    pdf, table = terminal.folder / "drums.pdf", terminal.folder / "drums.csv"
    assert terminal.do("drum-list", code, "-o", str(pdf)) == f"2 drums: {pdf}\n"
    with pypdfium2.PdfDocument(pdf) as document:
        width, height = document[0].get_size()
        text = document[0].get_textpage().get_text_bounded().replace("-\r\n", "-")
    assert (round(width), round(height)) == (595, 842)  # A4 in points
    assert all(drum in text for drum in drums[:2])
    done = terminal.json("drum-list", code, "-o", str(pdf), "--copies", "2")
    assert (done["reprint"], len(done["entries"])) == (1, 1)
    said = printing.text_of(pdf.read_bytes())
    assert said.count("reprint 1") == said.count("Page 1 of 1") == 2
    assert "Printed " in said
    # Of other drums it is another list.
    assert terminal.json("drum-list", drums[2], "-o", str(pdf))["reprint"] == 0
    assert terminal.json("drum-list", drums[2], "-o", str(table)) == {
        "file": str(table),
        "drums": 1,
    }
    with Path(table).open(encoding="utf-8-sig", newline="") as file:
        assert [row["Drum"] for row in csv.DictReader(file)] == [drums[2]]
    assert terminal.refused("drum-list", "-o", str(table)) == (
        f"{table} is there already, and is not written over. Choose another name."
    )
    assert terminal.refused("drum-list", "-o", str(pdf), "--paper", "a5").startswith(
        "A dispatch note is printed on"
    )
    nowhere = terminal.folder / "nowhere" / "x.csv"
    assert terminal.refused("drum-list", "-o", str(nowhere)).startswith("Nothing can be written")
