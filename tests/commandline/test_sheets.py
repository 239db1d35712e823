"""Papers by their kind from the terminal."""

from tests.support import printing
from tests.support.engines import SITE
from tests.support.sample import SAMPLE, code, loaded
from tests.support.terminal import Terminal


def test_a_paper_is_written_and_kinds_are_listed(terminal: Terminal) -> None:
    terminal.where = SITE.copy(loaded()[0], terminal.folder / SAMPLE)
    kinds = [row["kind"] for row in terminal.json("paper")]
    assert "lot-history" in kinds
    file = terminal.folder / "history.pdf"
    words = ("paper", "lot-history", code("drum 45"), "-o", str(file), "--paper", "letter")
    done = terminal.json(*words, "--operator", "Jory Tamblock")
    entry = done["entries"][0]
    assert done == {
        "file": str(file),
        "title": "Lot history",
        "copies": 1,
        "reprint": 0,
        "entries": [entry],
    }
    said = printing.text_of(file.read_bytes())
    assert "by Jory Tamblock" in said
    assert "reprint" not in said
    again = terminal.do(*words, "--copies", "2")
    assert again.strip() == f"Lot history, reprint 1: {file}"
    said = printing.text_of(file.read_bytes())
    assert said.count("reprint 1") == said.count("Page 1 of 1") == 2
    file.unlink()
    assert "1000 copies cannot be right" in terminal.refused(*words, "--copies", "1000")
    assert not file.exists()
