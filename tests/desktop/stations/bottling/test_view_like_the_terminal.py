"""The same bottling in a window and in a terminal gives the same digests and refusals."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.bottling.typed import CHANGE, CLOSE, LEFT
from tests.desktop.bottling_rig import PRODUCT, Filler
from tests.desktop.rig import SOON, Rig
from tests.support.terminal import Terminal
from tests.support.tiers import first_plain


class Both:
    """One house, twice: in a window and in a terminal."""

    def __init__(self, qtbot: QtBot, folder: Path) -> None:
        (folder / "window").mkdir()
        (folder / "terminal").mkdir()
        self.filler = Filler(Rig(qtbot, folder / "window", first=SOON))
        copy = folder / "terminal" / "house.honeyledger"
        with self.filler.rig.house.store.reading():
            for beside in ("", "-wal", "-shm"):
                part = Path(f"{self.filler.rig.file}{beside}")
                if part.exists():
                    shutil.copyfile(part, f"{copy}{beside}")
        self.terminal = Terminal(folder / "terminal")
        self.same()

    def same(self) -> None:
        """Both houses have the same head."""
        assert self.terminal.head() == self.filler.rig.head()

    def type_in_terminal(self, *words: str) -> None:
        """The same command, at the same moment, by the same person, at the same station."""
        last = self.filler.last()
        self.terminal.now_ms = last.recorded_ms - 60_000
        by = ("--operator", self.filler.operator, "--station", "dock")
        said = (*by, "--command", last.act.command)
        self.terminal.do(*words, *said)

    def fill_form(self, kind: str, **texts: str) -> None:
        """Choose a happening, type into its fields, and record."""
        filler = self.filler
        filler.wait()
        filler.presenter.choose(kind)
        filler.settle()
        form = filler.view.form
        for name, text in texts.items():
            if name in form.buttons():
                form.buttons()[name].set_key(text)
                continue
            form.form.take_focus(form.texts()[name])
            filler.type(text, enter=False)
        form.record.click()
        filler.settle()

    def start(self) -> str:
        """A bottling of both drums, begun by scans and keys."""
        self.filler.scan(self.filler.first)
        self.filler.scan(self.filler.second)
        self.filler.type("")
        self.filler.type("")
        return self.filler.presenter.hand.bottling


@pytest.fixture
def both(qtbot: QtBot, tmp_path: Path) -> Iterator[Both]:
    made = Both(qtbot, tmp_path)
    yield made
    made.filler.window.close()


def test_a_whole_bottling_is_the_same_entries_from_both_faces(both: Both) -> None:
    filler, terminal = both.filler, both.type_in_terminal
    code = both.start()
    terminal("change-over", "--product", PRODUCT, "--feed", filler.first)
    both.same()
    for weight in ("502,4", "503.1"):
        filler.type(weight)
    both.fill_form(CHANGE, jars="198")
    jars = ("--jars", "198", "--mean-net", "502.75", "--empty")
    terminal("change-over", code, "--feed", filler.second, *jars)
    both.same()
    both.fill_form(CLOSE, jars="300", rejects="2", mean="501,5", in_line="no")
    closed = ("--mean-net", "501.5", "--rejects", "2", "--labelled-later")
    terminal("bottle", code, "300", *closed)
    both.same()
    both.fill_form(LEFT, lot=filler.second, gross="26,5")
    terminal("reweigh", filler.second, "--gross", "26.5")
    both.same()


@pytest.mark.parametrize(
    ("typed", "words"),
    first_plain(
        [
            ({"jars": "12,5"}, ("--jars", "12,5")),
            ({"jars": "12", "mean": "1.234"}, ("--jars", "12", "--mean-net", "1.234")),
            ({"jars": "12", "mean": "240"}, ("--jars", "12", "--mean-net", "240")),
            ({"jars": "100000"}, ("--jars", "100000")),
            ({"jars": "12", "next": "Tank 9"}, ("--jars", "12", "--feed", "Tank 9")),
        ]
    ),
)
def test_both_faces_refuse_a_change_over_in_the_same_words(
    both: Both, typed: dict[str, str], words: tuple[str, ...]
) -> None:
    code = both.start()
    both.type_in_terminal("change-over", "--product", PRODUCT, "--feed", both.filler.first)
    both.filler.presenter.hand.typed = both.filler.presenter.hand.typed.__class__("weigh")
    both.fill_form(CHANGE, **{"empty": "no", **typed})
    shown = both.filler.view.form.slot.shown()
    assert shown is not None
    assert shown.lead == "Not recorded."
    both.terminal.now_ms = both.filler.rig.now_ms
    assert both.terminal.refused("change-over", code, *words) == shown.text
