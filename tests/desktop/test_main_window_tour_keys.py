"""By Tab alone the keyboard comes to all there is on a page, and a ring stands round it there."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from honeyledger.desktop import style
from honeyledger.desktop.main_window import MainWindow
from tests.desktop import pictures
from tests.desktop.pictures_trace import page_of as trace_page
from tests.desktop.tour import NARROWEST, USUAL, Stop, Tour
from tests.desktop.tour_checks import name_of, no_ring
from tests.support.tiers import first_plain

PAGES = (
    *("season-todo", "exposure", "recalls", "setup-wording", "trace-affected"),
    "season-plan-finer",  # a thousand seasons are gone through for it
)
MOST = 80


@pytest.fixture(scope="module")
def led(tmp_path_factory: pytest.TempPathFactory, qapp: QApplication) -> Iterator[Tour]:
    """The window of a tour."""
    style.install(qapp)
    made = Tour(qapp, tmp_path_factory.mktemp("keys"))
    yield made
    made.close()


def _stops(window: QWidget) -> list[QWidget]:
    """All that Tab should come to."""
    return [
        one
        for one in window.findChildren(QWidget)
        if one.isVisible()
        and one.isEnabled()
        and one.focusProxy() is None
        and one.focusPolicy() & Qt.FocusPolicy.TabFocus
    ]


@pytest.mark.parametrize("size", [USUAL, pytest.param(NARROWEST, marks=pytest.mark.full)], ids=str)
@pytest.mark.parametrize("page", first_plain(PAGES, len(PAGES) - 1))
def test_tab_comes_to_everything(led: Tour, page: str, size: tuple[int, int]) -> None:
    with led.at(Stop(page, size)) as window:
        assert isinstance(window, MainWindow)
        if page == "trace-affected":
            # The first of its place in this tour, and not put back by that place's beginning.
            assert trace_page(window).recall().widget.isVisible()
        walked: list[QWidget] = []
        for _ in range(MOST):
            at = QApplication.focusWidget()
            assert at is not None, "the keyboard is somewhere"
            if at in walked:
                break
            walked.append(at)
            assert list(no_ring()) == []
            QTest.keyClick(at, Qt.Key.Key_Tab)
            pictures.settle(led.app, led.window(Stop(page, size)))
        assert [name_of(one) for one in _stops(window) if one not in walked] == []
