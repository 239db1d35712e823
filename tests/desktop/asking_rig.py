"""What the rigs of the stations of small forms have in common; and a house in both faces."""

import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any, Generic, TypeVar

from pytestqt.qtbot import QtBot

from honeyledger.desktop.desk import EVERYTHING
from honeyledger.desktop.models.asked import FormTyped
from honeyledger.desktop.widgets.asking_page import AskingPage
from honeyledger.ledger.entry import Entry
from tests.desktop.rig import SOON, DeskRig, Rig
from tests.support.houses import MINUTE_MS
from tests.support.terminal import Terminal


class Books:
    """A house that has something to work on, and what was said in it last."""

    def __init__(self, rig: DeskRig) -> None:
        self.rig = rig
        self.badge = ""

    def last(self) -> Entry:
        """The newest entry."""
        return self.rig.house.ask(lambda view: view.entries(last=1))[-1]

    def said(self) -> Any:
        """What was said with the newest entry."""
        return self.last().facts["said"]


class AskingStation:
    """A station of small forms of a window, open on a house."""

    def __init__(self, rig: Rig, books: Books, key: str, *keys: str) -> None:
        self.rig, self.books = rig, books
        rig.desk.operator = books.badge
        rig.desk.refresh.broadcast(EVERYTHING)
        rig.keys(*keys)
        found = rig.window.stations[key]
        assert isinstance(found, AskingPage)
        self.page = found
        self.page.asked.asking.pause.setInterval(0)
        rig.settle()

    def choose(self, kind: str) -> None:
        """Something else is done."""
        self.page.form.choose(kind)
        self.rig.settle()

    def typed(self) -> FormTyped:
        """The form in hand."""
        return self.page.asked.asking.now()

    def says(self) -> str:
        """What the form's slot says."""
        return self.page.form.slot.sentence()

    def keep(self) -> None:
        """Press the button that records."""
        self.page.form.record.click()
        self.rig.settle()

    def codes(self) -> list[str]:
        """What stands in the table, in order."""
        return [row.code for row in self.page.table.model.rows()]


S = TypeVar("S", bound=AskingStation)


class BothFaces(Generic[S]):
    """One house twice: in a window, where a station is open, and in a terminal.

    Args:
        station: opens the station.
        first: what happened in the house before it was copied.
    """

    def __init__(
        self,
        qtbot: QtBot,
        folder: Path,
        station: Callable[[Rig], S],
        first: Callable[[S], object] = lambda _station: None,
    ) -> None:
        (folder / "window").mkdir()
        (folder / "terminal").mkdir()
        self.window = Rig(qtbot, folder / "window", first=SOON)
        self.station = station(self.window)
        first(self.station)
        copy = folder / "terminal" / "house.honeyledger"
        with self.window.house.store.reading():
            shutil.copyfile(self.window.file, copy)
            for beside in ("-wal", "-shm"):
                part = Path(f"{self.window.file}{beside}")
                if part.exists():
                    shutil.copyfile(part, f"{copy}{beside}")
        self.terminal = Terminal(folder / "terminal")
        assert self.terminal.head() == self.window.head()

    def again(self, *words: str) -> None:
        """The same command as the last in the window, at its moment, by its person and id."""
        books = self.station.books
        self.terminal.now_ms = self.window.now_ms - MINUTE_MS
        self.terminal.do(
            *words,
            *("--operator", books.badge, "--station", "dock"),
            *("--command", books.last().act.command),
        )
        assert self.terminal.head() == self.window.head()

    def both_refuse(self, *words: str) -> None:
        """What is typed in the window and said in the terminal is refused in the same words."""
        self.station.keep()
        shown = self.station.page.form.slot.shown()
        assert shown is not None
        assert shown.lead == "Not recorded."
        self.terminal.now_ms = self.window.now_ms - MINUTE_MS
        assert self.terminal.refused(*words, "--operator", self.station.books.badge) == shown.text
