"""A visit in the window, on the sample season: what is shown of customers and spots is nothing."""

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import cast

import pytest
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop import app as window_app
from honeyledger.desktop.desk import EVERYTHING
from honeyledger.desktop.main_window import ENTRIES, MainWindow
from honeyledger.desktop.refresh import ANEW
from honeyledger.desktop.stations.recalls.view import RecallsView
from honeyledger.desktop.stations.trace.view import TraceView
from honeyledger.desktop.visiting import visited
from honeyledger.desktop.widgets.table import Table
from honeyledger.ledger.places import CUSTOMER
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.pictures import build, sample_house, settle
from tests.support.houses import refused
from tests.support.sample import code


@pytest.fixture
def window(qtbot: QtBot, tmp_path: Path) -> Iterator[MainWindow]:
    """A visitor's window on the sample season."""
    plain = build(sample_house(tmp_path), tmp_path)
    plain.desk.jobs.close()
    plain.scanner.stop()
    desk = visited(plain.desk, tmp_path / "visit")
    desk.jobs = type(desk.jobs)()
    window = window_app.build_on(desk)
    qtbot.addWidget(window)
    window.show()
    settle(_app(), window)
    yield window
    window.close()
    plain.desk.house.store.close()


def _app() -> QApplication:
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    return app


def _said(window: MainWindow) -> str:
    """Whatever stands in the window: words, names for screen readers, fields, rows of tables."""
    said: list[str] = []
    for widget in window.findChildren(QWidget):
        said += [widget.accessibleName(), widget.toolTip()]
        if isinstance(widget, QLabel | QLineEdit):
            said.append(widget.text())
        if isinstance(widget, Table):
            for row in widget.model.rows():
                for column in widget.model.columns:
                    cell = column.cell(row)
                    said += [cell.text, cell.note, cell.aside]
    return "\n".join(said)


def _customers(window: MainWindow) -> dict[str, str]:
    """The customers' names, by their numbers of the visit."""
    store = window.desk.house.store._store  # type: ignore[attr-defined]
    with store.reading() as view:
        marks = sorted(view.marked("record", f"{CUSTOMER}/"), key=lambda mark: mark.subject)
        return {mark.value["name"]: f"Customer {at}" for at, mark in enumerate(marks, 1)}


def test_no_customer_stands_where_customers_stand_else(window: MainWindow) -> None:
    _looked_through(window, ("dispatch", "recalls", "setup", ENTRIES))


@pytest.mark.full
def test_no_customer_stands_anywhere_in_the_window(window: MainWindow) -> None:
    _looked_through(window, (*window_app.STATIONS, ENTRIES))


def _looked_through(window: MainWindow, stations: Sequence[str]) -> None:
    names = _customers(window)
    assert len(names) > 3
    seen = ""
    for station in stations:
        window.open_station(station)
        settle(_app(), window)
        said = _said(window)
        assert not [name for name in names if name in said], station
        seen += said
    assert "Customer 1" in seen
    # A card, a trace and a search by a customer's name.
    # A pull that is a guest's, and one of a contract owner, say whose they are.
    for shown in ("J26-0001-L", "D26-0004-6", "S26-0081-L", "S26-0103-4"):
        window.open_card(shown)
        window.trace(shown)
        settle(_app(), window)
        said = _said(window)
        assert shown in said
        assert not [name for name in names if name in said], shown


def test_no_customer_stands_in_a_finished_recall_or_in_what_is_affected(
    window: MainWindow,
) -> None:
    names = _customers(window)
    recalls = cast(RecallsView, window.stations["recalls"])
    window.open_station("recalls")
    settle(_app(), window)
    said = ""
    for name in ("recall 1", "drill 1"):
        recalls.presenter.case = code(name)
        window.desk.refresh.broadcast(EVERYTHING)
        settle(_app(), window)
        said += _said(window)
    assert "a scrap of black rubber in a pail" in said
    trace = cast(TraceView, window.stations["trace"])
    window.open_station("trace", lambda: trace.show_recall("complaint", "J26-0003-H"))
    settle(_app(), window)
    said += _said(window)
    assert "Mrs Tollard" not in said, "who complains is hidden as customers are"
    assert "Customer" in said
    assert not [name for name in names if name in said]


def test_a_customer_is_not_found_by_name(window: MainWindow) -> None:
    window.take_code("Lowfold Bakery")
    settle(_app(), window)
    said = _said(window).replace("Lowfold Bakery is not a code", "")
    assert "lowfold" not in said.casefold()


def test_it_says_that_it_is_a_visit_and_records_nothing(window: MainWindow) -> None:
    strip = window.visit.strip
    assert strip.isVisible()
    assert strip.words.text() == "Visit: read only; customers and coordinates are hidden."
    house = window.desk.house
    head = house.ask(lambda view: view.head())
    assert "nothing is recorded" in refused(lambda: house.record(Register("yard", {"name": "X"})))
    assert house.ask(lambda view: view.head()) == head
    assert window.desk.keeper is None
    assert window.desk.operator == ""


def test_the_pack_of_a_jar_that_was_scanned_is_printed(window: MainWindow) -> None:
    window.visit.strip.pack.click()
    shown = window.toast.message()
    assert shown is not None
    assert shown.lead == "Scan a jar first; its pack is printed then."
    window.take_code("J26-0004-F")
    window.visit.strip.pack.click()
    settle(_app(), window)
    (file,) = window.desk.papers.glob("*.pdf")
    assert file.name.startswith("Pack J26-0004-F")
    assert file.read_bytes().startswith(b"%PDF")


def test_it_is_left_by_a_badge_and_by_nothing_else(window: MainWindow) -> None:
    heard: list[object] = []
    window.desk.refresh.watch(ANEW, lambda: heard.append(1))
    window.visit.strip.end.click()
    window.visit.begin()
    settle(_app(), window)
    assert not heard
    shown = window.toast.message()
    assert shown is not None
    assert shown.lead == "Scan your badge to end the visit."
    badge = window.signing.people[0].code
    window.take_code(badge)
    settle(_app(), window)
    assert heard == [1]
    assert not window.desk.visits_next
    assert window.desk.settings.operator == badge


def test_a_visit_begins_with_another_window(qtbot: QtBot, tmp_path: Path) -> None:
    window = build(sample_house(tmp_path), tmp_path)
    qtbot.addWidget(window)
    assert not window.visit.strip.isVisible()
    window.visit.begin()
    assert window.desk.visits_next
    settle(_app(), window)
    window.close()
    window.desk.house.store.close()
