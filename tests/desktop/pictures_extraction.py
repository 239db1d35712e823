"""The extraction floor in the states that are worth a picture, on the sample season."""

from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.stations.extraction.fields_view import CLOSE, DRUM
from honeyledger.desktop.stations.extraction.view import ExtractionView
from tests.desktop.waiting import wait_for_page

PAGES = (
    "extraction",
    "extraction-fill",
    "extraction-refused",
    "extraction-closing",
    "extraction-also",
    "extraction-settle",
    "extraction-stop",
)


def _view(window: MainWindow) -> ExtractionView:
    found = window.stations["extraction"]
    assert isinstance(found, ExtractionView)
    return found


def bring(window: MainWindow, how: str) -> None:
    """Bring one of the states about, by the name behind the page's."""
    view = _view(window)
    wait_for_page(view.presenter, lambda: view.presenter.page)
    if how in ("fill", "refused"):
        view.floor.choose(DRUM)
        if how == "refused":
            view.floor.form.submit()
        else:
            view.floor.form.seal.set_text("ZK 0099817")
        view.floor.form.label.setVisible(how == "fill")  # as after the drum before
    elif how == "heel":
        view.floor.choose(CLOSE)
        view.floor.form.how.buttons()[1].click()
    elif how in ("also", "settle", "stop"):
        view.floor.more.forms.turn()
        view.floor.more.forms.form.choose("skim" if how == "also" else how)
    elif how == "closing":
        view.presenter.begin_closing()


def leave(window: MainWindow) -> None:
    """Back to the floor, with nothing typed."""
    view = _view(window)
    view.presenter.leave_closing()
    view.floor.form.label.hide()
    view.floor.more.forms.show_first()
    view.handle("clear")
