"""Work of the window's thread in pieces, one a turn of the event loop.

What the person does comes between two pieces, and so does painting: a piece waits until nothing
else does. What a piece changed is painted in a turn of its own, too: both in one would hold the
window half as long again.
"""

from collections import deque
from collections.abc import Callable, Generator
from functools import partial
from typing import Any, Protocol, TypeAlias, TypeVar

from PySide6.QtCore import QCoreApplication, QEvent, QObject, QTimer
from shiboken6 import isValid

Piece = Callable[[], object]
Made = TypeVar("Made")
Making: TypeAlias = Generator[None, None, Made]
"""How something large is made: each step is a piece, and what was made comes with the last."""


def whole(making: Making[Made]) -> Made:
    """Make it at once, or what is left of it."""
    while True:
        try:
            next(making)
        except StopIteration as end:
            made: Made = end.value
            return made


class InPieces(Protocol):
    """What is made piece by piece: its `__init__` does all of them."""

    def pieces(self, *given: Any) -> Making[None]:
        """Make it, from what its `__init__` is given."""


class Pieced:
    """What is made piece by piece by `pieces`, or at once."""

    def __init__(self, *given: Any) -> None:
        whole(self.pieces(*given))

    def pieces(self, *given: Any) -> Making[None]:
        """Make it. See `InPieces`."""
        raise NotImplementedError


Whole = TypeVar("Whole", bound=InPieces)


def in_pieces(kind: type[Whole], *given: object) -> Making[Whole]:
    """Make one of a kind piece by piece; nobody has it before it is whole."""
    made = kind.__new__(kind)
    yield from made.pieces(*given)
    return made


class Painted(Protocol):
    """A widget, of which presenters know nothing."""

    def setUpdatesEnabled(self, enable: bool, /) -> None:
        """Let it be painted, or not."""


class Turns(QObject):
    """Pieces in the order in which they were given."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._pieces: deque[Piece] = deque()
        self._has_worked = False
        # A timer of no time at all is the last that a turn of the loop looks at.
        self._timer = QTimer(self)
        self._timer.setInterval(0)
        self._timer.timeout.connect(self._next)

    def add(self, piece: Piece) -> None:
        """Do this in a turn of its own, after what was given before."""
        self._pieces.append(piece)
        self._timer.start()

    def add_first(self, piece: Piece) -> None:
        """Do this in the next turn, before all that was given."""
        self._pieces.appendleft(piece)
        self._timer.start()

    def add_pieces(self, making: Making[None]) -> None:
        """Do each step of this in a turn of its own; what is given later waits for the last."""

        def step() -> None:
            try:
                next(making)
            except StopIteration:
                return
            self.add_first(step)

        self.add(step)

    def work(self) -> None:
        """Something was done that takes as long as a piece: its painting is put off likewise."""
        self._has_worked = True

    def paint_apart(self, window: QObject) -> None:
        """Let this window be painted in a turn of its own after each piece."""
        window.installEventFilter(self)

    def paint_later(self, part: Painted) -> None:
        """A window was changed: let a large part of it be painted in a turn after the rest.

        All of a window in one, as another theme wants it, would hold a slow computer.
        """
        part.setUpdatesEnabled(False)
        self.work()
        # The painting of the rest comes before it; what else is waiting does not.
        self.add_first(partial(_let_paint, part))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if not self._has_worked or event.type() != QEvent.Type.UpdateRequest:
            return False
        self._has_worked = False
        self.add_first(_Painting(watched))
        return True

    def is_idle(self) -> bool:
        """Whether nothing is left to do."""
        return not self._pieces

    def hurry(self) -> None:
        """Do all that is left now."""
        while self._pieces:
            self._next()

    def _next(self) -> None:
        piece = self._pieces.popleft() if self._pieces else None
        if not self._pieces:
            self._timer.stop()
        if piece is not None:
            self._has_worked = not isinstance(piece, _Painting)
            piece()


def _let_paint(part: Painted) -> None:
    if isValid(part):
        part.setUpdatesEnabled(True)


class _Painting:
    """Painting of a window, put off: Qt asks for it once, and never again until it is done."""

    def __init__(self, window: QObject) -> None:
        self._window = window

    def __call__(self) -> None:
        if isValid(self._window):
            QCoreApplication.sendEvent(self._window, QEvent(QEvent.Type.UpdateRequest))
