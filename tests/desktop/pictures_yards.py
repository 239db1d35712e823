"""The yards in the states that are worth a picture, on the sample season."""

from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.stations.yards.view import YardsView
from tests.desktop.waiting import wait_for_page

PAGES = (
    *("yards", "yards-record", "yards-treat", "yards-map", "yards-chart", "yards-refused"),
    "yards-card",
)


def _view(window: MainWindow) -> YardsView:
    found = window.stations["yards"]
    assert isinstance(found, YardsView)
    return found


def bring(window: MainWindow, how: str) -> None:
    """Bring one of the states about, by the name behind the page's."""
    view = _view(window)
    wait_for_page(view.presenter, lambda: view.presenter.page)
    code = view.presenter.page.rows[0].code
    if how == "treat":
        view.form.choose("treat")
    if how in ("record", "treat", "map", "chart"):
        window.take_code(code)
    if how == "map":
        view.turn()
    elif how == "chart":
        view.spread.show_part(1)
        view.draw()
    elif how == "refused":
        view.form.record.click()
    elif how == "card":
        window.open_card(code)


def leave(window: MainWindow) -> None:
    """Empty what was typed, and show the list."""
    view = _view(window)
    window.close_card()
    if view.bodies.currentWidget() is view.map:
        view.turn()
    elif view.bodies.currentWidget() is view.chart:
        view.draw()
    for kind in ("treat", "record"):
        view.form.choose(kind)
        view.handle("clear")
    view.table.select("")
    view.spread.show_part(0)
