"""The set-up in the states that are worth a picture, on the sample season."""

from PySide6.QtWidgets import QApplication

from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.stations.setup.kinds import setup_kinds
from honeyledger.desktop.stations.setup.view import SetupView

PAGES = ("setup", *(f"setup-{kind.key}" for kind in setup_kinds()[1:]), "setup-refused")


def _view(window: MainWindow) -> SetupView:
    found = window.stations["setup"]
    assert isinstance(found, SetupView)
    return found


def bring(window: MainWindow, how: str) -> None:
    """Bring one of the states about: a kind of record, or a form that was saved empty."""
    view = _view(window)
    while view.presenter.page is None:
        QApplication.processEvents()
    kinds = [kind.key for kind in setup_kinds()]
    view.presenter.turn(how if how in kinds else kinds[1 if how else 0])
    if how == "refused":
        view.save.click()


def leave(window: MainWindow) -> None:
    """An empty form of the first kind."""
    _view(window).handle("clear")
    _view(window).presenter.turn(setup_kinds()[0].key)
