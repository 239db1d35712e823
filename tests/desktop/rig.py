"""A window to test with: on a real house, worked by keys, its clocks set by hand.

Its store answers only to the lanes: whoever enters it from the window's own thread fails the test.
"""

import atexit
import shutil
import tempfile
import threading
from collections.abc import Callable, Collection, Iterator, Sequence
from contextlib import AbstractContextManager, contextmanager
from functools import cache
from itertools import count
from pathlib import Path
from typing import Any

from PySide6.QtCore import QCoreApplication, QEvent, QObject, Qt, QTimer
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QWidget
from pytestqt.qtbot import QtBot
from shiboken6 import isValid

from honeyledger.assets import resource
from honeyledger.desktop import app as window_app
from honeyledger.desktop.app import FIRST
from honeyledger.desktop.desk import EVERYTHING, Desk
from honeyledger.desktop.drafts import Drafts
from honeyledger.desktop.jobs import Jobs
from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.messages import Message
from honeyledger.desktop.refresh import Refresh
from honeyledger.desktop.stations.dock.view import DockView
from honeyledger.desktop.stations.entries.view import EntriesView
from honeyledger.desktop.stations.setup.view import SetupView
from honeyledger.domain.gs1 import SEPARATOR
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.registers import Register
from honeyledger.persistence.backup import back_up
from honeyledger.persistence.store import open_store
from honeyledger.services.backups import Backup, Keeper
from honeyledger.services.house import House, Recorded
from honeyledger.services.setup import new_house
from honeyledger.services.store import Answer, Finding, Store, Unit, View
from honeyledger.settings import Settings
from tests.support.engines import LEDGER_ID
from tests.support.houses import START_MS

SLOW_MS = 120.0
FAST_MS = 8.0
LONGEST_MS = 10_000
SOON = "keys"
"""A page that is soon made and asks nothing: what a test begins with that is of another's."""
Key = Qt.Key


class LanesOnlyStore:
    """A store that refuses the thread it was made in: that is the window's."""

    def __init__(self, store: Store) -> None:
        self._store = store
        self._window = threading.get_ident()

    def _check(self) -> None:
        assert threading.get_ident() != self._window, "the window's thread entered the store"

    def reading(self) -> AbstractContextManager[View]:
        self._check()
        return self._store.reading()

    def beside(self, question: Callable[[View], Answer], is_wanted: Callable[[], bool]) -> Answer:
        self._check()
        return self._store.beside(question, is_wanted)

    def writing(self) -> AbstractContextManager[Unit]:
        self._check()
        return self._store.writing()

    def audit(
        self,
        progress: Callable[[int, int], None] | None = None,
        kept: Collection[tuple[int, str]] = (),
    ) -> Sequence[Finding]:
        self._check()
        return self._store.audit(progress, kept)

    def warnings(self) -> Sequence[str]:
        self._check()
        return self._store.warnings()

    def close(self) -> None:
        self._store.close()


@cache
def _begun() -> tuple[Path, int]:
    """A house with its record and boxes, as the program makes them, and the next id in it.

    It is the same for every test that begins with a copy of it.
    """
    folder = Path(tempfile.mkdtemp(prefix="honey-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    file, ids = folder / "begun.honeyledger", count(1)
    store = open_store(str(file), create=True, new_id=lambda: LEDGER_ID)
    house = House(store, lambda: START_MS, lambda: f"id-{next(ids)}")
    house.record_all(new_house("Test House", "UTC"))
    store.close()
    return file, next(ids)


def entries_of(rig: "Rig") -> EntriesView:
    """The page of what was recorded."""
    found = rig.window.stations["entries"]
    assert isinstance(found, EntriesView)
    return found


def setup_of(rig: "Rig") -> SetupView:
    """The page of the set-up, made when it is first asked for."""
    found = rig.window.stations["setup"]
    assert isinstance(found, SetupView)
    return found


class DeskRig:
    """A desk on a real house, without a window.

    Args:
        begun: whether the house has its record and its boxes.
        where: memory or a server, where a new house is to be made; else a file in the folder.
    """

    def __init__(
        self,
        qtbot: QtBot,
        folder: Path,
        *,
        begun: bool = True,
        settings: Settings | None = None,
        where: str | None = None,
    ) -> None:
        self.bot, self.folder = qtbot, folder
        self.file = folder / "house.honeyledger"
        self.now_ms = START_MS
        self.opened: list[Path] = []
        self.kept: list[Settings] = []
        self.backup: Backup | None = None
        self.folder_to_choose: Path | None = None
        self.numbers = count(1)
        self._hears = True
        is_new = where is not None or not self.file.exists()
        if begun and is_new and where is None:
            made, next_id = _begun()
            self.numbers, is_new = count(next_id), False
            shutil.copyfile(made, self.file)
        self.store = open_store(where or str(self.file), create=is_new, new_id=lambda: LEDGER_ID)
        # The house as a test looks at it, from its own thread.
        self.house = House(self.store, lambda: self.now_ms, self._new_id)
        if begun and is_new:
            self.house.record_all(new_house("Test House", "UTC"))
        watched = House(LanesOnlyStore(self.store), lambda: self.now_ms, self._new_id)
        settings = settings or Settings(tones=False)
        self.desk = Desk(
            watched,
            Jobs(),
            Refresh(),
            settings,
            resource(),
            settings.operator,
            station="dock",
            drafts=Drafts(folder / "drafts"),
            papers=folder / "papers",
            open_paper=self.opened.append,
            keep_settings=self.kept.append,
            choose_folder=lambda _parent, _folder: self.folder_to_choose,
        )

    def keep_here(self) -> None:
        """From now on this computer keeps the house, as it does outside of tests."""
        self.desk.keeper = Keeper(str(self.file), "here", self._back_up, lambda _: self.backup)

    def _back_up(
        self, where: str, target: str, report: Callable[[int, int], None] | None
    ) -> Backup:
        head = back_up(Path(where), Path(target), report)
        self.backup = Backup(target, self.now_ms, head.ledger_id, head.entry, head.digest)
        return self.backup

    def _new_id(self) -> str:
        return f"id-{next(self.numbers)}"

    def settle(self, *pauses: QTimer) -> None:
        """Go on until every question is answered and every pause is over."""

        def is_still() -> bool:
            return self.desk.jobs.is_idle() and not any(one.isActive() for one in pauses)

        # Answers lead to further questions: stillness is when nothing follows.
        for _ in range(3):
            self.bot.waitUntil(is_still, timeout=LONGEST_MS)
            QApplication.processEvents()
        self.bot.waitUntil(is_still, timeout=LONGEST_MS)

    def told(self, facts: Any) -> Recorded:
        """Something recorded at another station, of which this desk has heard."""
        done = self.house.record(facts)
        if self._hears:
            self._hear()
        return done

    @contextmanager
    def hearing_at_the_end(self) -> Iterator[None]:
        """What is told inside this desk hears of at once, when all of it was told."""
        self._hears = False
        yield
        self._hears = True
        self._hear()

    def _hear(self) -> None:
        self.desk.refresh.broadcast(EVERYTHING)
        self.settle()

    def head(self) -> tuple[int, str]:
        """Number and digest of the newest entry."""
        head = self.house.ask(lambda view: view.head())
        return head.entry, head.digest

    def close(self) -> None:
        """Let go of the lanes and the file."""
        self.desk.jobs.close()
        self.store.close()


def desk_with_a_pallet(qtbot: QtBot, folder: Path) -> Iterator[DeskRig]:
    """A desk at a house that received its first pallet, for as long as a test takes."""
    made = DeskRig(qtbot, folder)
    made.house.record(Register("yard", {"name": "Mill Lane"}))
    made.house.record(Receive((Line("Mill Lane", 12),)))
    yield made
    made.close()


class _PaintedAtRest(QObject):
    """A window that is painted once it has come to rest, with all that changed meanwhile.

    The program paints after each piece of a page too, which the pictures and the tests of the
    main window, of opening and of the dock go through: here each would be painted for nobody.
    """

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window, self._is_owed, self._is_due = window, False, False
        window.installEventFilter(self)

    def eventFilter(self, _window: QObject, event: QEvent) -> bool:  # noqa: N802
        if self._is_due or event.type() != QEvent.Type.UpdateRequest:
            return False
        self._is_owed = True
        return True

    def paint(self) -> None:
        """Paint what has changed since it was last painted."""
        if self._is_owed and isValid(self._window):
            self._is_owed, self._is_due = False, True
            QCoreApplication.sendEvent(self._window, QEvent(QEvent.Type.UpdateRequest))
            self._window.desk.jobs.turns.hurry()
            self._is_due = False


class Rig(DeskRig):
    """A window and the hands on it.

    Args:
        first: the station that is open at first, the dock in the program; with `SOON` the window
            is painted when it has come to rest.
    """

    def __init__(
        self,
        qtbot: QtBot,
        folder: Path,
        *,
        begun: bool = True,
        settings: Settings | None = None,
        where: str | None = None,
        first: str = FIRST,
    ) -> None:
        super().__init__(qtbot, folder, begun=begun, settings=settings, where=where)
        self.key_ms = 1_000.0
        self.window: MainWindow = window_app.build_on(self.desk, lambda: self.key_ms, first)
        self._at_rest = _PaintedAtRest(self.window) if first == SOON else None
        qtbot.addWidget(self.window)
        with self.window.scanner.resting():
            with qtbot.waitExposed(self.window):
                self.window.show()
            self.window.activateWindow()
            qtbot.waitUntil(self.window.isActiveWindow)
            self.settle()

    # Hands.

    def _target(self) -> QWidget:
        popup = QApplication.activePopupWidget()
        return popup or QApplication.focusWidget() or self.window

    def key(self, key: Key, modifiers: Qt.KeyboardModifier | None = None) -> None:
        """Press a key, as slowly as a hand does."""
        self.key_ms += SLOW_MS
        QTest.keyClick(self._target(), key, modifiers or Qt.KeyboardModifier.NoModifier)
        self.settle()

    def keys(self, *named: str) -> None:
        """Press keys by name, such as "Ctrl+2" or "Tab"."""
        for name in named:
            combination = QKeySequence(name)[0]
            self.key(combination.key(), combination.keyboardModifiers())

    def type(self, text: str, *, enter: bool = True) -> None:
        """Type a text, and Enter behind it."""
        for letter in text:
            self.key_ms += SLOW_MS
            QTest.keyClicks(self._target(), letter)
            # A hand is so slow that each key is given to its field before the next one comes.
            self.window.scanner.give_back()
            QApplication.processEvents()
        self.settle()
        if enter:
            self.key(Key.Key_Return)

    def press(self, *letters: str) -> None:
        """Keys as the system gives them to the window, before its loop comes round again."""
        window = self.window.windowHandle()
        assert window is not None
        none = Qt.KeyboardModifier.NoModifier
        for letter in letters:
            self.key_ms += SLOW_MS
            key = QKeySequence(letter)[0].key()
            for kind in (QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
                QCoreApplication.sendEvent(window, QKeyEvent(kind, key, none, letter))

    def scan(self, code: str) -> None:
        """A hand scanner reads a code: a burst of keys, and Enter."""
        self.key_ms += SLOW_MS
        for letter in code:
            self.key_ms += FAST_MS
            if letter == SEPARATOR:
                self._control_key(Key.Key_BracketRight, letter)
            else:
                QTest.keyClicks(self._target(), letter)
        self.key_ms += FAST_MS
        QTest.keyClick(self._target(), Key.Key_Return)
        self.settle()

    def _control_key(self, key: Key, text: str) -> None:
        """A key with Control that stands for a character, which the test library cannot press."""
        control = Qt.KeyboardModifier.ControlModifier
        kinds = QEvent.Type.ShortcutOverride, QEvent.Type.KeyPress, QEvent.Type.KeyRelease
        for kind in kinds:
            QApplication.sendEvent(self._target(), QKeyEvent(kind, key, control, text))

    def settle(self, *pauses: QTimer) -> None:
        """Go on until every question is answered and every pause is over."""
        if self.window.stations.is_made("dock"):
            self.dock.presenter.pause.setInterval(0)
            pauses = self.dock.presenter.pause, *pauses
        # No hand presses a key meanwhile, so that the scanner has nothing to look at.
        with self.window.scanner.resting():
            super().settle(*pauses)
            if self._at_rest is not None:
                self._at_rest.paint()

    # Eyes.

    @property
    def dock(self) -> DockView:
        """The dock's page."""
        found = self.window.stations["dock"]
        assert isinstance(found, DockView)
        return found

    def toast(self) -> Message:
        """What the toast line says."""
        message = self.window.toast.message()
        assert message is not None, "nothing was said"
        return message

    def focused(self) -> str:
        """What a screen reader calls the thing the keyboard is in."""
        widget = QApplication.focusWidget()
        if isinstance(widget, QAbstractButton):
            return widget.accessibleName() or widget.text()
        return widget.accessibleName() if widget else ""

    def close(self) -> None:
        """Close the window and let go of the file; no key is left for the next test."""
        self.window.scanner.give_back()
        self.window.close()
        super().close()
