"""Whoever holds the window's thread is named, and for how long."""

import threading
from collections.abc import Iterator
from types import FunctionType

import pytest
from PySide6.QtCore import QTimer
from pytestqt.qtbot import QtBot

from honeyledger.desktop.scanning import monotonic_ms
from honeyledger.desktop.watchdog import EVERY_MS, LONGEST_MS, Block, Watchdog, _stack_of

PLANTED_MS = 200.0


class HandClock:
    """Milliseconds that pass only when told."""

    def __init__(self) -> None:
        self.ms = 5_000.0

    def __call__(self) -> float:
        return self.ms


@pytest.fixture
def clock() -> HandClock:
    return HandClock()


@pytest.fixture
def dog(dressed: object, clock: HandClock) -> Iterator[Watchdog]:
    made = Watchdog(clock)
    yield made
    made.stop()
    made.deleteLater()


def test_a_thread_that_comes_back_in_time_is_not_told_of(dog: Watchdog, clock: HandClock) -> None:
    told: list[Block] = []
    dog.blocked.connect(told.append)
    for _ in range(10):
        clock.ms += EVERY_MS + LONGEST_MS
        dog.beat()
    assert told == []


def test_a_planted_block_of_200_ms_is_told_with_its_length(
    dog: Watchdog, clock: HandClock
) -> None:
    told: list[Block] = []
    dog.blocked.connect(told.append)
    clock.ms += EVERY_MS + PLANTED_MS
    dog.beat()
    clock.ms += EVERY_MS
    dog.beat()
    assert told == [Block(PLANTED_MS)]
    assert str(told[0]) == "The window was held for 200 ms."


def test_it_is_looked_at_only_while_it_is_away(dog: Watchdog, clock: HandClock) -> None:
    dog.start()
    looked: list[bool] = []

    def look() -> None:
        looked.append(dog.look())

    for more_ms in (LONGEST_MS, PLANTED_MS):
        clock.ms += more_ms
        other = threading.Thread(target=look)
        other.start()
        other.join()
    assert looked == [False, True]


def planted_block() -> None:
    """Holds the thread that calls it for a while."""
    until_ms = monotonic_ms() + PLANTED_MS
    while monotonic_ms() < until_ms:
        pass


def test_the_function_that_held_the_running_window_is_named(qtbot: QtBot, dressed: object) -> None:
    dog = Watchdog()
    told: list[Block] = []
    dog.blocked.connect(told.append)
    dog.start()
    QTimer.singleShot(EVERY_MS, dog, planted_block)
    qtbot.waitUntil(lambda: any("planted_block" in str(one) for one in told), timeout=10_000)
    dog.stop()
    block = next(one for one in told if "planted_block" in str(one))
    assert block.ms >= PLANTED_MS - 2 * EVERY_MS
    assert __file__ in str(block)


def test_once_stopped_it_tells_nothing_more(dog: Watchdog, clock: HandClock) -> None:
    told: list[Block] = []
    dog.blocked.connect(told.append)
    dog.start()
    dog.stop()
    assert not [one for one in threading.enumerate() if one.name == "watchdog"]
    assert told == []


def test_a_thread_that_stands_between_two_lines_is_told_by_where_its_function_begins() -> None:
    code = threading.Event.wait.__code__
    nowhere = FunctionType(code.replace(co_linetable=b""), threading.__dict__, "wait")
    done = threading.Event()
    waiting = threading.Thread(target=nowhere, args=(done, None))
    waiting.start()
    assert waiting.ident is not None
    lines: list[int] = []
    while not lines:
        lines = [line for _, line, name, _ in _stack_of(waiting.ident) if name == "wait"]
    done.set()
    waiting.join()
    assert code.co_firstlineno in lines
