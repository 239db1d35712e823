"""The dispatch's page in the states that are worth a picture, on the sample season."""

from collections.abc import Mapping

from PySide6.QtWidgets import QApplication

from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.stations.dispatch.presenter import DispatchPresenter
from honeyledger.desktop.stations.dispatch.side_view import HAND, NOTES
from honeyledger.desktop.stations.dispatch.trade_view import GATE_VIEW, OWED
from honeyledger.desktop.stations.dispatch.view import DispatchView
from honeyledger.desktop.widgets.copies_ask import CopiesAsk
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.house import Said
from tests.desktop.waiting import wait_for_answers, wait_for_page, wait_until

# Jars and a drum on hand, other jars, and a drum of which an ancestor is held.
JARS, DRUM, MORE_JARS, HELD = "J26-0015-9", "D26-0025-V", "J26-0003-H", "D26-0093-9"
NOT_FOR_NORLAND = ("Y26-0007-D",)
CAME_BACK, A_SAMPLE = "J26-0014-B", "D26-0026-T"
PAGES = (
    *("dispatch", "dispatch-order", "dispatch-counting", "dispatch-picked", "dispatch-twice"),
    *("dispatch-refused", "dispatch-notes", "dispatch-sign", "dispatch-rest"),
    *("dispatch-copies", "dispatch-larger"),
    *("dispatch-back", "dispatch-away", "dispatch-sample"),
    *("dispatch-trade", "dispatch-owed", "dispatch-gate", "dispatch-market"),
)


def _view(window: MainWindow) -> DispatchView:
    found = window.stations["dispatch"]
    assert isinstance(found, DispatchView)
    return found


def _wait(window: MainWindow) -> None:
    QApplication.processEvents()
    wait_for_answers(window)
    QApplication.processEvents()


def _scan(window: MainWindow, *codes: str) -> None:
    for code in codes:
        window.take_code(code)
        _wait(window)


def bring(window: MainWindow, how: str) -> None:
    """Bring one of the states about, by the name behind the page's."""
    view = _view(window)
    presenter = view.presenter
    wait_for_page(presenter, lambda: presenter.page)
    if how in ("back", "away", "sample"):
        view.form.choose(how)
        _scan(window, {"back": CAME_BACK, "away": JARS, "sample": A_SAMPLE}[how])
    elif how in ("copies", "larger"):
        _ask_copies(window)
        if how == "larger":
            _wait(window)
            window.findChildren(CopiesAsk)[-1].paper.large.click()
    elif how == "market":
        _market(window)
    elif how == "trade":
        view.trade.forms.turn()
    elif how in ("owed", "gate"):
        view.side.choose_view({"owed": OWED, "gate": GATE_VIEW}[how])
        _wait(window)
    elif how:
        _order(presenter)
        view.form.note.fill()
        _wait(window)
        if how != "order":
            _pick(window, how)


def _ask_copies(window: MainWindow) -> None:
    """How many of a note, before it is printed."""
    view = _view(window)
    window.desk.ask_copies = lambda asked, then: CopiesAsk(asked, then, window).open()
    view.side.choose_view(NOTES)
    _wait(window)
    table = view.side.tables[NOTES]
    table.select(table.model.key_at(0))
    window.desk.look_first(lambda: view.handle("print"))
    wait_until(lambda: window.findChildren(CopiesAsk), window.desk.jobs)


def _order(presenter: DispatchPresenter) -> None:
    presenter.type("Hartle & Nym Foods", "PO 7714", "Skelbow Haulage")
    for group, count in (
        ("product/creamed-honey-375-g", "120"),
        ("product/field-blend-250-g", "24x12"),
        ("lots/D", "2"),
    ):
        presenter.want(group, count)


def _market(window: MainWindow) -> None:
    """Jars for a customer in a market that a part of their honey is not eligible for."""
    view, house = _view(window), window.desk.house
    said = Said(operator=_someone(window))
    records = house.ask(lambda one: {row.subject: row.value for row in one.marked("record")})
    if "customer/fjord-foods" not in records:
        house.record(Register("customer", {"name": "Fjord Foods", "market": "Norland"}), said)
        for code in NOT_FOR_NORLAND:
            record = records[f"yard/{code}"]
            assert isinstance(record, Mapping)
            house.record(Register("yard", {**record, "not_for": "Norland"}, code), said)
    view.presenter.type("Fjord Foods", "", "")
    view.form.note.fill()
    _scan(window, DRUM)
    view.presenter.pause.timeout.emit()
    _wait(window)


def _pick(window: MainWindow, how: str) -> None:
    view = _view(window)
    _scan(window, JARS)
    if how == "counting":
        return
    view.form.note.begin_goes()
    _scan(window, DRUM, MORE_JARS)
    if how == "refused":
        _scan(window, HELD)
    elif how == "twice":
        _scan(window, DRUM)
    elif how == "notes":
        view.side.choose_view(NOTES)
    elif how in ("sign", "rest"):
        window.desk.operator = _someone(window) if how == "rest" else ""
        view.form.record.click()
        _wait(window)


def _someone(window: MainWindow) -> str:
    marked = window.desk.house.ask(lambda view: view.marked("record", "operator/"))
    return marked[0].subject.partition("/")[2]


def leave(window: MainWindow) -> None:
    """Back to an empty note, nothing said or warned of."""
    for asked in window.findChildren(CopiesAsk):
        asked.reject()
    view = _view(window)
    window.desk.operator = ""
    view.trade.forms.show_first()
    for kind in ("back", "away", "sample", "send"):
        view.form.choose(kind)
        view.handle("clear")
    view.side.follow(HAND)
    _wait(window)
