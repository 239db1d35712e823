"""The page of keys: the list, the list narrowed, a scan that is read and one that is misread."""

from honeyledger.desktop.main_window import KEYS, MainWindow
from honeyledger.desktop.stations.keys.view import KeysView
from tests.desktop.pictures_dock import a_drum

PAGES = (KEYS, "keys-narrowed", "keys-scanned", "keys-misread")


def _view(window: MainWindow) -> KeysView:
    found = window.stations[KEYS]
    assert isinstance(found, KeysView)
    return found


def bring(window: MainWindow, how: str) -> None:
    """Bring one of its pages about."""
    view = _view(window)
    if how == "narrowed":
        view.table.begin_find()
        assert view.table.finding is not None
        view.table.finding.editor.setText("table")
        view.table.narrow("table")
        return
    code = a_drum(window)
    if how == "misread":
        code = code[:-1] + ("X" if code[-1] != "X" else "Y")
    if how:
        view.take_code(code)
        view.spread.show_part(1)


def leave(window: MainWindow) -> None:
    """Back to the whole list."""
    view = _view(window)
    if view.table.finding is not None and not view.table.finding.isHidden():
        view.table.finding.leave()
    view.spread.show_part(0)
