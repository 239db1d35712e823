"""A scanner is told from a typist by speed, from any screen and whatever has the keyboard."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, QObject, Qt
from PySide6.QtGui import QAction, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QApplication, QLineEdit, QPushButton, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop.scanning import (
    LONGEST_FALTER_MS,
    LONGEST_GAP_MS,
    SHORTEST_CODE,
    Scan,
    Scanner,
    monotonic_ms,
)

FAST = 8.0
SLOW = 120.0
NONE = Qt.KeyboardModifier.NoModifier


class HandClock:
    """Milliseconds that pass only when a key says so; keys made by a test carry no time."""

    def __init__(self) -> None:
        self.ms = 1000.0

    def __call__(self) -> float:
        return self.ms


class Page(QWidget):
    """A form with a field and a button that Enter presses."""

    def __init__(self) -> None:
        super().__init__()
        self.field = QLineEdit()
        self.button = QPushButton("Receive")
        self.button.setAutoDefault(True)
        self.pressed = 0
        column = QVBoxLayout(self)
        column.addWidget(self.field)
        column.addWidget(self.button)
        self.button.clicked.connect(self._press)

    def _press(self) -> None:
        self.pressed += 1


@pytest.fixture
def clock() -> HandClock:
    return HandClock()


@pytest.fixture
def scanner(dressed: QApplication, clock: HandClock) -> Iterator[Scanner]:
    made = Scanner(dressed, clock)
    yield made
    # What it still holds back would be given to the next test's.
    made.give_back()
    made.stop()
    made.deleteLater()


@pytest.fixture
def page(qtbot: QtBot) -> Page:
    made = Page()
    qtbot.addWidget(made)
    with qtbot.waitExposed(made):
        made.show()
    made.activateWindow()
    made.field.setFocus()
    qtbot.waitUntil(made.field.hasFocus)
    return made


def _key(target: QWidget, key: int, text: str, modifiers: Qt.KeyboardModifier = NONE) -> None:
    """A key as Qt sends one: first the question whether it is a shortcut, then the press."""
    for kind in (QEvent.Type.ShortcutOverride, QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
        QCoreApplication.sendEvent(target, QKeyEvent(kind, key, modifiers, text))


def _type(
    target: QWidget, text: str, clock: HandClock, gap_ms: float, end: Qt.Key | None = None
) -> None:
    for letter in text:
        clock.ms += gap_ms
        if letter.isupper():
            _key(target, Qt.Key.Key_Shift, "", Qt.KeyboardModifier.ShiftModifier)
        _key(target, ord(letter.upper()), letter)
    if end is not None:
        clock.ms += gap_ms
        _key(target, end, "\r" if end == Qt.Key.Key_Return else "\t")


@pytest.mark.parametrize("end", [Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Tab])
def test_a_fast_code_is_taken_whole_with_the_key_that_ends_it(
    qtbot: QtBot, scanner: Scanner, page: Page, clock: HandClock, end: Qt.Key
) -> None:
    page.field.setText("36")
    page.button.setFocus()
    with qtbot.waitSignal(scanner.scanned) as caught:
        _type(page.button, "D26-0611-Y", clock, FAST, end)
    assert caught.args == ["D26-0611-Y"]
    assert page.field.text() == "36"
    assert page.pressed == 0, "a scanner's Enter presses nothing"
    assert page.button.hasFocus(), "a scanner's Tab moves nothing"


def test_a_scan_leaves_the_field_with_the_keyboard_as_it_was(
    scanner: Scanner, page: Page, clock: HandClock
) -> None:
    page.field.setText("874.5")
    _type(page.field, "P26-0231-2", clock, FAST, Qt.Key.Key_Return)
    assert page.field.text() == "874.5"


def test_what_is_typed_by_hand_arrives_in_order(
    scanner: Scanner, page: Page, clock: HandClock
) -> None:
    heard: list[str] = []
    scanner.scanned.connect(heard.append)
    _type(page.field, "coulee bend", clock, SLOW)
    scanner.give_back()
    assert page.field.text() == "coulee bend"
    _type(page.field, "", clock, SLOW, Qt.Key.Key_Return)
    assert heard == []


def test_a_held_key_is_given_back_without_another_one(
    qtbot: QtBot, scanner: Scanner, page: Page, clock: HandClock
) -> None:
    _type(page.field, "c", clock, SLOW)
    qtbot.waitUntil(lambda: page.field.text() == "c", timeout=2000)


def test_a_fast_word_that_enter_follows_late_was_typed(
    scanner: Scanner, page: Page, clock: HandClock
) -> None:
    heard: list[str] = []
    scanner.scanned.connect(heard.append)
    _type(page.field, "north", clock, FAST)
    clock.ms += LONGEST_FALTER_MS + 1
    _key(page.field, Qt.Key.Key_Return, "\r")
    assert page.field.text() == "north"
    assert heard == []


def test_three_letters_and_enter_are_too_few_to_be_a_code(
    scanner: Scanner, page: Page, clock: HandClock
) -> None:
    heard: list[str] = []
    scanner.scanned.connect(heard.append)
    _type(page.field, "Y14", clock, FAST, Qt.Key.Key_Return)
    assert heard == []
    assert page.field.text() == "Y14"


def test_a_key_that_is_no_part_of_a_code_lets_the_letters_before_it_go(
    scanner: Scanner, page: Page, clock: HandClock
) -> None:
    _type(page.field, "abc", clock, FAST)
    clock.ms += FAST
    _key(page.field, Qt.Key.Key_Backspace, "\b")
    assert page.field.text() == "ab"


def test_a_key_held_down_is_not_a_scanner(scanner: Scanner, page: Page, clock: HandClock) -> None:
    for _ in range(6):
        clock.ms += FAST
        event = QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_7, NONE, "7", True, 1)
        QCoreApplication.sendEvent(page.field, event)
    assert page.field.text() == "777777"


def test_a_scanned_letter_is_never_a_shortcut(
    scanner: Scanner, page: Page, clock: HandClock
) -> None:
    action = QAction("Draw", page)
    action.setShortcut(QKeySequence("D"))
    drawn: list[bool] = []
    action.triggered.connect(drawn.append)
    page.addAction(action)
    event = QKeyEvent(QEvent.Type.ShortcutOverride, Qt.Key.Key_D, NONE, "D")
    assert QCoreApplication.sendEvent(page.field, event)
    assert event.isAccepted()
    _type(page.field, "D26-0611-Y", clock, FAST, Qt.Key.Key_Return)
    assert drawn == []


def test_shortcuts_with_control_are_left_alone(
    scanner: Scanner, page: Page, clock: HandClock
) -> None:
    page.field.setText("Coulee Bend")
    _key(page.field, Qt.Key.Key_A, "", Qt.KeyboardModifier.ControlModifier)
    assert page.field.selectedText() == "Coulee Bend"


def test_a_whole_web_address_and_group_separators_are_read_as_typed(
    qtbot: QtBot, scanner: Scanner, page: Page, clock: HandClock
) -> None:
    address = "HTTPS://ID.EXAMPLE/01/09506000134352/10/J26-0147?X=1"
    with qtbot.waitSignal(scanner.scanned) as caught:
        _type(page.field, address, clock, FAST, Qt.Key.Key_Return)
    assert caught.args == [address]
    with qtbot.waitSignal(scanner.scanned) as caught:
        _type(page.field, "10J26-0147\x1d2100382", clock, FAST, Qt.Key.Key_Return)
    assert caught.args == ["10J26-0147\x1d2100382"]


def test_a_double_scan_is_told_twice(scanner: Scanner, page: Page, clock: HandClock) -> None:
    heard: list[str] = []
    scanner.scanned.connect(heard.append)
    for _ in range(2):
        clock.ms += SLOW
        _type(page.field, "D26-0611-Y", clock, FAST, Qt.Key.Key_Return)
    assert heard == ["D26-0611-Y", "D26-0611-Y"]


def test_the_time_of_the_window_system_stands_above_the_clock(
    scanner: Scanner, page: Page, clock: HandClock
) -> None:
    """A busy window takes several keys at once; their own stamps say that a hand typed them."""
    heard: list[str] = []
    scanner.scanned.connect(heard.append)
    for number, letter in enumerate("coulee"):
        event = QKeyEvent(QEvent.Type.KeyPress, ord(letter.upper()), NONE, letter)
        event.setTimestamp(10_000 + number * 150)
        QCoreApplication.sendEvent(page.field, event)
    event = QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_Return, NONE, "\r")
    event.setTimestamp(11_000)
    QCoreApplication.sendEvent(page.field, event)
    assert heard == []
    assert page.field.text() == "coulee"


@pytest.mark.parametrize("gap_ms", [FAST, SLOW])
def test_a_lone_space_presses_the_button_however_short(
    scanner: Scanner, page: Page, clock: HandClock, gap_ms: float
) -> None:
    """Its release comes before it is known whose it was, and must not be lost on the way."""
    page.button.setFocus()
    _type(page.button, " ", clock, gap_ms)
    assert page.pressed == 0, "nobody knows yet whether a scanner goes on"
    scanner.give_back()
    assert page.pressed == 1
    assert not page.button.isDown()


def test_a_short_key_reaches_its_field_once_pressed_and_released(
    scanner: Scanner, page: Page, clock: HandClock
) -> None:
    seen: list[QEvent.Type] = []

    class Ear(QObject):
        def eventFilter(self, _watched: QObject, event: QEvent) -> bool:  # noqa: N802
            if event.type() in (QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
                seen.append(event.type())
            return False

    ear = Ear()
    page.field.installEventFilter(ear)
    _type(page.field, "g", clock, FAST)
    assert seen == []
    scanner.give_back()
    assert seen == [QEvent.Type.KeyPress, QEvent.Type.KeyRelease]
    assert page.field.text() == "g"


def test_a_space_held_longer_is_released_when_the_finger_goes(
    scanner: Scanner, page: Page, clock: HandClock
) -> None:
    page.button.setFocus()
    for kind in (QEvent.Type.ShortcutOverride, QEvent.Type.KeyPress):
        QCoreApplication.sendEvent(page.button, QKeyEvent(kind, Qt.Key.Key_Space, NONE, " "))
    scanner.give_back()
    assert page.button.isDown()
    up = QKeyEvent(QEvent.Type.KeyRelease, Qt.Key.Key_Space, NONE, " ")
    QCoreApplication.sendEvent(page.button, up)
    assert page.pressed == 1


def test_a_space_inside_a_scan_presses_nothing(
    scanner: Scanner, page: Page, clock: HandClock
) -> None:
    page.button.setFocus()
    _type(page.button, "D26 0611 Y", clock, FAST, Qt.Key.Key_Return)
    scanner.give_back()
    assert page.pressed == 0
    assert not page.button.isDown()


def test_releases_that_come_after_the_scan_are_the_scans_too(
    scanner: Scanner, page: Page, clock: HandClock
) -> None:
    """Where two keys overlap the last release comes behind the ending key."""
    page.button.setFocus()
    for letter in "D260611 ":
        clock.ms += FAST
        press = QKeyEvent(QEvent.Type.KeyPress, ord(letter), NONE, letter)
        QCoreApplication.sendEvent(page.button, press)
    clock.ms += FAST
    enter = QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_Return, NONE, "\r")
    QCoreApplication.sendEvent(page.button, enter)
    up = QKeyEvent(QEvent.Type.KeyRelease, Qt.Key.Key_Space, NONE, " ")
    assert QCoreApplication.sendEvent(page.button, up), "it is taken out of the stream"
    assert page.pressed == 0
    clock.ms += SLOW
    _type(page.button, " ", clock, SLOW)
    scanner.give_back()
    assert page.pressed == 1, "the next one is a hand's"


def test_a_scanner_that_falters_is_still_a_scanner_and_presses_nothing(
    scanner: Scanner, page: Page, clock: HandClock
) -> None:
    heard: list[str] = []
    scanner.scanned.connect(heard.append)
    page.button.setFocus()
    _type(page.button, "D26-0", clock, FAST)
    clock.ms += LONGEST_FALTER_MS - FAST
    _type(page.button, "611-Y", clock, FAST)
    clock.ms += LONGEST_FALTER_MS
    _key(page.button, Qt.Key.Key_Return, "\r")
    assert heard == ["D26-0611-Y"]
    assert page.pressed == 0


def test_what_came_before_a_pause_is_a_hands_until_enough_is_typed(
    scanner: Scanner, page: Page, clock: HandClock
) -> None:
    _type(page.field, "abcd"[: SHORTEST_CODE - 1], clock, FAST)
    clock.ms += LONGEST_GAP_MS + 1 - FAST
    _type(page.field, "e", clock, FAST)
    assert page.field.text() == "abc", "what came before the pause is a hand's"


@pytest.mark.parametrize("second", [Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Tab])
def test_a_second_ending_key_is_the_scanners_too(
    scanner: Scanner, page: Page, clock: HandClock, second: Qt.Key
) -> None:
    """Some scanners end with a carriage return and a line feed: that is Enter twice."""
    heard: list[str] = []
    scanner.scanned.connect(heard.append)
    page.button.setFocus()
    _type(page.button, "D26-0611-Y", clock, FAST, Qt.Key.Key_Return)
    clock.ms += FAST
    _key(page.button, second, "\r")
    assert heard == ["D26-0611-Y"]
    assert page.pressed == 0
    assert page.button.hasFocus()


def test_an_enter_by_hand_after_a_scan_is_the_hands(
    scanner: Scanner, page: Page, clock: HandClock
) -> None:
    page.button.setFocus()
    _type(page.button, "D26-0611-Y", clock, FAST, Qt.Key.Key_Return)
    clock.ms += SLOW
    _key(page.button, Qt.Key.Key_Return, "\r")
    assert page.pressed == 1


def test_with_caps_lock_on_the_scan_is_told_as_it_came(
    qtbot: QtBot, scanner: Scanner, page: Page, clock: HandClock
) -> None:
    _key(page.field, Qt.Key.Key_CapsLock, "")
    with qtbot.waitSignal(scanner.scanned) as caught:
        _type(page.field, "]q3d26-0611-y", clock, FAST, Qt.Key.Key_Tab)
    assert caught.args == ["]q3d26-0611-y"]
    assert page.field.text() == ""


def test_a_busy_window_takes_the_keys_that_wait_before_it_gives_up(
    scanner: Scanner, page: Page, clock: HandClock
) -> None:
    """The timer of a window that was busy is over before the keys that came meanwhile are seen."""
    heard: list[str] = []
    scanner.scanned.connect(heard.append)
    _type(page.field, "D26-0", clock, FAST)
    scanner._timer.timeout.emit()
    _type(page.field, "611-Y", clock, FAST, Qt.Key.Key_Return)
    QCoreApplication.processEvents()
    assert heard == ["D26-0611-Y"]
    assert page.field.text() == ""


def test_it_says_how_the_last_scan_came(scanner: Scanner, page: Page, clock: HandClock) -> None:
    assert scanner.last_scan() is None
    _type(page.field, "D26-0611-Y", clock, FAST, Qt.Key.Key_Tab)
    assert scanner.last_scan() == Scan("D26-0611-Y", 10 * FAST, "Tab")


def test_the_clock_goes_only_forward() -> None:
    first = monotonic_ms()
    assert monotonic_ms() >= first
