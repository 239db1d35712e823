"""Tells everyone who shows something that it has changed, here or at another station."""

from collections.abc import Callable, Iterable

from PySide6.QtCore import QObject, QTimer, Signal

from honeyledger.desktop.jobs import Jobs, Outcome

Changes = frozenset[str]
ANEW = ("anew",)
"""Another language or text size was chosen: the window begins anew with it."""
# The newest entry's number, and the kinds of things changed since an earlier one.
News = tuple[int, Changes]


class Refresh(QObject):
    """One broadcast for the whole window.

    Signals:
        changed: the kinds of things that changed ("drums", "holds"), and who changed them.
    """

    changed = Signal(object, object)

    def broadcast(self, changes: Iterable[str], initiator: object = None) -> None:
        """Say what has changed; nothing is said of nothing."""
        kinds = frozenset(changes)
        if kinds:
            self.changed.emit(kinds, initiator)

    def watch(self, kinds: Iterable[str], again: Callable[[], None], *, me: object = None) -> None:
        """Call `again` whenever one of these kinds changed by anyone but `me`."""
        wanted = frozenset(kinds)

        def heard(changes: Changes, initiator: object) -> None:
            if changes & wanted and (me is None or initiator is not me):
                again()

        self.changed.connect(heard)


class OtherStations(QObject):
    """Asks every few seconds whether another station has recorded anything.

    Args:
        ask: gives back what is new after an entry number; it runs in the read lane.
        every_ms: how often.
    """

    def __init__(
        self,
        jobs: Jobs,
        refresh: Refresh,
        ask: Callable[[int], News],
        *,
        head: int = 0,
        every_ms: int = 3000,
    ) -> None:
        super().__init__(refresh)
        self._jobs, self._refresh, self._ask = jobs, refresh, ask
        self.head = head
        self._asking = False
        self._timer = QTimer(self)
        self._timer.setInterval(every_ms)
        self._timer.timeout.connect(self.look)
        self._timer.start()

    def look(self) -> None:
        """Ask now, unless the last question is still open."""
        if self._asking:
            return
        self._asking = True
        head = self.head
        self._jobs.read(lambda: self._ask(head), self._heard, about=self)

    def skip_to(self, head: int) -> None:
        """This station's own entries have been told of already."""
        self.head = max(self.head, head)

    def _heard(self, outcome: Outcome[News]) -> None:
        self._asking = False
        if outcome.value is None:
            return
        head, changes = outcome.value
        if head > self.head:
            self.head = head
            self._refresh.broadcast(changes, self)
