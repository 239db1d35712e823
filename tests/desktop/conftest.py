"""The window's tests run on one application, dressed as the program dresses it."""

import gc
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QObject, QTranslator
from PySide6.QtWidgets import QApplication, QStyle, QWidget
from shiboken6 import delete, getAllValidWrappers, isValid

from honeyledger.desktop import language, style, tokens
from honeyledger.desktop.main_window import MainWindow
from tests.desktop.prompt_bot import PromptBot
from tests.desktop.tour import KEPT

# Said by the offscreen platform alone, when a window with a least size, or a list, is shown.
OFFSCREEN_SAYS = (
    r"^This plugin does not support (propagateSizeHints\(\)|grabbing the (keyboard|mouse))$"
)

# Widgets end with their window.
OF_THE_APPLICATION = (QWidget, QStyle, QTranslator)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Any other warning of Qt's fails the test it came from."""
    here = Path(__file__).parent
    for item in items:
        if here in item.path.parents:
            item.add_marker(pytest.mark.qt_log_ignore(OFFSCREEN_SAYS, extend=True))


@pytest.fixture(scope="session")
def dressed(qapp: QApplication) -> QApplication:
    """The application with the program's typefaces and style."""
    style.install(qapp)
    return qapp


@pytest.fixture
def qtbot(qapp: QApplication, request: pytest.FixtureRequest) -> PromptBot:
    """The hand of every test here, in place of the library's own."""
    return PromptBot(request)


@pytest.fixture(autouse=True)
def light(dressed: QApplication) -> Iterator[QApplication]:
    """Every test begins light, still and in English; none leaves a window to the next."""
    # As in the program: what belongs to Qt is garbage in this thread only.
    gc.disable()
    _put_away(dressed)  # those that another folder's tests left are not this one's
    language.wear(dressed, language.ENGLISH)
    style.wear(dressed, tokens.LIGHT, moving=False)
    yield dressed
    style.wear(dressed, tokens.LIGHT, moving=False)
    left = _put_away(dressed)
    if not any(isinstance(one, MainWindow) for one in dressed.topLevelWidgets()):
        _let_go()
    # Python looks by itself again, with what the test left: no lane is at work now.
    gc.enable()
    assert not left, f"a window was left open, whose scanner takes the next test's keys: {left}"


def _let_go() -> None:
    """End what stood beside the widgets of windows that are gone.

    What listens to a signal by a function of its own is never garbage: it would hear of every
    further theme and answer, for as long as all the tests take.
    """
    for one in getAllValidWrappers():
        is_ours = type(one).__module__.startswith("honeyledger.desktop.")
        if not is_ours or not isinstance(one, QObject) or isinstance(one, OF_THE_APPLICATION):
            continue
        if isValid(one) and one.parent() is None:
            delete(one)


def _put_away(app: QApplication) -> list[str]:
    """Close windows that a test leaves behind, and tell them; its own fixtures are gone by now.

    One that is kept for all tests of a module says so by its property.
    """
    left = []
    for window in app.topLevelWidgets():
        if not isinstance(window, MainWindow) or window.property(KEPT):
            continue
        if window.scanner.is_listening():
            left.append(window.windowTitle())
            window.scanner.stop()
            window.close()
        delete(window)
    return left
