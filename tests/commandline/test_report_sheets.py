"""Reports as files, on the paper asked for, so many of them, each print on record."""

from pathlib import Path

import pypdfium2
import pytest

from honeyledger.services import printed
from tests.support.engines import SITE
from tests.support.printing import text_of
from tests.support.sample import SAMPLE, code, loaded
from tests.support.terminal import Terminal

# An afternoon of the sample's.
NOW_MS = 1_790_368_800_000
PRINTING = {
    printed.DAY_SHEET: ("today",),
    printed.YIELD_REPORT: ("yields",),
    printed.LOSS_REPORT: ("losses",),
    printed.PACE_REPORT: ("pace",),
    printed.TRUCK_SHEET: ("plan", "pulling"),
    printed.SEASON_PLAN: ("plan", "season", "--seasons", "1"),
    printed.RUN_SHEET: ("run", "show"),
    printed.STANDING_LIST: ("standing", "Drum store"),
    printed.DRUM_LIST: ("drum-list",),
    printed.INSPECTORS_PACK: ("inspector", "drum 45"),
    printed.RECALL_REPORT: ("recall", "report", "drill"),
    printed.RECALL_LETTERS: ("recall", "letters", "drill"),
    "stock-list": ("paper", "stock-list"),
}


@pytest.fixture(scope="module")
def sample(tmp_path_factory: pytest.TempPathFactory) -> Terminal:
    folder = tmp_path_factory.mktemp("printing")
    made = Terminal(folder, where=SITE.copy(loaded()[0], folder / SAMPLE))
    made.now_ms = NOW_MS
    return made


def _typed(sample: Terminal, word: str) -> str:
    if word == "drill":
        return str(sample.json("recall", "list")["recalls"][0]["code"])
    return code(word) if word == "drum 45" else word


@pytest.mark.parametrize("kind", PRINTING)
def test_every_paper_is_printed_in_copies_and_is_on_record(sample: Terminal, kind: str) -> None:
    words = [_typed(sample, word) for word in PRINTING[kind]]
    onto = ("-o", str(sample.folder / f"{kind}.pdf"), "--operator", "Jory Tamblock")
    first = sample.json(*words, *onto)
    said = text_of(Path(first["file"]).read_bytes())
    assert "by Jory Tamblock" in said
    assert "reprint" not in said
    again = sample.json(*words, *onto, "--copies", "2")
    assert (first["copies"], first["reprint"]) == (1, 0)
    assert (again["copies"], again["reprint"]) == (2, 1)
    twice = text_of(Path(again["file"]).read_bytes())
    assert twice.count("Page 1 of ") == 2 * said.count("Page 1 of ")
    assert "reprint 1" in twice
    (entry,) = again["entries"]
    (newest,) = sample.json("entries", "--last", "1")["entries"]
    assert (newest["entry"], newest["kind"]) == (entry, "printed")


def test_a_report_is_written_on_the_paper_asked_for(terminal: Terminal, tmp_path: Path) -> None:
    file = tmp_path / "losses.pdf"
    answer = terminal.json("losses", "-o", str(file), "--paper", "letter")
    assert answer["file"] == str(file)
    with pypdfium2.PdfDocument(file) as document:
        assert document.get_page_size(0) == (612, 792)
    assert "a5" in terminal.refused("losses", "-o", str(file), "--paper", "a5")
    assert "1000 copies" in terminal.refused("losses", "-o", str(file), "--copies", "1000")
