"""The same facts typed on the dock and in a terminal give the same digests and refusals."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.ledger.verbs.registers import Register
from tests.desktop.faces import Faces, print_same, what_was_told
from tests.desktop.rig import Rig
from tests.support.houses import MINUTE_MS
from tests.support.terminal import Terminal
from tests.support.tiers import first_plain


class Both:
    """One house, twice: in a window and in a terminal."""

    def __init__(self, qtbot: QtBot, folder: Path) -> None:
        (folder / "window").mkdir()
        (folder / "terminal").mkdir()
        self.window = Rig(qtbot, folder / "window")
        codes = [
            self.window.told(Register(what, {"name": name})).given[0]
            for what, name in (
                ("yard", "Mill Lane"),
                ("yard", "Long Field"),
                ("operator", "Ann Reed"),
            )
        ]
        self.mill, self.field, self.badge = codes
        self.window.keys("Ctrl+2")
        self.window.scan(self.badge)
        copy = folder / "terminal" / "house.honeyledger"
        with self.window.house.store.reading():
            shutil.copyfile(self.window.file, copy)
            for beside in ("-wal", "-shm"):
                part = Path(f"{self.window.file}{beside}")
                if part.exists():
                    shutil.copyfile(part, f"{copy}{beside}")
        self.terminal = Terminal(folder / "terminal")
        assert self.terminal.head() == self.window.head()

    def type_in_window(self, **texts: str) -> str:
        """Fill the form and receive: the id under which it was recorded."""
        for name, text in texts.items():
            field = self.window.dock.form.field(name)
            if name == "condition":
                field.set_key(text)  # type: ignore[union-attr]
                continue
            self.window.dock.form.form.take_focus(field)
            self.window.type(text, enter=False)
            self.window.keys("Tab")
        self.window.dock.presenter.type(self.window.dock.form.typed())
        self.window.settle()
        self.window.dock.form.receive.click()
        self.window.settle()
        return what_was_told(self.window)[0].act.command

    def type_in_terminal(self, command: str, *words: str) -> None:
        """The same command, at the same moment, by the same person, at the same station."""
        self.terminal.now_ms = self.window.now_ms - MINUTE_MS
        by = ("--operator", self.badge, "--station", "dock", "--command")
        self.terminal.do(*words, *by, command)
        printed = what_was_told(self.window)[1]
        if printed is not None:
            print_same(self.terminal, self.window, printed, *by)


@pytest.fixture
def both(qtbot: QtBot, tmp_path: Path) -> Iterator[Both]:
    made = Both(qtbot, tmp_path)
    yield made
    made.window.close()


def test_a_weighed_pallet_is_the_same_entry_from_both_faces(both: Both) -> None:
    command = both.type_in_window(
        yard="Mill Lane",
        sheet="40",
        pulled="23 Jul 2026",
        crew="North truck",
        supers="36",
        gross="812,5",
        condition="green",
        moisture="18.4",
    )
    both.type_in_terminal(
        command,
        *("receive", both.mill, "36", "--sheet", "40", "--pulled", "2026-07-23"),
        *("--crew", "North truck", "--gross", "812.5", "--condition", "green"),
        *("--moisture", "18,4", "--box", "medium"),
    )
    assert both.terminal.head() == both.window.head()


def test_supers_of_somebody_elses_yard_are_the_same_entry_from_both_faces(
    qtbot: QtBot, tmp_path: Path
) -> None:
    rig = Rig(qtbot, tmp_path)
    hill = rig.told(Register("yard", {"name": "Hill", "owner": "Ms Orla"})).given[0]
    rig.keys("Ctrl+2")
    faces = Faces(rig, tmp_path)
    terminal = faces.copy()
    for text in ("hill", "", "", "", "24", "", "", "", ""):
        rig.type(text)
    assert rig.toast().lead.startswith("G26-0001-")
    faces.same(terminal, "receive", hill, "24", "--pulled", "today")
    rig.close()


def test_two_yards_on_one_pallet_are_the_same_entry_from_both_faces(both: Both) -> None:
    both.window.scan(both.mill)
    both.window.type("20", enter=False)
    both.window.scan(both.field)
    command = both.type_in_window(supers="16")
    both.type_in_terminal(
        command,
        *("receive", both.mill, "20", "--and", both.field, "16", "--pulled", "today"),
    )
    assert both.terminal.head() == both.window.head()


@pytest.mark.parametrize(
    ("typed", "words"),
    first_plain(
        [
            ({"supers": "12,5"}, ("12,5",)),
            ({"supers": "12", "gross": "1.234"}, ("12", "--gross", "1.234")),
            ({"supers": "12", "gross": "80"}, ("12", "--gross", "80")),
            ({"supers": "12", "moisture": "33"}, ("12", "--moisture", "33")),
            ({"supers": "12", "pulled": "4/7/2026"}, ("12", "--pulled", "4/7/2026")),
            ({"supers": "12", "pulled": "30 Jul 2026"}, ("12", "--pulled", "30 Jul 2026")),
            ({"supers": "12", "box": "jumbo"}, ("12", "--box", "jumbo")),
            ({"supers": "0"}, ("0",)),
        ]
    ),
)
def test_both_faces_refuse_in_the_same_words(
    both: Both, typed: dict[str, str], words: tuple[str, ...]
) -> None:
    both.type_in_window(yard="Mill Lane", **typed)
    shown = both.window.dock.form.slot.shown()
    assert shown is not None
    assert shown.lead == "Not recorded."
    both.terminal.now_ms = both.window.now_ms - MINUTE_MS
    assert both.terminal.refused("receive", "Mill Lane", *words) == shown.text
