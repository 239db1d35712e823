"""Work of the window's thread in pieces: one a turn of the event loop, in order."""

from PySide6.QtCore import QCoreApplication, QEvent, QObject, QTimer
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot
from shiboken6 import delete

from honeyledger.desktop.turns import Making, Turns, in_pieces, whole


class Heard(QObject):
    """Writes down that an event came to it."""

    def __init__(self, done: list[str]) -> None:
        super().__init__()
        self._done = done

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.User:
            self._done.append("event")
        return super().event(event)


def test_pieces_are_done_in_order_and_events_come_between_them(qtbot: QtBot) -> None:
    done: list[str] = []
    turns, heard = Turns(), Heard(done)

    def first() -> None:
        done.append("first")
        QCoreApplication.postEvent(heard, QEvent(QEvent.Type.User))
        turns.add(lambda: done.append("third"))

    turns.add(first)
    turns.add(lambda: done.append("second"))
    assert (done, turns.is_idle()) == ([], False)
    qtbot.waitUntil(turns.is_idle)
    assert done == ["first", "event", "second", "third"]


def test_what_is_made_in_steps_has_a_turn_for_each_before_what_is_given_later(
    qtbot: QtBot,
) -> None:
    done: list[str] = []
    turns, heard = Turns(), Heard(done)

    def steps() -> Making[None]:
        done.append("one")
        QCoreApplication.postEvent(heard, QEvent(QEvent.Type.User))
        yield
        done.append("two")
        yield
        done.append("three")

    turns.add_pieces(steps())
    turns.add(lambda: done.append("later"))
    assert done == []
    qtbot.waitUntil(turns.is_idle)
    assert done == ["one", "event", "two", "three", "later"]


def test_in_a_hurry_all_is_done_at_once_also_what_comes_of_it() -> None:
    done: list[str] = []
    turns = Turns()
    turns.add(lambda: turns.add(lambda: done.append("of it")))
    turns.add(lambda: done.append("second"))
    turns.hurry()
    assert done == ["second", "of it"]
    turns.hurry()
    assert turns.is_idle()


class Seen(QWidget):
    """Writes down when it is painted."""

    def __init__(self, done: list[str]) -> None:
        super().__init__()
        self._done = done

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Paint:
            self._done.append("painted")
        return super().event(event)


def test_what_a_piece_changed_is_painted_in_a_turn_of_its_own(qtbot: QtBot) -> None:
    done: list[str] = []
    turns, window = Turns(), Seen(done)
    heard = Heard(done)
    turns.paint_apart(window)
    with qtbot.waitExposed(window):
        window.show()
    qtbot.waitUntil(lambda: done == ["painted"])
    done.clear()

    def piece() -> None:
        done.append("piece")
        window.update()
        # A timer of the system's, as what the person does: looked at before the next painting.
        QTimer.singleShot(0, heard, lambda: done.append("heard"))

    turns.add(piece)
    turns.add(lambda: done.append("next"))
    qtbot.waitUntil(lambda: len(done) == 4)
    assert done == ["piece", "heard", "painted", "next"]
    assert turns.is_idle()


def test_what_was_done_outside_a_turn_may_be_painted_apart_too(qtbot: QtBot) -> None:
    done: list[str] = []
    turns, window = Turns(), Seen(done)
    turns.paint_apart(window)
    with qtbot.waitExposed(window):
        window.show()
    qtbot.waitUntil(lambda: done == ["painted"])
    turns.work()
    window.update()
    QCoreApplication.sendPostedEvents(window)
    assert not turns.is_idle()
    assert done == ["painted"], "not yet"
    turns.hurry()
    assert done == ["painted"] * 2


def test_a_window_that_is_gone_is_not_painted(qtbot: QtBot) -> None:
    done: list[str] = []
    turns, window = Turns(), Seen(done)
    turns.paint_apart(window)
    with qtbot.waitExposed(window):
        window.show()
    qtbot.waitUntil(lambda: done == ["painted"])
    turns.work()
    window.update()
    QCoreApplication.sendPostedEvents(window)
    assert not turns.is_idle()
    delete(window)
    turns.hurry()
    assert turns.is_idle()


def test_a_large_part_is_painted_after_the_rest_of_its_window(qtbot: QtBot) -> None:
    done: list[str] = []
    rest: list[str] = []
    turns, window = Turns(), Seen(rest)
    part = Seen(done)
    part.setParent(window)
    turns.paint_apart(window)
    with qtbot.waitExposed(window):
        window.show()
    qtbot.waitUntil(lambda: bool(rest and done))
    rest.clear()
    done.clear()
    window.update()
    turns.add(lambda: done.append("next"))
    turns.paint_later(part)
    QCoreApplication.sendPostedEvents(window)
    turns._next()
    assert (rest, done) == (["painted"], [])
    qtbot.waitUntil(turns.is_idle)
    assert done == ["painted", "next"]
    turns.paint_later(part)
    delete(part)
    turns.hurry()
    assert turns.is_idle()


class Shelf:
    """Made in two pieces."""

    def __init__(self, boards: int) -> None:
        whole(self.pieces(boards))

    def pieces(self, boards: int) -> Making[None]:
        """See `InPieces`."""
        self.boards = boards
        yield
        self.is_painted = True


def test_what_is_made_piece_by_piece_is_there_with_the_last_and_is_the_same_at_once() -> None:
    making = in_pieces(Shelf, 3)
    next(making)
    made = whole(making)
    assert isinstance(made, Shelf)
    assert (made.boards, made.is_painted) == (3, True)
    at_once = Shelf(3)
    assert vars(at_once) == vars(made)
