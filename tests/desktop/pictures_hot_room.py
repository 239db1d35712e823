"""The hot room in the states that are worth a picture, on the sample season."""

from PySide6.QtWidgets import QApplication

from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.models.asked import FormTyped
from honeyledger.desktop.stations.hot_room.view import HotRoomView
from tests.desktop.waiting import wait_for_answers, wait_for_page

PAGES = (
    *("hot_room", "hot_room-air", "hot_room-refused", "hot_room-dry", "hot_room-aside"),
    "hot_room-weather",
    *("hot_room-order", "hot_room-read", "hot_room-lately"),
    *("hot_room-runs", "hot_room-runs-refused"),
)


def _view(window: MainWindow) -> HotRoomView:
    found = window.stations["hot_room"]
    assert isinstance(found, HotRoomView)
    return found


def _wait(window: MainWindow) -> None:
    QApplication.processEvents()
    wait_for_answers(window)
    QApplication.processEvents()


def bring(window: MainWindow, how: str) -> None:
    """Bring one of the states about, by the name behind the page's."""
    view = _view(window)
    wait_for_page(view.presenter, lambda: view.presenter.page)
    asking = view.presenter.asking
    codes = [row.code for row in view.presenter.page.rows]
    if how in ("dry", "aside"):
        view.form.choose(how)
        window.take_code(codes[-1] if how == "dry" else codes[0])
        if how == "aside":
            asking.fill(asking.now().with_value("to", "bees").with_value("count", "2"))
    elif how == "weather":
        view.form.choose(how)
    elif how in ("air", "refused", "read"):
        values = {"room": "Hot room", "stranger": "add", "temperature": "41,5", "humidity": "45"}
        if how == "refused":
            values["humidity"] = "145"
        asking.fill(FormTyped(values))
        if how != "air":
            view.form.record.click()
    elif how == "lately":
        view.spread.show_part(1)
        view.turn()
    elif how in ("runs", "runs-refused"):
        view.spread.show_part(1)
        view.turn_to_plan()
        assert view.plan is not None
        view.plan.most.set_text("450" if how == "runs" else "1,2 t")
        view.plan.propose.click()
    elif how == "order":
        for code in codes[-1:0:-1]:
            window.take_code(code)
        view.table.take_focus()
    _wait(window)


def leave(window: MainWindow) -> None:
    """Empty what was typed, and the order of the next run."""
    view = _view(window)
    if view.bodies.currentWidget() is view.air:
        view.turn()
    if view.plan is not None and view.bodies.currentWidget() is view.plan:
        view.plan.most.clear()
        view.turn_to_plan()
    for kind in ("dry", "aside", "log"):
        view.form.choose(kind)
        view.handle("clear")
    for code in view.presenter.order.codes:
        view.presenter.toggle(code)
    view.table.select("")
    view.spread.show_part(0)
