"""The dock's page in the states that are worth a picture, on the sample season."""

from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.stations.dock.typed import LineTyped, Typed
from honeyledger.desktop.stations.dock.view import DockView
from tests.desktop.waiting import wait_for_answers, wait_for_page

PAGES = (
    *("dock", "dock-typed", "dock-refused", "dock-card", "dock-split", "dock-buy"),
    *("dock-pad", "dock-when"),
)


def _view(window: MainWindow) -> DockView:
    found = window.stations["dock"]
    assert isinstance(found, DockView)
    return found


def a_drum(window: MainWindow) -> str:
    """A drum with many yards behind it."""
    rows = window.desk.house.ask(lambda view: view.on_hand(["drum"]))
    return rows[len(rows) // 2].lot.code


def bring(window: MainWindow, how: str) -> None:
    """Bring one of the states about, by the name behind the page's."""
    view = _view(window)
    wait_for_page(view.presenter, lambda: view.presenter.page)
    if how == "typed":
        _type(view)
    elif how == "refused":
        view.form.receive.click()
    elif how in ("pad", "when"):
        window.pad.ask()
        if how == "pad":
            window.pad.take("10:20", "30")
            wait_for_answers(window)
    elif how in ("split", "buy"):
        view.pallets.forms.turn()
        view.pallets.forms.form.choose(how)
    elif how == "card":
        window.open_card(a_drum(window))


def _type(view: DockView) -> None:
    """A pallet half way through, wet and from two yards."""
    page = view.presenter.page
    assert page is not None
    first, second = page.yards[3], page.yards[8]
    line = LineTyped(second.code, "40", "25 Sep 2026", "North truck", "36", "medium")
    kept = LineTyped(first.code, "", "25 Sep 2026", "North truck", "12", "medium")
    view.presenter.fill(Typed(line, (kept,), "1012,5", "green", "18.4"))
    view.form.go_to_supers()


def leave(window: MainWindow) -> None:
    """An empty form, and no card beside it."""
    window.close_card()
    window.pad.end()
    window_dock = _view(window)
    window_dock.pallets.forms.show_first()
    _view(window).handle("clear")
