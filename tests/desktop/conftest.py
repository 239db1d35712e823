"""The window's tests run on one application, dressed as the program dresses it."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from honeyledger.desktop import language, style, tokens
from honeyledger.desktop.scanning import Scanner
from tests.desktop.prompt_bot import PromptBot

# Said by the offscreen platform alone, when a window with a least size, or a list, is shown.
OFFSCREEN_SAYS = (
    r"^This plugin does not support (propagateSizeHints\(\)|grabbing the (keyboard|mouse))$"
)


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


@pytest.fixture(autouse=True, scope="module")
def every_window_is_closed(dressed: QApplication) -> Iterator[None]:
    """A scanner left behind would take keys from all tests that come later in this process."""
    yield
    left = [one for one in dressed.children() if isinstance(one, Scanner) and one.is_watching]
    for one in left:
        one.stop()
    assert not left, "a window of these tests was left open"


@pytest.fixture
def qtbot(qapp: QApplication, request: pytest.FixtureRequest) -> PromptBot:
    """The hand of every test here, in place of the library's own."""
    return PromptBot(request)


@pytest.fixture(autouse=True)
def light(dressed: QApplication) -> Iterator[QApplication]:
    """Every test begins light, still and in English, whatever the one before it put on."""
    language.wear(dressed, language.ENGLISH)
    style.wear(dressed, tokens.LIGHT, moving=False)
    yield dressed
    style.wear(dressed, tokens.LIGHT, moving=False)
