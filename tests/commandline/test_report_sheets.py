"""Reports as files, on the paper asked for."""

from pathlib import Path

import pypdfium2

from tests.support.terminal import Terminal


def test_a_report_is_written_on_the_paper_asked_for(terminal: Terminal, tmp_path: Path) -> None:
    file = tmp_path / "losses.pdf"
    answer = terminal.json("losses", "-o", str(file), "--paper", "letter")
    assert answer["file"] == str(file)
    with pypdfium2.PdfDocument(file) as document:
        assert document.get_page_size(0) == (612, 792)
    assert "a5" in terminal.refused("losses", "-o", str(file), "--paper", "a5")
