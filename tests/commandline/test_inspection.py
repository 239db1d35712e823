"""The inspector's pack from the terminal."""

from tests.support import printing
from tests.support.engines import SITE
from tests.support.sample import SAMPLE, code, loaded
from tests.support.terminal import Terminal


def test_a_pack_is_written(terminal: Terminal) -> None:
    terminal.where = SITE.copy(loaded()[0], terminal.folder / SAMPLE)
    file = terminal.folder / "pack.pdf"
    done = terminal.json("inspector", code("bottling 1"), "-o", str(file))
    assert done["sources"] > 1
    assert file.read_bytes().startswith(b"%PDF")
    assert done["reprint"] == 0
    terminal.do("inspector", code("bottling 1"), "-o", str(file))
    assert "reprint 1" in printing.text_of(file.read_bytes())
