"""A run's sheet and the list for walking a row, written as files from the terminal."""

from pathlib import Path

import pypdfium2

from tests.support.printing import text_of
from tests.support.terminal import Terminal


def test_papers_of_the_floor_are_written(terminal: Terminal, tmp_path: Path) -> None:
    terminal.do("load", terminal.pallet(), "Extractor")
    terminal.do("register", "room", "add", "Drum room")
    drum = terminal.drum(net="100")
    terminal.do("move", "Drum room", drum, "--row", "B")
    file = tmp_path / "row.pdf"
    words = ("standing", "Drum room", "--row", "b", "-o", str(file))
    assert terminal.do(*words) == f"1 that should stand there: {file}\n"
    done = terminal.json(*words)
    assert (done["file"], done["standing"], done["reprint"]) == (str(file), 1, 1)
    assert "reprint 1" in text_of(file.read_bytes())
    assert drum in text_of(file.read_bytes()).replace("- ", "-")
    run = next(code for code in terminal.json("run", "open", "Extractor")["codes"])
    sheet = tmp_path / "run.pdf"
    assert terminal.do("run", "show", "-o", str(sheet)) == f"{run}: {sheet}\n"
    done = terminal.json("run", "show", run, "-o", str(sheet))
    assert (done["file"], done["run"], done["reprint"]) == (str(sheet), run, 1)
    with pypdfium2.PdfDocument(sheet) as document:
        assert document.get_metadata_dict()["Title"] == f"Run sheet {run}"
    refused = terminal.refused("run", "show", run, "-o", str(sheet), "--paper", "a5")
    assert "a5" in refused
