"""The set-up in the states that are worth a picture, on the sample season."""

import tempfile
from pathlib import Path

from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.stations.setup.deeds import setup_kinds
from honeyledger.desktop.stations.setup.view import SetupView
from tests.desktop.waiting import wait_until

PAGES = (
    "setup",
    *(f"setup-{kind.key}" for kind in setup_kinds()[1:]),
    "setup-refused",
    "setup-whole",
    "setup-rows",
)

TYPED = {
    "stock": {
        "name": "Jar sheet",
        "width_um": "63.5",
        "height_um": "38.1",
        "columns": "3",
        "rows": "7",
        "left_um": "7.25",
        "top_um": "15.1",
        "gap_x_um": "2.5",
    },
    "printer": {"name": "Tag printer", "shift_x_mm": "0.3"},
    "shift": {"name": "Early", "begins": "06:00", "ends": "14:00"},
}


def _view(window: MainWindow) -> SetupView:
    found = window.stations["setup"]
    assert isinstance(found, SetupView)
    return found


def bring(window: MainWindow, how: str) -> None:
    """Bring one of the states about: a kind, a form saved empty, all facts, a table refused."""
    view = _view(window)
    wait_until(lambda: view.presenter.is_begun, view.presenter)
    kinds = [kind.key for kind in setup_kinds()]
    named = {"refused": "yard", "whole": "product", "rows": "table"}
    view.presenter.turn(named.get(how, how or kinds[0]))
    if how == "refused":
        view.save.click()
    elif how == "whole":
        view.more.click()
    elif how in TYPED:
        form = view.by_kind[how]
        form.fill(form.values() | TYPED[how])
        form.changed.emit()
    elif how == "rows":
        view.by_kind["table"].fill({"what": "yards", "file": str(_bad_table())})
        view.save.click()


def _bad_table() -> Path:
    """A table in which two things are wrong."""
    file = Path(tempfile.gettempdir()) / "yards.csv"
    file.write_text("name,colonies,latitude\nMill Hill,many,51\nHigh Wood,20,north\n")
    return file


def leave(window: MainWindow) -> None:
    """An empty form of the first kind."""
    _view(window).handle("clear")
    _view(window).presenter.turn(setup_kinds()[0].key)
