"""The window's stations, each made when it is first asked for, and how one comes to be shown.

A page that is not made yet is made piece by piece, each in a turn of the event loop, and shown in
the next, so that the window's thread is never held for all of it. Whoever types meanwhile types
into the page asked for: the first key shows it. No answer is given to a page before all of it is
there: its pieces come first, and go on where somebody thought better of it.
"""

from collections.abc import Callable, Iterator, Mapping
from contextlib import AbstractContextManager, contextmanager, nullcontext
from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication, QEvent, QObject, Signal
from PySide6.QtGui import QKeyEvent

from honeyledger.desktop.desk import Desk, StationView
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.turns import Making
from honeyledger.domain.refusals import Refusal, Sentence

CLOSING = frozenset({"closing"})
NOT_OPENED = Sentence(
    "page-not-opened",
    "What was recorded is kept, but that place could not be opened ({why}). Open it again; if it "
    "still fails, close Honeyledger and start it again.",
)
_KEYS = (QEvent.Type.KeyPress, QEvent.Type.ShortcutOverride)


class Stations(Mapping[str, StationView]):
    """Every station by its key, each made when it is first asked for.

    Args:
        makers: makes each, piece by piece.
        made: is told of each when it is made.
        quiet: in what they are made.
    """

    def __init__(
        self,
        makers: Mapping[str, Callable[[], Making[StationView]]],
        made: Callable[[str, StationView], None],
        quiet: Callable[[], AbstractContextManager[None]] = nullcontext,
    ) -> None:
        self._makers, self._tell, self._quiet = dict(makers), made, quiet
        self._begun: dict[str, Making[None]] = {}
        self._made: dict[str, StationView] = {}

    def __getitem__(self, key: str) -> StationView:
        while not self.go_on(key):
            pass
        return self._made[key]

    def go_on(self, key: str) -> bool:
        """Make the next piece of a station; answers whether it is there now."""
        if key in self._made:
            return True
        # What a failure leaves half made is not gone on with.
        making = self._begun.pop(key, None) or self._making(key)
        with self._quiet():
            try:
                next(making)
            except StopIteration:
                return True
        self._begun[key] = making
        return False

    def _making(self, key: str) -> Making[None]:
        station = yield from self._makers[key]()
        yield
        # Whoever is told may fail: then it is not there, and is made anew.
        self._tell(key, station)
        self._made[key] = station

    def __iter__(self) -> Iterator[str]:
        return iter(self._makers)

    def __len__(self) -> int:
        return len(self._makers)

    def is_made(self, key: str) -> bool:
        """Whether a station is there already."""
        return key in self._made


@dataclass(eq=False, slots=True)
class _Wanted:
    """A station on its way, and what is done when it is shown."""

    key: str
    then: Callable[[], object]
    has_failed: bool = False


class Opening(QObject):
    """Which station is on its way to be shown.

    Args:
        show: shows a station that is made, by its key.

    Signals:
        failed: a `Message`: the station could not be made, and is not on its way any more.
        overcome: that `Message`: another station is shown now, or the same at last.
    """

    failed = Signal(object)
    overcome = Signal(object)

    def __init__(
        self,
        stations: Stations,
        desk: Desk,
        show: Callable[[str, StationView], None],
        parent: QObject,
    ) -> None:
        super().__init__(parent)
        self._stations, self._turns, self._show = stations, desk.jobs.turns, show
        self._turns.paint_apart(parent)
        self._is_closing = False
        desk.refresh.watch(CLOSING, self._close)
        app = QCoreApplication.instance()
        assert app is not None
        self._app = app
        self._waiting: _Wanted | None = None
        self._said: Message | None = None

    def open(self, key: str, then: Callable[[], object] = lambda: None) -> None:
        """Show a station, now or when it is made, and do this when it is shown."""
        self._drop()
        if self._stations.is_made(key):
            self._turns.work()
            self._show_now(key, then)
            return
        wanted = self._waiting = _Wanted(key, then)
        self._go_on(wanted)

    def _go_on(self, wanted: _Wanted) -> None:
        if self._is_closing or wanted.has_failed:
            return
        # No key comes while a piece is made, but thousands of events to what it makes do.
        self._app.removeEventFilter(self)
        try:
            with self._told(wanted):
                is_made = self._stations.go_on(wanted.key)
        finally:
            if self._waiting is not None:  # perhaps another, which a key brings at once
                self._app.installEventFilter(self)
        if is_made:
            self._turns.add(lambda: self._come(wanted))
        else:
            self._turns.add_first(lambda: self._go_on(wanted))

    def _come(self, wanted: _Wanted) -> None:
        """Show it, unless somebody thought better of it; what is not made of it yet, is now."""
        if self._waiting is not wanted:
            return
        self._app.removeEventFilter(self)
        with self._told(wanted):
            self._stations[wanted.key]
        self._drop()
        self._show_now(wanted.key, wanted.then)

    def _show_now(self, key: str, then: Callable[[], object]) -> None:
        said, self._said = self._said, None
        if said is not None:
            self.overcome.emit(said)
        self._show(key, self._stations[key])
        then()

    @contextmanager
    def _told(self, wanted: _Wanted) -> Iterator[None]:
        """Whoever waits for a station that cannot be made is told so, once."""
        try:
            yield
        except Exception as error:
            wanted.has_failed = True
            if self._waiting is wanted:
                self._drop()
                words = refusal_words(Refusal(NOT_OPENED, why=type(error).__name__))
                self._said = Message(Mark.REFUSED, self.tr("Not opened."), words)
                self.failed.emit(self._said)
            raise

    def finish(self) -> None:
        """Show what is on its way now."""
        if self._waiting is not None:
            self._come(self._waiting)

    def _close(self) -> None:
        self._is_closing = True
        self._drop()

    def _drop(self) -> None:
        if self._waiting is not None:
            self._waiting = None
            self._app.removeEventFilter(self)

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        # The system's key goes to the window first, which gives it to what has the keyboard then.
        if isinstance(event, QKeyEvent) and event.type() in _KEYS:
            self.finish()
        return False
