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
    assert done == {"file": str(file), "title": "Lot history"}
    assert "by Jory Tamblock" in printing.text_of(file.read_bytes())
