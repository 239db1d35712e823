"""The window's stations, each made when it is first asked for, and how one comes to be shown.

A page that is not made yet is made piece by piece, each in a turn of the event loop, and shown in
the next, so that the window's thread is never held for all of it. Whoever types meanwhile types
into the page asked for: the first key shows it. No answer is given to a page before all of it is
there: its pieces come first, and go on where somebody thought better of it.
"""

from collections.abc import Callable, Iterator, Mapping
from contextlib import AbstractContextManager, contextmanager, nullcontext

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
    "That place could not be opened ({why}). Press its key again; if it stays so, close the "
    "window and start it again: what was recorded is kept.",
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


class Opening(QObject):
    """Which station is on its way to be shown.

    Args:
        show: shows a station that is made, by its key.

    Signals:
        failed: a `Message`: the station could not be made, and is not on its way any more.
    """

    failed = Signal(object)

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
        self._waiting: Callable[[], None] | None = None

    def open(self, key: str, then: Callable[[], object] = lambda: None) -> None:
        """Show a station, now or when it is made, and do this when it is shown."""
        self._drop()
        if self._stations.is_made(key):
            self._turns.work()
            self._show(key, self._stations[key])
            then()
            return

        def come() -> None:
            self._drop()
            with self._told():
                station = self._stations[key]
            self._show(key, station)
            then()

        def come_to_it() -> None:
            if self._waiting is come:
                come()

        self._waiting = come
        self._app.installEventFilter(self)
        self._go_on(key, come_to_it)

    def _go_on(self, key: str, then: Callable[[], None]) -> None:
        if self._is_closing:
            return
        with self._told():
            is_made = self._stations.go_on(key)
        if is_made:
            self._turns.add(then)
        else:
            self._turns.add_first(lambda: self._go_on(key, then))

    @contextmanager
    def _told(self) -> Iterator[None]:
        """Whoever waits for a station that cannot be made is told so."""
        try:
            yield
        except Exception as error:
            self._drop()
            words = refusal_words(Refusal(NOT_OPENED, why=type(error).__name__))
            self.failed.emit(Message(Mark.REFUSED, self.tr("Not opened."), words))
            raise

    def finish(self) -> None:
        """Show what is on its way now."""
        if self._waiting is not None:
            self._waiting()

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
