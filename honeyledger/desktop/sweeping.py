"""Garbage of the window's process is looked for in the window's own thread, and in no other.

Python looks for garbage wherever the next object happens to be made, in a lane's thread as well.
What it finds there may be a widget or a timer of a window that was closed, and one of those
destroyed from another thread than its own ends the program.
"""

import gc

from PySide6.QtCore import QObject, QTimer

EVERY_MS = 100
# To look through more would hold the window: so many objects take some 5 ms on a quiet machine.
MOST = 20_000


def sweep() -> None:
    """Look for garbage as far back as Python itself would by now, if at all.

    Where that is too much it is put aside: rows of a large house go as soon as nobody holds them,
    and what garbage is among them waits for `sweep_whole`.
    """
    made, limits = gc.get_count(), gc.get_threshold()
    for generation in (2, 1, 0):
        if made[generation] > limits[generation]:
            if _how_many(generation) > MOST:
                gc.freeze()
            else:
                gc.collect(generation)
            return


def sweep_whole() -> None:
    """Look through everything, while there is no window to be held."""
    gc.unfreeze()
    gc.collect()
    gc.freeze()


def _how_many(generation: int) -> int:
    """How many objects would be looked through.

    Python's own count of the youngest is less what older ones went meanwhile: where a large answer
    is let go while the next one is made, it says few of very many.
    """
    counted = gc.get_count()[0]
    if counted > MOST:
        return counted
    # Without a step of Python's between them. A lane that came in between would find its tuples,
    # unfinished, in the list as well, and fail: a tuple grows only while nobody else has it.
    return sum(map(len, map(gc.get_objects, range(generation + 1))))


class Sweeper(QObject):
    """Looks for garbage ten times a second; Python itself does no longer.

    Args:
        parent: lives in the window's thread, as long as anything of Qt's does.
    """

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        gc.disable()
        self._timer = QTimer(self)
        self._timer.timeout.connect(sweep)
        self._timer.start(EVERY_MS)


def sweep_here(parent: QObject) -> None:
    """Let there be one sweeper of this parent."""
    if parent.findChild(Sweeper) is None:
        Sweeper(parent)
