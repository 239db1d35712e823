"""The window of the first run to test with, worked by keys; it counts them."""

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from honeyledger import bootstrap
from honeyledger.desktop.drafts import Drafts
from honeyledger.desktop.first_run.view import FirstRunWindow, Lent
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.beginning import Doors, Opened, Report
from honeyledger.settings import Settings

LONGEST_MS = 30_000


class FirstRig:
    """A machine without a house, and the hands on it."""

    def __init__(self, qtbot: QtBot, folder: Path, settings: Settings | None = None) -> None:
        self.bot, self.folder = qtbot, folder
        self.where = str(folder / "house.honeyledger")
        self.kept: list[Settings] = []
        self.pressed = self.fields = 0
        self.file_to_choose: Path | None = None
        self.settings = settings or Settings(tones=False)
        self.is_missed = False
        self.start()

    def start(self) -> None:
        """The program is started, for the first time or again."""
        doors = Doors(
            "Europe/Berlin",
            self.where,
            self.is_missed,
            make=self._make,
            open=lambda given: Opened(bootstrap.open_house(given), given),
            sample=self._sample,
        )
        lent = Lent(
            Drafts(self.folder / "drafts"), self.kept.append, lambda _parent: self.file_to_choose
        )
        self.window = FirstRunWindow(doors, self.settings, lent)
        self.bot.addWidget(self.window)
        with self.bot.waitExposed(self.window):
            self.window.show()
        self.window.activateWindow()
        self.bot.waitUntil(self.window.isActiveWindow)
        self.settle()

    def _make(self, facts: Sequence[Register]) -> Opened:
        return bootstrap.make_house(self.where, facts, "Europe/Berlin", "dock")

    def _sample(self, report: Report) -> Opened:
        doors = bootstrap.doors(self.where, self.settings)
        return doors.sample(report)

    def settle(self) -> None:
        """Go on until nothing is under way."""
        for _ in range(3):
            self.bot.waitUntil(self._is_still, timeout=LONGEST_MS)
            QApplication.processEvents()

    def _is_still(self) -> bool:
        return self.window.jobs.is_idle() or not self.window.isVisible()

    def key(self, name: str) -> None:
        """Press a key."""
        self.pressed += 1
        combination = QKeySequence(name)[0]
        target = QApplication.focusWidget() or self.window
        QTest.keyClick(target, combination.key(), combination.keyboardModifiers())
        self.settle()

    def type(self, text: str) -> None:
        """Type a text, and Enter behind it."""
        self.fields += 1
        for letter in text:
            self.pressed += 1
            QTest.keyClicks(QApplication.focusWidget() or self.window, letter)
            QApplication.processEvents()
        self.key("Return")

    def focused(self) -> str:
        """What a screen reader calls the thing the keyboard is in."""
        widget = QApplication.focusWidget()
        return (widget.accessibleName() or getattr(widget, "text", str)()) if widget else ""

    def says(self) -> str:
        """What stands at the top."""
        return self.window.slot.sentence()

    def close(self) -> None:
        """Close the window and let go of what it opened."""
        opened = self.window.opened
        self.window.close()
        if opened is not None:
            opened.house.store.close()

    def leave(self) -> None:
        """The computer goes off: nothing more is kept than was by then."""
        self.settle()
        self.window.jobs.close()
        self.window.hide()
