"""One house in a window and in a terminal: told the same, both end in the same digest."""

import shutil
from pathlib import Path

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
        """The terminal, told the same at the same moment, has the same head."""
        entry = self.rig.house.ask(lambda view: view.entries(last=1))[-1]
        terminal.now_ms = self.rig.now_ms - MINUTE_MS
        by = ("--operator", self.badge, "--station", "dock", "--command", entry.act.command)
        terminal.do(*words, *by)
        assert terminal.head() == self.rig.head()
