"""The page of recalls: nothing called back yet, and a case about to be opened on a jar lot."""

from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.models.asked import FormTyped
from honeyledger.desktop.stations.recalls.asks import OPEN
from honeyledger.desktop.stations.recalls.view import RecallsView

PAGES = ("recalls", "recalls-open")
ABOUT = "splinters of glass in one jar, found by a shop"


def _view(window: MainWindow) -> RecallsView:
    view = window.stations["recalls"]
    assert isinstance(view, RecallsView)
    return view


def bring(window: MainWindow, how: str) -> None:
    """Bring one of its pages about."""
    view = _view(window)
    if how == "open" and view.presenter.page is not None:
        view.form.choose(OPEN)
        yard = view.presenter.page.yards[0].code
        typed = {"about": ABOUT, "sort": "recall", "yard": yard, "first_day": "1 Jul 2026"}
        view.presenter.asking.fill(FormTyped(typed))


def leave(window: MainWindow) -> None:
    """Back to a case of nothing."""
    view = _view(window)
    for kind in list(view.presenter.asking.specs):
        view.presenter.asking.clear(kind)
    view.form.choose(OPEN)
