"""The season in the states that are worth a picture, on the sample season."""

from PySide6.QtWidgets import QApplication

from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.stations.season.view import SeasonView

PAGES = (
    *("season", "season-today", "season-yield", "season-weeks", "season-moisture"),
    *("season-colour", "season-losses", "season-drums", "season-figures", "season-refused"),
)


def _view(window: MainWindow) -> SeasonView:
    found = window.stations["season"]
    assert isinstance(found, SeasonView)
    return found


def bring(window: MainWindow, how: str) -> None:
    """Bring one of the states about, by the name behind the page's."""
    view = _view(window)
    while view.presenter.page is None:
        QApplication.processEvents()
    if how == "figures":
        view.presenter.choose("losses")
        view.spread.show_part(1)
    elif how == "refused":
        view.presenter.season = 1999
        view.presenter.ask()
    elif how:
        view.presenter.choose(how)
    items = view.chart.chart().items
    if how in ("yield", "moisture", "losses", "drums"):
        view.chart.select(items[min(3, len(items) - 1)].key)


def leave(window: MainWindow) -> None:
    """Show the chart of the pace again, with nothing in hand."""
    view = _view(window)
    if view.presenter.season:
        view.presenter.season = 0
        view.presenter.ask()
    view.presenter.choose("pace")
    view.spread.show_part(0)
    view.chart.select("")
    view.table.select("")
