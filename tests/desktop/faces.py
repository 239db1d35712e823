"""One house in a window and in a terminal: told the same, both end in the same digest."""

import shutil
from collections.abc import Mapping
from pathlib import Path

from honeyledger.ledger.entry import Entry
from honeyledger.ledger.verbs.printing import Printed
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import Rig
from tests.support.houses import MINUTE_MS
from tests.support.terminal import Terminal


class Faces:
    """A window's house, and a terminal on a copy of it."""

    def __init__(self, rig: Rig, folder: Path) -> None:
        self.rig, self.folder = rig, folder / "terminal"
        self.folder.mkdir()
        self.badge = rig.told(Register("operator", {"name": "Ann Reed"})).given[0]
        rig.scan(self.badge)
        rig.settle()

    def copy(self) -> Terminal:
        """The house as it is now, for a terminal."""
        copy = self.folder / "house.honeyledger"
        with self.rig.house.store.reading():
            shutil.copyfile(self.rig.file, copy)
            for beside in ("-wal", "-shm"):
                part = Path(f"{self.rig.file}{beside}")
                if part.exists():
                    shutil.copyfile(part, f"{copy}{beside}")
        return Terminal(self.folder)

    def same(self, terminal: Terminal, *words: str) -> None:
        """The terminal, told the same at the same moment, has the same head.

        A label that was printed in the window with it is printed in the terminal, too.
        """
        entry, printed = what_was_told(self.rig)
        by = ("--operator", self.badge, "--station", "dock", "--command")
        terminal.now_ms = self.rig.now_ms - MINUTE_MS
        terminal.do(*words, *by, entry.act.command)
        if printed is not None:
            print_same(terminal, self.rig, printed, *by)
        assert terminal.head() == self.rig.head()


def what_was_told(rig: Rig) -> tuple[Entry, Entry | None]:
    """The newest entry that is no print, and the print of its label where there is one."""
    entries = rig.house.ask(lambda view: view.entries(last=2))
    if entries[-1].kind == Printed.kind:
        return entries[-2], entries[-1]
    return entries[-1], None


def print_same(terminal: Terminal, rig: Rig, printed: Entry, *by: str) -> None:
    """The terminal prints the label that the window printed, at the same moment."""
    said = printed.facts["said"]
    assert isinstance(said, Mapping)
    terminal.now_ms = rig.now_ms - MINUTE_MS
    file = terminal.folder / "label.pdf"
    terminal.do("labels", str(said["of"]), "-o", str(file), *by, printed.act.command)
