"""The page of checks: what is due, one found off with what used it since, the question since when,
and the hold on all of it."""

from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.models.asked import FormTyped
from honeyledger.desktop.stations.checks.asks import MADE
from honeyledger.desktop.stations.checks.view import ChecksView
from honeyledger.domain.checks import State
from tests.desktop.waiting import wait_for_page

PAGES = ("checks", "checks-due", "checks-since", "checks-hold")


def _view(window: MainWindow) -> ChecksView:
    view = window.stations["checks"]
    assert isinstance(view, ChecksView)
    return view


def _key(view: ChecksView, state: State, name: str = "") -> str:
    page = view.presenter.page
    assert page is not None
    return next(row.key for row in page.rows if row.state is state and name in row.check.key)


def bring(window: MainWindow, how: str) -> None:
    """Bring one of its pages about."""
    view = _view(window)
    wait_for_page(view.presenter, lambda: view.presenter.page)
    if how == "due":
        view.table.select(_key(view, State.OVERDUE, "glass"))
    elif how == "since":
        key = _key(view, State.IN_ORDER, "scale")
        view.table.select(key)
        view.form.choose(MADE)
        typed = {"check": key, "result": "off", "value": "20.6 kg"}
        view.presenter.asking.fill(FormTyped(typed))
    elif how == "hold":
        view.table.opened.emit(_key(view, State.OFF))


def leave(window: MainWindow) -> None:
    """Back to a check of nothing."""
    view = _view(window)
    for kind in list(view.presenter.asking.specs):
        view.presenter.asking.clear(kind)
    view.form.choose(MADE)
    page = view.presenter.page
    if page is not None and page.rows:
        view.table.select(page.rows[0].key)
