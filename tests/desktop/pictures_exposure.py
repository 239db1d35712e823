"""The page of exposure: what ties most, each of its tables, and what goes with one code."""

from PySide6.QtWidgets import QApplication

from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.stations.exposure.view import RUNS, SOURCES, TIES, WASH, ExposureView
from tests.desktop.waiting import wait_for_answers, wait_for_page

PAGES = (
    *("exposure", "exposure-sources", "exposure-wash", "exposure-runs"),
    *("exposure-code", "exposure-refused"),
)
CODES = {"code": "D26-0004-6", "refused": "D26-0004-7"}


def _view(window: MainWindow) -> ExposureView:
    view = window.stations["exposure"]
    assert isinstance(view, ExposureView)
    return view


def bring(window: MainWindow, how: str) -> None:
    """Bring one of its states about, by the name behind the page's."""
    view = _view(window)
    wait_for_page(view.presenter, lambda: view.presenter.page)
    if how in (SOURCES, WASH, RUNS):
        view.show_kind(how)
    elif how:
        view.take_code(CODES[how])
    wait_for_answers(window)
    QApplication.processEvents()


def leave(window: MainWindow) -> None:
    """Back to what ties most, and to no code."""
    view = _view(window)
    view.show_kind(TIES)
    view.code.clear()
    view.presenter.code = ""
    view.spread.show_part(0)
