"""The entries: the list, a chain before it is reversed, amending, the house, a misread code."""

from honeyledger.desktop.main_window import ENTRIES, MainWindow
from honeyledger.desktop.stations.entries.view import EntriesView

PAGES = (
    *(ENTRIES, "entries-chain", "entries-amend", "entries-narrow", "entries-house"),
    "entries-refused",
)
_BACK = 4  # a load a few entries ago, on which others are built


def _view(window: MainWindow) -> EntriesView:
    found = window.stations[ENTRIES]
    assert isinstance(found, EntriesView)
    return found


def bring(window: MainWindow, how: str) -> None:
    """Bring one of its pages about."""
    view = _view(window)
    head = window.frame.others.head
    if how == "chain":
        view.undo(head - _BACK)
    elif how == "amend":
        view.list.table.select(str(head - _BACK))
        view.amend_it.click()
    elif how == "narrow":
        view.narrow()
    elif how == "house":
        view.show_house()
    elif how == "refused":
        view.list.show_about("D26-0611-X")


def leave(window: MainWindow) -> None:
    """Back to the list."""
    view = _view(window)
    view.list.show_all()
    view.undoing.left.emit()
